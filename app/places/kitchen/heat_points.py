"""Measured points of heating up, drawn: where they lie in a box, and what comes of moving, adding, removing one."""

from __future__ import annotations

from dataclasses import dataclass, replace

from PySide6.QtCore import QPointF, QRectF

from core.plan.kitchen import Heater
from core.timetable.warming import heat_up_minutes

Measured = tuple[int, int]
"""A temperature in °C and the whole minutes from cold to it."""


@dataclass(frozen=True, slots=True)
class Plot:
    """A box in pixels: minutes from 0 to `most` across, °C from `coldest` to `hottest` up."""

    box: QRectF
    most: float
    coldest: int
    hottest: int

    def x(self, minutes: float) -> float:
        """Return where minutes lie."""
        return self.box.left() + self.box.width() * minutes / self.most

    def y(self, celsius: float) -> float:
        """Return where degrees lie."""
        return self.box.bottom() - self.box.height() * (celsius - self.coldest) / (
            self.hottest - self.coldest
        )

    def at(self, point: Measured) -> QPointF:
        """Return where a point lies."""
        return QPointF(self.x(point[1]), self.y(point[0]))

    def minutes(self, x: float) -> float:
        """Return the minutes at a place."""
        return (x - self.box.left()) / self.box.width() * self.most

    def celsius(self, y: float) -> float:
        """Return the degrees at a place."""
        return self.coldest + (self.box.bottom() - y) / self.box.height() * (self.hottest - self.coldest)


def moved_point(heater: Heater, number: int, wanted: Measured) -> Heater:
    """Return the heater with one of its points as near to where it is wanted as its neighbours allow."""
    points = list(heater.from_cold)
    before = points[number - 1] if number else (heater.cold, 0)
    after = (
        points[number + 1] if number + 1 < len(points) else (max(heater.highest, points[number][0]) + 1, None)
    )
    celsius = max(before[0] + 1, min(wanted[0], after[0] - 1))
    minutes = max(before[1], wanted[1])
    if after[1] is not None:
        minutes = min(minutes, after[1])
    points[number] = (celsius, minutes)
    return replace(heater, from_cold=tuple(points))


def with_point(heater: Heater, celsius: int) -> Heater:
    """Return the heater with a further point where its curve is at so many °C; as it is where that cannot be."""
    known = {point[0] for point in heater.from_cold}
    if celsius in known or not heater.cold < celsius <= heater.highest:
        return heater
    new = (celsius, heat_up_minutes(heater, celsius))
    return replace(heater, from_cold=tuple(sorted((*heater.from_cold, new))))


def without_point(heater: Heater, number: int) -> Heater:
    """Return the heater without a point; the last one stays: without any it would need no heating up."""
    points = heater.from_cold
    if len(points) == 1:
        return heater
    return replace(heater, from_cold=points[:number] + points[number + 1 :])
