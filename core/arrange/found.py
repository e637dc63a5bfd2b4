"""A solution of the model as plain numbers, free of the solver that found it."""

from __future__ import annotations

from dataclasses import dataclass

from core.arrange.goals import value
from core.arrange.model import Model
from core.arrange.outcome import WishKind
from core.arrange.problem import Slot
from core.arrange.solver import cp_model


@dataclass(frozen=True, slots=True)
class Found:
    """Starts, ways, settings and slots of a solution; `values` are all variables, to hint and to fix.

    `labours`: start and end of each of the model's labours, None where it is not.
    """

    values: tuple[int, ...]
    score: int
    given: int
    parts: dict[WishKind, int]
    starts: tuple[int, ...]
    ends: tuple[int, ...]
    ways: tuple[int, ...]
    settings: tuple[int | None, ...]
    wait_settings: dict[int, int]
    slots: tuple[tuple[Slot, ...], ...]
    labours: tuple[tuple[int, int] | None, ...] = ()


def read_found(model: Model, solver: cp_model.CpSolver) -> Found:
    """Return what a solver holds for a model."""
    board = model.board
    values = tuple(solver.response_proto.solution)

    def at(var: cp_model.IntVar) -> int:
        return int(values[var.index])

    ways: list[int] = []
    settings: list[int | None] = []
    for task in board.problem.tasks:
        taken = next(n for n, literal in board.way[task.index].items() if literal is None or at(literal))
        way = next(each for each in task.ways if each.number == taken)
        picks = {c: literal for (number, c), literal in board.picks[task.index].items() if number == taken}
        chosen = next((celsius for celsius, literal in picks.items() if at(literal)), None)
        ways.append(taken)
        settings.append(chosen if chosen is not None else way.settings[0][0] if way.settings else None)
    waits = {
        wait: next(celsius for celsius, literal in picks.items() if at(literal))
        for wait, picks in board.wait_settings.items()
    }
    slots = tuple(
        tuple(slot for slot, literal in choice.items() if literal is None or at(literal))
        for choice in model.standing.slots
    )
    ends = tuple(value(end, solver) for end in board.end)
    parts = {wish: value(expr, solver) for wish, expr in model.goals.parts.items()}
    given = value(model.goals.given, solver)
    score = given + sum(parts[wish] * model.goals.weights[wish] for wish in parts)
    starts = tuple(at(var) for var in board.start)
    labours = tuple(
        (value(each.start, solver), value(each.end, solver)) if each.present is None or at(each.present) else None
        for each in model.hands.labours
    )
    return Found(
        values, score, given, parts, starts, ends, tuple(ways), tuple(settings), waits, slots, labours
    )
