"""When a heated station is full with more than one dish: all that is inside then takes longer."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from core.plan.ids import StationId, StepId
from core.plan.kitchen import Station
from core.timetable.facts import Facts
from core.timetable.sweep import Held, crowds

if TYPE_CHECKING:
    from core.timetable.book import Thing


class Full(NamedTuple):
    """All units of a station are taken during [start, end), by these steps or what waits after them."""

    start: int
    end: int
    station: StationId
    steps: tuple[StepId, ...]


def full_stretches(facts: Facts, station: Station, things: list[Thing]) -> tuple[Full, ...]:
    """Return when all units are taken by things of two dishes or more, in order of time."""
    if station.units <= 0:
        return ()
    held = [Held(thing.start, thing.end, thing.spot.units, thing) for thing in things]
    found = []
    for crowd in crowds(held, station.units - 1, _rank):
        if len({facts.plan.dish_of[thing.step].id for thing in crowd.what}) > 1:
            steps = tuple(dict.fromkeys(step for thing in crowd.what for step in thing.steps))
            found.append(Full(crowd.start, crowd.end, station.id, steps))
    return tuple(found)


def _rank(thing: Thing) -> tuple[tuple[StepId, ...], int, bool]:
    return thing.steps, thing.load, thing.waiting is not None
