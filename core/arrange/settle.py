"""Turns a solution's numbers into a timetable: names for burners and cooks, heatings, stays."""

from __future__ import annotations

from core.arrange.claims import Claim, Slot
from core.arrange.found import Found
from core.arrange.model import Model
from core.arrange.naming import Job, name_cooks
from core.arrange.problem import Problem, Task
from core.arrange.rules_hands import SWITCH_ON
from core.arrange.rules_heat import heat_up
from core.plan.ids import CookId, StationId
from core.plan.kitchen import HEATED, StationKind
from core.timetable.timetable import Hand, Heating, Placed, Spot, Stay, Timetable


class Settling:
    """One solution being turned into a timetable."""

    def __init__(self, model: Model, found: Found) -> None:
        self.model = model
        self.found = found
        self.problem: Problem = model.board.problem
        self.length = [self._length(task) for task in self.problem.tasks]

    def timetable(self) -> Timetable:
        """Return the timetable; raises naming.NobodyLeft where cooks cannot be named."""
        spots = self._spots()
        heatings = self._heatings(spots)
        hands, switches = self._hands(heatings)
        placed = tuple(
            Placed(
                task.step.id,
                self.found.starts[task.index],
                self.length[task.index],
                task.load,
                tuple(
                    spot
                    for number in range(len(task.uses))
                    for spot in spots.get((task.index, None, number), ())
                ),
                self.found.settings[task.index],
                hands[task.index],
            )
            for task in self.problem.tasks
        )
        named = tuple(
            Heating(station, start, end, setting, switches[number])
            for number, (station, start, end, setting) in enumerate(heatings)
        )
        return Timetable(placed, self._stays(spots), named)

    def _length(self, task: Task) -> int:
        setting = self.found.settings[task.index]
        return next((minutes for celsius, minutes in task.settings if celsius == setting), task.length)

    def end(self, index: int) -> int:
        """Return when a task ends."""
        return self.found.starts[index] + self.length[index]

    def _span(self, claim: Claim) -> tuple[int, int]:
        if claim.task is not None:
            task = self.problem.tasks[claim.task]
            last = (
                self.problem.loads[task.step.id][-1]
                if claim.use.kind in self.model.standing.pools
                else claim.task
            )
            return self.found.starts[claim.task], self.end(last)
        wait = self.problem.waits[claim.waiting]
        return self.end(wait.before), self.found.starts[wait.after] if wait.after is not None else wait.until

    def _spots(self) -> dict[tuple[int | None, int | None, int], tuple[Spot, ...]]:
        found: dict[tuple[int | None, int | None, int], tuple[Spot, ...]] = {}
        pooled: list[Claim] = []
        for claim, slots in zip(self.model.standing.claims, self.found.slots, strict=True):
            if claim.use.kind in self.model.standing.pools:
                pooled.append(claim)
                continue
            found[claim.task, claim.wait, claim.number] = _spots_at(claim, slots)
        for kind in self.model.standing.pools:
            found.update(self._name_pool(kind, [claim for claim in pooled if claim.use.kind is kind]))
        return found

    def _name_pool(
        self, kind: StationKind, claims: list[Claim]
    ) -> dict[tuple[int | None, int | None, int], tuple[Spot, ...]]:
        """Name the stations of a pool in order of time: whoever comes takes a free one, the former one if it can."""
        stations = [each.id for each in self.problem.plan.kitchen.of_kind(kind)]
        busy: dict[StationId, int] = dict.fromkeys(stations, -(10**9))
        last_of: dict[int, tuple[StationId, ...]] = {}
        found: dict[tuple[int | None, int | None, int], tuple[Spot, ...]] = {}
        for claim in sorted(claims, key=lambda each: (self._span(each), each.name)):
            start, end = self._span(claim)
            if claim.task is not None and self.problem.tasks[claim.task].load > 0:
                task = self.problem.tasks[claim.task]
                first = self.problem.loads[task.step.id][0]
                found[claim.task, None, claim.number] = found[first, None, claim.number]
                continue
            if end == start and claim.wait is not None:
                found[None, claim.wait, claim.number] = ()
                continue
            liked = [each for owner in self._before(claim) for each in last_of.get(owner, ())]
            free = [each for each in stations if busy[each] <= start]
            order = [each for each in liked if each in free] + [each for each in free if each not in liked]
            taken = tuple(dict.fromkeys(order))[: claim.use.units]
            for each in taken:
                busy[each] = end
            if claim.task is not None:
                last_of[claim.task] = taken
            else:
                last_of[self.problem.waits[claim.waiting].before] = taken
            found[claim.task, claim.wait, claim.number] = tuple(Spot(each) for each in taken)
        return found

    def _before(self, claim: Claim) -> list[int]:
        if claim.wait is not None:
            return [self.problem.waits[claim.wait].before]
        return [wait.before for wait in self.problem.waits if wait.after == claim.task]

    def _bakes(
        self, spots: dict[tuple[int | None, int | None, int], tuple[Spot, ...]]
    ) -> dict[StationId, list[tuple[int, int, int]]]:
        """Return start, end and setting of what was in each heated station, in order of time."""
        found: dict[StationId, list[tuple[int, int, int]]] = {}
        for claim in self.model.standing.claims:
            if claim.use.heat is None or claim.use.kind not in HEATED:
                continue
            start, end = self._span(claim)
            setting = (
                self.found.settings[claim.task]
                if claim.task is not None
                else self._held_at(claim.wait, claim)
            )
            for spot in spots.get((claim.task, claim.wait, claim.number), ()):
                if setting is not None and end > start:
                    found.setdefault(spot.station, []).append((start, end, setting))
        return {station: sorted(bakes) for station, bakes in found.items()}

    def _held_at(self, wait: int | None, claim: Claim) -> int | None:
        if wait is None or claim.use.heat is None or claim.use.kind not in HEATED:
            return None
        return self.found.wait_settings.get(wait, claim.use.heat.setting)

    def _heatings(
        self, spots: dict[tuple[int | None, int | None, int], tuple[Spot, ...]]
    ) -> list[tuple[StationId, int, int, int]]:
        found = []
        for station, bakes in sorted(self._bakes(spots).items()):
            heater = self.problem.plan.kitchen.station[station].heater
            if heater is None or not heater.from_cold:
                continue
            out: int | None = None
            for start, end, setting in bakes:
                if out is None or start > out + heater.keep_on:
                    found.append(
                        (station, self._on(station, start, heat_up(heater, setting)), start, setting)
                    )
                out = end if out is None else max(out, end)
        return found

    def _on(self, station: StationId, start: int, least: int) -> int:
        """Return when a heating begins that must have lasted `least` minutes at `start`."""
        chosen = [
            self.found.values[each.start.index]
            for each in self.model.board.cold
            if each.station == station
            and self.found.values[each.cold.index]
            and self._begins(each.bake.task, each.bake.wait) == start
        ]
        return max((each for each in chosen if each <= start - least), default=start - least)

    def _begins(self, task: int | None, wait: int | None) -> int:
        if task is not None:
            return self.found.starts[task]
        return self.end(self.problem.waits[wait or 0].before)

    def _hands(
        self, heatings: list[tuple[StationId, int, int, int]]
    ) -> tuple[list[tuple[Hand, ...]], dict[int, CookId | None]]:
        jobs = []
        for number, piece in enumerate(self.model.hands.pieces):
            task = self.problem.tasks[piece.task]
            start = self.found.starts[piece.task] + piece.offset
            if piece.from_end:
                start = self.end(piece.task) - piece.offset - piece.minutes
            fixed = self.problem.fixed.get(piece.task)
            literals = self.model.hands.named.get(number, {})
            chosen = tuple(cook for cook, literal in literals.items() if self.found.values[literal.index])
            pinned = fixed.cook if fixed is not None else None
            minutes = self.length[piece.task] if piece.whole else piece.minutes
            jobs.append(Job(number, start, minutes, piece.people, piece.skill, task.dish.id, pinned, chosen))
        for number, (station, start, _end, _setting) in enumerate(heatings):
            jobs.append(Job(-1 - number, start, SWITCH_ON, 1, "", station))
        named = name_cooks(self.problem, jobs)
        hands: list[list[Hand]] = [[] for _task in self.problem.tasks]
        for job in jobs:
            if job.number >= 0:
                for cook in named[job.number]:
                    hands[self.model.hands.pieces[job.number].task].append(Hand(job.start, job.minutes, cook))
        switches: dict[int, CookId | None] = {
            number: next(iter(named[-1 - number]), None) for number in range(len(heatings))
        }
        return [tuple(each) for each in hands], switches

    def _stays(self, spots: dict[tuple[int | None, int | None, int], tuple[Spot, ...]]) -> tuple[Stay, ...]:
        found = []
        for claim in self.model.standing.claims:
            if claim.wait is None:
                continue
            wait = self.problem.waits[claim.wait]
            start, end = self._span(claim)
            if end <= start:
                continue
            before = self.problem.tasks[wait.before]
            after = self.problem.tasks[wait.after].step.id if wait.after is not None else None
            found.append(
                Stay(
                    before.step.id,
                    after,
                    start,
                    end,
                    before.load,
                    wait.kind,
                    spots.get((None, claim.wait, claim.number), ()),
                    self._held_at(claim.wait, claim),
                )
            )
        return tuple(found)


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


def settle(model: Model, found: Found) -> Timetable:
    """Return the timetable of a solution; raises naming.NobodyLeft where cooks cannot be named."""
    return Settling(model, found).timetable()
