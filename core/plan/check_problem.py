"""What a check finds: a problem with what it is about, and the rules that texts and numbers share."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum
from typing import TypeGuard

from core.measures.quantity import Quantity
from core.measures.refusal import quoted
from core.measures.typed_minutes import MOST_MINUTES
from core.measures.unit_names import UNITS

LONGEST = MOST_MINUTES
"""Minutes in the longest length, wait or distance from plating: a year and a day."""
MOST_COUNT = 100_000
"""The largest count of servings, pieces, units, cm2 or vessels."""
MOST_AMOUNT = 1_000_000_000
"""The largest amount of an ingredient in its unit."""

_HIDDEN = frozenset({"Cc", "Cs", "Zl", "Zp"})


class Family(StrEnum):
    """What a problem concerns. An edit may leave a thing in a trouble it was in, of the same family."""

    IDS = "ids"
    TEXTS = "texts"
    NUMBERS = "numbers"
    LENGTH = "length"
    TOUCHES = "touches"
    TIMES = "times"
    LOADS = "loads"
    PLACES = "places"
    VESSELS = "vessels"
    HANDS = "hands"
    LINKS = "links"
    CIRCLE = "circle"
    DECISIONS = "decisions"


@dataclass(frozen=True, slots=True)
class Problem:
    """One thing that is wrong in a plan: its family, the ids it is about, and a sentence with the mend."""

    family: Family
    about: frozenset[str]
    sentence: str


Problems = Iterator[Problem]


def problem(family: Family, sentence: str, *about: str) -> Problem:
    """Return a problem about these ids."""
    return Problem(family, frozenset(about), sentence)


def fit_to_show(text: str, lines: bool = False) -> bool:
    """Tell whether every character of a text can be shown and kept; `lines`: it may have several lines."""
    if text.isprintable():  # nearly every text, and quick
        return True
    return not any(unicodedata.category(each) in _HIDDEN and not (lines and each in "\n\t") for each in text)


def name_trouble(text: str) -> str:
    """Return what is wrong with a name ("" if nothing): it must be there and be fit to show."""
    if text.isprintable() and text.strip():
        return ""
    if not fit_to_show(text):
        return "has a character that cannot be shown; type it again"
    if not any(unicodedata.category(each)[0] not in "CZ" for each in text):
        return "is empty; write one"
    return ""


def texts_trouble(*texts: str) -> str:
    """Return what is wrong with texts that may be empty and may have lines ("" if nothing)."""
    if all(fit_to_show(each, lines=True) for each in texts):
        return ""
    return "has a character that cannot be shown; type it again"


def amount_trouble(quantity: Quantity) -> str:
    """Return what is wrong with a quantity ("" if nothing): from 0 up, in a unit that is known."""
    if not 0 <= quantity.amount <= MOST_AMOUNT:
        return f"has the amount {float(quantity.amount):g}; give 0 to {MOST_AMOUNT}"
    if quantity.unit not in UNITS:
        return (
            f"is measured in {quoted(quantity.unit)}, no unit that is known; write g, ml, piece or a number"
        )
    return ""


def out_of(value: int | None, low: int, high: int) -> TypeGuard[int]:
    """Tell whether a value is given and lies outside low..high."""
    return value is not None and not low <= value <= high
