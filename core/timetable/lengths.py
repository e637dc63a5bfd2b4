"""How long a load must be where it stands: its way, the setting there, and whether its place is full."""

from __future__ import annotations

from typing import NamedTuple

from core.plan.kitchen import HEATED
from core.plan.meaning import length_when_full
from core.timetable.book import Book
from core.timetable.fullness import Full
from core.timetable.timetable import Placed


class Length(NamedTuple):
    """The minutes that a load needs; the same if its place were not full, and if it were; when it is full."""

    minutes: int
    alone: int
    crowded: int
    full: tuple[Full, ...]


def length_alone(book: Book, placed: Placed) -> int:
    """Return the minutes a load needs where its place is not full."""
    facts = book.facts
    need, stations = facts.need(placed.step, placed.way), facts.plan.kitchen.station
    for use, spot in book.fit(placed).pairs:
        if use.heat is not None and stations[spot.station].kind in HEATED:
            return need.length_at(use.heat, placed.setting)
    return need.length


def length_of(book: Book, placed: Placed) -> Length:
    """Return the minutes a load needs. In several stations that are full the slowest one counts."""
    alone = length_alone(book, placed)
    if not slower_when_full(book, placed):
        return Length(alone, alone, alone, ())
    facts, pairs = book.facts, book.fit(placed).pairs
    longer, crowded, full = alone, alone, []
    for station in dict.fromkeys(spot.station for _use, spot in pairs if spot.station in facts.slower):
        slower = length_when_full(alone, facts.slower[station])
        crowded = max(crowded, slower)
        inside = [each for each in book.full(station) if each.start < placed.end and placed.start < each.end]
        if inside:
            longer = max(longer, slower)
            full += inside
    return Length(longer, alone, crowded, tuple(sorted(full)))


def slower_when_full(book: Book, placed: Placed) -> bool:
    """Return whether a load stands on a station where being full matters."""
    slower = book.facts.slower
    return bool(slower) and any(spot.station in slower for _use, spot in book.fit(placed).pairs)
