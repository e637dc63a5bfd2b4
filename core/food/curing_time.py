"""How long meat lies in its cure by its thickness, in whole days in the fridge. Common practice, from memory.

Dry cure: a day for each quarter inch to 7 days for each inch of thickness, and 2 days on top. The cure goes in with
the square of the thickness, so the rule is short for thick pieces and stops at 10 cm.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import ceil

from core.food.sound import in_unit, some
from core.measures.number import show_decimal
from core.measures.quantity import Quantity
from core.measures.refusal import Refusal
from core.measures.words import plural

SOURCE = "common practice, from memory: 4 to 7 days for each inch of thickness and 2 days on top"
QUICK, SLOW, ON_TOP = 4, 7, 2
THICKEST = Fraction(100)
"""mm: thicker pieces are pumped, or cured by a published method of their own."""
_INCH = Fraction("25.4")


@dataclass(frozen=True, slots=True)
class CureTime:
    """Whole days in the fridge, least and most, of a piece so many mm thick."""

    low: int
    high: int
    thickness: Fraction


def cure_time(thickness: Quantity) -> CureTime:
    """Return how long a piece lies in a dry or equilibrium cure; refuse no length and more than 10 cm."""
    millimetres = in_unit(some(thickness, "The thickness"), "mm", "The thickness")
    if millimetres > THICKEST:
        raise Refusal(
            f"{thickness} is thicker than the rule bears ({show_decimal(THICKEST / 10)} cm);"
            " part the piece, pump it, or follow a published method for it."
        )
    inches = millimetres / _INCH
    return CureTime(ceil(inches * QUICK) + ON_TOP, ceil(inches * SLOW) + ON_TOP, millimetres)


def said_cure_time(time: CureTime) -> str:
    """Return "In the fridge 9 to 13 days for 40 mm (...), turned each day."."""
    thick = show_decimal(time.thickness, 1)
    return (
        f"In the fridge at 4 °C (40 °F) or below, {time.low} to {plural(time.high, 'day')} for {thick} mm ({SOURCE});"
        " turned each day. By salt weighed to the meat it gets no saltier if it lies longer; in a stronger cure take it"
        " out in time."
    )
