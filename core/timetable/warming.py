"""How long a heater takes from cold, and from one setting to another. Whole minutes, rounded up; °C."""

from __future__ import annotations

from fractions import Fraction
from math import ceil

from core.plan.kitchen import Heater

Point = tuple[int, int]
"""A temperature in °C and the minutes from cold at which it is reached."""


def points_of(heater: Heater) -> tuple[Point, ...]:
    """Return (°C, minutes) from cold on, warmer and warmer; () where no heating up is needed."""
    measured = sorted(point for point in dict(heater.from_cold).items() if point[0] > heater.cold)
    return ((heater.cold, 0), *measured) if measured else ()


def minutes_at(points: tuple[Point, ...], celsius: Fraction) -> Fraction:
    """Return the minutes from cold at which a temperature is reached, past the last point by its slope."""
    later = next((index for index in range(1, len(points)) if celsius <= points[index][0]), len(points) - 1)
    (cooler, sooner), (hotter, after) = points[later - 1], points[later]
    return sooner + Fraction(after - sooner, hotter - cooler) * (celsius - cooler)


def heat_up_minutes(heater: Heater, setting: int) -> int:
    """Return the minutes from cold to a setting."""
    points = points_of(heater)
    return max(0, ceil(minutes_at(points, Fraction(setting)))) if points else 0


def rate_of(heater: Heater, before: Fraction | int, after: Fraction | int) -> Fraction:
    """Return the °C a minute between two settings, as it is written (0.7 is seven tenths)."""
    return Fraction(str(heater.up if after > before else heater.down))


def change_minutes(heater: Heater, before: int, after: int) -> int:
    """Return the minutes that a change of setting takes; 0 where the rate is no rate."""
    rate = rate_of(heater, before, after)
    return ceil(abs(after - before) / rate) if rate > 0 else 0
