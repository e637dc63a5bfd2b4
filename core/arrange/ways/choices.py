"""Choosing: another way of a step, the likely length instead of the cautious one."""

from __future__ import annotations

from core.arrange.ways.case import Case
from core.arrange.ways.easing import Easing, Family
from core.arrange.ways.way import Change, Unit, WayKind
from core.plan import meaning
from core.plan.edits import Choose, SetLength
from core.plan.ids import StepId
from core.plan.step import Manner
from core.timetable.timetable import Timetable


def other_ways(case: Case) -> Family:
    """Propose each other way of a step for which one was chosen."""
    found = []
    for each in case.steps:
        step = case.step(each)
        open_ways = meaning.ways_open(case.plan, step)
        closed = [way for way in range(len(step.alternatives) + 1) if way not in open_ways]
        found += [_way(each, open_ways[0], way) for way in closed]
    return Family(WayKind.OTHER_WAY, tuple(found))


def _way(step: StepId, was: int, way: int) -> Easing:
    def told(_size: int, timetable: Timetable) -> tuple[Change, ...]:
        loads = timetable.loads_of.get(step, ())
        begins, ends = (loads[0].start, loads[-1].end) if loads else (None, None)
        return (Change(Unit.WAY, was, way, step=step, begins=begins, ends=ends),)

    return Easing(WayKind.OTHER_WAY, lambda _size: Choose(step, way), told)


def shorter_lengths(case: Case) -> Family:
    """Propose the likely length for a step that has a longer one reserved."""
    found = []
    for each in case.steps:
        likely = meaning.way_of(case.plan, case.step(each))[0].likely
        kept = meaning.reserved(case.plan, each)
        if kept.length > likely:
            found.append(_likely(each, kept.length, likely))
    return Family(WayKind.SHORTER, tuple(found), joint=True)


def _likely(step: StepId, reserved: int, likely: int) -> Easing:
    def told(_size: int, _timetable: Timetable) -> tuple[Change, ...]:
        return (Change(Unit.MINUTES, reserved, likely, step=step),)

    return Easing(
        WayKind.SHORTER,
        lambda _size: SetLength(step, Manner.LIKELY),
        told,
        weight=lambda _size: float(reserved - likely),
    )
