"""Who claims which share of which station: tasks at work and food that waits."""

from __future__ import annotations

from dataclasses import dataclass

from core.arrange.problem import BarredUse, Problem, Slot
from core.plan.kitchen import COLD, HEATED, Station, StationKind
from core.plan.step import Use

Key = tuple[int | None, int | None, int, int]

_ONE_PLACE = HEATED | COLD | {StationKind.ROOM, StationKind.MACHINE}


@dataclass(frozen=True, slots=True)
class Claim:
    """A use by a task (`task`) or by waiting food (`wait`), with the slots it may take.

    `many`: its units are spread over as many stations (two burners). `way`: only where the task is done that way.
    """

    use: Use
    number: int
    task: int | None
    wait: int | None
    slots: tuple[Slot, ...]
    many: bool = False
    way: int = 0

    @property
    def waiting(self) -> int:
        """Return the number of the wait; for claims of waiting food only."""
        if self.wait is None:
            raise ValueError("this claim is a task's")
        return self.wait

    @property
    def of_task(self) -> int:
        """Return the number of the task; for claims of tasks only."""
        if self.task is None:
            raise ValueError("this claim is of waiting food")
        return self.task

    @property
    def name(self) -> str:
        """Return a name for variables."""
        owner = f"w{self.wait}" if self.task is None else f"k{self.task}"
        return f"{owner}u{self.number}" + (f"y{self.way}" if self.way else "")

    @property
    def key(self) -> Key:
        """Return what spots are kept by: task, wait, way and number of the use."""
        return (self.task, self.wait, self.way, self.number)


def claims_of(problem: Problem) -> list[Claim]:
    """Return all claims, tasks first, in the menu's order."""
    found: list[Claim] = []
    for task in problem.tasks:
        for way in task.ways:
            for number, use in enumerate(way.uses):
                slots = _stood(problem, task.index, slots_for(problem, use))
                if slots or use.kind is not StationKind.ROOM:
                    slots = problem.kept_slots.get((task.index, None, way.number, number), slots)
                    many = _many(problem, use)
                    found.append(Claim(use, number, task.index, None, slots, many, way.number))
    for index, wait in enumerate(problem.waits):
        if wait.use is not None:
            slots = slots_for(problem, wait.use)
            if slots or wait.use.kind is not StationKind.ROOM:
                slots = problem.kept_slots.get((None, index, 0, 0), slots)
                found.append(Claim(wait.use, 0, None, index, slots, _many(problem, wait.use)))
    return found


def _stood(problem: Problem, task: int, slots: tuple[Slot, ...]) -> tuple[Slot, ...]:
    """Return where a task that has begun stands, as far as that is known."""
    placed = problem.stood.get(task)
    if placed is None:
        return slots
    there = {(spot.station, spot.shelf) for spot in placed.spots}
    stations = {station for station, _shelf in there}
    rings = {slot for slot in slots if slot[1] is not None and slot[1] < 0 and slot[0] in stations}
    kept = tuple(slot for slot in slots if slot in there or slot in rings)
    return kept or slots


def slots_for(problem: Problem, use: Use) -> tuple[Slot, ...]:
    """Return where a use fits by kind, name, units, heat, height, rawness and the vessel."""
    stations = [each for each in problem.plan.kitchen.of_kind(use.kind) if use.station in (None, each.id)]
    if isinstance(use, BarredUse):
        stations = [each for each in stations if each.id not in use.barred]
    found: list[Slot] = []
    for station in stations:
        if station.shelves:
            found += [(station.id, shelf) for shelf in _shelves(station, use)]
        elif use.kind is StationKind.BURNER and station.units > 1:
            found += [(station.id, -1 - ring) for ring in range(station.units)]
        elif _roomy(problem, station, use) and _hot_enough(station, use):
            found.append((station.id, None))
    return tuple(found)


def _roomy(problem: Problem, station: Station, use: Use) -> bool:
    """Tell whether a station has the units; a room of none has as much as one likes."""
    endless = use.kind is StationKind.ROOM and station.units == 0
    return endless or station.units >= use.units or _many(problem, use)


def _many(problem: Problem, use: Use) -> bool:
    """Tell whether a use takes several stations of one unit each."""
    singles = use.kind is StationKind.BURNER or all(
        each.units == 1 and not each.shelves for each in problem.plan.kitchen.of_kind(use.kind)
    )
    return use.units > 1 and singles and use.kind not in _ONE_PLACE


def _shelves(station: Station, use: Use) -> list[int]:
    if use.raw:
        lowest = station.shelves[0]
        return [0] if use.area <= lowest.area and use.height <= lowest.height else []
    return [
        number
        for number, shelf in enumerate(station.shelves)
        if use.area <= shelf.area and use.height <= shelf.height
    ]


def _hot_enough(station: Station, use: Use) -> bool:
    if use.heat is None or station.heater is None:
        return True
    return station.heater.lowest <= use.heat.high and use.heat.low <= station.heater.highest


def loaded_kinds(problem: Problem) -> frozenset[StationKind]:
    """Return kinds of stations at which some step stands load by load.

    A pool keeps such a step's place from its first load to its last, pauses included; where nothing fits so,
    stations of these kinds are named inside the model.
    """
    return frozenset(use.kind for task in problem.tasks if task.loads > 1 for use in task.uses)


def _goes_on(problem: Problem, claim: Claim) -> bool:
    """Tell whether some loads of a claim's step have begun and others not: these follow where those stood."""
    if claim.task is None or problem.tasks[claim.task].loads == 1:
        return False
    return any(problem.tasks[load].fact for load in problem.loads[problem.tasks[claim.task].step.id])


def pooled_kinds(
    problem: Problem, claims: list[Claim], explicit: frozenset[StationKind]
) -> frozenset[StationKind]:
    """Return kinds whose stations are all alike and unnamed, so that only their number counts.

    Names are given afterwards: intervals that never exceed the number can always be given stations.
    """
    found = set()
    for kind in {claim.use.kind for claim in claims} - explicit:
        stations = problem.plan.kitchen.of_kind(kind)
        alike = all(
            each.units == 1
            and each.heater is None
            and not each.shelves
            and not each.hours
            and not each.is_fire
            and each.place == stations[0].place
            and not any(each in pair for pair in problem.plan.kitchen.apart)
            for each in stations
        )
        free = all(len(claim.slots) == len(stations) for claim in claims if claim.use.kind is kind)
        free = free and not any(
            fixed.station in {each.id for each in stations} for fixed in problem.fixed.values()
        )
        free = free and not any(
            claim.task is not None and len(problem.tasks[claim.task].ways) > 1
            for claim in claims
            if claim.use.kind is kind
        )
        free = free and not any(_goes_on(problem, claim) for claim in claims if claim.use.kind is kind)
        if alike and free and len(stations) > 1 and kind not in _ONE_PLACE:
            found.add(kind)
    return frozenset(found)
