"""Salt for brines and dry brines, by weight; every result with its sum. No cure in it: that is `curing`.

Equilibrium: salt = per cent of meat and water together, and longer does no harm (common practice). Gradient: a
stronger brine that is left in time; left too long the meat ends at most at the equilibrium. Dry brine: per cent of the
meat alone. USDA: brine and meat in the fridge at 4 °C (40 °F) or below, covered by the brine, 2 days at most.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import ceil

from core.food.curing import grams
from core.food.curing_shares import SALT, checked_share, said_percent
from core.measures.number import show_decimal
from core.measures.quantity import Quantity
from core.measures.refusal import Refusal
from core.measures.words import plural

USDA_LIMIT = "USDA: in the fridge at 4 °C (40 °F) or below, covered by the brine, 2 days at most"
PRACTICE = "common practice, from memory"
LONGEST_HOURS = 48
"""USDA: up to 2 days."""
SATURATED = Fraction("0.264")
"""Share of salt in saturated brine, by weight: from memory."""
DRY_USUAL = (Fraction("0.005"), Fraction("0.02"))
"""Of the meat's weight for a roast that is cooked and eaten: common practice, from memory."""
_POUND = Fraction("453.59237")


@dataclass(frozen=True, slots=True)
class Brine:
    """A brine or dry brine: salt in g, how strong it is and what the meat ends at, both shares; hours; sums; source.

    `strength`: salt in the brine by weight (salt over water and salt), 0 in a dry brine. `ends`: salt in the meat, as a
    share of the meat, of meat and water in a wet one; for a gradient brine the most it could come to.
    """

    salt: Fraction
    strength: Fraction
    ends: Fraction
    hours: tuple[int, int]
    formulas: tuple[str, ...]
    source: str
    cautions: tuple[str, ...]


DRY_CAUTION = (
    "Raw meat stays cold in its salt, below ready-to-eat food, in a dish that catches what runs off."
)
CAUTIONS = (
    "Raw meat stays cold in its brine, below ready-to-eat food; the brine is thrown away, never used again.",
    "No brine makes food keep: cook it to its core temperature, by your local food code.",
)


def strength_of(salt: Quantity, water: Quantity) -> Fraction:
    """Return the share of salt in a brine by weight: salt over water and salt; both are weighed."""
    dry, wet = grams(salt, "The salt"), grams(water, "The water")
    share = dry / (dry + wet)
    if share > SATURATED:
        raise Refusal(
            f"{salt} of salt in {water} of water would be {said_percent(share)}; water holds no more than"
            f" {said_percent(SATURATED)}. Write less salt or more water."
        )
    return share


def equilibrium_brine(meat: Quantity, water: Quantity, salt: Fraction) -> Brine:
    """Return the salt that brings meat and water to a share (0 to 1) of their weight together."""
    share = _share(salt)
    total = grams(meat, "The meat") + grams(water, "The water")
    amount = share * total
    wet = grams(water, "The water")
    strength = strength_of(Quantity(amount, "g"), water)
    formulas = (
        f"salt = {said_percent(share)} of ({_g(total - wet)} meat + {_g(wet)} water) = {_g(amount)}",
        _strength_formula(amount, wet, strength),
    )
    return Brine(
        amount, strength, share, (12, LONGEST_HOURS), formulas, f"{PRACTICE}; {USDA_LIMIT}", CAUTIONS
    )


def gradient_brine(meat: Quantity, water: Quantity, salt: Quantity) -> Brine:
    """Return a brine stronger than what the meat is to taste of, to be left in time.

    About an hour a pound, 1 hour at the least and 8 at the most (common practice, from memory), from half of that on.
    """
    weight, wet, dry = grams(meat, "The meat"), grams(water, "The water"), grams(salt, "The salt")
    strength = strength_of(salt, water)
    ends = dry / (weight + wet)
    hours = min(8, max(1, ceil(weight / _POUND)))
    formulas = (
        _strength_formula(dry, wet, strength),
        f"at most, if left: {_g(dry)} salt / ({_g(weight)} meat + {_g(wet)} water) = {_percent(ends)}",
        f"time = {_g(weight)} / {_g(_POUND)} a pound × 1 h, at most 8 h = {hours} h",
    )
    found = (max(1, hours // 2), hours)
    return Brine(dry, strength, ends, found, formulas, f"an hour a pound: {PRACTICE}; {USDA_LIMIT}", CAUTIONS)


def dry_brine(meat: Quantity, salt: Fraction, whole: bool = True) -> Brine:
    """Return the salt to rub on meat, a share of its weight; `whole`: a whole bird or roast, else steaks and pieces."""
    share = _share(salt)
    low, high = DRY_USUAL
    if not low <= share <= high:
        raise Refusal(
            f"{said_percent(share)} of salt is no dry brine; write {said_percent(low)} to {said_percent(high)},"
            " and reckon a cure at the curing desk."
        )
    weight = grams(meat, "The meat")
    amount = share * weight
    formulas = (f"salt = {said_percent(share)} of {_g(weight)} meat = {_g(amount)}",)
    hours = (12, LONGEST_HOURS) if whole else (1, 24)
    source = f"{PRACTICE}; in the fridge at 4 °C (40 °F) or below, uncovered"
    return Brine(amount, Fraction(0), share, hours, formulas, source, (DRY_CAUTION, CAUTIONS[1]))


def said_brine(brine: Brine) -> tuple[str, ...]:
    """Return a brine's lines: salt, sums, time with its source, cautions."""
    kind = f", a brine of {_percent(brine.strength)}" if brine.strength else ", rubbed on dry"
    low, high = brine.hours
    return (
        f"{_g(brine.salt)} of salt{kind}.",
        *(f"Formula: {each}." for each in brine.formulas),
        f"Time: {low} to {plural(high, 'hour')} ({brine.source}).",
        *brine.cautions,
    )


def _share(salt: Fraction) -> Fraction:
    return checked_share(salt, SALT)


def _strength_formula(salt: Fraction, water: Fraction, strength: Fraction) -> str:
    return f"strength = {_g(salt)} salt / ({_g(water)} water + {_g(salt)} salt) = {_percent(strength)}"


def _g(amount: Fraction) -> str:
    return f"{show_decimal(amount, 2)} g"


def _percent(share: Fraction) -> str:
    return f"{show_decimal(share * 100, 2)}%"
