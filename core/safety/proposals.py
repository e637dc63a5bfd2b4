"""Which kind of food an ingredient is, guessed from its name: a proposal, never more. Unknown names stay unknown.

The table is ours, of words that recipes use; the last words of it decide first, so that "chicken stock" is no raw
chicken. A kind that the plan tells goes before it.
"""

from __future__ import annotations

import re

from core.plan.food import FoodKind

_WORD = re.compile(r"[a-zà-ÿ]+")
_KEEPS = (
    "water ice salt sugar flour cornflour oil vinegar honey syrup yeast powder soda pepper peppercorns spice spices"
    " seed seeds nuts hazelnuts almonds walnuts mustard soy sauce cider wine beer stout charcoal gelatine vanilla"
    " pimenton paprika cayenne chilli nutmeg cinnamon cloves cumin juniper bay capers olives pickled prunes raisins"
    " bread breadcrumbs crumbs jam chocolate cocoa coffee tea stale"
    " herbs thyme rosemary sage dill parsley mint basil"
    " chives lemon lemons lime limes elderflower"
)
_POULTRY = "chicken turkey duck goose hen capon poultry guinea quail"
_CUTS = (
    "beef pork lamb veal venison mutton ox cheeks rack rib ribs loin brisket shoulder shank steak steaks chop chops"
    " roast leg liver bacon"
)
_FISH = "fish trout salmon cod haddock hake mackerel tuna bass bream sole anchovies"
_SHELLFISH = (
    "shrimp shrimps prawn prawns mussel mussels oyster oysters clam clams crab lobster scallops squid"
)
_DAIRY = (
    "milk cream buttermilk creme crème fraiche fraîche yoghurt yogurt cheese ricotta mascarpone quark curd"
)
_PRODUCE = (
    "onion onions carrot carrots celery garlic leek leeks pepper peppers potato potatoes celeriac squash pumpkin"
    " cauliflower broccoli cabbage beetroot beetroots parsnip parsnips swede turnip courgette courgettes aubergine"
    " aubergines mushroom mushrooms spinach orange oranges apple apples pear pears plum plums"
    " berries blackberries raspberries strawberries"
    " horseradish fennel shallot shallots peas asparagus tomato tomatoes cucumber cucumbers radish radishes"
)
_WORDS: tuple[tuple[FoodKind, frozenset[str]], ...] = tuple(
    (kind, frozenset(words.split()))
    for kind, words in (
        (FoodKind.KEEPS, _KEEPS),
        (FoodKind.READY, "ham salami tofu hummus"),
        (FoodKind.POULTRY, _POULTRY),
        (FoodKind.WHOLE_CUT, _CUTS),
        (FoodKind.FISH, _FISH),
        (FoodKind.SHELLFISH, _SHELLFISH),
        (FoodKind.EGGS, "egg eggs yolk yolks"),
        (FoodKind.DAIRY, _DAIRY),
        (FoodKind.GRAIN, "rice pasta noodles lentils beans chickpeas barley couscous bulgur quinoa"),
        (FoodKind.PRODUCE, _PRODUCE),
    )
)
_BIRDS = frozenset(_POULTRY.split())
_GROUND = frozenset({"ground", "minced"})
_MINCE_WORDS = (
    "mince burger burgers hamburger hamburgers sausage sausages sausagemeat patty patties meatball meatballs meatloaf"
    " kofta koftas"
)
_MINCE = frozenset(_MINCE_WORDS.split())
_CUBED = frozenset({"cubed", "diced", "stewing", "stew", "cubes"})
_READY = frozenset({"stock", "broth", "gravy", "cooked", "pasteurised", "mayonnaise", "smoked"})
_DRY = frozenset(
    {"powder", "tinned", "canned", "charcoal", "crumbs", "breadcrumbs", "paste", "gelatine", "flour"}
)
_CUT = frozenset({"salad", "lettuce", "lettuces", "rocket", "melon"})
_BUTTER = frozenset({"butter", "milk", "cream"})
_SPICES = frozenset({"pimenton", "paprika", "salt"})
_BEANS = frozenset({"green", "french", "runner", "broad"})
_PEPPERS = frozenset({"pointed", "red", "green", "bell", "sweet"})


_STATES = frozenset({"tinned", "canned", "cooked", "pasteurised", "smoked"})
_RAW = frozenset(
    {
        *(
            FoodKind.POULTRY,
            FoodKind.GROUND_POULTRY,
            FoodKind.GROUND_MEAT,
            FoodKind.CUBED_MEAT,
            FoodKind.WHOLE_CUT,
        ),
        *(FoodKind.FISH, FoodKind.SHELLFISH, FoodKind.EGGS),
    }
)
_BESIDE = re.compile(r"[,;(]| (?:with|in|and|on|from|for) ")
"""What stands before one of these says what a thing is; what stands after it goes with it."""
_IN_OIL = re.compile(r"\b(?:tuna|anchovies|sardines)\b.* in (?:\w+ )?(?:oil|brine|water)\b")


def proposed_kind(item: str) -> FoodKind | None:
    """Return the kind that an item's name suggests; None where it suggests none."""
    plain = item.casefold()
    words = _WORD.findall(plain)
    whole, head = _kind(words), _kind(_WORD.findall(_BESIDE.split(plain)[0]))
    if "bacon" in words[-1:]:
        return FoodKind.WHOLE_CUT  # smoked or not, it is raw
    if (
        _STATES & set(words)
        or _IN_OIL.search(plain)
        or {"stock", "broth", "gravy"} & set(words[-1:]) - _with(plain)
    ):
        return whole
    if head in _RAW or (whole in (None, FoodKind.KEEPS) and head is not None):
        return head
    return whole


def _with(plain: str) -> set[str]:
    """Return the words that only go with a thing: "turkey with gravy" is no gravy."""
    return set(_WORD.findall(plain.partition(" with ")[2]))


def _kind(words: list[str]) -> FoodKind | None:
    there = set(words)
    if there & _DRY or "juice" in there:
        return FoodKind.KEEPS
    if there & _READY:
        return FoodKind.KEEPS if there & _SPICES else FoodKind.READY
    if there & _CUT:
        return FoodKind.CUT_PRODUCE
    if (
        "peppers" in there
        or ("beans" in there and there & _BEANS)
        or ("pepper" in there and there & _PEPPERS)
    ):
        return FoodKind.PRODUCE
    butter = there & _BUTTER == {"butter"} and _by_last(words) not in _RAW
    if {"hard", "cheese"} <= there or butter:
        return FoodKind.KEEPS  # for a day or two, salted or not: USDA, from memory
    if there & _MINCE or ("tartare" in there and _by_last(words) is FoodKind.WHOLE_CUT):
        return FoodKind.GROUND_POULTRY if there & _BIRDS else FoodKind.GROUND_MEAT
    return _cut_up(_by_last(words), there)


def _by_last(words: list[str]) -> FoodKind | None:
    """Return the kind of the last word that is known: it says what the thing is ("goat's curd", "pork ribs")."""
    for word in reversed(words):
        for kind, names in _WORDS:
            if word in names:
                return kind
    return None


def _cut_up(kind: FoodKind | None, words: set[str]) -> FoodKind | None:
    if kind not in (FoodKind.WHOLE_CUT, FoodKind.POULTRY):
        return kind
    bird = bool(words & _BIRDS)  # chicken legs, roast turkey
    if words & _GROUND:
        return FoodKind.GROUND_POULTRY if bird else FoodKind.GROUND_MEAT
    if bird:
        return FoodKind.POULTRY
    return FoodKind.CUBED_MEAT if words & _CUBED else kind
