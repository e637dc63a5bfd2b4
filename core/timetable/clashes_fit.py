"""Vessels and places: what a step's food is in goes on or into where the step stands.

Of several vessels each must stand in those of the step's places that it goes into at all, and in one at least.
What has gone by is not judged.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from core.plan.ids import StationId, StepId
from core.plan.kitchen import Station, StationKind, Vessel
from core.plan.outline import outline
from core.plan.step import Use
from core.timetable import sentences_vessel as sentences
from core.timetable.book import Book
from core.timetable.clash import Clash, ClashKind
from core.timetable.naming import load
from core.timetable.timetable import Placed

_BEAR_ANY = (StationKind.ROOM, StationKind.MACHINE)


def fit_clashes(book: Book, steps: Iterable[StepId]) -> Iterator[Clash]:
    """Find loads of these steps that stand where a vessel of theirs does not go."""
    kitchen, now = book.facts.plan.kitchen, book.facts.now
    for step in set(steps) & book.loads.keys():
        used = (use.vessel for use in book.facts.need(step).step.vessels)
        vessels = [kitchen.vessel[each] for each in used if each in kitchen.vessel]
        if not any(each.fits or outline(each.size) for each in vessels):
            continue
        for placed in book.loads[step]:
            if max(placed.start, placed.end) > now:
                for vessel in vessels:
                    yield from _of_load(book, placed, vessel)


def _of_load(book: Book, placed: Placed, vessel: Vessel) -> Iterator[Clash]:
    uses = book.facts.need(placed.step, placed.way).uses
    nowhere = not any(_goes(vessel, each) for use in uses for each in _places(book, use))
    told: set[StationId] = set()
    for use, spot in book.fit(placed).pairs:
        station = book.facts.plan.kitchen.station[spot.station]
        if station.id in told or station.kind is not use.kind or _goes(vessel, station):
            continue
        # Where it goes into no place of this share, it stands in another share's: the pan beside the tray.
        if nowhere or any(_goes(vessel, each) for each in _places(book, use)):
            told.add(station.id)
            name = load(book.facts, placed.step, placed.load)
            sentence = sentences.vessel_does_not_fit(book.facts, name, vessel, station)
            start, end = sorted((placed.start, placed.end))
            yield Clash(
                ClashKind.WRONG_PLACE, sentence, start, end, (placed.step,), (station.id,), vessels=(vessel.id,)
            )


def _places(book: Book, use: Use) -> list[Station]:
    stations = book.facts.plan.kitchen.of_kind(use.kind)
    return [each for each in stations if use.station is None or use.station == each.id]


def _goes(vessel: Vessel, station: Station) -> bool:
    """Tell whether a vessel goes there: as it says itself, else by the measures in cm as far as both are told."""
    if station.kind in _BEAR_ANY:
        return True
    if vessel.fits:
        return any(each == station.id for each in vessel.fits)
    size = outline(vessel.size)
    if size is None or not station.wide or not station.deep:
        return True
    long, short = size
    straight = long <= station.wide and short <= station.deep
    turned = long <= station.deep and short <= station.wide
    return straight or turned
