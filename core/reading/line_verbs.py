"""What a verb says by itself: whether food looks after itself, and where that is done.

Common practice, as cooks use the words; a line that says otherwise goes before it.
"""

from __future__ import annotations

import re
from itertools import islice, zip_longest

from core.plan.kitchen import StationKind
from core.plan.step import Attention, Span
from core.reading.line_patterns import word_set
from core.reading.verbs import ALONE as ALONE_ANYWHERE
from core.reading.verbs import PLACE_OF as PLACE_ANYWHERE
from core.reading.verbs import stands_beside

ALONE = ALONE_ANYWHERE | word_set("dry set soften temper")
"""Verbs of work that goes on by itself; all others are hands-on."""

PLACE_OF = {**PLACE_ANYWHERE, "sauté": StationKind.BURNER}
"""Verbs that name their place."""

_OVER_A_FLAME = re.compile(
    r"\b(?:low|gentle|med|medium|moderate|high|full|fierce)(?:[- ](?:low|high))? "
    r"(?:heat|flame)\b"
)
_FIRST = word_set("cover wrap seal")  # "cover & rest" rests
_COMPOUND = word_set("deep pan stir shallow")  # "deep fry" is one verb
_BEFORE = word_set("blind cold final first gently let it them quick quickly second slow slowly then and now")
_SET_BY_HAND = word_set("out up down the aside")  # to set the table is work
_AND = re.compile(r",? ?(?:and|&|,) ")
_WORD = re.compile(r"[^\W\d_]+(?:-[^\W\d_]+)*")


def verb_of(does: str) -> str:
    """Return the verb that words of a step begin with ("Cold proof": proof), in small letters; "" for none."""
    words = [met[0].casefold() for met in islice(_WORD.finditer(does), 4)]
    if words[:1] in (["let"], ["leave"], ["allow"]):
        return next((word for word in words[1:] if word in ALONE), "leave")  # "let the dough rise" rises
    for word, after in zip_longest(words, words[1:], fillvalue=""):
        if word in _COMPOUND and after == "fry":
            return f"{word}-fry" if word != "shallow" else "fry"
        if word in _FIRST and _AND.match(does.casefold().partition(word)[2]):
            continue
        if word not in _BEFORE:
            return f"{word} {after}" if word == "set" and after in _SET_BY_HAND else word
    return words[-1] if words else ""


def attention_of(does: str) -> Attention:
    """Return the attention that the verb of a step asks for."""
    return Attention.HANDS_OFF if verb_of(does) in ALONE else Attention.HANDS_ON


def attention_with_touches(does: str, length: Span | None) -> Attention:
    """Return the attention of a step that is touched: a cook stays with hot fat all the same."""
    return Attention.HANDS_ON if stands_beside(verb_of(does), length) else Attention.TENDED


def place_of(does: str) -> StationKind | None:
    """Return the kind of place that the words of a step name, None where they name none."""
    place = PLACE_OF.get(verb_of(does))
    return StationKind.BURNER if place is None and _OVER_A_FLAME.search(does.casefold()) else place
