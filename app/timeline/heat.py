"""The temperature of a heated station as the timeline draws it: core's curve, with a height for each degree."""

from __future__ import annotations

from dataclasses import dataclass

from core.plan.kitchen import Station
from core.plan.plan import Plan
from core.timetable.heat_curve import CurvePoint, Plateau, curve, plateaus
from core.timetable.timetable import Timetable


@dataclass(frozen=True, slots=True)
class Curve:
    """Corners of the curve (minute, °C), the plateaus on it, and what counts as cold and as hottest."""

    points: tuple[CurvePoint, ...]
    plateaus: tuple[Plateau, ...]
    cold: int
    hottest: int

    def share(self, celsius: float) -> float:
        """Return how high a temperature stands between cold (0) and the station's highest setting (1)."""
        return max(0.0, min(1.0, (celsius - self.cold) / max(1, self.hottest - self.cold)))


def curve_of(plan: Plan, timetable: Timetable, station: Station) -> Curve | None:
    """Return the curve of a heated station; None where it has no heater, or a fire, whose heat nobody sets."""
    if station.heater is None or station.is_fire:
        return None
    corners = curve(plan, timetable, station.id)
    flats = plateaus(plan, timetable, station.id)
    return Curve(corners, flats, station.heater.cold, station.heater.highest)
