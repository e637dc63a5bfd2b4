"""Clashes in words: fires, and stations that are never used at once."""

from __future__ import annotations

from collections.abc import Sequence

from core.measures.minutes import show_minutes
from core.measures.words import join_words, plural
from core.plan.kitchen import Station
from core.timetable.facts import Facts
from core.timetable.naming import at_place, capital, clock, number, place, span
from core.timetable.timetable import Heating


def lighting(facts: Facts, station: Station, fire: Heating, given: int) -> str:
    """Say that a fire is given other minutes until it is ready than it takes."""
    where = capital(place(facts, station.id))
    begins, ready = clock(facts, fire.start), clock(facts, fire.end)
    takes = (
        "needs no lighting" if station.lighting == 0 else f"takes {show_minutes(station.lighting)} to light"
    )
    if given < 0:
        return f"{where} is lit at {begins} and ready before that, at {ready}; it {takes}."
    mend = f"; light it at {clock(facts, fire.end - station.lighting)}"
    return f"{where} is lit at {begins} for {ready}, {show_minutes(given)} later, and {takes}{mend}."


def too_many(facts: Facts, station: Station, times: Sequence[int]) -> str:
    """Say that a fire is lit more often than it may be."""
    at = join_words([clock(facts, time) for time in times])
    may = "once" if station.fires == 1 else f"{number(station.fires)} times"
    return (
        f"{capital(place(facts, station.id))} is lit {number(len(times))} times, at {at}, and may be lit {may}:"
        f" leave {plural(len(times) - station.fires, 'fire')} out, or allow more."
    )


def burnt_out(facts: Facts, station: Station, name: str, gap: tuple[int, int], until: int) -> str:
    """Say that a fire does not last. `gap`: without a fire; `until`: when the thing is off it."""
    out, by = clock(facts, gap[0]), show_minutes(gap[1] - gap[0])
    where = at_place(facts, station.id)
    last = f"is {where} until {clock(facts, until)}" if gap[1] == until else f"stays {where}"
    return (
        f"{capital(name)} {last}, and the fire burns out at {out}: {by} without a fire."
        f"{_light(facts, station, gap[0], 'another')}"
    )


def not_ready(facts: Facts, station: Station, name: str, gap: tuple[int, int]) -> str:
    """Say that a fire is ready too late. `gap`: without a fire."""
    return (
        f"{capital(name)} is {at_place(facts, station.id)} from {clock(facts, gap[0])}, and the fire is ready at"
        f" {clock(facts, gap[1])}, {show_minutes(gap[1] - gap[0])} later.{_light(facts, station, gap[0], 'it')}"
    )


def no_fire(facts: Facts, station: Station, name: str, gap: tuple[int, int]) -> str:
    """Say that nothing burns. `gap`: without a fire."""
    return (
        f"{capital(name)} is {at_place(facts, station.id)} from {span(facts, *gap)}, and no fire burns there"
        f" then.{_light(facts, station, gap[0], 'one')}"
    )


def _light(facts: Facts, station: Station, ready: int, what: str) -> str:
    """Return when to light a fire that is to be ready by a minute, if that is still to come."""
    by = ready - station.lighting
    return f" Light {what} by {clock(facts, by)}." if by >= facts.now else " Begin when one is ready."


def not_both(
    facts: Facts,
    stations: tuple[Station, Station],
    names: tuple[Sequence[str], Sequence[str]],
    when: tuple[int, int],
) -> str:
    """Say that two stations that are never used at once are. `names`: what each has."""
    one, other = (place(facts, each.id) for each in stations)
    has = " and ".join(
        f"{where} has {join_words(list(some))}" for where, some in zip((one, other), names, strict=True)
    )
    return (
        f"{capital(one)} and {other} cannot be used at once: from {span(facts, *when)} {has}. Move one of them by"
        f" {show_minutes(when[1] - when[0])}."
    )
