"""The day as a timetable has it up to a moment: what has begun by then has begun as planned."""

from __future__ import annotations

from core.plan.day import Day, Fact, Lit, State, Washed
from core.timetable.timetable import Timetable


def as_planned(timetable: Timetable, now: int, facts: tuple[Fact, ...] = ()) -> Day:
    """Return the day at an offset; `facts` replace what the timetable says of their loads."""
    known = {fact.key for fact in facts}
    planned = tuple(
        Fact(each.step, State.DONE if each.end <= now else State.UNDER_WAY, each.start, each.end, each.load)
        for each in timetable.placed
        if each.start < now and each.key not in known
    )
    return with_seen(Day(now, (*facts, *planned)), timetable)


def with_seen(day: Day, timetable: Timetable) -> Day:
    """Return the day with the heatings, fires and washings that a timetable has begun before now.

    What the day says itself of a station or a run's vessels goes before what the timetable says.
    """
    stations, runs = {each.station for each in day.lit}, {(each.vessel, each.after) for each in day.washed}
    lit = day.lit + tuple(
        Lit(each.station, each.start, each.end, each.setting, each.cook)
        for each in timetable.heatings
        if each.start < day.now and each.station not in stations
    )
    washed = day.washed + tuple(
        Washed(each.vessel, each.after, each.start, each.minutes, each.cook)
        for each in timetable.washings
        if each.start < day.now and (each.vessel, each.after) not in runs
    )
    return Day(day.now, day.facts, lit, washed)
