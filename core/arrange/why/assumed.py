"""The solver's word on wishes: each is a literal, assumed or fixed, and some contradict each other.

Sets come from assumptions with presolve off, one worker and no objective (with presolve foreign literals have been
reported among them), and are asked again with presolve before they are told.
"""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass, replace
from functools import cached_property

from core.arrange.claims import loaded_kinds
from core.arrange.demand import Demand
from core.arrange.found import read_found
from core.arrange.model import Model, build
from core.arrange.naming import NobodyLeft
from core.arrange.problem import Problem
from core.arrange.settle import settle
from core.arrange.solver import cp_model
from core.arrange.watch import Watch
from core.arrange.why.parts import concerned, part_of, room_for, stubborn
from core.arrange.why.wishes import core_among
from core.plan import calendar
from core.plan.ids import StepId
from core.timetable.timetable import Timetable

_GOOD = (cp_model.OPTIMAL, cp_model.FEASIBLE)
_DAY = 24 * 60
_LOOK = 0.5  # work for one look at some wishes


class Assumed:
    """A problem whose wishes can be kept or given up at will; no model: facts alone leave no timetable."""

    def __init__(self, problem: Problem, watch: Watch) -> None:
        self.watch = watch
        self.problem = problem

    @cached_property
    def model(self) -> Model | None:
        """The whole, built when it is first asked for: a large feast is mostly asked about in parts."""
        return _built(self.problem)

    @property
    def wishes(self) -> tuple[Demand, ...]:
        """Return the wishes that can be given up."""
        return () if self.model is None else tuple(self.model.board.asked)

    @cached_property
    def _always(self) -> frozenset[StepId]:
        """Steps that every part must hold; on the day itself all, since facts keep things near."""
        problem = self.problem
        return frozenset(problem.loads) if problem.now is not None else stubborn(problem)

    def core(self, work: float) -> tuple[Demand, ...] | None:
        """Return wishes that cannot all be kept, by assumptions; None: not found that all cannot be kept."""
        if self.model is None:
            return ()
        core = self._core(self.model, work)
        if core is None or self._whole(core, work, presolve=True):
            return core
        return self.wishes if self._whole(self.wishes, work, presolve=True) else None

    def core_of(self, steps: Collection[StepId], work: float) -> tuple[Demand, ...] | None:
        """Return wishes about some steps that cannot all be kept, whatever the other steps do; None: none found."""
        model = _built(part_of(self.problem, steps)) if steps and not self.watch.over else None
        if model is None:
            return None
        core = self._core(model, work)
        return core if core is not None and self.impossible(core, work) else None

    def _core(self, model: Model, work: float) -> tuple[Demand, ...] | None:
        bare = model.board.model.clone()
        asked = model.board.asked
        bare.add_assumptions([bare.get_bool_var_from_proto_index(each.index) for each in asked.values()])
        solver, status = self.watch.solve(bare, work, presolve=False, light=True)
        if status != cp_model.INFEASIBLE:
            return None
        return core_among(asked, solver)

    def impossible(self, kept: Collection[Demand], work: float = _LOOK) -> bool | None:
        """Tell whether these wishes cannot all be kept though every other is given up; None: not found out.

        Only the part of the problem that they concern is looked at, where the rest can go out of the way.
        """
        if self.watch.over:
            return None
        steps = concerned(self.problem, kept, self._always)
        if len(steps) == len(self.problem.loads):
            return True if self.model is None else self._whole(kept, work, presolve=True)
        model = _built(part_of(self.problem, steps))
        if model is None:
            return True
        answer = self._told(model, kept, work, presolve=True)
        return answer if answer is not None else self._told(model, kept, 5 * work, presolve=False)

    def _whole(self, kept: Collection[Demand], work: float, *, presolve: bool) -> bool | None:
        return None if self.model is None else self._told(self.model, kept, work, presolve=presolve)

    def _told(
        self, model: Model, kept: Collection[Demand], work: float, *, presolve: bool, light: bool = True
    ) -> bool | None:
        _solver, status = self.watch.solve(_fixed(model, kept), work, presolve=presolve, light=light)
        if status == cp_model.INFEASIBLE:
            return True
        return False if status in _GOOD else None

    def surely(self, kept: Sequence[Demand], work: float = 0.5) -> bool:
        """Tell whether both presolve settings find wishes impossible: a wrong answer has been reported of one.

        The two have as little in common as can be: all of presolve, probing and linear relaxation, and none of them.
        What a part of the steps cannot keep the whole cannot keep either.
        """
        steps = concerned(self.problem, kept, self._always)
        few = len(steps) < len(self.problem.loads)
        model = _built(part_of(self.problem, steps)) if few else self.model
        if model is None:
            return True
        return all(
            self._told(model, kept, work, presolve=each, light=not each) is True for each in (False, True)
        )

    def lightest(self, weights: dict[Demand, int], work: float) -> Dropped | None:
        """Return the wishes to give up so that all others can be kept, light ones; None: none found.

        Of each set that the solver finds impossible the lightest is given up; where that takes too long, a sum of
        weights is made as small as can be in the time.
        """
        problem = self.problem  # near its own hours: what is given up a little is the lightest
        model = build(problem, asking=True, explicit=loaded_kinds(problem))
        if model is None:
            return None
        board, bare = model.board, model.board.model.clone()
        kept = {
            demand: bare.get_bool_var_from_proto_index(literal.index) for demand, literal in board.asked.items()
        }
        for literal in kept.values():
            bare.add_hint(literal, 1)
        for start, latest in zip(board.start, board.latest, strict=True):
            bare.add_hint(bare.get_int_var_from_proto_index(start.index), latest)
        solver, best = self._one_of_each(bare, kept, weights, work)
        if solver is None:
            bare.minimize(sum((1 - literal) * weights[demand] for demand, literal in kept.items()))
            solver, status = self.watch.solve(bare, work, presolve=False, light=True)
            best = status == cp_model.OPTIMAL
            if status not in _GOOD:
                return None
        dropped = tuple(demand for demand, literal in kept.items() if not solver.boolean_value(literal))
        try:
            timetable = settle(model, read_found(model, solver))
        except NobodyLeft:
            timetable = None
        return Dropped(dropped, best, timetable)

    def _one_of_each(
        self,
        bare: cp_model.CpModel,
        kept: dict[Demand, cp_model.IntVar],
        weights: dict[Demand, int],
        work: float,
    ) -> tuple[cp_model.CpSolver | None, bool]:
        """Return a solution that gives up one wish of each impossible set, and whether none gives up lighter ones.

        None gives up lighter ones where the sets have no wish in common.
        """
        left, seen, apart = dict(kept), set[Demand](), True
        ends = self.watch.work + work
        while self.watch.work < ends and not self.watch.over:
            asking = bare.clone()
            asking.add_assumptions([asking.get_bool_var_from_proto_index(each.index) for each in left.values()])
            solver, status = self.watch.solve(asking, ends - self.watch.work, presolve=False, light=True)
            if status in _GOOD:
                return solver, apart
            core = core_among(left, solver) if status == cp_model.INFEASIBLE else ()
            if not core:
                break
            apart = apart and seen.isdisjoint(core)
            seen.update(core)
            del left[min(core, key=lambda each: weights[each])]
        return None, False


@dataclass(frozen=True, slots=True)
class Dropped:
    """Wishes given up; `best`: no lighter ones are enough. `timetable`: the solver's, not judged (None: no cooks)."""

    demands: tuple[Demand, ...]
    best: bool
    timetable: Timetable | None


def _built(problem: Problem) -> Model | None:
    """Return the model of a problem, with so long a horizon that what is given up can go elsewhere."""
    room = room_for(problem)
    low = problem.low - (room if problem.now is None else 0)
    wide = replace(problem, low=low, high=problem.high + room)
    wide.away = {
        cook.id: calendar.absences(problem.plan, cook, wide.low - _DAY, wide.high + _DAY)
        for cook in problem.plan.kitchen.cooks
    }
    return build(wide, asking=True, explicit=loaded_kinds(wide))


def _fixed(model: Model, kept: Collection[Demand]) -> cp_model.CpModel:
    """Return a model in which these wishes hold and every other is given up."""
    bare = model.board.model.clone()
    wanted = set(kept)
    for demand, literal in model.board.asked.items():
        domain = bare.proto.variables[literal.index].domain
        domain.clear()
        domain.extend([1, 1] if demand in wanted else [0, 0])
    return bare
