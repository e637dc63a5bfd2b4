"""Whose room is wanted: which dishes stand where one that finds no place would stand.

Where the solver proves that a dish does not fit, it also says which wishes are in its way (assumptions); the dishes
that share those places, vessels or hands at those minutes are the ones to move.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from random import Random

from core.arrange.claims import claims_of
from core.arrange.demand import Demand, DemandKind
from core.arrange.found import Found
from core.arrange.model import Model
from core.arrange.problem import Bound, Problem, Slot
from core.arrange.settle_places import span_of
from core.arrange.solver import cp_model
from core.arrange.tighten import tighten
from core.arrange.watch import Watch
from core.plan.ids import StepId

_HANDS = "hands"
_HOUR = 60
_ROOMY = 4 * _HOUR  # a task that may begin within so many minutes can make room for others
_ASKED = 0.15  # work to ask which wishes are in the way

Solved = tuple[Model, Found]

Wanted = tuple[frozenset[str], frozenset[StepId]]
"""What is short (names of kinds, vessels, hands), and the steps that lack it; empty sets: not known."""
UNKNOWN: Wanted = (frozenset(), frozenset())


@dataclass(frozen=True, slots=True)
class _Share:
    """Something that a task (or what waits after it) takes or may take; `slots` empty: only its name counts."""

    task: int
    what: str
    slots: frozenset[Slot]
    start: int
    end: int
    weight: float


class Rivals:
    """What every task wants and when it could be, worked out once for a problem."""

    def __init__(self, problem: Problem, seed: int) -> None:
        self.problem = problem
        self.random = Random(seed)  # noqa: S311  # repeatable on purpose, nothing secret
        self.earliest, self.latest = tighten(problem, problem.high)
        self.dish_tasks: dict[str, set[int]] = {}
        self.needs: list[set[str]] = []
        vessels: dict[int, set[str]] = {}
        for run in problem.runs:
            for step in run.steps:
                for index in problem.loads.get(step, ()):
                    vessels.setdefault(index, set()).add(f"vessel {run.vessel}")
        for task in problem.tasks:
            self.dish_tasks.setdefault(task.dish.id, set()).add(task.index)
            self.needs.append(vessels.get(task.index, set()) | ({_HANDS} if task.pieces else set()))
        self._wants = self._all_wants()

    def ease(self, problem: Problem, group: Iterable[int]) -> None:
        """Keep the cooks' work that has hours to choose from out of the last of them, each by a time of its own.

        Latest-first search would else heap it up where others have no choice.
        """
        for index in sorted(group):
            task = self.problem.tasks[index]
            room = self.latest[index] - self.earliest[index]
            if room >= _ROOMY and task.pieces and task.begun is None:
                by = self.random.randint(_HOUR, min(10 * _HOUR, room * 3 // 5))
                problem.bounds.append(Bound(index, False, high=self.latest[index] - by))

    def dishes(
        self, solved: Solved, group: set[int], placed: set[int], count: int, wanted: Wanted = UNKNOWN
    ) -> set[int]:
        """Return the tasks of so many placed dishes, more likely those that contend most with the group."""
        scores = self._scores(solved, group, placed, wanted) or self._scores(solved, group, placed, UNKNOWN)
        free: set[int] = set()
        for _each in range(min(count, len(scores))):
            names = sorted(scores)
            dish = self.random.choices(names, [scores[name] for name in names])[0]
            free |= self.dish_tasks[dish] & placed
            del scores[dish]
        return free

    def _scores(
        self, solved: Solved, group: set[int], placed: set[int], wanted: Wanted
    ) -> dict[str, float]:
        """Return for each dish how much of what the group wants it takes, where the group has little choice most."""
        short, steps = wanted
        wants = [
            each
            for each in self._wants
            if each.task in group
            and (not short or each.what in short)
            and (not steps or self.problem.tasks[each.task].step.id in steps)
        ]
        scores: dict[str, float] = {}
        for took in self._taken(solved, placed - group):
            for want in wants:
                both = min(want.end, took.end) - max(want.start, took.start)
                if want.what == took.what and both > 0 and (not took.slots or took.slots & want.slots):
                    dish = self.problem.tasks[took.task].dish.id
                    scores[dish] = scores.get(dish, 0.0) + min(both, _HOUR) * want.weight
        return scores

    def _all_wants(self) -> list[_Share]:
        """Return what every task and wait may take, from the first minute it could to the last."""
        found = []
        for task in self.problem.tasks:
            start, end = self.earliest[task.index], self.latest[task.index] + task.shortest
            weight = 1 / (_HOUR + max(1, end - start - task.shortest))
            found += [
                _Share(task.index, what, frozenset(), start, end, weight)
                for what in sorted(self.needs[task.index])
            ]
        for claim in claims_of(self.problem):
            if claim.task is not None:
                task = self.problem.tasks[claim.task]
                start, end = self.earliest[task.index], self.latest[task.index] + task.shortest
                weight = 1 / (_HOUR + max(1, end - start - task.shortest))
                owner = task.index
            else:
                wait = self.problem.waits[claim.waiting]
                owner = wait.before
                start = self.earliest[owner] + self.problem.tasks[owner].shortest
                end = self.latest[wait.after] if wait.after is not None else wait.until
                weight = 1 / (_HOUR + max(1, end - start))
            slots = frozenset(claim.slots)
            found.append(_Share(owner, claim.use.kind.value, slots, start, end, weight))
        return found

    def _taken(self, solved: Solved, placed: set[int]) -> list[_Share]:
        """Return what the placed tasks take, and when."""
        model, found = solved
        taken = [
            _Share(index, what, frozenset(), found.starts[index], found.ends[index], 1.0)
            for index in sorted(placed)
            for what in sorted(self.needs[index])
        ]
        for claim, slots in zip(model.standing.claims, found.slots, strict=True):
            owner = claim.task if claim.task is not None else self.problem.waits[claim.waiting].before
            if owner in placed:
                start, end = span_of(model, found, claim)
                taken.append(_Share(owner, claim.use.kind.value, frozenset(slots), start, end, 1.0))
        return taken

    def wanted(self, model: Model | None, watch: Watch) -> Wanted:
        """Return what is short in a model built for asking that has no solution."""
        if model is None:
            return UNKNOWN
        asked = model.board.asked
        model.board.model.add_assumptions(list(asked.values()))
        solver, status = watch.solve(model.board.model, _ASKED, presolve=False)
        if status != cp_model.INFEASIBLE:
            return UNKNOWN
        core = set(solver.sufficient_assumptions_for_infeasibility())
        demands = [demand for demand, literal in asked.items() if literal.index in core]
        short = frozenset(name for demand in demands for name in self._short(demand))
        return short, frozenset(demand.step for demand in demands if demand.step is not None)

    def _short(self, demand: Demand) -> Iterable[str]:
        if demand.kind_of is not None:
            yield demand.kind_of.value
        if demand.vessel is not None:
            yield f"vessel {demand.vessel}"
        if demand.station is not None:
            yield self.problem.plan.kitchen.station[demand.station].kind.value
        if demand.kind in (DemandKind.HANDS, DemandKind.ABSENT):
            yield _HANDS
