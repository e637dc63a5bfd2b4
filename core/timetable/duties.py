"""What cooks do: visits to loads, switching on and lighting, washing up. Only what has not gone by."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from core.plan.check_words import short
from core.plan.ids import CookId, StationId, StepId, VesselId
from core.timetable.book import Book
from core.timetable.facts import Facts
from core.timetable.fires import hand_minutes, lights, served_by
from core.timetable.naming import load, place
from core.timetable.sweep import Held
from core.timetable.timetable import Heating, Placed

LIGHT = "light"


class Duty(NamedTuple):
    """Something a cook does: a visit to a load; heating a station for steps; washing a run's vessels.

    `place`: where in the house; None: nowhere in particular, or the kitchen is all in one place.
    """

    steps: tuple[StepId, ...]
    load: int = 0
    does: str = ""
    station: StationId | None = None
    vessel: VesselId | None = None
    place: str | None = None


class Job(NamedTuple):
    """A duty beside the steps: [start, end), and the cook written down for it."""

    start: int
    end: int
    cook: CookId | None
    duty: Duty


Working = dict[CookId, list[Held[Duty]]]


def jobs(book: Book) -> Iterator[Job]:
    """Return what cooks do beside the steps: heating stations and washing up, as far as it takes anybody."""
    now = book.facts.now
    for heating in book.heatings:
        job = _heating_job(book, heating)
        if job.end > max(job.start, now):
            yield job._replace(start=max(job.start, now))
    for (vessel, step), washing in book.washings.items():
        if book.facts.plan.kitchen.vessel[vessel].by_hand and washing.end > max(washing.start, now):
            duty = Duty(book.facts.run_of[vessel, step].steps, vessel=vessel)
            yield Job(max(washing.start, now), washing.end, washing.cook, duty)


def _heating_job(book: Book, heating: Heating) -> Job:
    station = book.facts.plan.kitchen.station[heating.station]
    does = LIGHT if lights(station, heating) else ""
    where = station.place if book.facts.walk else None
    duty = Duty(served_by(book, heating), does=does, station=station.id, place=where)
    return Job(heating.start, heating.start + hand_minutes(station, heating), heating.cook, duty)


def place_of(facts: Facts, placed: Placed) -> str | None:
    """Return where the hands at a load work: the place of its first spot."""
    if not facts.walk or not placed.spots:
        return None
    station = facts.plan.kitchen.station.get(placed.spots[0].station)
    return None if station is None else station.place


def duty_name(facts: Facts, duty: Duty) -> str:
    """Return what a duty is called in a sentence."""
    if duty.vessel is not None:
        return f"washing {facts.words.vessel(duty.vessel)}"
    if duty.station is not None:
        return f"{'lighting' if duty.does == LIGHT else 'switching on'} {place(facts, duty.station)}"
    name = load(facts, duty.steps[0], duty.load)
    own = facts.plan.steps[duty.steps[0]].does
    return f"{name} ({short(duty.does)})" if duty.does and duty.does != own else name
