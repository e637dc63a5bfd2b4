"""Which common foods usually belong to which of the fourteen groups: a table for proposals, never for promises.

From memory and common practice; what is in a packet stands on its label. The longest words count first, so that
"coconut milk" is no milk. An empty entry says that the words name none of the groups.
"""

from __future__ import annotations

_FOODS = {
    "gluten": (
        "flour; wheat; rye; barley; oat; oatmeal; spelt; bread; breadcrumb; toast; bun; baguette; panko; pasta; "
        "spaghetti; macaroni; lasagne; penne; rigatoni; fusilli; linguine; fettuccine; tagliatelle; tagliolini; "
        "pappardelle; orzo; vermicelli; orecchiette; cannelloni; udon; ramen; noodle; "
        "crouton; bread roll; dough; batter; couscous; bulgur; semolina; freekeh; farro; seitan; malt; beer; "
        "stout; ale; lager; pastry; filo; cracker; biscuit; cake; pretzel; gnocchi; pitta; tortilla; muesli"
    ),
    "crustaceans": "prawn; shrimp; crab; lobster; crayfish; langoustine; scampi; shrimp paste; krill",
    "egg": "egg; mayonnaise; meringue; aioli; hollandaise; advocaat",
    "fish": (
        "fish; anchovy; salmon; cod; haddock; hake; trout; tuna; mackerel; herring; sardine; sprat; plaice; sole; "
        "halibut; turbot; sea bass; bream; monkfish; eel; pollock; carp; pike; perch; roe; caviar; fish sauce; "
        "kipper; skate; dashi; bonito"
    ),
    "peanuts": "peanut; groundnut; peanut butter; peanut oil; satay",
    "soya": "soya; soy; soybean; tofu; tempeh; edamame; tamari; soy milk; soya milk; soya lecithin",
    "milk": (
        "milk; butter; buttermilk; cream; creme fraiche; yoghurt; yogurt; curd; cheese; parmesan; cheddar; "
        "mozzarella; feta; ricotta; mascarpone; gruyere; halloumi; paneer; brie; camembert; stilton; gouda; "
        "emmental; pecorino; quark; kefir; whey; ghee; custard; ice cream; skyr; fromage frais; lactose"
    ),
    "nuts": (
        "nut; almond; hazelnut; walnut; cashew; pecan; pistachio; macadamia; brazil nut; marzipan; praline; "
        "frangipane; nougat; amaretti; almond milk; almond flour; ground almond"
    ),
    "celery": "celery; celeriac; celery salt",
    "mustard": "mustard; mustard seed; piccalilli",
    "sesame": "sesame; tahini; hummus; halva; zaatar; gomasio; sesame oil; dukkah",
    "sulphites": (
        "wine; red wine; white wine; sherry; port; vermouth; cider; wine vinegar; cider vinegar; balsamic "
        "vinegar; dried apricot; raisin; sultana; dried fruit; prune; bottled lemon juice; "
        "champagne; prosecco; cava; marsala; madeira"
    ),
    "lupin": "lupin; lupine; lupin flour; lupin bean",
    "molluscs": (
        "mussel; clam; oyster; scallop; squid; octopus; cuttlefish; snail; whelk; cockle; winkle; abalone;"
        " oyster sauce"
    ),
}
_SEVERAL = {
    "soy sauce": ("gluten", "soya"),
    "soya sauce": ("gluten", "soya"),
    "miso": ("gluten", "soya"),
    "egg noodle": ("gluten", "egg"),
    "fresh pasta": ("gluten", "egg"),
    "brioche": ("gluten", "egg", "milk"),
    "ravioli": ("gluten", "egg"),
    "tortellini": ("gluten", "egg"),
    "roux": ("gluten", "milk"),
    "bechamel": ("gluten", "milk"),
    "bearnaise": ("egg", "milk"),
    "mayo": ("egg", "mustard"),
    "kimchi": ("crustaceans", "fish"),
    "pancake": ("gluten", "egg", "milk"),
    "white sauce": ("gluten", "milk"),
    "pesto": ("milk", "nuts"),
    "chocolate": ("soya", "milk"),
    "mayonnaise": ("egg", "mustard"),
    "worcestershire sauce": ("gluten", "fish"),
    "stock cube": ("gluten", "celery"),
    "bouillon": ("celery",),
    "stock": ("celery",),
    "curry powder": ("mustard",),
    "oat milk": ("gluten",),
    "oat drink": ("gluten",),
    "surimi": ("crustaceans", "egg", "fish"),
    "mixed nut": ("peanuts", "nuts"),
    "mixed seed": ("sesame",),
    "ice cream": ("egg", "milk"),
    "hollandaise": ("egg", "milk"),
    "custard": ("egg", "milk"),
}
_NONE = (
    "coconut milk; coconut cream; creamed coconut; rice milk; cocoa butter; butter bean; cream of tartar; "
    "cream soda; rice flour; corn flour; maize flour; potato flour; chickpea flour; gram flour; buckwheat "
    "flour; buckwheat; tapioca flour; rice noodle; rice vermicelli; "
    "glass noodle; oyster mushroom; ginger beer; ginger ale; "
    "rice cake; milk thistle; butter lettuce; egg plant"
)


def _table() -> dict[tuple[str, ...], tuple[str, ...]]:
    found: dict[tuple[str, ...], tuple[str, ...]] = {}
    for group, foods in _FOODS.items():
        for food in foods.split(";"):
            found[tuple(food.split())] = (group,)
    found |= {tuple(food.split()): groups for food, groups in _SEVERAL.items()}
    found |= {tuple(food.split()): () for food in _NONE.split(";")}
    return found


FOODS = _table()
"""Groups by the words of a food, each in the singular."""
