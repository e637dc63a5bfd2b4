"""Text made even for reading, sign for sign, and what a reader found in it."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction

from core.measures.number import number_value, tidy
from core.measures.refusal import Refusal


class Kind(StrEnum):
    """What a phrase tells. Only DURATION is a plain length; the others say how the length is meant.

    OFTEN: how often a cook looks in; OPENING: work of a sentence before it that a step begins with;
    BATCHES: in how many loads.
    """

    DURATION = "duration"
    LEAST = "at least"
    MOST = "at most"
    PER_SIDE = "per side"
    PER_WEIGHT = "per weight"
    EVERY = "every"
    AFTER = "after"
    PART = "part of it"
    AHEAD = "ahead"
    BEFORE = "before"
    TEMPERATURE = "temperature"
    PLACE = "place"
    CUE = "cue"
    OFTEN = "now and then"
    OPENING = "opening"
    BATCHES = "batches"


@dataclass(frozen=True, slots=True)
class Found:
    """A phrase of a text: what it tells, its words, where they stand (half-open), and its value."""

    kind: str
    text: str
    start: int
    end: int
    value: object


_EVEN = str.maketrans(
    {
        **dict.fromkeys("‐‑‒–—−", "-"),
        **dict.fromkeys("\u00a0\u2007\u2009\u202f\t\n\r\v\f", " "),
        **dict.fromkeys("’‘′ʹ", "'"),
        **dict.fromkeys("º˚", "°"),
        "⁄": "/",
        "×": "x",
        "é": "e",
        "É": "e",
        "+": "+",
    }
)
VULGAR = "½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅐⅛⅜⅝⅞⅑⅒"

ONES = ("one", "two", "three", "four", "five", "six", "seven", "eight", "nine")
_TEENS = (
    *("ten", "eleven", "twelve", "thirteen", "fourteen", "fifteen"),
    *("sixteen", "seventeen", "eighteen", "nineteen"),
)
_TENS = ("twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety")
_COUNT = {word: count for count, word in enumerate((*ONES, *_TEENS), 1)}
_COUNT |= {word: count * 10 for count, word in enumerate(_TENS, 2)}
_PARTS = {"half": Fraction(1, 2), "quarter": Fraction(1, 4), "three quarters": Fraction(3, 4)}

_WORD = rf"(?:(?:{'|'.join(_TENS)})(?:[- ](?:{'|'.join(ONES)}))?|{'|'.join((*_TEENS, *ONES))})\b"
_FIGURES = (
    rf"(?:[0-9]{{1,4}}(?: ?|-)[{VULGAR}]|[{VULGAR}]|[0-9]{{1,4}}[ -][0-9]{{1,2}}/[0-9]{{1,2}}"
    r"|[0-9]{1,2}/[0-9]{1,2}|[0-9]{1,4}[.,][0-9]{1,2}|[0-9]{1,4})"
)
AMOUNT = rf"(?:(?<![0-9a-z.,/]){_FIGURES}|\b{_WORD})(?: and (?:a |three )?(?:half|quarters?)\b)?"
"""Pattern of a number in even text, in figures or in words, a half or quarter after it included."""


def even(text: str) -> str:
    """Return text in small letters with plain dashes, spaces and primes, as long as it was."""
    small = text.translate(_EVEN)
    lowered = small.lower()
    if len(lowered) == len(small):
        return lowered
    return "".join(sign.lower() if len(sign.lower()) == 1 else sign for sign in small)


def amount(token: str) -> Fraction | None:
    """Return the value of a token that matches AMOUNT; None where it divides by 0."""
    whole, _, part = token.partition(" and ")
    extra = _PARTS.get(part.removeprefix("a ").removesuffix("s") if part != "three quarters" else part)
    value = _in_words(whole) if whole[0].isalpha() else _in_figures(whole)
    return None if value is None else value + (extra or 0)


def _in_words(words: str) -> Fraction:
    return Fraction(sum(_COUNT[word] for word in words.replace("-", " ").split()))


def _in_figures(token: str) -> Fraction | None:
    try:
        return number_value(tidy(token.replace("-", " ")))
    except Refusal:
        return None
