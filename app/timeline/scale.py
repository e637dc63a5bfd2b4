"""The two scales: clock time with dates at midnight, and time to plating; labels that never collide."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from datetime import datetime
from functools import lru_cache

from app.timeline.geometry import Axis
from core.measures.clock import Moment, at_clock, wall
from core.measures.minutes import show_tminus
from core.plan.plan import Plan

STEPS = (1, 5, 10, 15, 30, 60, 120, 180, 360, 720, 1440)
"""Minutes between two ticks."""
LEAST = 64.0
"""Points between two labelled ticks at least."""
DAY = 24 * 60


@dataclass(frozen=True, slots=True)
class Tick:
    """A mark on a scale: minute from plating, and its label."""

    at: int
    label: str


@dataclass(frozen=True, slots=True)
class Label:
    """A text that was given its place: left edge in points along the axis, and its width."""

    x: float
    width: float
    text: str


@dataclass(frozen=True, slots=True)
class Day:
    """A calendar day on the axis, from midnight to midnight."""

    start: int
    end: int
    date: datetime


def ruler_step(ppm: float, least: float = LEAST) -> int:
    """Return the minutes between ticks at a scale: the first step whose ticks stand `least` points apart."""
    return next((step for step in STEPS if step * ppm >= least), STEPS[-1])


def finer_step(step: int) -> int:
    """Return the step of the small unlabelled ticks between."""
    return {1: 1, 5: 1, 10: 5, 15: 5, 30: 10, 60: 15, 120: 30, 180: 60, 360: 60, 720: 180}.get(step, 360)


def days(plan: Plan, low: int, high: int) -> list[Day]:
    """Return the calendar days that meet a stretch, in the plan's zone, true across clock changes."""
    local = plan.plating.local.date()
    first, last = (local - _wall(plan.plating, low).date()).days, (local - _wall(plan.plating, high).date()).days
    return [_day(plan.plating, before) for before in range(first, last - 1, -1)]


@lru_cache(maxsize=256)
def _day(plating: Moment, before: int) -> Day:
    start, end = at_clock(plating, before, 0), at_clock(plating, before - 1, 0)
    return Day(start, end, wall(plating, start))


_wall = lru_cache(maxsize=8192)(wall)
"""Wall-clock times again and again the same ones: each is asked for at every turn of the wheel."""


def clock_marks(plan: Plan, low: int, high: int, step: int) -> list[int]:
    """Return the minutes at which the clock shows a whole multiple of the step."""
    local = plan.plating.local.date()
    found: list[int] = []
    for day in days(plan, low, high):
        marks = _marks(plan.plating, (local - day.date.date()).days, step)
        found += marks[bisect_left(marks, low) : bisect_right(marks, high)]
    return found


@lru_cache(maxsize=256)
def _marks(plating: Moment, before: int, step: int) -> tuple[int, ...]:
    """Return the minutes of one day, counted from plating, at which its clock shows a multiple of the step."""
    day = _day(plating, before)
    if day.end - day.start == DAY:
        return tuple(range(day.start, day.end, step))
    return tuple(sorted({at_clock(plating, before, minute) for minute in range(0, DAY, step)}))  # the clock changes


def clock_ticks(
    plan: Plan, low: int, high: int, step: int, says: Callable[[datetime], str]
) -> list[Tick]:
    """Return labelled ticks of the clock."""
    return [Tick(at, says(_wall(plan.plating, at))) for at in clock_marks(plan, low, high, step)]


def plating_ticks(low: int, high: int, step: int) -> list[Tick]:
    """Return labelled ticks of the time to plating, counted from plating itself."""
    first = -((-low) // step) * step
    return [Tick(at, show_tminus(at)) for at in range(first, high + 1, step) if at >= low]


def spread(
    ticks: Iterable[Tick], axis: Axis, width_of: Callable[[str], float], gap: float = 10.0
) -> list[Label]:
    """Place labels centred at their ticks, leave out those in folds and those that would touch another."""
    found: list[Label] = []
    shut = [(axis.x(start) - 2, axis.x(end) + 2) for start, end in axis.folds]
    for tick in ticks:
        width = width_of(tick.label)
        left = axis.x(tick.at) - width / 2
        if any(left < end and start < left + width for start, end in shut):
            continue
        if not found or left >= found[-1].x + found[-1].width + gap:
            found.append(Label(left, width, tick.label))
    return found


def day_labels(
    days_seen: Iterable[Day],
    axis: Axis,
    left: float,
    right: float,
    says: Callable[[datetime], str],
    width_of: Callable[[str], float],
) -> list[Label]:
    """Place the dates: at midnight, or at the left edge while the day goes on there; never over each other."""
    found: list[Label] = []
    for day in days_seen:
        start = _first_open(axis, day)
        if start is None:
            continue
        text = says(day.date)
        width = width_of(text)
        x = max(axis.x(start) + 6, left + 6)
        end = min(axis.x(day.end), right)
        if x + width + 4 <= end and (not found or x >= found[-1].x + found[-1].width + 12):
            found.append(Label(x, width, text))
    return found


def _first_open(axis: Axis, day: Day) -> int | None:
    """Return the first minute of a day that no fold hides."""
    at = day.start
    for start, end in axis.folds:
        if start <= at < end:
            at = end
    return at if at < day.end else None
