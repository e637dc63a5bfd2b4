"""How many days bought food usually stays fresh, by what it is and by aisle; what the house knows goes before it.

Raw meat, poultry and fish, and cooked meat: FoodSafety.gov, cold food storage chart, its shorter days (stew meat: USDA
FSIS, from memory). All else is common practice.
These are days for planning a shopping trip; the date on the pack and one's own nose go before them.
"""

from __future__ import annotations

import re

_WORD = re.compile(r"[a-z]+")
_DAY_WORDS = (
    "chicken poultry turkey duck goose wings thighs liver livers kidneys mince minced ground sausage sausages"
    " burger burgers hamburger hamburgers patty patties meatball meatballs stew stewing cubed diced"
)
_BY_WORD = (
    (
        1,
        _DAY_WORDS,
    ),
    (
        2,
        "spinach lettuce lettuces rocket watercress salad leaves peas mushrooms raspberries strawberries blackberries",
    ),
    (
        14,
        "onion onions garlic potatoes carrots beetroot beetroots celeriac squash parsnips swede cabbage shallots",
    ),
    (14, "lemon lemons lime limes orange oranges apples butter eggs cheese horseradish"),
)
_RAW = frozenset({"meat", "fish", "butcher", "fishmonger", "poultry"})
_BY_AISLE = {
    **dict.fromkeys(("fish", "fishmonger", "bakery", "poultry"), 1),
    **dict.fromkeys(("meat", "butcher", "herbs", "fruit"), 3),
    **dict.fromkeys(("vegetables", "dairy", "garden"), 5),
}
_SLOW = frozenset({"stale", "crumbs", "breadcrumbs", "tinned", "dried", "frozen"})
_CURED = frozenset({"smoked", "cured", "salted"})
_CURED_KEEPS, _COOKED_KEEPS = 5, 3


def usual_keeps(item: str, aisle: str) -> int | None:
    """Return for how many days it usually stays fresh once bought; None: long."""
    words = set(_WORD.findall(item.casefold()))
    place = aisle.casefold().strip()
    if words & _SLOW or place not in _BY_AISLE:
        return None
    if "cooked" in words:
        return _COOKED_KEEPS
    if words & _CURED:
        return _CURED_KEEPS
    days = next((days for days, names in _BY_WORD if words & set(names.split())), None)
    usual = _BY_AISLE[place]
    if days is None:
        return usual
    return min(days, usual) if place in _RAW else days
