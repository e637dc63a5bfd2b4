"""Goals: what makes one clash-free day better than another, as one weighed sum whose parts stay visible."""

from __future__ import annotations

from dataclasses import dataclass, field

from core.arrange.goals_calm import rushed
from core.arrange.goals_meaning import PRICES, weights_of
from core.arrange.goals_oven import oven_trouble
from core.arrange.goals_sleep import too_early
from core.arrange.outcome import WishKind
from core.arrange.solver import cp_model
from core.arrange.variables import Board, Expr, wait_ends


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
    weights = weights_of(board.problem.plan.decisions.wishes)
    if seen is None:
        weights[WishKind.KEEP] = 0
    elif moves:
        weights[WishKind.KEEP] = max(PRICES[WishKind.KEEP], weights[WishKind.KEEP])
    found = Goals(weights={wish: weight for wish, weight in weights.items() if weight})
    found.given = sum(extra * price for extra, price in board.stretched) if board.stretched else 0
    for wish in found.weights:
        found.parts[wish] = _part(board, wish, seen or {})
    return found


def _part(board: Board, wish: WishKind, seen: dict[int, int]) -> Expr:
    match wish:
        case WishKind.FRESH:
            return _fresh(board)
        case WishKind.CALM:
            return rushed(board)
        case WishKind.OVEN:
            return oven_trouble(board)
        case WishKind.SLEEP:
            return too_early(board)
        case WishKind.KEEP:
            return _keep(board, seen)


def _fresh(board: Board) -> Expr:
    """Minutes that food waits beyond what it must, each weighed by how little the food bears."""
    terms: list[Expr] = []
    for wait in board.problem.waits:
        begins, ends = wait_ends(board, wait)
        terms.append((ends - begins - wait.least) * wait.cost)
    return sum(terms) if terms else 0


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
