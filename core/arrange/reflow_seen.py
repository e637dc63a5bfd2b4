"""A timetable seen, read against its problem: what stands where from when to when, and who is busy when."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

from core.arrange.problem import Arc, Problem, Slot, Stretch, Waiting
from core.plan.ids import CookId, StationId
from core.plan.kitchen import HEATED, Station
from core.plan.menu import LinkKind
from core.plan.step import Use
from core.timetable.book import Book
from core.timetable.facts import Facts
from core.timetable.fires import hand_minutes
from core.timetable.timetable import Heating, Placed, Spot, Timetable


@dataclass(frozen=True, slots=True)
class Thing:
    """A use with its spots and its minutes: by a task, or by food of a wait (one of both is None)."""

    task: int | None
    wait: int | None
    use: Use
    spots: tuple[Spot, ...]
    start: int
    end: int


@dataclass(frozen=True, slots=True)
class Session:
    """A heated station from its first bake until it is cold again: first start, last end, what is baked."""

    start: int
    end: int
    things: tuple[Thing, ...]


class Seen:
    """Answers about one timetable of one problem; each is worked out when first asked for."""

    def __init__(self, problem: Problem, facts: Facts, timetable: Timetable) -> None:
        self.problem = problem
        self.timetable = timetable
        self.book = Book(facts, timetable)
        self.starts = problem.starts_in(timetable)

    def placed(self, index: int) -> Placed:
        """Return a task as it was placed."""
        return self.timetable.at[self.problem.tasks[index].key]

    @cached_property
    def arcs(self) -> dict[int, list[Arc]]:
        """The arcs at each task."""
        found: dict[int, list[Arc]] = {}
        for arc in self.problem.arcs:
            found.setdefault(arc.before, []).append(arc)
            if arc.after != arc.before:
                found.setdefault(arc.after, []).append(arc)
        return found

    @cached_property
    def waits(self) -> dict[int, list[int]]:
        """The numbers of the waits at each task."""
        found: dict[int, list[int]] = {}
        for number, wait in enumerate(self.problem.waits):
            for owner in owners(wait):
                found.setdefault(owner, []).append(number)
        return found

    @cached_property
    def things(self) -> dict[StationId, list[Thing]]:
        """What stands on each station in order of time; what stands on several is named at each."""
        found: dict[StationId, list[Thing]] = {}
        for thing in self._all:
            for station in dict.fromkeys(spot.station for spot in thing.spots):
                found.setdefault(station, []).append(thing)
        return found

    @cached_property
    def of_task(self) -> dict[int, list[Thing]]:
        """Where each task stands."""
        found: dict[int, list[Thing]] = {}
        for thing in self._all:
            if thing.task is not None:
                found.setdefault(thing.task, []).append(thing)
        return found

    @cached_property
    def of_wait(self) -> dict[int, list[Thing]]:
        """Where food waits, by the number of the wait."""
        return {thing.wait: [thing] for thing in self._all if thing.wait is not None}

    @cached_property
    def _all(self) -> list[Thing]:
        return sorted((*self._of_tasks(), *self._of_waits()), key=lambda each: (each.start, each.end))

    def _of_tasks(self) -> Iterator[Thing]:
        for index in self.starts:
            placed = self.placed(index)
            pairs = list(self.book.fit(placed).pairs) if placed.length > 0 else []
            while pairs:
                use, spot = pairs.pop(0)
                spots, units = [spot], spot.units
                while pairs and pairs[0][0] is use and units < use.units:
                    spots.append(pairs.pop(0)[1])
                    units += spots[-1].units
                yield Thing(index, None, use, tuple(spots), placed.start, placed.end)

    def _of_waits(self) -> Iterator[Thing]:
        numbers = {
            (wait.before, wait.after): number
            for number, wait in enumerate(self.problem.waits)
            if wait.use is not None and wait.kind is LinkKind.END_TO_START
        }
        for waiting in self.book.waits:
            if waiting.stay is None or waiting.end <= waiting.start:
                continue
            after = None
            if waiting.after is not None:
                loads = self.problem.loads[waiting.after]
                paired = len(loads) == len(self.problem.loads[waiting.before]) > 1
                after = self.problem.index.get((waiting.after, waiting.load)) if paired else loads[-1]
            before = self.problem.index.get((waiting.before, waiting.load))
            number = numbers.get((-1 if before is None else before, after))
            if number is not None:
                spots = waiting.stay.spots
                yield Thing(None, number, waiting.use, spots, waiting.start, waiting.end)

    @cached_property
    def sessions(self) -> dict[StationId, list[Session]]:
        """The sessions of each station that is heated from cold, in order of time."""
        found: dict[StationId, list[Session]] = {}
        for station in self.problem.plan.kitchen.stations:
            if station.heater is None or station.kind not in HEATED:
                continue
            own: list[list[Thing]] = []
            out = 0
            for thing in self.things.get(station.id, ()):
                if thing.use.heat is None:
                    continue
                if own and thing.start <= out + station.heater.keep_on:
                    own[-1].append(thing)
                    out = max(out, thing.end)
                else:
                    own.append([thing])
                    out = thing.end
            found[station.id] = [
                Session(each[0].start, max(thing.end for thing in each), tuple(each)) for each in own
            ]
        return found

    def session_of(self, heating: Heating) -> Session | None:
        """Return the session that a heating begins: the first after it, None where nothing follows."""
        later = [each for each in self.sessions.get(heating.station, ()) if each.start >= heating.end]
        return min(later, key=lambda each: each.start, default=None)

    def busy(self, moving: set[int]) -> Iterator[tuple[CookId, Stretch]]:
        """Return when each cook is at a task that does not move."""
        keys = {self.problem.tasks[index].key for index in moving}
        for placed in self.timetable.placed:
            if placed.key not in keys:
                for hand in placed.hands:
                    if hand.cook is not None:
                        yield hand.cook, (hand.start, hand.start + hand.minutes)

    def switching(self, heating: Heating) -> Iterator[tuple[CookId, Stretch]]:
        """Return who is busy with a heating or a fire, and when."""
        station = self.problem.plan.kitchen.station.get(heating.station)
        if heating.cook is not None:
            yield heating.cook, (heating.start, heating.start + hand_minutes(station, heating))


def owners(wait: Waiting) -> tuple[int, ...]:
    """Return the tasks on both sides of a wait."""
    return (wait.before,) if wait.after is None else (wait.before, wait.after)


def slots_of(station: Station, spots: tuple[Spot, ...]) -> tuple[Slot, ...] | None:
    """Return the slots of spots on a station without rings; None where a shelf is not said."""
    here = [spot for spot in spots if spot.station == station.id]
    if station.shelves:
        if any(spot.shelf is None for spot in here):
            return None
        return tuple((spot.station, spot.shelf) for spot in here)
    return tuple((spot.station, None) for spot in here)

