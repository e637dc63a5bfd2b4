"""One pass through a feast, the scarcest dishes first: each finds a place among those that stand, or gives up wishes.

Nothing that stands is moved again, so a feast of four hundred steps takes seconds. Where every dish keeps its wishes
the plan can be met; else what was given up is a repair that has been tried, though perhaps not the least one.
"""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass, field, replace

from ortools.sat.python import cp_model

from core.arrange.demand import Demand, DemandKind
from core.arrange.found import Found, read_found
from core.arrange.freeze import frozen, hint, tell
from core.arrange.freeze import without as lacking
from core.arrange.model import Model, build
from core.arrange.naming import NobodyLeft
from core.arrange.problem import Bound, Problem
from core.arrange.reading import read
from core.arrange.search import by_latest, without_goal
from core.arrange.search_parts import groups
from core.arrange.settle import settle
from core.arrange.tighten import tighten
from core.arrange.watch import Watch
from core.arrange.why.giving_up import without
from core.plan.day import Day
from core.plan.ids import DishId, StepId
from core.plan.plan import Plan
from core.timetable.as_planned import with_seen
from core.timetable.clashes import clashes
from core.timetable.timetable import Timetable

_GOOD = (cp_model.OPTIMAL, cp_model.FEASIBLE)
_QUICK, _LONGER = 0.1, 0.4  # work for a group, for a dish that gives up wishes
_TOGETHER = 4  # dishes of a larger group that are tried together before each is tried alone
_HOUR = 60
_ROOMY = 4 * _HOUR  # a task that may begin within so many minutes leaves the last of them to others
_STRIDE = 137  # spreads the tasks that leave room: no divisor of the minutes they have
_WAITS = frozenset({DemandKind.MOST_WAIT, DemandKind.KEEPS})
_TIMES = _WAITS | {DemandKind.SERVED, DemandKind.EARLIEST, DemandKind.LATEST, DemandKind.CLOCK}
_TIMES |= {DemandKind.PIN, DemandKind.ORDER, DemandKind.OPENS}


@dataclass(frozen=True, slots=True)
class Tried:
    """What one pass came to. `dropped`: wishes given up, with which the timetable has no clash (None: it failed).

    `hard`: steps of the dishes for which there was no place among the others, dish by dish.
    """

    dropped: tuple[Demand, ...] | None
    hard: tuple[frozenset[StepId], ...]


def tried(
    plan: Plan, watch: Watch, *, near: Timetable | None = None, day: Day | None = None
) -> Tried:
    """Place the dishes of a plan one after the other; what comes out has been judged by the validator."""
    day = day if day is None or near is None else with_seen(day, near)
    problem = _with_opening(read(plan, day, near, asking=True))
    passing = _Pass(problem, watch)
    passing.run()
    hard = tuple(
        frozenset(problem.tasks[index].step.id for index in group) for group in passing.hard
    )
    if passing.solved is None or passing.left:
        return Tried(None, hard)
    model, found = passing.solved
    dropped = not_kept(problem, found)
    try:
        timetable = settle(model.about(problem), found)
    except NobodyLeft:
        return Tried(None, hard)
    for demand in dropped:
        plan = without(plan, demand)
    return Tried(None if clashes(plan, timetable, day=day) else dropped, hard)


def _with_opening(problem: Problem) -> Problem:
    """Return a problem read for asking, in which the plan's opening is a wish like any other."""
    opens = problem.plan.opens
    if opens is not None:
        demand = Demand(DemandKind.OPENS)
        problem.bounds += [
            Bound(task.index, False, low=opens, demand=demand) for task in problem.tasks if task.begun is None
        ]
    return problem


@dataclass(slots=True)
class _Pass:
    """The dishes placed so far; `hard` those that gave up wishes, `left` whether one found no place even so."""

    problem: Problem
    watch: Watch
    solved: tuple[Model, Found] | None = None
    placed: set[int] = field(default_factory=set)
    hard: list[set[int]] = field(default_factory=list)
    left: bool = False

    def run(self) -> None:
        """Place all, a group of dishes at a time; a group without a place by fewer dishes."""
        waiting = groups(self.problem)
        while waiting and not self.left:
            group = waiting.pop(0)
            if self._takes(group, spread=True):
                continue
            dishes: dict[DishId, set[int]] = {}
            for index in sorted(group):
                dishes.setdefault(self.problem.tasks[index].dish.id, set()).add(index)
            parts = list(dishes.values())
            if len(parts) > 1:
                some = _TOGETHER if len(parts) > _TOGETHER else 1
                waiting[:0] = [set().union(*parts[at : at + some]) for at in range(0, len(parts), some)]
                continue
            self.hard.append(group)
            self.left = not any(self._takes(group, given=given) for given in (_WAITS, _TIMES))

    def _takes(
        self, group: set[int], *, spread: bool = False, given: Collection[DemandKind] = ()
    ) -> bool:
        """Place a group, what stands staying where it is; `given` are kinds of wishes that it need not keep."""
        if self.watch.over:
            return False
        absent = frozenset(task.index for task in self.problem.tasks) - self.placed - group
        if self.solved is None:
            problem = lacking(self.problem, absent)
        else:
            problem = frozen(self.solved[0].about(self.problem), self.solved[1], group, absent)
        problem = _easier(problem, group, given)
        if spread:
            _spread(problem, group)
        model = build(problem, aims=False)
        if model is None:
            return False
        if self.solved is not None and spread:
            hint(model, *self.solved, set(), group)
        elif self.solved is not None:
            tell(model, *self.solved, set())
        bare = without_goal(model)
        bare.add_decision_strategy(by_latest(model), cp_model.CHOOSE_HIGHEST_MAX, cp_model.SELECT_MAX_VALUE)
        solver, status = self.watch.solve(bare, _LONGER if given else _QUICK, presolve=False, fixed_search=True)
        if status not in _GOOD:
            return False
        self.solved = model, read_found(model, solver)
        self.placed |= group
        self.problem = _easier(self.problem, group, given)
        return True


def _easier(problem: Problem, group: Collection[int], given: Collection[DemandKind]) -> Problem:
    """Return a problem in which a group need not keep some kinds of wishes about times."""
    if not given:
        return problem

    def gone(demand: Demand | None, *tasks: int) -> bool:
        return demand is not None and demand.kind in given and any(each in group for each in tasks)

    return replace(
        problem,
        arcs=[arc for arc in problem.arcs if not gone(arc.demand, arc.before, arc.after)],
        bounds=[bound for bound in problem.bounds if not gone(bound.demand, bound.task)],
    )


def _spread(problem: Problem, group: Collection[int]) -> None:
    """Keep the cooks' work that has hours to choose from out of the last of them, each by a time of its own.

    Latest-first search would else heap it up where others have no choice.
    """
    earliest, latest = tighten(problem, problem.high)
    for index in sorted(group):
        room = latest[index] - earliest[index]
        if room >= _ROOMY and problem.tasks[index].pieces and problem.tasks[index].begun is None:
            by = _HOUR + index * _STRIDE % (min(10 * _HOUR, room * 3 // 5) - _HOUR)
            problem.bounds.append(Bound(index, False, high=latest[index] - by))


def not_kept(problem: Problem, found: Found) -> tuple[Demand, ...]:
    """Return the wishes about times that a solution does not keep."""

    def at(index: int, end: bool) -> int:
        return found.ends[index] if end else found.starts[index]

    def early(index: int) -> int:
        return next(way.early for way in problem.tasks[index].ways if way.number == found.ways[index])

    dropped: list[Demand] = []
    for arc in problem.arcs:
        lag = arc.lag + (early(arc.early) if arc.early is not None else 0)
        late = at(arc.after, arc.after_end) < at(arc.before, arc.before_end) + lag
        if arc.demand is not None and late:
            dropped.append(arc.demand)
    for bound in problem.bounds:
        low = None if bound.low is None else bound.low + (early(bound.task) if bound.early else 0)
        when = at(bound.task, bound.end)
        if bound.demand is not None and (
            (low is not None and when < low) or (bound.high is not None and when > bound.high)
        ):
            dropped.append(bound.demand)
    return tuple(dict.fromkeys(dropped))
