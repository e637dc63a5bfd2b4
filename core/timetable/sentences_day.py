"""Clashes in words: the day itself."""

from __future__ import annotations

from core.measures.minutes import show_minutes
from core.plan.ids import StationId, VesselId
from core.timetable.facts import Facts
from core.timetable.naming import capital, clock, place


def _late(facts: Facts, start: int) -> str:
    return f"at {clock(facts, start)}, {show_minutes(facts.now - start)} before now"


def _now(facts: Facts) -> str:
    return clock(facts, facts.now)


def not_begun(facts: Facts, name: str, start: int) -> str:
    """Say that a load was to begin and nobody said that it has."""
    return (
        f"{capital(name)} is to start {_late(facts, start)}, and has not begun; begin it at {_now(facts)} or later,"
        " or say when it began."
    )


def not_heating(facts: Facts, station: StationId, start: int, fire: bool) -> str:
    """Say that a station was to be heated or lit."""
    does = "lit" if fire else "switched on"
    where = capital(place(facts, station))
    return f"{where} was to be {does} {_late(facts, start)}; have it {does} at {_now(facts)} or later."


def not_washing(facts: Facts, vessel: VesselId, start: int) -> str:
    """Say that a vessel was to be washed."""
    name = capital(facts.words.vessel(vessel))
    return f"{name} was to be washed {_late(facts, start)}; wash it at {_now(facts)} or later."


def began(facts: Facts, name: str, given: int, true: int) -> str:
    """Say that a load began at another minute than the timetable has."""
    return (
        f"{capital(name)} began at {clock(facts, true)}; the timetable has it start at {clock(facts, given)}."
    )


def ended(facts: Facts, name: str, given: int, true: int, done: bool) -> str:
    """Say that a load ended, or is expected to end, at another minute than the timetable has."""
    did = "was done" if done else "is under way and will be done"
    return (
        f"{capital(name)} {did} at {clock(facts, true)}; the timetable has it end at {clock(facts, given)}."
    )
