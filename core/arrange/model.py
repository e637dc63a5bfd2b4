"""Joins variables, rules and goals into one model that can be cloned, narrowed and solved."""

from __future__ import annotations

from dataclasses import dataclass

from core.arrange.goals import Goals, goals
from core.arrange.problem import Problem
from core.arrange.rules_hands import Hands, hands
from core.arrange.rules_heat import heat
from core.arrange.rules_station import Standing, stations
from core.arrange.rules_time import times
from core.arrange.rules_vessel import vessels
from core.arrange.variables import Board, lay_out
from core.plan.kitchen import StationKind


@dataclass(slots=True)
class Model:
    """A board with all rules on it."""

    board: Board
    standing: Standing
    hands: Hands
    goals: Goals


def build(
    problem: Problem,
    *,
    giving: bool = False,
    seen: dict[int, int] | None = None,
    named: frozenset[int] = frozenset(),
    explicit: frozenset[StationKind] = frozenset(),
    moves: bool = False,
) -> Model | None:
    """Return the model of a problem, or None where the waits alone already contradict each other."""
    board = lay_out(problem, giving=giving)
    if not board.possible:
        return None
    times(board)
    standing = stations(board, explicit)
    heat(board, standing)
    found = hands(board, named)
    vessels(board)
    model = Model(board, standing, found, goals(board, seen, moves=moves))
    board.model.minimize(model.goals.total)
    return model
