"""Drags to measure: who follows whom on a timetable, moves drawn by chance, and the timetable after a move."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from random import Random

from core.plan.ids import StationId
from core.plan.network_limits import Follows, Key
from core.timetable.timetable import Placed, Stay, Timetable

FURTHEST = 120
"""Minutes a load is dragged to either side at most."""


def starts_of(timetable: Timetable) -> dict[Key, int]:
    """Return the starts of all loads."""
    return {each.key: each.start for each in timetable.placed}


def lengths_of(timetable: Timetable) -> dict[Key, int]:
    """Return the lengths of all loads as placed."""
    return {each.key: each.length for each in timetable.placed}


def orders_of(timetable: Timetable) -> list[Follows]:
    """Return who comes next on each station after each load that stands there."""
    on: dict[StationId, list[Placed]] = {}
    for placed in timetable.placed:
        for spot in placed.spots:
            on.setdefault(spot.station, []).append(placed)
    found = []
    for there in on.values():
        there.sort(key=lambda each: each.start)
        for number, placed in enumerate(there):
            after = next((each for each in there[number + 1 :] if each.start >= placed.end), None)
            if after is not None and after.step != placed.step:
                found.append(Follows(placed.key, after.key))
    return found


def drags(timetable: Timetable, loads: int, moves: int, seed: int = 1) -> Iterator[tuple[Key, list[int]]]:
    """Give loads drawn by chance, each with the starts the pointer drags it through one after the other."""
    chance = Random(seed)  # noqa: S311  it must be repeatable, not secret
    for placed in chance.sample(timetable.placed, min(loads, len(timetable.placed))):
        furthest = chance.choice((-FURTHEST, FURTHEST))
        yield placed.key, [placed.start + furthest * (move + 1) // moves for move in range(moves)]


def moved(timetable: Timetable, starts: Mapping[Key, int]) -> Timetable:
    """Return the timetable with loads at other starts, their hands and the waits around them with them."""
    placed = tuple(_shifted(each, starts[each.key]) if each.key in starts else each for each in timetable.placed)
    after = replace(timetable, placed=placed)
    steps = {step for step, _load in starts}
    stays = [_redrawn(each, after) if each.before in steps or each.after in steps else each for each in timetable.stays]
    return replace(after, stays=tuple(each for each in stays if each.end > each.start))


def _shifted(placed: Placed, start: int) -> Placed:
    by = start - placed.start
    return replace(placed, start=start, hands=tuple(replace(each, start=each.start + by) for each in placed.hands))


def _redrawn(stay: Stay, timetable: Timetable) -> Stay:
    end = stay.end if stay.after is None else timetable.loads_of[stay.after][-1].start
    return replace(stay, start=timetable.loads_of[stay.before][0].end, end=end)
