"""Limits on cooling cooked food, as published: each temperature in both scales, never converted here.

US FDA Food Code 2022, 3-501.14 (read in state codes that adopt it): from 57 °C (135 °F) to 21 °C (70 °F)
within 2 hours, and to 5 °C (41 °F) within 6 hours in all; made of ingredients at room temperature, to 5 °C
within 4 hours. Reheating to 74 °C (165 °F): 3-403.11. Ways to cool: 3-501.15. What to do after a missed
limit is not in the code's text: reheat once and cool again, or discard (common practice in kitchens' logs).
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction


class Scale(StrEnum):
    """The scale a thermometer shows."""

    CELSIUS = "°C"
    FAHRENHEIT = "°F"


@dataclass(frozen=True, slots=True)
class Limit:
    """A published temperature, printed in both scales."""

    celsius: int
    fahrenheit: int

    def on(self, scale: Scale) -> int:
        """Return the number printed for a scale."""
        return self.celsius if scale is Scale.CELSIUS else self.fahrenheit

    def borne_by(self, degrees: Fraction, scale: Scale) -> bool:
        """Tell whether a reading is at or below the limit, in the reading's own scale."""
        return degrees <= self.on(scale)


@dataclass(frozen=True, slots=True)
class Checkpoint:
    """At the latest so many minutes after cooling began the food is at or below a limit."""

    within: int
    limit: Limit


@dataclass(frozen=True, slots=True)
class CoolingRule:
    """A code's limits in order of time, and where they are printed.

    Cooling begins when the food falls below `hot`; None: when it was made. `reheat`: to where a failed
    first stage is heated again.
    """

    source: str
    hot: Limit | None
    checkpoints: tuple[Checkpoint, ...]
    reheat: Limit | None = None


FROM_HOT = CoolingRule(
    "US FDA Food Code 2022, 3-501.14(A)",
    Limit(57, 135),
    (Checkpoint(2 * 60, Limit(21, 70)), Checkpoint(6 * 60, Limit(5, 41))),
    Limit(74, 165),
)
FROM_ROOM = CoolingRule("US FDA Food Code 2022, 3-501.14(B)", None, (Checkpoint(4 * 60, Limit(5, 41)),))
