"""Fires: everything on a station that must be lit stands there while it burns; fires are few and take their time."""

from __future__ import annotations

from collections.abc import Collection, Iterator

from core.plan.calendar import complement
from core.plan.ids import StationId
from core.plan.kitchen import Station
from core.timetable import sentences_fire as sentences
from core.timetable.book import Book, Thing
from core.timetable.clash import Clash, ClashKind
from core.timetable.fires import burns_out, fires_at, served_by
from core.timetable.naming import thing_name
from core.timetable.timetable import Heating


def fire_clashes(book: Book, stations: Collection[StationId]) -> Iterator[Clash]:
    """Find fires lit too long or too short, too many of them, and what stands there while nothing burns."""
    for station in book.facts.plan.kitchen.stations:
        if station.id in stations and station.is_fire:
            fires = fires_at(book, station)
            for fire in fires:
                yield from _lighting(book, station, fire)
            yield from _too_many(book, station, fires)
            yield from _unlit(book, station, fires)


def _lighting(book: Book, station: Station, fire: Heating) -> Iterator[Clash]:
    """Judge that a fire is ready when its lighting has passed; one that is ready by now is a fact."""
    given = fire.end - fire.start
    if given != station.lighting and fire.end > book.facts.now:
        sentence = sentences.lighting(book.facts, station, fire, given)
        start, end = sorted((fire.end, fire.start + station.lighting))
        steps = served_by(book, fire)
        yield Clash(ClashKind.LENGTH, sentence, start, end, steps, (station.id,), by=end - start)


def _too_many(book: Book, station: Station, fires: list[Heating]) -> Iterator[Clash]:
    over = fires[station.fires :]
    if over and over[-1].end > book.facts.now:
        sentence = sentences.too_many(book.facts, station, [fire.start for fire in fires])
        steps = tuple(dict.fromkeys(step for fire in fires for step in served_by(book, fire)))
        start, end = min(fire.start for fire in over), max(fire.end for fire in over)
        start, end = sorted((start, end))
        yield Clash(ClashKind.TOO_MANY_FIRES, sentence, start, end, steps, (station.id,), by=len(over))


def _unlit(book: Book, station: Station, fires: list[Heating]) -> Iterator[Clash]:
    """Judge that a fire burns during every minute of every use."""
    burning = [(fire.end, burns_out(station, fire)) for fire in fires]
    told: dict[tuple[object, ...], Clash] = {}  # a step with two shares of a grate stands there once
    for thing in book.things(station.id):
        low, high = max(thing.start, book.facts.now), thing.end
        for gap in complement(burning, low, high) if low < high else ():
            key = (thing.steps, thing.load, thing.waiting is not None, gap)
            told.setdefault(key, _no_fire(book, station, burning, thing, gap))
    yield from told.values()


def _no_fire(
    book: Book, station: Station, burning: list[tuple[int, int]], thing: Thing, gap: tuple[int, int]
) -> Clash:
    name = thing_name(book.facts, thing.step, thing.load, thing.waiting is not None)
    if any(end == gap[0] for _start, end in burning):
        sentence = sentences.burnt_out(book.facts, station, name, gap, thing.end)
    elif any(start == gap[1] for start, _end in burning):
        sentence = sentences.not_ready(book.facts, station, name, gap)
    else:
        sentence = sentences.no_fire(book.facts, station, name, gap)
    return Clash(ClashKind.NO_FIRE, sentence, *gap, thing.steps, (station.id,), by=gap[1] - gap[0])
