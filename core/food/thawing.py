"""Thawing: how long in the fridge and in cold water, as proposals for a step's length.

USDA FSIS: in the fridge 24 hours for each 4 to 5 pounds; in cold water 30 minutes a pound, in a leak-proof
bag, the water changed every 30 minutes, and cooked at once. In kilograms common practice says 24 h for each
1.8 to 2.3 kg and 1 h a kilogram. Each is used as printed, by the unit the weight is written in.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction
from math import ceil

from core.food.sound import in_unit, some
from core.measures.quantity import Quantity
from core.plan.step import Span

CHANGE_EVERY = 30
"""Minutes between changes of the cold water (USDA)."""

_DAY = 24 * 60
_POUNDS_A_DAY = (Fraction(4), Fraction(5))
_KILOGRAMS_A_DAY = (Fraction("1.8"), Fraction("2.3"))
_IN_POUNDS = frozenset({"lb", "oz"})


class Place(StrEnum):
    """Where food thaws."""

    FRIDGE = "in the fridge"
    WATER = "in cold water"


@dataclass(frozen=True, slots=True)
class Thaw:
    """Thawing somewhere: the least and the most minutes, and how often the water is changed meanwhile."""

    place: Place
    low: int
    high: int
    changes: tuple[int, int] = (0, 0)

    @property
    def cook_at_once(self) -> bool:
        """Tell whether it must be cooked as soon as it has thawed (USDA, for cold water)."""
        return self.place is Place.WATER

    def proposed(self) -> Span:
        """Return a length for a step: the most is the likely one, for food still frozen spoils the day."""
        return Span(self.low, self.high, self.high)


@dataclass(frozen=True, slots=True)
class ThawOffer:
    """A way to thaw in time: in by when at the latest, and between when it has thawed if begun now (offsets).

    `late`: minutes by which the slow case, begun now, misses what was wanted; 0: it is in time.
    """

    thaw: Thaw
    in_by: int
    thawed: tuple[int, int]
    late: int


def in_fridge(weight: Quantity) -> Thaw:
    """Return thawing in the fridge; refuse what is not a weight."""
    some(weight, "What thaws")
    pounds = weight.unit in _IN_POUNDS
    amount = in_unit(weight, "lb" if pounds else "kg", "What thaws")
    slow, quick = _POUNDS_A_DAY if pounds else _KILOGRAMS_A_DAY
    return Thaw(Place.FRIDGE, ceil(amount / quick * _DAY), ceil(amount / slow * _DAY))


def in_cold_water(weight: Quantity) -> Thaw:
    """Return thawing in cold water, in whole changes: 1 h a kilogram to 30 min a pound; refuse no weight."""
    some(weight, "What thaws")
    kilograms = in_unit(weight, "kg", "What thaws")
    pounds = in_unit(weight, "lb", "What thaws")
    changes = (ceil(kilograms * 60 / CHANGE_EVERY), ceil(pounds * 30 / CHANGE_EVERY))
    return Thaw(Place.WATER, changes[0] * CHANGE_EVERY, changes[1] * CHANGE_EVERY, changes)


def thaw_offers(weight: Quantity, now: int, wanted: int) -> tuple[ThawOffer, ...]:
    """Return both ways, the fridge first, for food asked about now and wanted thawed later (offsets)."""
    found = []
    for thaw in (in_fridge(weight), in_cold_water(weight)):
        thawed = (now + thaw.low, now + thaw.high)
        found.append(ThawOffer(thaw, wanted - thaw.high, thawed, max(0, thawed[1] - wanted)))
    return tuple(found)
