"""Which station, shelf or burner each claim of a solution stands on; pools are named here."""

from __future__ import annotations

from core.arrange.claims import Claim, Key
from core.arrange.found import Found
from core.arrange.model import Model
from core.arrange.problem import Problem, Slot
from core.plan.ids import CookId, StationId
from core.plan.kitchen import StationKind
from core.timetable.timetable import Spot


def spots_of(model: Model, found: Found) -> dict[Key, tuple[Spot, ...]]:
    """Return the spots of every claim that is there."""
    spots: dict[Key, tuple[Spot, ...]] = {}
    for claim, slots in zip(model.standing.claims, found.slots, strict=True):
        if claim.use.kind not in model.standing.pools:
            spots[claim.key] = _spots_at(claim, slots)
    for kind in model.standing.pools:
        spots.update(_Pool(model, found, kind).named())
    return spots


def span_of(model: Model, found: Found, claim: Claim) -> tuple[int, int]:
    """Return when a claim holds its place; in a pool loads keep theirs from the first to the last."""
    problem = model.board.problem
    if claim.task is not None:
        task = problem.tasks[claim.task]
        loads = problem.loads[task.step.id]
        last = loads[-1] if claim.use.kind in model.standing.pools and not task.fact else claim.task
        return found.starts[claim.task], found.ends[last]
    wait = problem.waits[claim.waiting]
    return found.ends[wait.before], found.starts[wait.after] if wait.after is not None else wait.until


class _Pool:
    """Stations that are all alike: whoever comes takes a free one, the former one if it can."""

    def __init__(self, model: Model, found: Found, kind: StationKind) -> None:
        self.problem: Problem = model.board.problem
        self.claims = [each for each in model.standing.claims if each.use.kind is kind]
        self.span = {claim.key: span_of(model, found, claim) for claim in self.claims}
        self.stations = [each.id for each in self.problem.plan.kitchen.of_kind(kind)]
        self.busy: dict[StationId, int] = dict.fromkeys(self.stations, -(10**9))
        self.last_of: dict[int, tuple[StationId, ...]] = {}

    def named(self) -> dict[Key, tuple[Spot, ...]]:
        """Return the spots in order of time."""
        found: dict[Key, tuple[Spot, ...]] = {}
        for claim in sorted(self.claims, key=lambda each: (self.span[each.key], each.name)):
            start, end = self.span[claim.key]
            first = self._first_load(claim)
            if first is not None and (first, None, claim.way, claim.number) in found:
                found[claim.key] = found[first, None, claim.way, claim.number]
            elif end <= start and claim.wait is not None:
                found[claim.key] = ()
            else:
                found[claim.key] = tuple(Spot(each) for each in self._taken(claim, start, end))
        return found

    def _first_load(self, claim: Claim) -> int | None:
        """Return the task whose place a later load keeps."""
        if claim.task is None or self.problem.tasks[claim.task].fact:
            return None
        loads = self.problem.loads[self.problem.tasks[claim.task].step.id]
        waiting = [each for each in loads if not self.problem.tasks[each].fact]
        return None if claim.task == waiting[0] else waiting[0]

    def _taken(self, claim: Claim, start: int, end: int) -> tuple[StationId, ...]:
        stood = self.problem.stood.get(claim.task) if claim.task is not None else None
        liked = [each for owner in self._before(claim) for each in self.last_of.get(owner, ())]
        if stood is not None:
            liked = [spot.station for spot in stood.spots]
        free = [each for each in self.stations if self.busy[each] <= start]
        order = [each for each in liked if each in free] + [each for each in free if each not in liked]
        taken = tuple(dict.fromkeys(order))[: claim.use.units]
        for each in taken:
            self.busy[each] = end
        owner = claim.task if claim.task is not None else self.problem.waits[claim.waiting].before
        self.last_of[owner] = taken
        return taken

    def _before(self, claim: Claim) -> list[int]:
        if claim.wait is not None:
            return [self.problem.waits[claim.wait].before]
        return [wait.before for wait in self.problem.waits if wait.after == claim.task]


def _spots_at(claim: Claim, slots: tuple[Slot, ...]) -> tuple[Spot, ...]:
    """Return the spots of a claim: one for each station, with as many of its rings as were taken."""
    rings: dict[StationId, int] = {}
    found = []
    for station, shelf in slots:
        if shelf is not None and shelf < 0:
            rings[station] = rings.get(station, 0) + 1
        else:
            found.append(Spot(station, 1 if claim.many else claim.use.units, shelf))
    return (*found, *(Spot(station, units) for station, units in rings.items()))


def crew_of(model: Model, found: Found, labour: str) -> tuple[CookId, ...]:
    """Return the cooks of the crew that does a labour in a solution; none: not one crew alone."""
    crew = model.hands.crews.get(labour)
    if isinstance(crew, dict):
        crew = next((number for number, literal in crew.items() if found.values[literal.index]), None)
    return () if crew is None else model.hands.cooks[crew]
