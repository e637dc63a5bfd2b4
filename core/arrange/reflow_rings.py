"""Which rings of a station stand under what was seen there: any, as long as nothing shares one."""

from __future__ import annotations

from core.arrange.problem import Problem, Slot
from core.arrange.reflow_seen import Thing
from core.plan.ids import StationId
from core.plan.kitchen import Station


class Rings:
    """Gives rings to things in order of time, the loads of a step the same ones."""

    def __init__(self, problem: Problem) -> None:
        self._problem = problem
        self._given: dict[StationId, dict[Thing, tuple[Slot, ...]] | None] = {}

    def of(self, station: Station, there: list[Thing], thing: Thing) -> tuple[Slot, ...] | None:
        """Return the rings of one of the things on a station; None where they cannot be told apart so."""
        if station.id not in self._given:
            self._given[station.id] = self._all(station, there)
        given = self._given[station.id]
        return None if given is None else given[thing]

    def _all(self, station: Station, there: list[Thing]) -> dict[Thing, tuple[Slot, ...]] | None:
        tasks = [(thing.task, thing.use) for thing in there if thing.task is not None]
        if len(set(tasks)) < len(tasks):
            return None
        until = [-(10**9)] * station.units
        given: dict[Thing, tuple[Slot, ...]] = {}
        of_step: dict[object, tuple[Slot, ...]] = {}
        for thing in there:
            loads = self._loads(thing)
            if loads in of_step:
                given[thing] = of_step[loads]
                continue
            end = max(each.end for each in there if self._loads(each) == loads)
            units = sum(spot.units for spot in thing.spots if spot.station == station.id)
            free = [ring for ring, busy in enumerate(until) if busy <= thing.start]
            if len(free) < units:
                return None
            for ring in free[:units]:
                until[ring] = end
            given[thing] = of_step[loads] = tuple((station.id, -1 - ring) for ring in free[:units])
        return given

    def _loads(self, thing: Thing) -> object:
        """Return what the loads of one step, and each wait, have in common."""
        if thing.task is None:
            return thing.wait
        return (self._problem.tasks[thing.task].step.id, thing.use)
