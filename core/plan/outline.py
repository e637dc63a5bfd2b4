"""What a vessel's size in words comes to: the two sides that have to go into a place. cm, exact."""

from __future__ import annotations

import re
from fractions import Fraction
from functools import lru_cache

from core.measures.number import LONGEST, NUMBER, number_value, tidy

_CM = {"mm": Fraction(1, 10), "cm": Fraction(1), "in": Fraction(254, 100)}
_UNIT = r"(?P<unit>cm|mm|in(?:ch(?:es)?)?\b|\"|”)"
_BY = r" ?(?:cm|mm|in|\"|”)? ?(?:x|by) ?"
_TWO = re.compile(rf"(?P<one>{NUMBER}){_BY}(?P<other>{NUMBER})(?:{_BY}{NUMBER})? ?{_UNIT}?", re.IGNORECASE)
_ONE = re.compile(rf"(?P<one>{NUMBER}) ?{_UNIT}(?! ?(?:deep|high|tall|thick))", re.IGNORECASE)
_GN = re.compile(r"\bGN ?(?P<part>[12]/[1-9])", re.IGNORECASE)
_GASTRONORM = {
    "2/1": (650, 530),
    "1/1": (530, 325),
    "2/3": (354, 325),
    "2/4": (530, 162),
    "1/2": (325, 265),
    "1/3": (325, 176),
    "1/4": (265, 162),
    "1/6": (176, 162),
    "1/9": (176, 108),
}
"""Outer mm by EN 631, as makers print them."""
_LONGEST_CM = 150  # sides without a unit that are larger are mm: no kitchen has a vessel so long


@lru_cache(maxsize=1024)
def outline(text: str) -> tuple[Fraction, Fraction] | None:
    """Return the longer and the shorter side in cm that a size in words comes to; None where it tells none.

    "40x30 cm", "26x18 in", "35x25x6 cm" (the third is its depth), "28 cm" (round or square), "GN 1/1-65".
    Two numbers without a unit are cm, or mm where one passes 150. "5 l" tells none.
    """
    if len(text) > LONGEST:
        return None
    plain = tidy(text)
    if met := _GN.search(plain):
        sides = _GASTRONORM.get(met["part"])
        return None if sides is None else (Fraction(sides[0], 10), Fraction(sides[1], 10))
    try:
        if met := _TWO.search(plain):
            one, other = number_value(met["one"]), number_value(met["other"])
            unit = _unit(met["unit"] or ("mm" if max(one, other) > _LONGEST_CM else "cm"))
            return max(one, other) * unit, min(one, other) * unit
        if met := _ONE.search(plain):
            side = number_value(met["one"]) * _unit(met["unit"])
            return side, side
    except ValueError:  # "1/0 cm" (core.measures.Refusal)
        return None
    return None


def goes_in(sides: tuple[Fraction, Fraction], wide: int, deep: int) -> bool:
    """Tell whether something with these sides in cm goes into a place of so many cm, either way round."""
    return sides[0] <= max(wide, deep) and sides[1] <= min(wide, deep)


def _unit(word: str) -> Fraction:
    return _CM["in" if word[:1].casefold() not in "cm" else word.casefold()]
