"""Water to the boil: kilograms times 4.19 kJ/kgK times the rise, over the useful power.

4.19: the specific heat of water is 4.188 on the mean from 15 to 100 °C (IAPWS-IF97), 4.19 in handbooks. A
litre counts as a kilogram. Useful power is the rated one times 0.75 (electric radiant), 0.85 (induction) or
0.4 (gas), lid on: from memory; best measured at one's own ring.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from enum import StrEnum
from fractions import Fraction
from math import ceil

from core.food.sound import above_zero, in_unit, some
from core.measures.number import show_decimal
from core.measures.quantity import Quantity
from core.measures.refusal import Refusal
from core.plan.step import Span

KJ_PER_KG_K = Fraction("4.19")
KETTLE_COOLS = 5
"""Degrees C that kettle water loses on its way into the pot: common practice."""
SPREAD = Fraction(20, 100)
"""How far a boil-up strays to either side: from memory."""


class Ring(StrEnum):
    """What heats the pot."""

    RADIANT = "electric radiant"
    INDUCTION = "induction"
    GAS = "gas"


USEFUL_SHARE = {Ring.RADIANT: Fraction("0.75"), Ring.INDUCTION: Fraction("0.85"), Ring.GAS: Fraction("0.4")}
"""Share of the rated power that the water gets, lid on: from memory."""


@dataclass(frozen=True, slots=True)
class Boil:
    """Water on its way: litres, temperature to begin with and of the boil in °C, useful power in kW.

    `kettle`: the share of it that a kettle has boiled.
    """

    litres: Fraction
    start: Fraction
    power: Fraction
    boils_at: Fraction = Fraction(100)
    kettle: Fraction = Fraction(0)

    @property
    def seconds(self) -> Fraction:
        """Return the exact seconds to the boil."""
        return self.litres * KJ_PER_KG_K * (self.boils_at - self.start) / self.power

    @property
    def minutes(self) -> int:
        """Return whole minutes, begun ones counted."""
        return ceil(self.seconds / 60)

    def on_by(self, wanted: int) -> int:
        """Return when the pot goes on, for water that boils at a minute."""
        return wanted - self.minutes

    def proposed(self) -> Span:
        """Return a length for a step: the minutes with the usual spread."""
        return Span(
            max(1, ceil(self.seconds * (1 - SPREAD) / 60)),
            self.minutes,
            ceil(self.seconds * (1 + SPREAD) / 60),
        )


def useful_power(rated: Fraction | int, ring: Ring) -> Fraction:
    """Return the kW that reach the water, of the kW that a ring is rated for."""
    return above_zero(rated, "The ring's power", "2 kW") * USEFUL_SHARE[ring]


def boil(
    water: Quantity,
    start: Fraction | int,
    power: Fraction | int,
    boils_at: Fraction | int = 100,
) -> Boil:
    """Return water to be boiled: how much, from which °C, with how many kW of useful power.

    Raise Refusal for no water, a weightless or unknown measure, no power, ice, and water that boils already.
    """
    some(water, "The water")
    kilograms = known_litres(water)
    kilowatts = above_zero(power, "The useful power in kW", "1.2")
    if start < 0:
        raise Refusal(f"Water of {show_decimal(Fraction(start))} °C is ice; write 0 °C or more.")
    if start >= boils_at:
        at, top = show_decimal(Fraction(start), 1), show_decimal(Fraction(boils_at), 1)
        raise Refusal(f"Water of {at} °C boils already, at {top} °C; write what it has from the tap.")
    return Boil(kilograms, Fraction(start), kilowatts, Fraction(boils_at))


def known_litres(water: Quantity) -> Fraction:
    """Return the litres of a volume of water, or of its weight: a litre is a kilogram."""
    try:
        return in_unit(water, "l", "The water")
    except Refusal:
        return in_unit(water, "kg", "The water")


def with_kettle(pot: Boil, share: Fraction = Fraction(1, 2)) -> Boil:
    """Return the same water with a share of it poured in from a kettle just boiled, 5 °C cooler by then.

    Raise Refusal for a share outside 0 to 1, and where the kettle does the whole.
    """
    if not 0 < share < 1:
        raise Refusal(
            f"The kettle's share is {show_decimal(Fraction(share))}; write one between 0 and 1, such as 1/2."
        )
    arrives = max(pot.boils_at - KETTLE_COOLS, pot.start)
    return replace(pot, start=pot.start + share * (arrives - pot.start), kettle=Fraction(share))
