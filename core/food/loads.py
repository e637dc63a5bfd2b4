"""Work that goes load by load: how many loads an amount makes, and what they take together."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil

from core.food.sound import in_unit, some
from core.measures.quantity import Quantity
from core.measures.refusal import Refusal

FRYING_G_PER_LITRE = 250
"""Grams of chilled food that a litre of frying oil takes at once: common practice (half a pound a quart)."""


@dataclass(frozen=True, slots=True)
class LoadWork:
    """So many loads of so many minutes, with minutes of change-over between them."""

    loads: int
    each: int
    change_over: int = 0

    @property
    def minutes(self) -> int:
        """Return the minutes from the first load's start to the last one's end."""
        return self.loads * self.each + (self.loads - 1) * self.change_over

    @property
    def oldest(self) -> int:
        """Return how many minutes the first load has waited when the last is done."""
        return self.minutes - self.each


def in_loads(amount: Quantity, holds: Quantity, each: int, change_over: int = 0) -> LoadWork:
    """Return the work of an amount in a pan that holds so much, `each` minutes a load.

    Raise Refusal for amounts that do not compare, a pan that holds nothing, and times below 0.
    """
    wanted, room = some(amount, "What is to be cooked"), some(holds, "What the pan holds")
    if each < 1 or change_over < 0:
        raise Refusal("A load takes 1 min or more and the change-over 0 or more; write such lengths.")
    return LoadWork(
        ceil(in_unit(wanted, room.unit, "The amount and the pan") / room.amount), each, change_over
    )


def frying_load(oil: Quantity) -> Quantity:
    """Return the grams of chilled food that so much frying oil takes at once (common practice)."""
    litres = in_unit(some(oil, "The frying oil"), "l", "The frying oil")
    return Quantity(litres * FRYING_G_PER_LITRE, "g")
