"""A solution of the model as plain numbers, free of the solver that found it."""

from __future__ import annotations

from dataclasses import dataclass

from ortools.sat.python import cp_model

from core.arrange.claims import Slot
from core.arrange.goals import value
from core.arrange.model import Model
from core.arrange.outcome import WishKind


@dataclass(frozen=True, slots=True)
class Found:
    """Starts, settings and slots of a solution; `values` are all variables, to hint and to fix."""

    values: tuple[int, ...]
    score: int
    given: int
    parts: dict[WishKind, int]
    starts: tuple[int, ...]
    settings: tuple[int | None, ...]
    wait_settings: dict[int, int]
    slots: tuple[tuple[Slot, ...], ...]


def read_found(model: Model, solver: cp_model.CpSolver) -> Found:
    """Return what a solver holds for a model."""
    board = model.board
    values = tuple(solver.response_proto.solution)

    def at(var: cp_model.IntVar) -> int:
        return int(values[var.index])

    settings: list[int | None] = []
    for task in board.problem.tasks:
        picks = board.picks[task.index]
        if picks:
            settings.append(next(celsius for celsius, literal in picks.items() if at(literal)))
        else:
            settings.append(task.settings[0][0] if task.settings else None)
    waits = {
        wait: next(celsius for celsius, literal in picks.items() if at(literal))
        for wait, picks in board.wait_settings.items()
    }
    slots = tuple(
        tuple(slot for slot, literal in choice.items() if literal is None or at(literal))
        for choice in model.standing.slots
    )
    parts = {wish: value(expr, solver) for wish, expr in model.goals.parts.items()}
    given = value(model.goals.given, solver)
    score = given + sum(parts[wish] * model.goals.weights[wish] for wish in parts)
    starts = tuple(at(var) for var in board.start)
    return Found(values, score, given, parts, starts, tuple(settings), waits, slots)
