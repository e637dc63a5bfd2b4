"""Tins when a dish is scaled: keep the depth and the bake stays as long; the area grows with the amount.

Same depth, same time: common practice. Deeper food takes between depth and depth squared as long: from heat
conduction, where time goes with the square of the thickness. Sizes of tins: common practice; gastronorm
outer sizes: EN 631 as makers print them.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import ceil, floor

from core.food.sound import above_zero
from core.measures.refusal import Refusal

_PI = Fraction(355, 113)
_AS_DEEP = Fraction(5, 100)
_MOST_TINS = 6


@dataclass(frozen=True, slots=True)
class Tin:
    """A tin's inside in cm: width and length, or a diameter with `length` None."""

    width: Fraction
    length: Fraction | None = None

    @property
    def area(self) -> Fraction:
        """Return cm2; a round one's by 355/113."""
        return self.width * self.length if self.length is not None else _PI * self.width**2 / 4

    @property
    def square(self) -> bool:
        """Tell whether both sides are the same."""
        return self.length == self.width


@dataclass(frozen=True, slots=True)
class Tins:
    """So many of a tin, and how deep the food is in them: new depth over the old one."""

    count: int
    tin: Tin
    depth: Fraction

    @property
    def as_deep(self) -> bool:
        """Tell whether the depth is the same to within 5 %."""
        return abs(self.depth - 1) <= _AS_DEEP


def tin(width: Fraction | int, length: Fraction | int | None = None) -> Tin:
    """Return a tin by its sides in cm, or a round one by its diameter; refuse sides of 0 and less."""
    sides = [above_zero(side, "A side of the tin", "20") for side in (width, length) if side is not None]
    return Tin(sides[0], sides[1] if length is not None else None)


USUAL = (
    *(tin(side, side) for side in (15, 18, 20, 23, 25)),
    *(tin(*sides) for sides in ((30, 20), (33, 23), (35, 25), (40, 30), (46, 33))),
    *(tin(across) for across in (15, 18, 20, 23, 26, 28, 30)),
)
"""Tins of a home; the cook's own replace them."""

GASTRONORM = {
    "GN 2/1": tin(65, 53),
    "GN 1/1": tin(53, Fraction(65, 2)),
    "GN 2/3": tin(Fraction(177, 5), Fraction(65, 2)),
    "GN 2/4": tin(53, Fraction(81, 5)),
    "GN 1/2": tin(Fraction(65, 2), Fraction(53, 2)),
    "GN 1/3": tin(Fraction(65, 2), Fraction(88, 5)),
    "GN 1/4": tin(Fraction(53, 2), Fraction(81, 5)),
    "GN 2/8": tin(Fraction(65, 2), Fraction(66, 5)),
    "GN 1/6": tin(Fraction(88, 5), Fraction(81, 5)),
    "GN 1/9": tin(Fraction(88, 5), Fraction(54, 5)),
}
"""Outer sizes, from EN 631 as makers print them."""


def area_wanted(of: Tin, factor: Fraction | int) -> Fraction:
    """Return the cm2 that keep the depth of a tin's food times a factor."""
    return of.area * above_zero(factor, "The factor of scaling", "2 or 1/2")


def tins_for(of: Tin, factor: Fraction | int, at_hand: Sequence[Tin] = USUAL) -> Tins:
    """Return the fewest equal tins in which the food stands as deep as in `of`, to within 5 %.

    Where none do, the nearest depth that up to six equal tins give. Refuse an empty cupboard.
    """
    if not at_hand:
        raise Refusal("No tin is at hand; name one with its sides, such as 30 x 20 cm.")
    wanted = area_wanted(of, factor)
    choices = [
        Tins(count, each, wanted / (count * each.area))
        for count in range(1, _MOST_TINS + 1)
        for each in at_hand
    ]
    return min(choices, key=_preference)


def _preference(tins: Tins) -> tuple[int, int, Fraction]:
    off = abs(tins.depth - 1)
    return (0, tins.count, off) if tins.as_deep else (1, 0, off)


def baking_time(minutes: int, depth: Fraction) -> tuple[int, int]:
    """Return the least and most minutes of a bake at a new depth over the old one: unchanged at the same."""
    above_zero(minutes, "The bake", "40 min")
    deep = above_zero(depth, "The depth", "1")
    ends = sorted((minutes * deep, minutes * deep**2))
    return floor(ends[0]), ceil(ends[1])
