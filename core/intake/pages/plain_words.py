"""The words by which the parts of a recipe in plain text are known. Common practice of recipe writing in English."""

from __future__ import annotations

import re
from enum import Enum

from core.intake.pages.pieces import PieceKind
from core.reading.ingredient import plain_of
from core.reading.ingredient_amount import amount_at


class Part(Enum):
    """The part of a recipe that a line stands in."""

    HEAD = "head"
    INGREDIENTS = "ingredients"
    METHOD = "method"
    NOTES = "notes"


BULLET = re.compile(r"\s*(?:#{1,6}\s+|[-*•·‣\u25aa\u25a2\u2610\u25a1\u25e6–—]+\s+|\[[ xX]?\]\s*|\*\*)*\s*")
_END = r"\s*[:.\-–—]?\s*(?:\*\*|__)?"

INGREDIENTS = re.compile(
    r"(?:the |list of )?(?:ingredients?|you(?:'ll| will|’ll)? need|what you(?:'ll| will|’ll)? need|shopping list"
    r"|things to buy)"
    rf"(?P<more>\s*[(,\-–—:|].*|\s+for\s.*|\s+serves\s.*)?{_END}",
    re.IGNORECASE,
)
METHOD = re.compile(
    r"(?:the )?(?:method|directions?|instructions?|preparation|procedure|steps|cooking method|cooking instructions"
    r"|what to do|how to (?:make|cook|do) (?:it|this)|making it|to cook it)"
    rf"(?P<more>\s*\(.*\)|\s+for\s.{{0,60}})?{_END}",
    re.IGNORECASE,
)
NOTES = re.compile(
    r"(?:the )?(?:cook'?s )?(?:notes?|tips?|variations?|nutrition(?:al)?(?: information| facts)?|storage|to store"
    rf"|comments?)(?P<more>)?{_END}",
    re.IGNORECASE,
)
NOTE_LINE = re.compile(
    r"(?:to )?(?:freez(?:e|ing)|stor(?:e|age|ing)|make[- ]ahead|(?:cook'?s )?(?:tip|note|variation)s?|leftovers)"
    r"\s*(?:\*\*)?:(?:\*\*)?\s+",
    re.IGNORECASE,
)
"""A note in one line: "Freezing: ..."."""
NUMBERED = re.compile(
    r"(?:step\s*)?[0-9]{1,2}\s*(?:[.):\]]|[-–—] )\s*(?=\S)(?![0-9])|step\s+[0-9]{1,2}\s+(?=\S)", re.IGNORECASE
)
ONLY_A_NUMBER = re.compile(
    r"(?:step\s*)?[0-9]{1,2}\s*[.):]?|step\s+(?:one|two|three|four|five|six|seven|eight)\s*:?", re.IGNORECASE
)

_FOR_THE = re.compile(
    r"(?P<name>(?:for|to make) (?:the|your|an?) [^.:,*]{2,50}"
    r"|to (?:serve|finish|garnish|assemble|decorate|glaze))"
    r"\s*(?:\([^)]*\))?\s*:?(?:\*\*)?",
    re.IGNORECASE,
)
_COLON = re.compile(r"(?P<name>[^\W\d_][^:.!?*]{1,50})(?:\*\*)?:(?:\*\*)?")
_CAPITALS = re.compile(r"(?P<name>[A-Z][A-Z &'’-]{3,40})")

_NUMBER = r"(?:[0-9]+(?:[.,][0-9]+)?|one|two|three|four|five|six|seven|eight|nine|ten|twelve|a dozen)"
_SERVES = re.compile(
    r"(?:(?:serves|servings|serving size|feeds(?: up to| a crowd of)?"
    r"|(?:makes )?enough for|makes|yields?|portions|for)\s*:?\s*"
    rf"(?:about |around |approx\.? )?{_NUMBER}(?:\s*(?:-|–|to)\s*{_NUMBER})?"
    rf"(?:\s+[a-z][a-z -]{{1,30}})?|{_NUMBER}(?:\s*(?:-|–|to)\s*{_NUMBER})?\s+(?:servings|portions|people|slices))",
    re.IGNORECASE,
)
_UNIT = r"(?:hours?|hrs?|h|minutes?|mins?|min|m|days?)"
_LENGTH = (
    rf"(?:[0-9½¼¾][0-9½¼¾.,/]*\s*(?:(?:-|–|to)\s*[0-9½¼¾.,/]+\s*)?{_UNIT}\b\.?"
    rf"(?:\s*(?:and\s*)?[0-9½¼¾]+\s*{_UNIT}\b\.?)?|overnight|PT[0-9HMS.]+|P[0-9]+[A-Z][0-9A-Z]*)"
)
_TIMES = (
    (
        PieceKind.PREPARING,
        re.compile(rf"prep(?:aration|aring)?\.?(?: time)?\s*[:\-–]?\s*(?P<length>{_LENGTH})", re.IGNORECASE),
    ),
    (
        PieceKind.COOKING,
        re.compile(
            rf"(?:cook(?:ing)?|bak(?:e|ing)|roast(?:ing)?)(?: time)?\s*[:\-–]?\s*(?P<length>{_LENGTH})",
            re.IGNORECASE,
        ),
    ),
    (
        PieceKind.ALL_TIME,
        re.compile(
            rf"(?:total(?: time)?|ready in|takes|time|in all)\s*[:\-–]?\s*(?:about )?(?P<length>{_LENGTH})",
            re.IGNORECASE,
        ),
    ),
)
_IN_BRACKETS = re.compile(r"(?<=\S)\s*\([^()]{1,60}\)\s*\Z")
_OTHER_TIME = re.compile(
    r"(?:marinat|chill|rest|ris|rise|prov|proof|soak|cool|freez|grill|stand|smok|fry|activ|steep|dry)\w*"
    r"(?: time)?\s*[:\-–]?\s*"
    rf"{_LENGTH}",
    re.IGNORECASE,
)
_COUNTED_NAME = re.compile(r"[0-9]+(?:-day|[- ](?:minute|hour|step|ingredient|layer))s?\b", re.IGNORECASE)
_MORE = re.compile(r"\s*,?\s*(?:\+|plus)\s+[^|•·;]{2,50}", re.IGNORECASE)
_BETWEEN = re.compile(r"[\s|•·;,/()&+.:\-–—]*(?:and )?[\s|•·;,/()&+.:\-–—]*", re.IGNORECASE)
_ENDS_SENTENCE = re.compile(r"[.!?][\"'”’)]?\Z")


def facts_in(text: str) -> tuple[tuple[PieceKind, int, int], ...]:
    """Return servings and times of a line that says nothing else, with their places in it."""
    if len(text) > 200:
        return ()
    found: list[tuple[PieceKind, int, int]] = []
    at = _past(text, 0)
    while at < len(text):
        if met := _SERVES.match(text, at):
            found.append((PieceKind.SERVES, met.start(), met.end()))
        else:
            for kind, pattern in _TIMES:
                if met := pattern.match(text, at):
                    found.append((kind, met.start("length"), met.end("length")))
                    break
        met = met or (_OTHER_TIME.match(text, at) if found else None)
        if met is None:
            return ()
        at = _past(text, _past_more(text, met.end()))
    return tuple(found)


def title_end(text: str) -> int:
    """Return where a title ends, before the servings and times that it says behind it: "Mutton pie (serves 4)"."""
    met = _IN_BRACKETS.search(text)
    return met.start() if met and facts_in(met[0]) else len(text)


def _past_more(text: str, at: int) -> int:
    """Return where "plus chilling overnight" after a time ends."""
    met = _MORE.match(text, at)
    return met.end() if met else at


def _past(text: str, at: int) -> int:
    met = _BETWEEN.match(text, at)
    return met.end() if met else at


def is_amount_line(text: str) -> bool:
    """Tell whether a line begins with an amount and is short enough for an ingredient."""
    if len(text) > 140 or NUMBERED.match(text) or _COUNTED_NAME.match(text):
        return False
    found = amount_at(plain_of(text), 0)
    if found is None or found.quantity is None:
        return False
    return not (found.quantity.unit == "" and not text[:1].isdigit() and is_sentence(text))


def is_sentence(text: str) -> bool:
    """Tell whether a line reads as a sentence of a method rather than as the name of a thing."""
    words = len(text.split())
    return words >= 14 or (words >= 4 and _ENDS_SENTENCE.search(text) is not None)


def section_in(text: str, amount: bool) -> str:
    """Return the name of the section that a line heads, "" where it heads none."""
    text = text.strip()
    if amount or len(text) > 70:
        return ""
    for pattern in (_FOR_THE, _COLON, _CAPITALS):
        if met := pattern.fullmatch(text):
            return met["name"].strip()
    return ""
