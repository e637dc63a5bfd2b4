"""Finds a first solution, then improves it by freeing a part of the day at a time (large neighbourhoods).

Shaw 1998 for the idea; CP-SAT solves each part. One worker and deterministic limits: repeatable for a seed.
"""

from __future__ import annotations

from collections.abc import Callable
from math import ceil, isfinite
from typing import Any

from core.arrange.found import Found, read_found
from core.arrange.freeze import frozen, hint, tell
from core.arrange.model import Model
from core.arrange.neighbourhoods import Neighbourhoods
from core.arrange.problem import Problem
from core.arrange.solver import cp_model
from core.arrange.watch import Watch

_GOOD = (cp_model.OPTIMAL, cp_model.FEASIBLE)
_SAYS = (*_GOOD, cp_model.UNKNOWN)
_FIRST_TRY = 0.4
_PART = 0.4
_WHOLE = 0.4  # work of the first solve of the whole
_LONGER = 3.0  # each next one may take so many times as long
_LEAST, _MOST = 0.1, 0.8  # share of the work for the whole, while parts pay and when they do not
_IDLE, _IDLE_LATER = 8, 40  # so many parts without gain: they do not pay; or, where one did, no more
_FADES = 0.8  # what the solve before the last still counts
_MANY = 8  # waits that cost something from which parts come first
_LIGHT = 0.1  # work for a part then
_SMALL, _USUAL = 10, 16  # tasks freed at once to begin with
_LATEST = 3.0  # work for parts before the whole has its first turn
_NEAR = 1e-6


def first_found(model: Model, watch: Watch, near: tuple[int, ...] | None = None) -> tuple[Found | None, bool]:
    """Return a first solution and whether it is proven that there is none; `near` are starts that nearly hold.

    Latest starts first, in a fixed order; brittle on large menus, so the default search follows, hinted.
    """
    if near is not None:
        found = _near(model, watch, near)
        if found is not None:
            return found, False
    bare = without_goal(model)
    bare.add_decision_strategy(by_latest(model), cp_model.CHOOSE_HIGHEST_MAX, cp_model.SELECT_MAX_VALUE)
    solver, status = watch.solve(bare, _FIRST_TRY, fixed_search=True)
    if status in _GOOD:
        return read_found(model, solver), False
    if status == cp_model.INFEASIBLE:
        return None, _confirmed(model, watch, presolved=True)
    bare = without_goal(model)
    for index, start in enumerate(model.board.start):
        bare.add_hint(start, model.board.latest[index])
    work, presolve = 8.0, False  # without presolve a large menu's first solution comes sooner
    while not watch.over:
        before = watch.work
        solver, status = watch.solve(bare, work, presolve=presolve, strong=True)
        if status in _GOOD:
            return read_found(model, solver), False
        if status == cp_model.INFEASIBLE:
            return None, _confirmed(model, watch, presolved=presolve, taken=watch.work - before)
        work, presolve = work * 2, True
        if watch.work > watch.effort.work * 0.6:
            break
    return None, False


def _near(model: Model, watch: Watch, near: tuple[int, ...]) -> Found | None:
    """Return a solution close to starts that nearly hold, if one is found quickly."""
    bare = without_goal(model)
    for start, at in zip(model.board.start, near, strict=True):
        bare.add_hint(start, at)
    solver, status = watch.solve(bare, _FIRST_TRY)
    return read_found(model, solver) if status in _GOOD else None


def _confirmed(model: Model, watch: Watch, *, presolved: bool, taken: float = 0.0) -> bool:
    """Ask again with the other presolve setting: a wrong 'impossible' has been reported of the solver.

    It may take longer than the first proof took: three times as long at most.
    """
    _solver, status = watch.solve(
        without_goal(model), max(5.0, 3 * taken), presolve=not presolved, strong=True
    )
    return bool(status == cp_model.INFEASIBLE)


def by_latest(model: Model) -> list[cp_model.IntVar]:
    """Return the starts, those that may begin latest first."""
    order = sorted(range(len(model.board.start)), key=lambda index: -model.board.latest[index])
    return [model.board.start[index] for index in order]


def without_goal(model: Model) -> cp_model.CpModel:
    """Return a copy of the model that asks for any solution."""
    bare = model.board.model.clone()
    bare.clear_objective()  # type: ignore[no-untyped-call]  # untyped in the wheel
    return bare


Solved = tuple[Model, Found]
Make = Callable[[Problem], Model | None]
"""Builds the model of a part of a problem as the whole was built."""


def improve(
    model: Model, found: Found, watch: Watch, better: Callable[[Model, Found], None], make: Make | None = None
) -> tuple[Found, bool]:
    """Return the best solution found in the work left and whether it is proven best; `better` hears each.

    With `make` parts are models of their own, which cost less than the whole with most of it fixed.
    """
    return _Improving(model, found, watch, better, make).run()


class _Improving:
    """The whole model once, then parts of the day; the whole again, three times as long, as parts bring less.

    A part cannot shorten a day in which all hangs together (a makespan), and only the whole gives a bound; where
    many waits count, parts bring several times as much for their work: there they come first, lightly prepared, to
    begin with each dish alone.
    """

    def __init__(
        self,
        model: Model,
        found: Found,
        watch: Watch,
        better: Callable[[Model, Found], None],
        make: Make | None,
    ) -> None:
        self.model = model
        self.holder = model
        self.found = found
        self.make = make
        self.watch = watch
        self.better = better
        self.many = sum(wait.cost > 0 for wait in model.board.problem.waits) >= _MANY
        self.parts = Neighbourhoods(model.board.problem, watch.effort.seed, _SMALL if self.many else _USUAL)
        self.backwards = backwards(model.board.model)
        self.bound: int | None = None
        self.next_whole = _WHOLE
        self.whole = _Paid()
        self.part = _Paid()
        self.idle, self.patience = 0, _IDLE

    def run(self) -> tuple[Found, bool]:
        """Return the best solution and whether it is proven best."""
        every = len(self.model.board.problem.tasks)
        alone = self.parts.dearest(self.found) if self.many else []
        while not self.watch.over:
            if alone:
                self._try_part(alone.pop(), sized=False)
                continue
            free = self.parts.draw(self.found)
            if len(free) == every or self._whole_is_due():
                self._try_whole()
            else:
                self._try_part(free)
            if self.bound is not None and self.found.score <= self.bound:
                return self.found, True
        return self.found, False

    @property
    def _parts_pay(self) -> bool:
        return self.idle < self.patience

    def _whole_is_due(self) -> bool:
        """Tell whether the next solve of the whole keeps to its share of the work."""
        if self.next_whole == _WHOLE:
            return not self.many or self.idle >= _IDLE_LATER or self.part.all > _LATEST
        whole, part = self.whole.rate, self.part.rate if self._parts_pay else 0.0
        share = _MOST if part == 0 else min(_MOST, max(_LEAST, whole / (whole + part)))
        return self.whole.all + self.next_whole <= share * (self.whole.all + self.part.all + self.next_whole)

    def _try_whole(self) -> None:
        """Solve with all free, and remember what no solution can beat.

        Where parts are stuck it starts without the solution, which only leads it to where they are.
        """
        first = self.next_whole == _WHOLE
        model = self.backwards.clone()
        if self._parts_pay:
            self._hint_whole(model)
        work = self.next_whole if self.watch.left > 2 * self.next_whole else self.watch.left
        self.next_whole *= _LONGER
        solver, status, gain, spent = self._solved(model, work, strong=not first)
        self.whole.add(0 if first else gain, spent)  # gain on a first solution says little of the next
        if self.parts.whole and status != cp_model.OPTIMAL:
            self.parts.judged(easy=False)
        bound = solver.best_objective_bound
        if status in _SAYS and isfinite(bound):
            least = ceil(bound - _NEAR)
            self.bound = least if self.bound is None else max(least, self.bound)

    def _hint_whole(self, model: cp_model.CpModel) -> None:
        """Start the whole from the solution, whichever model it is one of."""
        if self.holder is self.model:
            _hint(model, self.found)
            return
        whole = self.model.board.model
        whole.clear_hints()  # type: ignore[no-untyped-call]  # untyped in the wheel
        tell(self.model, self.holder.about(self.model.board.problem), self.found, set(range(len(self.found.starts))))
        model.proto.solution_hint.copy_from(whole.proto.solution_hint)

    def _try_part(self, free: set[int], *, sized: bool = True) -> None:
        """Solve with some tasks free; `sized`: how that went says how many the next ones should be."""
        if self.many and self.make is not None:
            small = self.make(frozen(self.holder.about(self.model.board.problem), self.found, free))
            if small is None:
                self.parts.judged(easy=False)
                return
            hint(small, self.holder, self.found, free)
            part, of = small.board.model, small
        else:
            part, of = self.model.board.model.clone(), self.model
            _hint(part, self.found)
            _hold(part, self.model, self.found, free)
        _solver, status, gain, spent = self._solved(part, _LIGHT if self.many else _PART, of=of, light=self.many)
        self.part.add(gain, spent)
        if sized:
            self.parts.judged(easy=status == cp_model.OPTIMAL)
        self.idle += 1
        if gain:
            self.idle, self.patience = 0, _IDLE_LATER

    def _solved(
        self,
        model: cp_model.CpModel,
        work: float,
        *,
        of: Model | None = None,
        strong: bool = False,
        light: bool = False,
    ) -> tuple[cp_model.CpSolver, cp_model.CpSolverStatus, int, float]:
        """Solve, keep what is no worse, tell what is better; return solver, status, gain and the work it took."""
        before, score = self.watch.work, self.found.score
        solver, status = self.watch.solve(model, work, strong=strong, light=light, improving=light)
        if status in _GOOD:
            candidate = read_found(of or self.model, solver)
            if candidate.score <= score:
                self.found, self.holder = candidate, of or self.model
            if candidate.score < score:
                self.better(self.holder.about(self.model.board.problem), candidate)
        return solver, status, score - self.found.score, self.watch.work - before


class _Paid:
    """What solves of one kind brought for their work, the last ones counting most."""

    def __init__(self) -> None:
        self.gain = 0.0
        self.work = 0.0
        self.all = 0.0

    @property
    def rate(self) -> float:
        """Return the gain for a unit of work."""
        return self.gain / self.work if self.work else 0.0

    def add(self, gain: int, work: float) -> None:
        """Count one solve."""
        self.gain = _FADES * self.gain + gain
        self.work = _FADES * self.work + work
        self.all += work


def backwards(model: cp_model.CpModel) -> cp_model.CpModel:
    """Return a copy whose intervals are read from plating back: what ends last comes first.

    No overlap and capacity mean the same either way, but the solver's own search for schedules begins with the
    interval that may start first, and a cook's day is good where all is late.
    """
    turned = model.clone()
    for constraint in turned.proto.constraints:
        if constraint.has_interval():
            start, end = constraint.interval.start, constraint.interval.end
            first, last = _negative(end), _negative(start)
            _set(start, first)
            _set(end, last)
    return turned


_Linear = tuple[list[int], list[int], int]


def _negative(expr: Any) -> _Linear:
    return list(expr.vars), [-each for each in expr.coeffs], -expr.offset


def _set(expr: Any, wanted: _Linear) -> None:
    expr.vars.clear()
    expr.coeffs.clear()
    expr.vars.extend(wanted[0])
    expr.coeffs.extend(wanted[1])
    expr.offset = wanted[2]


def _hint(model: cp_model.CpModel, found: Found) -> None:
    hint = model.proto.solution_hint
    hint.vars.clear()
    hint.values.clear()
    hint.vars.extend(range(len(found.values)))
    hint.values.extend(found.values)


def _hold(part: cp_model.CpModel, model: Model, found: Found, free: set[int]) -> None:
    """Let all but the free tasks keep start, setting and slot."""
    proto, board = part.proto, model.board
    for index, start in enumerate(board.start):
        if index in free:
            continue
        _fix(proto, start, found)
        for literal in (*board.picks[index].values(), *board.way[index].values()):
            if literal is not None:
                _fix(proto, literal, found)
    for claim, slots in zip(model.standing.claims, model.standing.slots, strict=True):
        task = claim.task if claim.task is not None else None
        if claim.wait is not None:
            task = board.problem.waits[claim.wait].before
        if task not in free:
            for chosen in slots.values():
                if chosen is not None:
                    _fix(proto, chosen, found)


def _fix(proto: object, var: cp_model.IntVar, found: Found) -> None:
    domain = proto.variables[var.index].domain  # type: ignore[attr-defined]  # the wheel has no stubs for protos
    domain.clear()
    domain.extend([found.values[var.index]] * 2)
