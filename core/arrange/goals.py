"""Goals: what makes one clash-free day better than another, as one weighed sum whose parts stay visible."""

from __future__ import annotations

from dataclasses import dataclass, field

from ortools.sat.python import cp_model

from core.arrange.outcome import WishKind
from core.arrange.variables import Board, Expr, wait_ends
from core.plan.step import Attention

RUSH = 45  # minutes before plating in which hands-on work is no longer calm
_RUSH_COST = 20  # a minute of it
_COLD_COST = 400  # one more heating from cold
_DEGREE_COST = 20  # one degree off the recipe
_MOVE_COST = 4  # one minute moved from what was seen


@dataclass(slots=True)
class Goals:
    """The parts of the sum, unweighed, and the sum."""

    parts: dict[WishKind, Expr] = field(default_factory=dict)
    weights: dict[WishKind, int] = field(default_factory=dict)
    given: Expr = 0

    @property
    def total(self) -> Expr:
        """Return the sum that is made small."""
        return self.given + sum(self.parts[wish] * self.weights[wish] for wish in self.parts)


def goals(board: Board, seen: dict[int, int] | None, *, moves: bool = False) -> Goals:
    """Return the goals of a board; `seen` are starts that the cook has before her (task -> start).

    `moves`: minutes moved count even where the cook does not mind them.
    """
    wishes = board.problem.plan.decisions.wishes
    found = Goals()
    found.given = sum(extra * price for extra, price in board.stretched) if board.stretched else 0
    found.parts[WishKind.FRESH] = _fresh(board)
    found.weights[WishKind.FRESH] = max(1, wishes.fresh)
    if wishes.calm:
        found.parts[WishKind.CALM] = _calm(board)
        found.weights[WishKind.CALM] = wishes.calm * _RUSH_COST
    if wishes.oven:
        found.parts[WishKind.OVEN] = _oven(board)
        found.weights[WishKind.OVEN] = wishes.oven * _DEGREE_COST
    if seen is not None and (wishes.keep or moves):
        found.parts[WishKind.KEEP] = _keep(board, seen)
        found.weights[WishKind.KEEP] = max(1, wishes.keep) * _MOVE_COST
    return found


def _fresh(board: Board) -> Expr:
    """Minutes that food waits beyond what it must, each weighed by how little the food bears."""
    terms: list[Expr] = []
    for wait in board.problem.waits:
        begins, ends = wait_ends(board, wait)
        terms.append((ends - begins - wait.least) * wait.cost)
    return sum(terms) if terms else 0


def _calm(board: Board) -> Expr:
    """Hands-on minutes that fall into the last three quarters of an hour before the main serving."""
    terms: list[Expr] = []
    for task in board.problem.tasks:
        if task.step.attention is not Attention.HANDS_ON or board.earliest[task.index] >= -RUSH:
            continue
        if board.latest[task.index] + task.longest <= -RUSH:
            continue
        late = board.model.new_bool_var(f"rush{task.index}")
        board.model.add(board.end[task.index] <= -RUSH).only_enforce_if(late.negated())
        terms.append(late * (task.length * task.step.hands))
    return sum(terms) if terms else 0


def _oven(board: Board) -> Expr:
    """Heatings from cold (each as bad as twenty degrees) and degrees off the recipes."""
    terms: list[Expr] = [each.cold * (_COLD_COST // _DEGREE_COST) + each.spare for each in board.cold]
    for bake in board.bakes:
        wanted = bake.settings[0]
        terms += [
            literal * _off(celsius - wanted) for celsius, literal in bake.picks.items() if celsius != wanted
        ]
    return sum(terms) if terms else 0


def _off(degrees: int) -> int:
    """Return the cost of a setting off the recipe; two dishes a little off are better than one far off."""
    return abs(degrees) + degrees * degrees // 15


def _keep(board: Board, seen: dict[int, int]) -> Expr:
    """Minutes by which steps leave the place where the cook last saw them."""
    terms: list[Expr] = []
    for index, at in seen.items():
        far = max(abs(board.earliest[index] - at), abs(board.latest[index] - at))
        moved = board.model.new_int_var(0, far, f"m{index}")
        board.model.add(moved >= board.start[index] - at)
        board.model.add(moved >= at - board.start[index])
        terms.append(moved)
    return sum(terms) if terms else 0


def value(expr: Expr, solution: cp_model.CpSolver) -> int:
    """Return an expression's value in a solution."""
    return expr if isinstance(expr, int) else int(solution.value(expr))
