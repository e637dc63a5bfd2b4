"""Fires: which heatings light one, how long it burns, what it serves, and how long any heating takes a cook."""

from __future__ import annotations

from core.plan.ids import StepId
from core.plan.kitchen import Station
from core.timetable.book import Book
from core.timetable.facts import FAR
from core.timetable.timetable import Heating


def lights(station: Station | None, heating: Heating) -> bool:
    """Return whether a heating of a station lights a fire."""
    return station is not None and station.is_fire and heating.setting == 0


def fires_at(book: Book, station: Station) -> list[Heating]:
    """Return the fires of a station, in order of time."""
    return [each for each in book.heatings_at.get(station.id, ()) if lights(station, each)]


def burns_out(station: Station, fire: Heating) -> int:
    """Return the offset at which a fire has burnt out; years away where it burns as long as one likes."""
    return 2 * FAR if station.burns is None else fire.end + station.burns


def hand_minutes(station: Station | None, heating: Heating) -> int:
    """Return the minutes that a heating takes a cook: laying and lighting a fire, or one minute to switch on."""
    if station is None or not lights(station, heating):
        return 1
    return max(0, min(station.laying, station.lighting))


def served_by(book: Book, heating: Heating) -> tuple[StepId, ...]:
    """Return the steps for which a station is heated: those first in, or all that a fire burns for."""
    station = book.facts.plan.kitchen.station[heating.station]
    if lights(station, heating):
        until = burns_out(station, heating)
        things = [each for each in book.things(station.id) if each.start < until and heating.end < each.end]
        things.sort(key=lambda each: (each.start, each.end, each.steps))
    else:
        things = [each for each in book.bakes(station.id) if each.start == heating.end]
    return tuple(dict.fromkeys(step for thing in things for step in thing.steps))
