"""Sets the scene: from a plan and its timetable to lanes, axis, nights, courses and curves."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from app.look.words import word
from app.timeline.bars import LaneKind, Shade
from app.timeline.geometry import ROW, Axis, Layout, quiet_stretches
from app.timeline.heat import curve_of
from app.timeline.lane_lines import with_lines
from app.timeline.lanes import Reading, lanes_of
from app.timeline.scene import Scene
from core.plan.calendar import complement, nights
from core.plan.plan import Plan
from core.timetable.clash import Clash
from core.timetable.timetable import Timetable

BEFORE = (10, 60)
AFTER = (20, 45)
"""Least and most minutes shown before the first thing and after the last."""


def stage(
    plan: Plan,
    timetable: Timetable,
    clashes: Iterable[Clash],
    reading: Reading,
    *,
    ppm: float = 1.0,
    row: float = ROW,
    folded: bool = True,
    lines: Mapping[str, bool] | None = None,
) -> Scene:
    """Return the scene of a timetable at a scale in points a minute; `lines`: which lanes are folded to lines."""
    low, high = extent(plan, timetable)
    lanes = with_lines(lanes_of(plan, timetable, reading, low, high), lines or {})
    folds = quiet_stretches(events(plan, timetable), low, high) if folded else ()
    curves = {}
    for lane in lanes:
        if lane.kind is LaneKind.STATION and lane.station is not None and not lane.line:
            curve = curve_of(plan, timetable, lane.station)
            if curve is not None:
                curves[lane.id] = curve
    return Scene(
        plan,
        timetable,
        tuple(clashes),
        reading,
        lanes,
        Layout(lanes, row),
        Axis(low, high, ppm, folds),
        nights=shared_nights(plan, low, high),
        courses=courses(plan),
        curves=curves,
    )


def extent(plan: Plan, timetable: Timetable) -> tuple[int, int]:
    """Return the first and last minute to show."""
    chores = _chores(timetable)
    starts = [each.start for each in timetable.placed] + [start for start, _end in chores]
    ends = [each.end for each in timetable.placed] + [end for _start, end in chores]
    ends += [minute for minute, _says in courses(plan)]
    low, high = min(starts, default=-180), max([*ends, 0])
    before = max(BEFORE[0], min(BEFORE[1], (high - low) // 8))
    after = max(AFTER[0], min(AFTER[1], (high - low) // 4))
    return low - before, high + after


def events(plan: Plan, timetable: Timetable) -> list[int]:
    """Return the minutes at which something begins or ends or takes a hand."""
    found = [minute for minute, _says in courses(plan)]
    for placed in timetable.placed:
        found += [placed.start, placed.end]
        found += [minute for hand in placed.hands for minute in (hand.start, hand.start + hand.minutes)]
    found += [minute for chore in _chores(timetable) for minute in chore]
    return found


def _chores(timetable: Timetable) -> list[tuple[int, int]]:
    """Return from when to when stations heat up, fires are lit and vessels are washed."""
    heated = [(each.start, each.end) for each in timetable.heatings]
    return heated + [(each.start, each.end) for each in timetable.washings]


def courses(plan: Plan) -> tuple[tuple[int, str], ...]:
    """Return plating and the other serving times, in minutes from plating, with their words."""
    found = {0: word("plating")}
    for dish in plan.menu.dishes:
        if dish.served and dish.course not in found:
            found[dish.course] = word("course")
    return tuple(sorted(found.items()))


def shared_nights(plan: Plan, low: int, high: int) -> tuple[Shade, ...]:
    """Return the stretches of night that all cooks have in common."""
    spans = {cook.night for cook in plan.kitchen.cooks}
    if not spans or None in spans:
        return ()
    dark = [nights(plan, span, low, high) for span in spans if span is not None]
    awake = [part for each in dark for part in complement(each, low, high)]
    return tuple(Shade(start, end, word("night")) for start, end in complement(awake, low, high))
