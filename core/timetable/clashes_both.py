"""Stations of one appliance: never used or heated in the same minute."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from typing import NamedTuple

from core.plan.calendar import Stretch, merged
from core.plan.ids import StationId, StepId
from core.plan.kitchen import Station
from core.timetable import sentences_fire as sentences
from core.timetable.book import Book
from core.timetable.clash import Clash, ClashKind
from core.timetable.facts import FAR
from core.timetable.fires import lights, served_by
from core.timetable.naming import thing_name


class Busy(NamedTuple):
    """What a station is taken by during [start, end), in words, and the steps it is for."""

    start: int
    end: int
    name: str
    steps: tuple[StepId, ...]


def both_clashes(book: Book, stations: Collection[StationId]) -> Iterator[Clash]:
    """Find stations in use or heated at once that must not be; with each of these stations."""
    for pair in book.facts.plan.kitchen.apart:
        if pair[0].id in stations or pair[1].id in stations:
            yield from _at_once(book, pair)


def _at_once(book: Book, pair: tuple[Station, Station]) -> Iterator[Clash]:
    here, there = _busy(book, pair[0]), _busy(book, pair[1])
    if not here or not there:
        return
    for start, end in _common(_stretches(book, here), _stretches(book, there)):
        some = [[each for each in busy if each.start < end and start < each.end] for busy in (here, there)]
        names = (list(dict.fromkeys(each.name for each in busy)) for busy in some)
        sentence = sentences.not_both(book.facts, pair, (next(names), next(names)), (start, end))
        steps = tuple(dict.fromkeys(step for busy in some for each in busy for step in each.steps))
        both = (pair[0].id, pair[1].id)
        yield Clash(ClashKind.NOT_BOTH, sentence, start, end, steps, both, by=end - start)


def _busy(book: Book, station: Station) -> list[Busy]:
    """Return what a station is used by and heated for, in order of time."""
    found = [
        Busy(
            thing.start,
            thing.end,
            thing_name(book.facts, thing.step, thing.load, thing.waiting is not None),
            thing.steps,
        )
        for thing in book.things(station.id)
    ]
    found += (
        Busy(
            heating.start,
            heating.end,
            "to be lit" if lights(station, heating) else "to heat up",
            served_by(book, heating),
        )
        for heating in book.heatings_at.get(station.id, ())
        if heating.start < heating.end
    )
    return sorted(found)


def _stretches(book: Book, busy: list[Busy]) -> tuple[Stretch, ...]:
    return merged([(each.start, each.end) for each in busy], max(book.facts.now, -FAR), FAR)


def _common(some: tuple[Stretch, ...], others: tuple[Stretch, ...]) -> Iterator[Stretch]:
    """Return the minutes that lie in both, as stretches; each of the two is in order and apart."""
    one = other = 0
    while one < len(some) and other < len(others):
        start, end = max(some[one][0], others[other][0]), min(some[one][1], others[other][1])
        if start < end:
            yield start, end
        if some[one][1] <= others[other][1]:
            one += 1
        else:
            other += 1
