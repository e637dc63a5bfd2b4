"""The wishes about times of a few dishes, given up one by one until the rest of them can be kept.

Each is a literal, assumed; of a set that the solver finds impossible the lightest is given up, and it is asked again
(core-guided relaxation; Fu and Malik 2006). That gives up few, not surely the fewest.
"""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass, replace

from core.arrange.demand import Demand, DemandKind
from core.arrange.model import Model
from core.arrange.problem import Arc, Bound, Problem
from core.arrange.search import by_latest, without_goal
from core.arrange.solver import cp_model
from core.arrange.watch import Watch
from core.arrange.why.weights import WEIGHT

Solved = tuple[cp_model.CpSolver, cp_model.CpSolverStatus]

_GOOD = (cp_model.OPTIMAL, cp_model.FEASIBLE)
_QUICK, _LONGER = 0.1, 0.4  # work for a look with some wishes given up, for a dish that gives up whatever it must
_WAITS = frozenset({DemandKind.MOST_WAIT, DemandKind.KEEPS})
_TIMES = _WAITS | {DemandKind.SERVED, DemandKind.EARLIEST, DemandKind.LATEST, DemandKind.CLOCK}
_TIMES |= {DemandKind.PIN, DemandKind.ORDER, DemandKind.OPENS}


@dataclass(frozen=True, slots=True)
class Wishes:
    """The wishes about times of a group of tasks, and the problem without them."""

    problem: Problem
    arcs: list[Arc]
    bounds: list[Bound]
    group: frozenset[int]

    @classmethod
    def of(cls, problem: Problem, group: Collection[int]) -> Wishes:
        """Take the wishes of a group out of a problem."""

        def own(demand: Demand | None, *tasks: int) -> bool:
            return demand is not None and demand.kind in _TIMES and any(each in group for each in tasks)

        arcs = [arc for arc in problem.arcs if own(arc.demand, arc.before, arc.after)]
        bounds = [bound for bound in problem.bounds if own(bound.demand, bound.task)]
        without = replace(
            problem,
            arcs=[arc for arc in problem.arcs if not own(arc.demand, arc.before, arc.after)],
            bounds=[bound for bound in problem.bounds if not own(bound.demand, bound.task)],
        )
        return cls(without, arcs, bounds, frozenset(group))

    def kept(self, model: Model, watch: Watch, latest: list[int], *, alone: bool) -> cp_model.CpSolver | None:
        """Return a solution of the model of `problem` that keeps as many wishes as it can; None: none found.

        `latest`: starts with all wishes. `alone`: one dish, which may give up all of them where time runs short.
        """
        bare = without_goal(model)
        literals = self._literals(model, bare)
        for index in sorted(self.group):
            bare.add_hint(model.board.start[index], latest[index])
        left = dict(literals)
        while not watch.over:
            solver, status = _assuming(bare, left, watch)
            if status in _GOOD:
                return solver
            core = core_among(left, solver) if status == cp_model.INFEASIBLE else ()
            if not core:
                break
            del left[min(core, key=lambda each: (WEIGHT[each.kind], left[each].index))]
        return self._whatever(model, bare, literals, watch) if alone else None

    def _literals(self, model: Model, bare: cp_model.CpModel) -> dict[Demand, cp_model.IntVar]:
        """Let each wish hold where a literal does."""
        board = model.board
        literals: dict[Demand, cp_model.IntVar] = {}

        def if_kept(demand: Demand | None, constraint: cp_model.Constraint) -> None:
            assert demand is not None
            if demand not in literals:
                literals[demand] = bare.new_bool_var("")
                bare.add_hint(literals[demand], 1)
            constraint.only_enforce_if(literals[demand])

        for arc in self.arcs:
            before = board.end[arc.before] if arc.before_end else board.start[arc.before]
            after = board.end[arc.after] if arc.after_end else board.start[arc.after]
            early = board.early[arc.early] if arc.early is not None else 0
            if_kept(arc.demand, bare.add(after >= before + arc.lag + early))
        for bound in self.bounds:
            at = board.end[bound.task] if bound.end else board.start[bound.task]
            if bound.low is not None:
                early = board.early[bound.task] if bound.early else 0
                if_kept(bound.demand, bare.add(at >= bound.low + early))
            if bound.high is not None:
                if_kept(bound.demand, bare.add(at <= bound.high))
        return literals

    def _whatever(
        self, model: Model, bare: cp_model.CpModel, literals: dict[Demand, cp_model.IntVar], watch: Watch
    ) -> cp_model.CpSolver | None:
        """Return a solution though waits are not kept, then though nothing is."""
        for given in (_WAITS, _TIMES):
            some = bare.clone()
            for demand, literal in literals.items():
                if demand.kind not in given:
                    some.add(some.get_bool_var_from_proto_index(literal.index) == 1)
            some.add_decision_strategy(by_latest(model), cp_model.CHOOSE_HIGHEST_MAX, cp_model.SELECT_MAX_VALUE)
            solver, status = watch.solve(some, _LONGER, presolve=False, light=True, fixed_search=True)
            if status in _GOOD:
                return solver
        return None

    def tasks_of(self, demand: Demand) -> set[int]:
        """Return the tasks of the group that a wish binds."""
        found = {bound.task for bound in self.bounds if bound.demand == demand}
        found.update(*({arc.before, arc.after} for arc in self.arcs if arc.demand == demand))
        return found & self.group


def _assuming(bare: cp_model.CpModel, left: dict[Demand, cp_model.IntVar], watch: Watch) -> Solved:
    asking = bare.clone()
    asking.add_assumptions([asking.get_bool_var_from_proto_index(literal.index) for literal in left.values()])
    return watch.solve(asking, _QUICK, presolve=False, light=True)


def core_among(wishes: dict[Demand, cp_model.IntVar], solver: cp_model.CpSolver) -> tuple[Demand, ...]:
    """Return the wishes, assumed by their literals, that a solver found impossible together."""
    by_index = {literal.index: demand for demand, literal in wishes.items()}
    found = solver.sufficient_assumptions_for_infeasibility()
    return tuple(by_index[each] for each in found if each in by_index)
