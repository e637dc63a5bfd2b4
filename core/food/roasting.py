"""Roasting times published by weight, and the rule that time grows with mass to the power of 2/3. Estimates only.

The rows are those of the roasting charts of USDA and FoodSafety.gov, for meat put in cold from the fridge, unstuffed
unless it says so. The rule is Panofsky's, looked into by Jin, Wang and Wang, "Physics in turkey cooking: Revisit the
Panofsky formula", AIP Advances 11(11), 115316 (2021). Whether meat is done is told by its core temperature alone.
"""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from fractions import Fraction

from core.food.sound import in_unit, some
from core.measures.quantity import Quantity
from core.plan.step import Span

CHART = "USDA and FoodSafety.gov roasting charts"
PANOFSKY = "time grows with mass to the power of 2/3: Panofsky's rule, AIP Advances 11(11), 115316, 2021"
_POWER = 2 / 3
_NEAR = 10
"""°C that an oven may be off a row's: gas marks and dials are that coarse."""
_WORD = re.compile(r"[a-z]+")


@dataclass(frozen=True, slots=True)
class Roast:
    """A row: the words that name the cut, from how many lb to how many, °C, minutes in all or for each lb."""

    words: frozenset[str]
    least: Fraction
    most: Fraction
    celsius: tuple[int, int]
    minutes: tuple[int, int]
    each_lb: bool = False
    never: frozenset[str] = frozenset()

    def fits(self, words: frozenset[str], pounds: Fraction, setting: int) -> bool:
        """Tell whether the row is for such a piece at such a setting."""
        named = self.words <= words and not self.never & words
        warm = self.celsius[0] - _NEAR <= setting <= self.celsius[1] + _NEAR
        return named and warm and self.least <= pounds <= self.most

    def takes(self, pounds: Fraction) -> tuple[int, int]:
        """Return the least and the most minutes for so many lb."""
        times = pounds if self.each_lb else Fraction(1)
        return math.floor(self.minutes[0] * times), math.ceil(self.minutes[1] * times)


def _row(
    words: str, weights: str, minutes: str, celsius: tuple[int, int] = (163, 163), *, never: str = ""
) -> Roast:
    """Return a row from "turkey breast", "4-6" lb and "90-135" minutes in all or "23-25/lb"."""
    least, most = (Fraction(part) for part in weights.split("-"))
    low, high = (int(part) for part in minutes.removesuffix("/lb").split("-"))
    return Roast(
        frozenset(words.split()),
        least,
        most,
        celsius,
        (low, high),
        minutes.endswith("/lb"),
        frozenset(never.split()),
    )


_F350, _HOT, _F425 = (177, 177), (218, 232), (218, 218)
_STUFFED = "stuffed breast"
ROWS = (
    _row("turkey breast stuffed", "6-8", "150-210"),
    _row("turkey breast", "4-6", "90-135", never="stuffed"),
    _row("turkey breast", "6-8", "135-195", never="stuffed"),
    *(
        _row("turkey stuffed", weights, minutes, never="breast leg thigh")
        for weights, minutes in (
            *(("8-12", "180-210"), ("12-14", "210-240"), ("14-18", "240-255")),
            *(("18-20", "255-285"), ("20-24", "285-315")),
        )
    ),
    *(
        _row("turkey", weights, minutes, never=f"{_STUFFED} leg legs thigh thighs wing wings")
        for weights, minutes in (
            *(("8-12", "165-180"), ("12-14", "180-225"), ("14-18", "225-255")),
            *(("18-20", "255-270"), ("20-24", "270-300")),
        )
    ),
    _row("beef rib boneless", "4-6", "28-33/lb"),
    _row("beef rib", "4-6", "23-25/lb", never="boneless short"),
    _row("beef ribs", "4-6", "23-25/lb", never="boneless short"),
    _row("beef round", "2.5-4", "30-35/lb"),
    _row("beef rump", "2.5-4", "30-35/lb"),
    _row("beef tenderloin", "4-6", "45-60", _F425),
    _row("lamb leg boneless", "4-7", "25-30/lb"),
    _row("lamb leg", "5-7", "20-25/lb", never="boneless"),
    _row("lamb leg", "7-9", "10-15/lb", never="boneless"),
    _row("lamb shoulder", "3-4", "30-35/lb"),
    _row("pork loin", "2-5", "20-20/lb", _F350, never="tenderloin"),
    _row("pork crown", "10-10", "12-12/lb", _F350),
    _row("pork tenderloin", "0.5-1.5", "20-27", _HOT),
    _row("pork butt", "3-6", "45-45/lb", _F350),
    _row("veal rib", "4-5", "25-27/lb"),
    _row("veal loin", "3-4", "34-36/lb"),
    _row("ham fresh bone", "12-16", "22-26/lb"),
    _row("ham fresh boneless", "10-14", "24-28/lb"),
    _row("chicken whole", "3-4", "75-90", _F350, never="stuffed"),
    _row("chicken whole", "5-7", "120-135", _F350, never="stuffed"),
    _row("capon", "4-8", "120-180", _F350, never="stuffed"),
    _row("duck whole", "4-6", "30-35/lb", _F350, never="stuffed"),
    _row("goose", "8-12", "150-180", never="stuffed legs leg pieces"),
)
"""In the order they are tried; where two share a weight the lighter one's time is taken."""


@dataclass(frozen=True, slots=True)
class Estimate:
    """How long something may take now, in minutes, and where that is from. Never applied by itself."""

    low: int
    likely: int
    high: int
    source: str

    @property
    def span(self) -> Span:
        """Return it as a step's length."""
        return Span(self.low, self.likely, self.high)


def grows_by(was: Quantity, now: Quantity, what: str) -> float:
    """Return by what the time of a single piece grows from one mass to another: their ratio to the power of 2/3."""
    masses = [in_unit(some(each, what), "g", what) for each in (was, now)]
    return math.pow(float(masses[1] / masses[0]), _POWER)


def panofsky_minutes(mass: Quantity) -> float:
    """Return minutes for a whole bird: lb to the power of 2/3 over 1.5, in hours."""
    return 60 * math.pow(float(in_unit(some(mass, "The bird"), "lb", "The bird")), _POWER) / 1.5


def row_for(name: str, mass: Quantity, setting: int) -> Roast | None:
    """Return the chart's row for one piece of that name and mass at a setting in °C, None where none fits."""
    words = frozenset(_WORD.findall(name.casefold()))
    pounds = in_unit(some(mass, name), "lb", name)
    return next((row for row in ROWS if row.fits(words, pounds, setting)), None)


def by_chart(name: str, mass: Quantity, setting: int) -> Estimate | None:
    """Return what the chart says of one piece, likely in the middle; None where no row fits."""
    row = row_for(name, mass, setting)
    if row is None:
        return None
    low, high = row.takes(in_unit(mass, "lb", name))
    return Estimate(low, (low + high + 1) // 2, high, CHART)


def by_mass(length: Span, was: Quantity, now: Quantity, what: str) -> Estimate:
    """Return a step's length for a piece of another mass."""
    grows = grows_by(was, now, what)
    low, likely, high = (max(1, round(each * grows)) for each in (length.low, length.likely, length.high))
    return Estimate(low, likely, high, PANOFSKY)


def by_depth(length: Span, depth: Fraction) -> Estimate:
    """Return a bake's length at another depth (new over old): between depth and depth squared as long."""
    ends = sorted((depth, depth**2))
    low, high = max(1, math.floor(length.low * ends[0])), max(1, math.ceil(length.high * ends[1]))
    likely = max(1, round(length.likely * float(depth) ** 1.5))
    return Estimate(low, min(max(likely, low), high), high, DEPTH)


DEPTH = "between depth and depth squared as long: heat conduction goes with the square of the thickness"
