"""Places: everything stands where it may, and there is room for it. Units, shelves, hours, stays.

A station that is not there cannot be heated or lit either. What has gone by is not judged.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator
from typing import NamedTuple

from core.plan.calendar import Stretch
from core.plan.ids import StationId, StepId
from core.plan.kitchen import Station, StationKind
from core.timetable import sentences_places as sentences
from core.timetable.book import Book, Oddity, Thing, Waiting
from core.timetable.clash import Clash, ClashKind
from core.timetable.fires import lights, served_by
from core.timetable.fitting import Fault, Misfit
from core.timetable.naming import at_place, load, place, shelf_of, thing_name
from core.timetable.sweep import Crowd, Held, crowds
from core.timetable.timetable import Placed


class Party(NamedTuple):
    """Who takes how much of a station: a step, or what waits between two steps."""

    steps: tuple[StepId, ...]
    waits: bool
    amount: int


def place_clashes(book: Book, steps: Iterable[StepId]) -> Iterator[Clash]:
    """Find wrong, missing and superfluous places of these steps and of the food that waits beside them."""
    among, now = set(steps), book.facts.now
    for step in among & book.loads.keys():
        loads = book.loads[step]
        for placed in loads:
            start, end = sorted((placed.start, placed.end))
            if end <= now:
                continue
            for fault in book.fit(placed).faults:
                name = load(book.facts, step, placed.load)
                yield _misfit(book, name, fault, (start, end), (step,))
            if placed is not loads[0]:
                yield from _moved(book, loads[0], placed)
    for waiting in book.waits:
        if not among.isdisjoint(waiting.steps):
            yield from _wait(book, waiting)
    for stay, oddity in book.odd_stays:
        both = tuple(dict.fromkeys(step for step in (stay.before, stay.after) if step is not None))
        start, end = sorted((stay.start, stay.end))
        if not among.isdisjoint(both) and end > now:
            again = oddity is Oddity.TWICE
            sentence = sentences.stay_not_needed(book.facts, stay.before, (start, end), again)
            yield Clash(ClashKind.WRONG_PLACE, sentence, start, end, both)


def station_clashes(
    book: Book, stations: Collection[StationId], among: frozenset[StepId] | None = None
) -> Iterator[Clash]:
    """Find stations that are over-full or not there while something stands on them.

    With `among`, crowds in which none of these steps stands may be left out.
    """
    for station in book.facts.plan.kitchen.stations:
        things = book.things(station.id) if station.id in stations else []
        if station.hours and station.id in stations:
            yield from _closed(book, station, things)
        if things:
            judge = _shelves if station.shelves else _units
            yield from judge(book, station, things, among)


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
    facts, stay = book.facts, waiting.stay
    true = (max(waiting.start, facts.now), waiting.end)
    if stay is None:
        if true[1] > true[0]:
            name = load(facts, waiting.before, waiting.load)
            sentence = sentences.no_stay(facts, name, waiting.use, true)
            yield Clash(ClashKind.MISSING, sentence, *true, waiting.steps)
        return
    given = (max(stay.start, facts.now), stay.end)
    if given != true and max(given[1] - given[0], true[1] - true[0]) > 0:
        sentence = sentences.stay_length(facts, waiting.before, given, true)
        by = abs(given[0] - true[0]) + abs(given[1] - true[1])
        yield Clash(ClashKind.LENGTH, sentence, min(*given, *true), max(*given, *true), waiting.steps, by=by)
    if true[1] > true[0]:
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
    """Judge that a station is there while anything stands on it, and while it is heated or lit."""
    facts = book.facts
    found = [(thing.start, thing.end, thing.steps, thing) for thing in things]
    warm = [
        (each.start, each.end, each) for each in book.heatings_at.get(station.id, ()) if each.start < each.end
    ]
    if not found and not warm:
        return
    times = [each[:2] for each in found] + [each[:2] for each in warm]
    closed = facts.closed(station, min(start for start, _end in times), max(end for _start, end in times))
    for start, end, steps, thing in found:
        for when in _both(closed, start, end, facts.now):
            name = thing_name(facts, thing.step, thing.load, thing.waiting is not None)
            yield _not_there(station, sentences.closed(facts, name, station.id, when), when, steps)
    for start, end, heating in warm:
        for when in _both(closed, start, end, facts.now):
            sentence = sentences.heated_closed(facts, station.id, when, lights(station, heating))
            yield _not_there(station, sentence, when, served_by(book, heating))


def _both(closed: tuple[Stretch, ...], start: int, end: int, now: int) -> Iterator[Stretch]:
    """Return the minutes from now on, between two others, in which a station is not there."""
    for begin, until in closed:
        low, high = max(begin, start, now), min(until, end)
        if low < high:
            yield low, high


def _not_there(station: Station, sentence: str, when: Stretch, steps: tuple[StepId, ...]) -> Clash:
    return Clash(ClashKind.WRONG_PLACE, sentence, *when, steps, (station.id,), by=when[1] - when[0])


def _concern(crowd: Crowd[Party], among: frozenset[StepId] | None) -> bool:
    """Tell whether any of the steps looked at stands in a crowd."""
    return among is None or any(not among.isdisjoint(party.steps) for party in crowd.what)


def _units(
    book: Book, station: Station, things: list[Thing], among: frozenset[StepId] | None
) -> Iterator[Clash]:
    if station.kind is StationKind.ROOM and station.units <= 0:
        return
    held = [_held(thing, thing.spot.units, book.facts.now) for thing in things]
    for crowd in crowds(held, station.units, _rank):
        if not _concern(crowd, among):
            continue
        when, parties = (crowd.start, crowd.end), _parties(book, crowd)
        sentence = sentences.over_full(book.facts, station, when, parties)
        yield _over_full(station, crowd, sentence, crowd.amount - station.units)


def _shelves(
    book: Book, station: Station, things: list[Thing], among: frozenset[StepId] | None
) -> Iterator[Clash]:
    """Judge each shelf; and all together, since then no other order of the shelves would help."""
    facts = book.facts
    for index, shelf in enumerate(station.shelves):
        held = [_held(thing, thing.use.area, facts.now) for thing in things if thing.spot.shelf == index]
        for crowd in crowds(held, shelf.area, _rank):
            if not _concern(crowd, among):
                continue
            when, parties = (crowd.start, crowd.end), _parties(book, crowd)
            where = shelf_of(facts, station, index)
            sentence = sentences.shelf_full(facts, where, shelf.area, when, parties)
            yield _over_full(station, crowd, sentence, crowd.amount - shelf.area)
    if len(station.shelves) < 2:
        return
    area = sum(shelf.area for shelf in station.shelves)
    for crowd in crowds([_held(thing, thing.use.area, facts.now) for thing in things], area, _rank):
        if not _concern(crowd, among):
            continue
        when, parties = (crowd.start, crowd.end), _parties(book, crowd)
        where = f"all of {place(facts, station.id)}"
        sentence = sentences.shelf_full(facts, where, area, when, parties)
        yield _over_full(station, crowd, sentence, crowd.amount - area)


def _rank(party: Party) -> Party:
    return party


def _held(thing: Thing, amount: int, now: int) -> Held[Party]:
    return Held(
        max(thing.start, now), thing.end, amount, Party(thing.steps, thing.waiting is not None, amount)
    )


def _over_full(station: Station, crowd: Crowd[Party], sentence: str, by: int) -> Clash:
    steps = tuple(dict.fromkeys(step for party in crowd.what for step in party.steps))
    return Clash(ClashKind.OVER_FULL, sentence, crowd.start, crowd.end, steps, (station.id,), by=by)


def _parties(book: Book, crowd: Crowd[Party]) -> list[tuple[str, int]]:
    return [
        (f"{book.facts.words.step(party.steps[0])}{' (waiting)' if party.waits else ''}", party.amount)
        for party in crowd.what
    ]
