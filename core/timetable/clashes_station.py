"""Places: everything stands where it may, and there is room for it. Units, shelves, hours, stays."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator
from typing import NamedTuple

from core.plan.ids import StationId, StepId
from core.plan.kitchen import Station, StationKind
from core.timetable import sentences_places as sentences
from core.timetable.book import Book, Oddity, Thing, Waiting
from core.timetable.clash import Clash, ClashKind
from core.timetable.fitting import Fault, Misfit
from core.timetable.naming import at_place, load, place, shelf_of
from core.timetable.sweep import Crowd, Held, crowds
from core.timetable.timetable import Placed


class Party(NamedTuple):
    """Who takes how much of a station: a step, or what waits between two steps."""

    steps: tuple[StepId, ...]
    waits: bool
    amount: int


def place_clashes(book: Book, steps: Iterable[StepId]) -> Iterator[Clash]:
    """Find wrong, missing and superfluous places of these steps and of the food that waits beside them."""
    among = set(steps)
    for step in among & book.loads.keys():
        loads = book.loads[step]
        for placed in loads:
            for fault in book.fit(placed).faults:
                start, end = sorted((placed.start, placed.end))
                name = load(book.facts, step, placed.load)
                yield _misfit(book, name, fault, (start, end), (step,))
            if placed is not loads[0]:
                yield from _moved(book, loads[0], placed)
    for waiting in book.waits:
        if not among.isdisjoint(waiting.steps):
            yield from _wait(book, waiting)
    for stay, oddity in book.odd_stays:
        both = tuple(dict.fromkeys(step for step in (stay.before, stay.after) if step is not None))
        if not among.isdisjoint(both):
            start, end = sorted((stay.start, stay.end))
            again = oddity is Oddity.TWICE
            sentence = sentences.stay_not_needed(book.facts, stay.before, (start, end), again)
            yield Clash(ClashKind.WRONG_PLACE, sentence, start, end, both)


def station_clashes(book: Book, stations: Collection[StationId]) -> Iterator[Clash]:
    """Find stations that are over-full or not there while something stands on them."""
    for station in book.facts.plan.kitchen.stations:
        things = book.things(station.id) if station.id in stations else []
        if things:
            yield from _closed(book, station, things)
            yield from _shelves(book, station, things) if station.shelves else _units(book, station, things)


def _moved(book: Book, first: Placed, placed: Placed) -> Iterator[Clash]:
    """Judge that all loads of a step stand on the stations of the first."""
    here, there = (sorted({spot.station for spot in one.spots}) for one in (placed, first))
    if here != there and here and there:
        places = tuple(" and ".join(at_place(book.facts, each) for each in some) for some in (here, there))
        name = load(book.facts, placed.step, placed.load)
        sentence = sentences.moved_load(name, (places[0], places[1]))
        start, end = sorted((placed.start, placed.end))
        stations = tuple(dict.fromkeys([*here, *there]))
        yield Clash(ClashKind.WRONG_PLACE, sentence, start, end, (placed.step,), stations)


def _wait(book: Book, waiting: Waiting) -> Iterator[Clash]:
    """Judge that a wait has its stay, of the same minutes, in a fitting place."""
    facts, stay, true = book.facts, waiting.stay, (waiting.start, waiting.end)
    if stay is None:
        if waiting.end > waiting.start:
            name = load(facts, waiting.before, waiting.load)
            sentence = sentences.no_stay(facts, name, waiting.use, true)
            yield Clash(ClashKind.MISSING, sentence, *true, waiting.steps)
        return
    given = (stay.start, stay.end)
    if given != true and max(stay.end - stay.start, waiting.end - waiting.start) > 0:
        sentence = sentences.stay_length(facts, waiting.before, given, true)
        by = abs(stay.start - waiting.start) + abs(stay.end - waiting.end)
        yield Clash(ClashKind.LENGTH, sentence, min(*given, *true), max(*given, *true), waiting.steps, by=by)
    if waiting.end > waiting.start:
        for fault in book.fit_stay(waiting, stay).faults:
            name = load(facts, waiting.before, waiting.load)
            yield _misfit(book, f"what waits after {name}", fault, true, waiting.steps)


def _misfit(book: Book, name: str, fault: Fault, when: tuple[int, int], steps: tuple[StepId, ...]) -> Clash:
    stations = () if fault.spot is None else (fault.spot.station,)
    sentence = _misfit_sentence(book, name, fault)
    return Clash(ClashKind.WRONG_PLACE, sentence, *when, steps, stations, by=fault.by)


def _misfit_sentence(book: Book, name: str, fault: Fault) -> str:
    facts, use, spot = book.facts, fault.use, fault.spot
    if spot is None:
        assert use is not None  # a fault has one of the two
        return sentences.no_place(facts, name, use)
    if use is None:
        return sentences.not_needed(facts, name, spot)
    if fault.misfit is Misfit.UNKNOWN_STATION:
        return sentences.no_station(facts, name, spot)
    if fault.misfit is Misfit.OTHER_STATION:
        return sentences.other_station(facts, name, use, spot)
    if fault.misfit is Misfit.UNITS:
        return sentences.wrong_units(name, use, fault.taken)
    if fault.misfit is Misfit.NO_SHELF or spot.shelf is None:
        return sentences.no_shelf(facts, name, spot)
    station = facts.plan.kitchen.station[spot.station]
    if fault.misfit is Misfit.TOO_HIGH:
        return sentences.too_high(facts, name, use, station, spot.shelf)
    return sentences.raw_above(facts, name, station, spot.shelf)


def _closed(book: Book, station: Station, things: list[Thing]) -> Iterator[Clash]:
    if not station.hours:
        return
    low, high = min(thing.start for thing in things), max(thing.end for thing in things)
    closed = book.facts.closed(station, low, high)
    for thing in things:
        for begin, until in closed:
            start, end = max(begin, thing.start), min(until, thing.end)
            if start < end:
                sentence = sentences.closed(book.facts, _name(book, thing), station.id, (start, end))
                yield Clash(
                    ClashKind.WRONG_PLACE, sentence, start, end, thing.steps, (station.id,), by=end - start
                )


def _units(book: Book, station: Station, things: list[Thing]) -> Iterator[Clash]:
    if station.kind is StationKind.ROOM and station.units <= 0:
        return
    held = [_held(thing, thing.spot.units) for thing in things]
    for crowd in crowds(held, station.units, _rank):
        when, parties = (crowd.start, crowd.end), _parties(book, crowd)
        sentence = sentences.over_full(book.facts, station, when, parties)
        yield _over_full(station, crowd, sentence, crowd.amount - station.units)


def _shelves(book: Book, station: Station, things: list[Thing]) -> Iterator[Clash]:
    """Judge each shelf; and all together, since then no other order of the shelves would help."""
    facts = book.facts
    for index, shelf in enumerate(station.shelves):
        held = [_held(thing, thing.use.area) for thing in things if thing.spot.shelf == index]
        for crowd in crowds(held, shelf.area, _rank):
            when, parties = (crowd.start, crowd.end), _parties(book, crowd)
            where = shelf_of(facts, station, index)
            sentence = sentences.shelf_full(facts, where, shelf.area, when, parties)
            yield _over_full(station, crowd, sentence, crowd.amount - shelf.area)
    if len(station.shelves) < 2:
        return
    area = sum(shelf.area for shelf in station.shelves)
    for crowd in crowds([_held(thing, thing.use.area) for thing in things], area, _rank):
        when, parties = (crowd.start, crowd.end), _parties(book, crowd)
        where = f"all of {place(facts, station.id)}"
        sentence = sentences.shelf_full(facts, where, area, when, parties)
        yield _over_full(station, crowd, sentence, crowd.amount - area)


def _rank(party: Party) -> Party:
    return party


def _held(thing: Thing, amount: int) -> Held[Party]:
    return Held(thing.start, thing.end, amount, Party(thing.steps, thing.waiting is not None, amount))


def _over_full(station: Station, crowd: Crowd[Party], sentence: str, by: int) -> Clash:
    steps = tuple(dict.fromkeys(step for party in crowd.what for step in party.steps))
    return Clash(ClashKind.OVER_FULL, sentence, crowd.start, crowd.end, steps, (station.id,), by=by)


def _parties(book: Book, crowd: Crowd[Party]) -> list[tuple[str, int]]:
    return [
        (f"{book.facts.words.step(party.steps[0])}{' (waiting)' if party.waits else ''}", party.amount)
        for party in crowd.what
    ]


def _name(book: Book, thing: Thing) -> str:
    name = load(book.facts, thing.step, thing.load)
    return name if thing.waiting is None else f"what waits after {name}"
