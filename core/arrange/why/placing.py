"""One pass through a feast, the scarcest dishes first: each finds a place among those that stand, or gives up wishes.

Nothing that stands is moved again, so a feast of four hundred steps takes seconds. Where every dish keeps its wishes
the plan can be met; else what was given up is a repair that has been tried, though perhaps not the least one.
"""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass, field, replace

from core.arrange.demand import Demand, DemandKind
from core.arrange.found import Found, read_found
from core.arrange.freeze import frozen, hint, tell
from core.arrange.freeze import without as lacking
from core.arrange.model import Model, build
from core.arrange.naming import NobodyLeft
from core.arrange.problem import Bound, Problem
from core.arrange.reading import read
from core.arrange.search import without_goal
from core.arrange.search_parts import groups
from core.arrange.settle import settle
from core.arrange.solver import cp_model
from core.arrange.tighten import tighten
from core.arrange.watch import Watch
from core.arrange.why.giving_up import without
from core.arrange.why.wishes import Wishes
from core.plan.day import Day
from core.plan.ids import DishId, StepId
from core.plan.plan import Plan
from core.timetable.as_planned import with_seen
from core.timetable.clashes import clashes
from core.timetable.timetable import Timetable

_GOOD = (cp_model.OPTIMAL, cp_model.FEASIBLE)
_QUICK = 0.1  # work for a group with all its wishes
_TOGETHER = 60  # tasks placed at a time
_HOUR = 60
_ROOMY = 4 * _HOUR  # a task that may begin within so many minutes leaves the last of them to others
_STRIDE = 137  # spreads the tasks that leave room: no divisor of the minutes they have
Solved = tuple[Model, Found]


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
    solved: Solved | None = None
    placed: set[int] = field(default_factory=set)
    hard: list[set[int]] = field(default_factory=list)
    left: bool = False

    def run(self) -> None:
        """Place all, a group of dishes at a time; a group for which that takes too long dish by dish."""
        waiting = _larger(groups(self.problem))
        while waiting and not self.left:
            group = waiting.pop(0)
            if self._takes(group) or self._gives(group):
                continue
            dishes = self._dishes(group)
            if len(dishes) > 1:
                waiting[:0] = dishes
            else:
                self.hard.append(group)
                self.left = True

    def _dishes(self, group: Collection[int]) -> list[set[int]]:
        dishes: dict[DishId, set[int]] = {}
        for index in sorted(group):
            dishes.setdefault(self.problem.tasks[index].dish.id, set()).add(index)
        return list(dishes.values())

    def _part(self, group: set[int]) -> Problem:
        """Return the problem in which a group is free, what stands stays where it is and all else is not there."""
        absent = frozenset(task.index for task in self.problem.tasks) - self.placed - group
        if self.solved is None:
            return lacking(self.problem, absent)
        return frozen(self.solved[0].about(self.problem), self.solved[1], group, absent)

    def _takes(self, group: set[int]) -> bool:
        """Place a group with all its wishes."""
        if self.watch.over:
            return False
        problem = self._part(group)
        _spread(problem, group)
        model = build(problem, aims=False)
        if model is None:
            return False
        if self.solved is not None:
            hint(model, *self.solved, set(), group)
        bare = without_goal(model)
        for index in sorted(group):
            bare.add_hint(model.board.start[index], model.board.latest[index])
        solver, status = self.watch.solve(bare, _QUICK, presolve=False, light=True)
        if status not in _GOOD:
            return False
        self.solved = model, read_found(model, solver)
        self.placed |= group
        return True

    def _gives(self, group: set[int]) -> bool:
        """Place a group though some of its wishes about times must be given up for it."""
        if self.watch.over:
            return False
        part = self._part(group)
        wishes = Wishes.of(part, group)
        model = build(wishes.problem, aims=False)
        if model is None:
            return False
        if self.solved is not None:
            tell(model, *self.solved, set())
        solver = wishes.kept(model, self.watch, tighten(part, part.high)[1], alone=len(self._dishes(group)) == 1)
        if solver is None:
            return False
        self.solved = model, read_found(model, solver)
        self.placed |= group
        dropped = not_kept(part, self.solved[1], group)
        lacking_some = {index for demand in dropped for index in wishes.tasks_of(demand)}
        self.hard += [dish for dish in self._dishes(group) if dish & lacking_some]
        self.problem = _easier(self.problem, dropped)
        return True


def _larger(some: list[set[int]]) -> list[set[int]]:
    """Return groups joined as far as they are quickly placed: each costs a model of all that stands."""
    found: list[set[int]] = []
    for group in some:
        if found and len(found[-1]) + len(group) <= _TOGETHER:
            found[-1] |= group
        else:
            found.append(set(group))
    return found


def _easier(problem: Problem, dropped: Collection[Demand]) -> Problem:
    """Return a problem without some wishes about times."""
    return replace(
        problem,
        arcs=[arc for arc in problem.arcs if arc.demand not in dropped],
        bounds=[bound for bound in problem.bounds if bound.demand not in dropped],
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


def not_kept(problem: Problem, found: Found, group: Collection[int] | None = None) -> tuple[Demand, ...]:
    """Return the wishes about times that a solution does not keep (of a group alone)."""

    def at(index: int, end: bool) -> int:
        return found.ends[index] if end else found.starts[index]

    def early(index: int) -> int:
        return next(way.early for way in problem.tasks[index].ways if way.number == found.ways[index])

    def counts(*tasks: int) -> bool:
        return group is None or any(each in group for each in tasks)

    dropped: list[Demand] = []
    for arc in problem.arcs:
        lag = arc.lag + (early(arc.early) if arc.early is not None else 0)
        late = at(arc.after, arc.after_end) < at(arc.before, arc.before_end) + lag
        if arc.demand is not None and late and counts(arc.before, arc.after):
            dropped.append(arc.demand)
    for bound in problem.bounds:
        low = None if bound.low is None else bound.low + (early(bound.task) if bound.early else 0)
        when = at(bound.task, bound.end)
        if bound.demand is not None and counts(bound.task) and (
            (low is not None and when < low) or (bound.high is not None and when > bound.high)
        ):
            dropped.append(bound.demand)
    return tuple(dict.fromkeys(dropped))
