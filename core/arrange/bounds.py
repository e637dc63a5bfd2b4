"""What no timetable of a plan can beat, wish by wish: by counting, and by the solver with that wish alone."""

from __future__ import annotations

from dataclasses import dataclass, replace
from enum import StrEnum
from math import ceil, isfinite

from core.arrange.goals_oven import changes
from core.arrange.model import Model, build
from core.arrange.outcome import WishKind
from core.arrange.quality_counted import counted
from core.arrange.reading import read
from core.arrange.solver import cp_model
from core.arrange.variables import Expr, wait_ends
from core.arrange.watch import Watch
from core.plan.plan import Plan
from core.timetable.timetable import Timetable

_SAYS = (cp_model.OPTIMAL, cp_model.FEASIBLE, cp_model.UNKNOWN)
_NEAR = 1e-6


class Proof(StrEnum):
    """How it is known that no timetable can beat a bound."""

    COUNTED = "by counting"
    SOLVED = "by the solver"


@dataclass(frozen=True, slots=True)
class Bound:
    """No timetable without a clash reaches less than `amount`, in the cook's units (core.arrange.quality)."""

    amount: int
    proof: Proof


def bounds(
    plan: Plan,
    watch: Watch,
    reached: dict[WishKind, int],
    *,
    seen: Timetable | None = None,
    start: Timetable | None = None,
) -> dict[WishKind, Bound]:
    """Return what no timetable can beat, for each wish of `reached`, working until the watch is over.

    `reached` are a timetable's own amounts: where counting proves them best the solver is not asked. `start`: a
    timetable without a clash, from which the solver sets out.
    """
    problem = read(_minding_all(plan), None, seen)
    starts = None if seen is None else problem.starts_in(seen)
    found = {
        wish: Bound(amount, Proof.COUNTED) for wish, amount in counted(problem, starts).items() if wish in reached
    }
    open_still = [wish for wish in reached if wish in found and found[wish].amount < reached[wish]]
    if not open_still or watch.over:
        return found
    model = build(problem, seen=starts)
    if model is None:
        return found
    if start is not None:
        _hint(model, start)
    for number, wish in enumerate(open_still):
        amount = _solved(model, wish, watch, watch.left / (len(open_still) - number))
        if amount is not None and amount > found[wish].amount:
            found[wish] = Bound(amount, Proof.SOLVED)
    return found


def _minding_all(plan: Plan) -> Plan:
    """Return the plan with every wish minded, so that the model has a part for each."""
    wishes = plan.decisions.wishes
    least = {name: max(1, getattr(wishes, name)) for name in WishKind}
    return replace(plan, decisions=replace(plan.decisions, wishes=replace(wishes, **least)))


def _hint(model: Model, start: Timetable) -> None:
    at = {each.key: each.start for each in start.placed}
    for task in model.board.problem.tasks:
        if task.key in at:
            model.board.model.add_hint(model.board.start[task.index], at[task.key])


def _solved(model: Model, wish: WishKind, watch: Watch, work: float) -> int | None:
    """Return the solver's bound of one wish, or None where it has none to tell."""
    if watch.over:
        return None
    model.board.model.minimize(in_cooks_units(model, wish))
    solver, status = watch.solve(model.board.model, work)
    bound = solver.best_objective_bound if status in _SAYS else float("nan")
    return max(0, ceil(bound - _NEAR)) if isfinite(bound) else None


def in_cooks_units(model: Model, wish: WishKind) -> Expr:
    """Return the expression that core.arrange.quality tells of a wish."""
    board = model.board
    if wish is WishKind.FRESH:
        terms: list[Expr] = []
        for wait in board.problem.waits:
            if wait.cost > 1:
                begins, ends = wait_ends(board, wait)
                terms.append(ends - begins - wait.least)
        return sum(terms) if terms else 0
    if wish is WishKind.OVEN:
        turns: list[Expr] = [each.cold for each in board.cold]
        turns += changes(board)
        return sum(turns) if turns else 0
    return model.goals.parts[wish]
