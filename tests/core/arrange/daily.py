"""What the tests of the running day share: facts in short, and a timetable on which they stand."""

from __future__ import annotations

from core.arrange import Fit, Outcome, arrange
from core.arrange.possible import possible
from core.plan.check import problems
from core.plan.day import Day, Fact, State
from core.plan.plan import Plan
from core.timetable.as_planned import with_seen
from core.timetable.clashes import clashes
from core.timetable.timetable import Timetable
from tests.core.arrange.arranged import LITTLE


def done(step: str, start: int, end: int, load: int = 0) -> Fact:
    """Return that a load was done from start to end."""
    return Fact(step, State.DONE, start, end, load)  # type: ignore[arg-type]  # ids are strings


def begun(step: str, start: int, end: int | None = None, load: int = 0) -> Fact:
    """Return that a load is under way since `start`."""
    return Fact(step, State.UNDER_WAY, start, end, load)  # type: ignore[arg-type]


def dropped(step: str, load: int = 0) -> Fact:
    """Return that a load was dropped."""
    return Fact(step, State.DROPPED, load=load)  # type: ignore[arg-type]


def on(now: int, *facts: Fact) -> Day:
    """Return the day at an offset."""
    return Day(now, facts)


def answered(plan: Plan, day: Day, seen: Timetable | None = None) -> Outcome:
    """Return the outcome of a day, on which all facts stand and nothing else begins before now."""
    assert problems(plan) == ()
    day = day if seen is None else with_seen(day, seen)
    outcome = arrange(plan, LITTLE, day=day, seen=seen)
    assert outcome.clashes == clashes(plan, outcome.timetable, day=day)
    facts_stand(outcome.timetable, day)
    nothing_sooner(outcome.timetable, day, seen or Timetable())
    return outcome


def meets_on(plan: Plan, day: Day, seen: Timetable | None = None) -> Timetable:
    """Return the timetable of a day that must meet."""
    outcome = answered(plan, day, seen)
    assert outcome.fit is Fit.MEETS, (outcome.fit, [each.sentence for each in outcome.clashes])
    day = day if seen is None else with_seen(day, seen)
    assert possible(plan, near=seen, day=day).fit is Fit.MEETS
    return outcome.timetable


def fits_on(plan: Plan, day: Day, seen: Timetable | None = None) -> bool:
    """Return whether the rest of a day can meet: proven either way."""
    outcome = answered(plan, day, seen)
    assert outcome.fit is not Fit.NOT_FOUND, [each.sentence for each in outcome.clashes]
    day = day if seen is None else with_seen(day, seen)
    assert (possible(plan, near=seen, day=day).fit is Fit.MEETS) == (outcome.fit is Fit.MEETS)
    return outcome.fit is Fit.MEETS


def facts_stand(timetable: Timetable, day: Day) -> None:
    """Assert that what has happened is on the timetable as it happened."""
    for fact in day.facts:
        if fact.state is State.DROPPED:
            assert fact.key not in timetable.at
            continue
        placed = timetable.at[fact.key]
        assert placed.start == fact.start
        if fact.end is not None:
            assert placed.end == (fact.end if fact.state is State.DONE else max(fact.end, day.now))


def nothing_sooner(timetable: Timetable, day: Day, seen: Timetable) -> None:
    """Assert that nothing begins before now but what has begun, with whom it was begun."""
    for placed in timetable.placed:
        if placed.key not in day.of:
            assert placed.start >= day.now
        before = {(hand.start, hand.cook) for hand in placed.hands if hand.start < day.now}
        assert placed.key in day.of or not before
        if placed.key in seen.at:
            assert before <= {(hand.start, hand.cook) for hand in seen.at[placed.key].hands}
    lit = {(each.station, each.start, each.cook) for each in (*day.lit, *seen.heatings)}
    assert all(
        each.start >= day.now or (each.station, each.start, each.cook) in lit for each in timetable.heatings
    )
    washed = {(each.vessel, each.after, each.start, each.cook) for each in day.washed}
    washed |= {
        (each.vessel, each.after, each.start, each.cook) for each in seen.washings if each.end <= day.now
    }
    assert all(
        each.start >= day.now or (each.vessel, each.after, each.start, each.cook) in washed
        for each in timetable.washings
    )
