"""Moving what is fixed by the clock: not before, done by, set for a time, nothing before the plan opens."""

from __future__ import annotations

from dataclasses import replace

from core.arrange.ways.case import Case
from core.arrange.ways.easing import Easing, Family
from core.arrange.ways.way import Change, Unit, WayKind
from core.measures.minutes import show_minutes
from core.plan import calendar, meaning
from core.plan.edits import ChangeStep, Edit, SetOpens, Together
from core.plan.plan import Plan
from core.plan.step import ClockTime, Step
from core.timetable.timetable import Timetable

_DAY = 24 * 60
_CLOCK_MOST = 6 * 60
_LATEST_MOST = 4 * 60


def made_ahead(case: Case) -> Family:
    """Propose beginning sooner than a step or the plan may: as far back as a day."""
    steps = [case.step(step) for step in case.steps if case.step(step).earliest is not None]
    found = [_ahead(case, step, step.earliest) for step in steps if step.earliest is not None]
    opens = case.plan.opens
    if opens is not None and case.day is None:  # on the day itself what is past is past
        found.append(_opens(opens))
        found += [
            _ahead(case, step, step.earliest, opens)
            for step in steps
            if step.earliest is not None and step.earliest - _DAY < opens
        ]
    return Family(WayKind.MAKE_AHEAD, tuple(found))


def _ahead(case: Case, step: Step, earliest: int, opens: int | None = None) -> Easing:
    """Let a step begin sooner; with `opens` the plan too, no further than that step needs."""

    def make(size: int) -> Edit:
        sooner = ChangeStep(step.id, replace(step, earliest=earliest - size))
        if opens is None or earliest - size >= opens:
            return sooner
        label = f"Begin {step.does} {show_minutes(size)} sooner"
        return Together(label, (SetOpens(earliest - size), sooner))

    def told(size: int, _timetable: Timetable) -> tuple[Change, ...]:
        own = Change(Unit.OFFSET, earliest, earliest - size, step=step.id)
        if opens is None or earliest - size >= opens:
            return (own,)
        return own, Change(Unit.OFFSET, opens, earliest - size)

    def needs(timetable: Timetable) -> int:
        starts = [each.start for each in timetable.loads_of.get(step.id, ())]
        begun = min(starts, default=earliest)
        if opens is not None and begun < opens:
            begun = min(each.start for each in timetable.placed)
        return earliest - begun

    return Easing(WayKind.MAKE_AHEAD, make, told, _DAY, _wanted_sooner(case, step), needs)


def _wanted_sooner(case: Case, step: Step) -> int:
    return min(_DAY, case.over([each.id for each in case.plan.dish_of[step.id].steps]))


def _opens(opens: int) -> Easing:
    def told(size: int, _timetable: Timetable) -> tuple[Change, ...]:
        return (Change(Unit.OFFSET, opens, opens - size),)

    def needs(timetable: Timetable) -> int:
        starts = [each.start for each in timetable.placed] + [each.start for each in timetable.heatings]
        return opens - min(starts, default=opens)

    return Easing(WayKind.MAKE_AHEAD, lambda size: SetOpens(opens - size), told, _DAY, needs=needs)


def done_later(case: Case) -> Family:
    """Propose that a step be done later than its own limit."""
    found = tuple(
        _latest(case, case.step(step), latest)
        for step in case.steps
        if (latest := case.step(step).latest) is not None
    )
    return Family(WayKind.DONE_LATER, found)


def _latest(case: Case, step: Step, latest: int) -> Easing:
    def make(size: int) -> Edit:
        return ChangeStep(step.id, replace(step, latest=latest + size))

    def told(size: int, _timetable: Timetable) -> tuple[Change, ...]:
        return (Change(Unit.OFFSET, latest, latest + size, step=step.id),)

    def needs(timetable: Timetable) -> int:
        return max((each.end for each in timetable.loads_of.get(step.id, ())), default=latest) - latest

    guess = min(_LATEST_MOST, case.over((step.id,)))
    return Easing(WayKind.DONE_LATER, make, told, _LATEST_MOST, guess, needs)


def clocks_moved(case: Case) -> Family:
    """Propose to move what is set for a time of the clock, either way."""
    found = []
    for each in case.steps:
        step = case.step(each)
        if step.clock is not None:
            found += [_clock(case, step, step.clock, way) for way in (-1, 1)]
    return Family(WayKind.MOVE_CLOCK, tuple(found))


def _clock(case: Case, step: Step, clock: ClockTime, way: int) -> Easing:
    """Ask with the time free between the old one and one so much off; then set it to what was found."""
    set_for = calendar.clock_offset(case.plan, clock)
    longest = max([step.length.high, *(way.length.high for way in step.alternatives)])
    length = longest * meaning.load_count(case.plan.dish_of[step.id], step)

    def make(size: int) -> Edit:
        first, last = (set_for - size, set_for) if way < 0 else (set_for, set_for + size)
        earliest = first if step.earliest is None else max(first, step.earliest)
        latest = last + length if step.latest is None else min(last + length, step.latest)
        return ChangeStep(step.id, replace(step, clock=None, earliest=earliest, latest=latest))

    def needs(timetable: Timetable) -> int:
        return abs(_begun(timetable, step) - set_for)

    def fitted(_eased: Plan, _size: int, timetable: Timetable) -> Edit:
        minutes = _begun(timetable, step) - set_for
        days, minute = divmod(clock.minute + minutes, _DAY)
        return ChangeStep(step.id, replace(step, clock=ClockTime(clock.days_before - days, minute)))

    def told(_size: int, timetable: Timetable) -> tuple[Change, ...]:
        return (Change(Unit.OFFSET, set_for, _begun(timetable, step), step=step.id),)

    guess = min(_CLOCK_MOST, case.over(case.plan.steps))
    return Easing(WayKind.MOVE_CLOCK, make, told, _CLOCK_MOST, guess, needs, fitted)


def _begun(timetable: Timetable, step: Step) -> int:
    return min(each.start for each in timetable.loads_of[step.id])
