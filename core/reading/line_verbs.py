"""What a verb says by itself: whether food looks after itself, and where that is done.

Common practice, as cooks use the words; a line that says otherwise goes before it.
"""

from __future__ import annotations

import re
from itertools import islice, zip_longest

from core.plan.kitchen import StationKind
from core.plan.step import Attention
from core.reading.line_patterns import word_set

ALONE = word_set(
    "bake boil braise brine chill cool cure dry ferment freeze hang infuse leave marinate marinade proof "
    "prove rest rise roast set simmer smoke soak soften stand steep stew temper thaw defrost macerate"
)
"""Verbs of work that goes on by itself; all others are hands-on."""

PLACE_OF = {
    **dict.fromkeys(("bake", "roast"), StationKind.OVEN),
    **dict.fromkeys(("grill", "barbecue"), StationKind.GRILL),
    "smoke": StationKind.SMOKER,
    **dict.fromkeys(word_set("blanch boil deep-fry fry poach saute sauté simmer sweat"), StationKind.BURNER),
}
"""Verbs that name their place."""

_BEFORE = word_set("blind cold final first gently let it them quick quickly second slow slowly then and now")
_SET_BY_HAND = word_set("out up down the aside")  # to set the table is work
_WORD = re.compile(r"[^\W\d_]+(?:-[^\W\d_]+)*")


def verb_of(does: str) -> str:
    """Return the verb that words of a step begin with ("Cold proof": proof), in small letters; "" for none."""
    words = [met[0].casefold() for met in islice(_WORD.finditer(does), 4)]
    for word, after in zip_longest(words, words[1:], fillvalue=""):
        if word not in _BEFORE:
            return f"{word} {after}" if word == "set" and after in _SET_BY_HAND else word
    return words[-1] if words else ""


def attention_of(does: str) -> Attention:
    """Return the attention that the verb of a step asks for."""
    return Attention.HANDS_OFF if verb_of(does) in ALONE else Attention.HANDS_ON


def place_of(does: str) -> StationKind | None:
    """Return the kind of place that the verb of a step names, None where it names none."""
    return PLACE_OF.get(verb_of(does))
