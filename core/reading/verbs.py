"""What kitchen verbs mean wherever they are read, in a cook's line and in a recipe's sentence. Common practice."""

from __future__ import annotations

from core.plan.kitchen import StationKind
from core.plan.step import Span


def words(text: str) -> frozenset[str]:
    """Return the words of a text."""
    return frozenset(text.split())


ALONE = words(
    "bake boil braise brine chill cool cure defrost ferment freeze hang infuse leave macerate marinade marinate "
    "parboil proof prove reboil refrigerate rest rise roast simmer smoke soak stand steam steep stew thaw"
)
"""Verbs of work that goes on without a cook. Each reader has a few of its own beside them."""

PLACE_OF = {
    **dict.fromkeys(("bake", "roast"), StationKind.OVEN),
    **dict.fromkeys(("grill", "barbecue", "broil", "chargrill"), StationKind.GRILL),
    "smoke": StationKind.SMOKER,
    **dict.fromkeys(
        words("blanch boil deep-fry fry pan-fry parboil poach reboil saute sear simmer steam stir-fry sweat"),
        StationKind.BURNER,
    ),
}
"""Verbs that name their place."""

HOT_FAT = words("fry deep-fry pan-fry stir-fry sear brown saute sauté")
SHORT_FRY = 10
"""Work in hot fat, and up to how many minutes of it a cook stands beside. Deep fat is never left."""

MOST_VISITS = 12
_SEEN_AT = ((30, 5), (90, 10), (240, 20))
_SHORT = 10


def often(length: Span) -> int:
    """Return how often, in minutes, "now and then" is for a length: every 5 up to 30 min, then 10, then 20.

    From memory, common practice. Of less than 10 min it is once, half way; of more than 4 h at most 12 times.
    """
    if length.likely < _SHORT:
        return max(1, length.likely // 2)
    longest = max(10, -(-length.low // (MOST_VISITS * 10)) * 10)
    return next((every for most, every in _SEEN_AT if length.likely <= most), longest)


def stands_beside(verb: str, length: Span | None) -> bool:
    """Tell whether a cook stays with hot fat."""
    return verb == "deep-fry" or (verb in HOT_FAT and length is not None and length.likely <= SHORT_FRY)
