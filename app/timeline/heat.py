"""The temperature of a heated station as the timeline draws it: core's curve, with a height for each degree."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise

from core.measures.heat import show_heat
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

    def warm_between(self, low: float, high: float) -> list[list[CurvePoint]]:
        """Return the corners of each run of the curve above cold that meets a stretch of time, only those near it."""
        found: list[list[CurvePoint]] = []
        for one, other in pairwise(self.points):
            cold = one[1] <= self.cold and other[1] <= self.cold
            if cold or one[0] > high or other[0] < low or other[0] < one[0]:
                continue
            if found and found[-1][-1] == one:
                found[-1].append(other)
            else:
                found.append([one, other])
        return found

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


def bent(one: Curve | None, other: Curve | None) -> tuple[float, float] | None:
    """Return from when to when two curves of a station differ; None: nowhere."""
    if one == other:
        return None
    first = () if one is None else (*one.points, *one.plateaus)
    second = () if other is None else (*other.points, *other.plateaus)
    same = set(first) & set(second)
    apart = [each for each in (*first, *second) if each not in same]
    near = [point for curve in (one, other) if curve is not None for point in curve.points]
    low, high = min(each[0] for each in apart), max(max(each[:-1]) for each in apart)
    # the lines to what stays are others as well
    before = [point.at for point in near if point.at < low]
    after = [point.at for point in near if point.at > high]
    return max(before, default=low), min(after, default=high)


@lru_cache(maxsize=512)
def heat_text(celsius: int) -> str:
    """Return a setting as it is written beside the curve: asked for each time the view is painted."""
    return show_heat(celsius)
