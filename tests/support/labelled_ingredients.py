"""Ingredient lines labelled by hand, in our own wording: what a cook would write down of each.

FIRST was written before the grammar, SECOND after it had been tuned on FIRST and without changing it since.
A label holds the amount as core.measures reads it ("" where none is told), the item, and how it is prepared.
Conventions: of a range the greater amount; packs of a told weight count by their weight; of two measures of
the same amount the first; bulbs, cloves and sprigs are units wherever they stand.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Labelled:
    """Hold a line and what it means."""

    line: str
    amount: str
    item: str
    preparation: str = ""
    optional: bool = False


FIRST: tuple[Labelled, ...] = (
    # a number, a unit, a thing
    Labelled("1 1/2 cups plain flour, sifted", "1.5 cups", "plain flour", "sifted"),
    Labelled("250 g strong white flour", "250 g", "strong white flour"),
    Labelled("250g butter, cut into cubes", "250 g", "butter", "cut into cubes"),
    Labelled("2 tbsp olive oil", "2 tbsp", "olive oil"),
    Labelled("1 tsp fine sea salt", "1 tsp", "fine sea salt"),
    Labelled("½ tsp ground cumin", "1/2 tsp", "ground cumin"),
    Labelled("1½ tbsp runny honey", "1.5 tbsp", "runny honey"),
    Labelled("2 Tablespoons tomato purée", "2 tbsp", "tomato purée"),
    Labelled("300ml whole milk", "300 ml", "whole milk"),
    Labelled("1,5 kg waxy potatoes, peeled", "1.5 kg", "waxy potatoes", "peeled"),
    Labelled("0.5 l vegetable stock, hot", "0.5 l", "vegetable stock", "hot"),
    Labelled("2 dl single cream", "2 dl", "single cream"),
    Labelled("4 oz. cream cheese, at room temperature", "4 oz", "cream cheese", "at room temperature"),
    Labelled(
        "3 lbs beef chuck, trimmed and cut in 5 cm pieces",
        "3 lb",
        "beef chuck",
        "trimmed and cut in 5 cm pieces",
    ),
    Labelled("1 T soy sauce", "1 tbsp", "soy sauce"),
    Labelled("1 t vanilla extract", "1 tsp", "vanilla extract"),
    Labelled("2 c rolled oats", "2 cups", "rolled oats"),
    Labelled("6 fl oz double cream", "6 fl oz", "double cream"),
    Labelled("1 pint cider", "1 pint", "cider"),
    Labelled("1 quart water", "1 quart", "water"),
    # a count of things
    Labelled("3 onions", "3", "onions"),
    Labelled("2 eggs", "2", "eggs"),
    Labelled("1 large egg, beaten", "1", "large egg", "beaten"),
    Labelled("2 egg yolks", "2", "egg yolks"),
    Labelled("3 egg whites, whisked to soft peaks", "3", "egg whites", "whisked to soft peaks"),
    Labelled("two red peppers, deseeded and sliced", "2", "red peppers", "deseeded and sliced"),
    Labelled("8 chicken thighs, bone in", "8", "chicken thighs", "bone in"),
    Labelled("1 whole cauliflower", "1", "whole cauliflower"),
    Labelled("½ cucumber, diced", "1/2", "cucumber", "diced"),
    Labelled("half a lemon", "1/2", "lemon"),
    Labelled("a lime", "1", "lime"),
    Labelled("1 dozen oysters", "1 dozen", "oysters"),
    Labelled("2 bay leaves", "2", "bay leaves"),
    Labelled("1 cinnamon stick", "1", "cinnamon stick"),
    # units that are counted
    Labelled("3 cloves garlic, crushed", "3 cloves", "garlic", "crushed"),
    Labelled("2 garlic cloves, finely chopped", "2 cloves", "garlic", "finely chopped"),
    Labelled("4 cloves of garlic", "4 cloves", "garlic"),
    Labelled("3 cloves", "3", "cloves"),
    Labelled("5 sprigs of thyme", "5 sprigs", "thyme"),
    Labelled("3–4 sprigs thyme (optional)", "4 sprigs", "thyme", "", True),
    Labelled("1 bunch flat-leaf parsley, leaves picked", "1 bunch", "flat-leaf parsley", "leaves picked"),
    Labelled("a small bunch of dill", "1 bunch", "dill"),
    Labelled("handful of parsley", "1 handful", "parsley"),
    Labelled("a large handful of spinach, washed", "1 handful", "spinach", "washed"),
    Labelled("a pinch of salt", "1 pinch", "salt"),
    Labelled("Pinch of saffron", "1 pinch", "saffron"),
    Labelled("2 pinches cayenne", "2 pinches", "cayenne"),
    Labelled("a knob of butter", "1 knob", "butter"),
    Labelled("2 slices day-old bread", "2 slices", "day-old bread"),
    Labelled("6 rashers smoked bacon", "6 rashers", "smoked bacon"),
    Labelled("1 head of celery", "1 head", "celery"),
    Labelled("1 tin chickpeas, drained and rinsed", "1 tin", "chickpeas", "drained and rinsed"),
    Labelled("2 cans coconut milk", "2 cans", "coconut milk"),
    Labelled("1 fennel bulb, shaved", "1 bulb", "fennel", "shaved"),
    Labelled("2 sticks celery, chopped", "2", "sticks celery", "chopped"),
    Labelled("1 stick unsalted butter, melted", "1 stick", "unsalted butter", "melted"),
    Labelled("4 sheets gelatine", "4 sheets", "gelatine"),
    # several measures, packs, ranges
    Labelled("2 x 400 g tins chopped tomatoes, drained", "800 g", "chopped tomatoes", "drained"),
    Labelled("1 (14 oz) can black beans", "14 oz", "black beans"),
    Labelled("2 (15-ounce) cans white beans, rinsed", "30 oz", "white beans", "rinsed"),
    Labelled("4 x 150g salmon fillets", "600 g", "salmon fillets"),
    Labelled("1.2kg/2lb 12oz floury potatoes", "1.2 kg", "floury potatoes"),
    Labelled("100g (about 1 cup) sugar", "100 g", "sugar"),
    Labelled("1 cup (240 ml) buttermilk", "1 cup", "buttermilk"),
    Labelled("1 lb 4 oz lamb mince", "1.25 lb", "lamb mince"),
    Labelled("2-3 tbsp capers", "3 tbsp", "capers"),
    Labelled("6 to 8 new potatoes, halved", "8", "new potatoes", "halved"),
    Labelled("1-2 red chillies", "2", "red chillies"),
    Labelled("1-1/2 cups brown sugar, packed", "1.5 cups", "brown sugar", "packed"),
    Labelled("5 cm piece ginger, grated", "1 piece", "ginger", "grated"),
    # no amount
    Labelled("salt and pepper, to taste", "", "salt and pepper"),
    Labelled("Butter, for greasing", "", "butter", "for greasing"),
    Labelled("a little oil", "", "oil"),
    Labelled("Freshly ground black pepper", "", "black pepper", "freshly ground"),
    Labelled("some flour, for dusting", "", "flour", "for dusting"),
    # prepared before or after, juice and zest
    Labelled("juice of 2 lemons", "2", "lemons", "juice"),
    Labelled("zest and juice of 1 orange", "1", "orange", "zest and juice"),
    Labelled("2 tbsp finely chopped chives", "2 tbsp", "chives", "finely chopped"),
    Labelled("100 g melted butter", "100 g", "butter", "melted"),
    Labelled(
        "50 g walnuts, toasted, plus a few more to finish",
        "50 g",
        "walnuts",
        "toasted, plus a few more to finish",
    ),
    Labelled("flour: 200 g", "200 g", "flour"),
    Labelled("1 onion or 2 shallots", "1", "onion"),
    Labelled("½ tsp", "1/2 tsp", ""),
)

SECOND: tuple[Labelled, ...] = (
    Labelled("750 g venison haunch, tied", "750 g", "venison haunch", "tied"),
    Labelled(
        "3 tablespoons rapeseed oil, plus a splash for the pan",
        "3 tbsp",
        "rapeseed oil",
        "plus a splash for the pan",
    ),
    Labelled("1 kg celeriac, peeled and cut into wedges", "1 kg", "celeriac", "peeled and cut into wedges"),
    Labelled("200 ml dry white wine", "200 ml", "dry white wine"),
    Labelled("2 tsp black mustard seeds", "2 tsp", "black mustard seeds"),
    Labelled("¼ tsp ground mace", "1/4 tsp", "ground mace"),
    Labelled("1 ¾ cups warm water", "1.75 cups", "warm water"),
    Labelled("7g fast-acting dried yeast", "7 g", "fast-acting dried yeast"),
    Labelled(
        "1 large aubergine, cut in rounds 1 cm thick", "1", "large aubergine", "cut in rounds 1 cm thick"
    ),
    Labelled("4 duck legs", "4", "duck legs"),
    Labelled("Three ripe pears, cored", "3", "ripe pears", "cored"),
    Labelled("6 juniper berries, lightly crushed", "6", "juniper berries", "lightly crushed"),
    Labelled("2 celery stalks, sliced", "2 stalks", "celery", "sliced"),
    Labelled("3 rosemary sprigs", "3 sprigs", "rosemary"),
    Labelled("5 garlic cloves, unpeeled", "5 cloves", "garlic", "unpeeled"),
    Labelled("1 bulb of garlic, halved across", "1 bulb", "garlic", "halved across"),
    Labelled("2 balls mozzarella, torn", "2 balls", "mozzarella", "torn"),
    Labelled("a generous pinch of chilli flakes", "1 pinch", "chilli flakes"),
    Labelled("a handful of pea shoots, to serve", "1 handful", "pea shoots", "to serve"),
    Labelled("a few drops of almond essence", "", "almond essence"),
    Labelled("a drizzle of maple syrup", "", "maple syrup"),
    Labelled("Sea salt flakes", "", "sea salt flakes"),
    Labelled("sunflower oil for deep frying", "", "sunflower oil", "for deep frying"),
    Labelled("lemon wedges, to serve", "", "lemon wedges", "to serve"),
    Labelled("1 jar roasted peppers (about 290 g), drained", "1 jar", "roasted peppers", "drained"),
    Labelled("2 × 240 g tins kidney beans", "480 g", "kidney beans"),
    Labelled("1 (8-ounce) package cream cheese", "8 oz", "cream cheese"),
    Labelled("450g/1lb pork sausages", "450 g", "pork sausages"),
    Labelled(
        "2kg (4½lb) shoulder of mutton, boned and rolled", "2 kg", "shoulder of mutton", "boned and rolled"
    ),
    Labelled("2 lb 8 oz plums, stoned", "2.5 lb", "plums", "stoned"),
    Labelled("3 or 4 leeks, washed and sliced", "4", "leeks", "washed and sliced"),
    Labelled("10–12 asparagus spears, trimmed", "12", "asparagus spears", "trimmed"),
    Labelled("150 - 200 g feta, crumbled", "200 g", "feta", "crumbled"),
    Labelled("finely grated zest of ½ lemon", "1/2", "lemon", "finely grated zest"),
    Labelled("60 g grated Gruyère", "60 g", "Gruyère", "grated"),
    Labelled("1 tbsp freshly chopped tarragon (optional)", "1 tbsp", "tarragon", "freshly chopped", True),
    Labelled("80 g pine nuts, lightly toasted", "80 g", "pine nuts", "lightly toasted"),
    Labelled("1 vanilla pod, split", "1", "vanilla pod", "split"),
    Labelled("1 litre hot chicken or vegetable stock", "1 l", "hot chicken or vegetable stock"),
    Labelled("3 medium eggs, separated", "3", "medium eggs", "separated"),
    Labelled("1 egg, lightly beaten, to glaze", "1", "egg", "lightly beaten, to glaze"),
    Labelled("Caster sugar - 175 g", "175 g", "caster sugar"),
    Labelled("2 thick slices sourdough, cubed", "2 slices", "sourdough", "cubed"),
    Labelled("1 cup coarsely chopped hazelnuts", "1 cup", "hazelnuts", "coarsely chopped"),
    Labelled("1 side of trout, skin on", "1 side", "trout", "skin on"),
    Labelled("good pinch nutmeg", "1 pinch", "nutmeg"),
)
