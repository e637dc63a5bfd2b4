"""Who and what is there when: wall-clock windows turned into offsets from plating, true across clock changes."""

from __future__ import annotations

from core.measures.clock import at_clock
from core.plan.kitchen import Cook, Station, Window
from core.plan.plan import Plan
from core.plan.step import ClockTime

Stretch = tuple[int, int]
"""Half-open minutes from plating."""


def clock_offset(plan: Plan, clock: ClockTime) -> int:
    """Return the offset of a wall-clock time that the world sets."""
    return at_clock(plan.plating, clock.days_before, clock.minute)


def stretch_of(plan: Plan, window: Window) -> Stretch:
    """Return a window as offsets."""
    days, minute = divmod(window.to_minute, 24 * 60)
    return (
        at_clock(plan.plating, window.days_before, window.from_minute),
        at_clock(plan.plating, window.days_before - days, minute),
    )


def absences(plan: Plan, cook: Cook, low: int, high: int) -> tuple[Stretch, ...]:
    """Return when a cook is not there between two offsets: nights, breaks, days and hours not promised."""
    away = [stretch_of(plan, each) for each in cook.breaks]
    if cook.night is not None:
        away += nights(plan, cook.night, low, high)
    if cook.present:
        away += complement([stretch_of(plan, each) for each in cook.present], low, high)
    return merged(away, low, high)


def closed(plan: Plan, station: Station, low: int, high: int) -> tuple[Stretch, ...]:
    """Return when a station is not there between two offsets."""
    if not station.hours:
        return ()
    return merged(complement([stretch_of(plan, each) for each in station.hours], low, high), low, high)


def nights(plan: Plan, night: tuple[int, int], low: int, high: int) -> list[Stretch]:
    """Return each night between two offsets; a night that ends before it begins runs past midnight."""
    begins, ends = night
    length = (ends - begins) % (24 * 60)
    first_day = -(low // (24 * 60)) + 2
    last_day = -(high // (24 * 60)) - 2
    found = []
    for day in range(first_day, last_day - 1, -1):
        start, end = stretch_of(plan, Window(day, begins, begins + length))
        if start < high and end > low:
            found.append((start, end))
    return found


def complement(present: list[Stretch], low: int, high: int) -> list[Stretch]:
    """Return what of low..high the stretches leave out."""
    away: list[Stretch] = []
    at = low
    for start, end in merged(present, low, high):
        if start > at:
            away.append((at, start))
        at = max(at, end)
    if at < high:
        away.append((at, high))
    return away


def merged(stretches: list[Stretch], low: int, high: int) -> tuple[Stretch, ...]:
    """Return the stretches clipped to low..high, sorted, overlapping or touching ones joined."""
    joined: list[Stretch] = []
    for start, end in sorted((max(start, low), min(end, high)) for start, end in stretches):
        if end <= start:
            continue
        if joined and start <= joined[-1][1]:
            joined[-1] = (joined[-1][0], max(joined[-1][1], end))
        else:
            joined.append((start, end))
    return tuple(joined)
