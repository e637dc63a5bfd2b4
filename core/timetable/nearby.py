"""The part of a timetable that a few steps meet: enough to judge them as the whole would, and far less to read.

The validator reads only what it is given. What it finds of these steps in their surroundings is what it finds of
them in the whole timetable (tests/core/timetable/test_nearby.py, tests/promises/test_nearby.py).
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterable, Mapping
from collections.abc import Set as AbstractSet
from typing import NamedTuple, TypeVar

from core.plan.ids import CookId, StationId, StepId, VesselId
from core.plan.plan import Plan
from core.timetable.facts import Facts
from core.timetable.fires import hand_minutes
from core.timetable.timetable import Heating, Placed, Stay, Timetable, Washing

Key = tuple[StepId, int]
T = TypeVar("T")


class Moved(NamedTuple):
    """What stands otherwise than on the timetable looked at: loads by key; stays, heatings and washings by number."""

    placed: Mapping[Key, Placed]
    stays: Mapping[int, Stay | None]
    heatings: Mapping[StationId, tuple[Heating, ...]]
    washings: Mapping[int, Washing]

    def onto(self, timetable: Timetable) -> Timetable:
        """Return the whole timetable with all of it."""
        placed = timetable.placed
        if self.placed:
            placed = tuple(self.placed.get(each.key, each) for each in placed)
        stays = timetable.stays
        if self.stays:
            there = (self.stays.get(number, stay) for number, stay in enumerate(stays))
            stays = tuple(stay for stay in there if stay is not None)
        heatings = timetable.heatings
        if self.heatings:
            heatings = tuple(each for each in heatings if each.station not in self.heatings)
            heatings += tuple(each for own in self.heatings.values() for each in own)
        washings = timetable.washings
        if self.washings:
            washings = tuple(self.washings.get(number, each) for number, each in enumerate(washings))
        return Timetable(placed, stays, heatings, washings)


class _Work(NamedTuple):
    """From when to when a cook's work at the steps looked at lies, the walk to both sides included."""

    start: int
    end: int


class Nearby:
    """Finds the surroundings of steps on one timetable of one plan. Made once; asking costs what it returns."""

    def __init__(self, plan: Plan, timetable: Timetable, facts: Facts | None = None) -> None:
        self._facts = Facts(plan) if facts is None else facts
        self._plan = plan
        self._timetable = timetable
        self._numbers: dict[StepId, list[int]] = {}
        self._on: dict[StationId, set[StepId]] = {}
        self._stays_on: dict[StationId, list[int]] = {}
        self.stays_of: dict[StepId, list[int]] = {}
        self.washings_of: dict[StepId, list[int]] = {}
        self._washings_by: dict[CookId, list[int]] = {}
        self._washings_in: dict[VesselId, list[int]] = {}
        self.heatings_on: dict[StationId, list[Heating]] = {}
        hands: dict[CookId, list[tuple[int, int, StepId]]] = {}
        for number, placed in enumerate(timetable.placed):
            self._numbers.setdefault(placed.step, []).append(number)
            for spot in placed.spots:
                self._on.setdefault(spot.station, set()).add(placed.step)
            for hand in placed.hands:
                if hand.cook is not None:
                    hands.setdefault(hand.cook, []).append((hand.start, hand.start + hand.minutes, placed.step))
        self._hands = {cook: sorted(work) for cook, work in hands.items()}
        self._starts = {cook: [each[0] for each in work] for cook, work in self._hands.items()}
        self._longest = {cook: max(each[1] - each[0] for each in work) for cook, work in self._hands.items()}
        for number, stay in enumerate(timetable.stays):
            for spot in stay.spots:
                self._stays_on.setdefault(spot.station, []).append(number)
            for step in {stay.before, stay.after}:
                if step is not None:
                    self.stays_of.setdefault(step, []).append(number)
        self._of_washings()
        for heating in timetable.heatings:
            self.heatings_on.setdefault(heating.station, []).append(heating)
        self._beside = _not_both(plan)
        self._followed = _ordered(plan)

    def _of_washings(self) -> None:
        for number, washing in enumerate(self._timetable.washings):
            run = self._facts.run_of.get((washing.vessel, washing.after))
            for step in (washing.after,) if run is None else run.steps:
                self.washings_of.setdefault(step, []).append(number)
            self._washings_in.setdefault(washing.vessel, []).append(number)
            if washing.cook is not None:
                self._washings_by.setdefault(washing.cook, []).append(number)

    def on(self, station: StationId, moved: Mapping[Key, Placed]) -> list[Placed]:
        """Return the loads on a station when some stand otherwise, in no order."""
        steps = self._on.get(station, set()) | {step for step, _load in moved}
        there = (each for step in steps for each in self.loads(step, moved))
        return [each for each in there if any(spot.station == station for spot in each.spots)]

    def loads(self, step: StepId, moved: Mapping[Key, Placed]) -> list[Placed]:
        """Return all loads of a step as they stand when some stand otherwise, in order of load."""
        placed = self._timetable.placed
        found = [moved.get(placed[number].key, placed[number]) for number in self._numbers.get(step, ())]
        return sorted(found, key=_load) if len(found) > 1 else found

    def at(self, station: StationId, moved: Moved) -> Timetable:
        """Return what stands on a station and what heats it, and nothing else."""
        stays = _there(self._timetable.stays, moved.stays, self._stays_on.get(station, ()))
        steps = {step for stay in stays for step in (stay.before, stay.after) if step is not None}
        beside = [each for step in steps for each in self.loads(step, moved.placed)]
        placed = {each.key: each for each in (*self.on(station, moved.placed), *beside)}
        return Timetable(tuple(placed.values()), tuple(stays), tuple(self._heatings(station, moved)))

    def around(
        self, moved: Moved, steps: AbstractSet[StepId], stations: Iterable[StationId] = ()
    ) -> Timetable:
        """Return what these steps meet once things stand otherwise: their places, vessels, cooks, links.

        All that stands on `stations` is there as well.
        """
        plan, facts = self._plan, self._facts
        loads = [each for step in steps for each in self.loads(step, moved.placed)]
        stays = {number for step in steps for number in self.stays_of.get(step, ())}
        places = {spot.station for each in loads for spot in each.spots} | set(stations)
        places |= {spot.station for number in stays for spot in self._timetable.stays[number].spots}
        places |= {other for station in tuple(places) for other in self._beside.get(station, ())}
        near = set(steps)
        for step in steps:
            near |= {link.before for link in plan.links_to.get(step, ())}
            near |= {link.after for link in plan.links_from.get(step, ())}
            near |= self._followed.get(step, set())
        vessels = {vessel for step in steps for vessel in facts.vessels_of.get(step, ())}
        near |= {step for vessel in vessels for run in facts.runs[vessel] for step in run.steps}
        washings = {number for step in steps for number in self.washings_of.get(step, ())}
        work = self._work(loads, moved, places, washings)
        washings |= {number for vessel in vessels for number in self._washings_in.get(vessel, ())}
        washings |= self._washed_by(work, moved)
        lit, told = self._heated_by(work, moved, places)
        busy = self._at_work(work)
        for station in places | told | self._in_pieces(busy):
            near |= self._on.get(station, set())
            stays |= set(self._stays_on.get(station, ()))
        near |= busy
        near |= {step for step, _load in moved.placed}
        for number in stays:
            stay = self._timetable.stays[number]
            near |= {step for step in (stay.before, stay.after) if step is not None}
        numbers = sorted(number for step in near for number in self._numbers.get(step, ()))
        placed = self._timetable.placed
        return Timetable(
            tuple(moved.placed.get(placed[number].key, placed[number]) for number in numbers),
            tuple(_there(self._timetable.stays, moved.stays, stays)),
            tuple(lit),
            tuple(_there(self._timetable.washings, moved.washings, washings)),
        )

    def _work(
        self, loads: Iterable[Placed], moved: Moved, places: Iterable[StationId], washings: Iterable[int]
    ) -> dict[CookId, _Work]:
        """Return when each cook works at the steps looked at, on their places or their vessels."""
        found: dict[CookId, _Work] = {}
        walk, kitchen = self._facts.walk, self._plan.kitchen

        def note(cook: CookId | None, start: int, end: int) -> None:
            if cook is not None:
                old = found.get(cook, _Work(start - walk, end + walk))
                found[cook] = _Work(min(old.start, start - walk), max(old.end, end + walk))

        for each in loads:
            for hand in each.hands:
                note(hand.cook, hand.start, hand.start + hand.minutes)
        for station in places:
            for heating in self._heatings(station, moved):
                minutes = hand_minutes(kitchen.station.get(station), heating)
                note(heating.cook, heating.start, heating.start + minutes)
        for washing in _there(self._timetable.washings, moved.washings, set(washings)):
            note(washing.cook, washing.start, washing.end)
        return found

    def _heatings(self, station: StationId, moved: Moved) -> Iterable[Heating]:
        own = moved.heatings.get(station)
        return self.heatings_on.get(station, ()) if own is None else own

    def _heated_by(
        self, work: Mapping[CookId, _Work], moved: Moved, places: AbstractSet[StationId]
    ) -> tuple[list[Heating], set[StationId]]:
        """Return heatings of the places and those that take the cooks meanwhile, and where these latter are."""
        found: list[Heating] = []
        elsewhere: set[StationId] = set()
        for station in {**self.heatings_on, **moved.heatings}:
            for heating in self._heatings(station, moved):
                stretch = work.get(heating.cook) if heating.cook is not None else None
                minutes = hand_minutes(self._plan.kitchen.station.get(station), heating)
                busy = stretch is not None and heating.start < stretch.end and heating.start + minutes > stretch.start
                if station in places or busy:
                    found.append(heating)
                if busy:
                    elsewhere.add(station)
        return found, elsewhere

    def _washed_by(self, work: Mapping[CookId, _Work], moved: Moved) -> set[int]:
        found = set()
        for cook, stretch in work.items():
            for number in self._washings_by.get(cook, ()):
                washing = moved.washings.get(number, self._timetable.washings[number])
                if washing.start < stretch.end and washing.end > stretch.start:
                    found.add(number)
        return found

    def _at_work(self, work: Mapping[CookId, _Work]) -> set[StepId]:
        """Return the steps at which these cooks work meanwhile, as far as they stand as they did."""
        found = set()
        for cook, stretch in work.items():
            hands = self._hands.get(cook)
            if hands is None:
                continue
            first = bisect_left(self._starts[cook], stretch.start - self._longest[cook])
            for start, end, step in hands[first:]:
                if start >= stretch.end:
                    break
                if end > stretch.start:
                    found.add(step)
        return found

    def _in_pieces(self, steps: Iterable[StepId]) -> set[StationId]:
        """Return where steps in pieces are done: how long these take may depend on how full it is there."""
        pieces = (step for step in steps if step in self._plan.steps and self._plan.steps[step].least_piece is not None)
        placed = self._timetable.placed
        return {
            spot.station
            for step in pieces
            for number in self._numbers[step]
            for spot in placed[number].spots
        }


def _there(things: tuple[T, ...], moved: Mapping[int, T | None], numbers: Iterable[int]) -> list[T]:
    """Return things by number as they stand, in their order; those that are gone left out."""
    found = (moved.get(number, things[number]) for number in sorted(numbers))
    return [each for each in found if each is not None]


def _load(placed: Placed) -> int:
    return placed.load


def _not_both(plan: Plan) -> dict[StationId, set[StationId]]:
    found: dict[StationId, set[StationId]] = {}
    for station in plan.kitchen.stations:
        for other in station.not_with:
            found.setdefault(station.id, set()).add(other)
            found.setdefault(other, set()).add(station.id)
    return found


def _ordered(plan: Plan) -> dict[StepId, set[StepId]]:
    found: dict[StepId, set[StepId]] = {}
    for order in plan.decisions.orders:
        found.setdefault(order.first, set()).add(order.then)
        found.setdefault(order.then, set()).add(order.first)
    return found
