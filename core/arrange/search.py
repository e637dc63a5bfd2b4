"""Finds a first solution, then improves it by freeing a part of the day at a time (large neighbourhoods).

Shaw 1998 for the idea; CP-SAT solves each part. One worker and deterministic limits: repeatable for a seed.
"""

from __future__ import annotations

from collections.abc import Callable

from ortools.sat.python import cp_model

from core.arrange.found import Found, read_found
from core.arrange.model import Model
from core.arrange.neighbourhoods import Neighbourhoods
from core.arrange.watch import Watch

_GOOD = (cp_model.OPTIMAL, cp_model.FEASIBLE)
_FIRST_TRY = 0.4
_PART = 0.4


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
        solver, status = watch.solve(bare, work, presolve=presolve)
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
    _solver, status = watch.solve(without_goal(model), max(5.0, 3 * taken), presolve=not presolved)
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


def improve(model: Model, found: Found, watch: Watch, better: Callable[[Found], None]) -> tuple[Found, bool]:
    """Return the best solution found in the work left and whether it is proven best; `better` hears each."""
    parts = Neighbourhoods(model.board.problem, watch.effort.seed)
    while not watch.over:
        free = parts.draw(found)
        whole = len(free) == len(model.board.problem.tasks)
        part = _narrowed(model, found, free)
        solver, status = watch.solve(part, _PART * (4 if whole else 1))
        if status not in _GOOD:
            parts.judged(easy=False)
            continue
        candidate = read_found(model, solver)
        parts.judged(easy=status == cp_model.OPTIMAL)
        if candidate.score <= found.score:
            improved = candidate.score < found.score
            found = candidate
            if improved:
                better(found)
        if whole and status == cp_model.OPTIMAL:
            return found, True
    return found, False


def _narrowed(model: Model, found: Found, free: set[int]) -> cp_model.CpModel:
    """Return a copy, hinted with the solution, in which all but the free tasks keep start, setting and slot."""
    part = model.board.model.clone()
    proto = part.proto
    for index, start in enumerate(model.board.start):
        if index in free:
            continue
        _fix(proto, start, found)
        for literal in (*model.board.picks[index].values(), *model.board.way[index].values()):
            if literal is not None:
                _fix(proto, literal, found)
    for claim, slots in zip(model.standing.claims, model.standing.slots, strict=True):
        task = claim.task if claim.task is not None else None
        if claim.wait is not None:
            task = model.board.problem.waits[claim.wait].before
        if task not in free:
            for chosen in slots.values():
                if chosen is not None:
                    _fix(proto, chosen, found)
    hint = proto.solution_hint
    hint.vars.clear()
    hint.values.clear()
    hint.vars.extend(range(len(found.values)))
    hint.values.extend(found.values)
    return part


def _fix(proto: object, var: cp_model.IntVar, found: Found) -> None:
    domain = proto.variables[var.index].domain  # type: ignore[attr-defined]  # the wheel has no stubs for protos
    domain.clear()
    domain.extend([found.values[var.index]] * 2)
