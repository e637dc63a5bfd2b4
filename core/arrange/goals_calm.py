"""The wish for calm: hands-on minutes that fall into the last three quarters of an hour before plating."""

from __future__ import annotations

from core.arrange.goals_meaning import RUSH
from core.arrange.problem import Task
from core.arrange.variables import Board, Expr
from core.plan.step import Attention


def rushed(board: Board) -> Expr:
    """Return the hands-on minutes (times cooks) between RUSH minutes before plating and plating."""
    terms: list[Expr] = []
    for task in board.problem.tasks:
        if task.step.attention is not Attention.HANDS_ON:
            continue
        low, high = board.earliest[task.index], board.latest[task.index] + task.longest
        if high <= -RUSH or low >= 0:
            continue
        terms += [minutes * task.step.hands for minutes in _of_task(board, task, low, high)]
    return sum(terms) if terms else 0


def _of_task(board: Board, task: Task, low: int, high: int) -> list[Expr]:
    cut = board.cuts.get(task.index)
    if cut is None:
        if low >= -RUSH and high <= 0:  # all of it, wherever it goes
            return [board.length[task.index]]
        return [_inside(board, board.start[task.index], board.end[task.index], (low, high))]
    return [
        _inside(board, start, start + size, (low, high))
        for start, size in zip(cut.starts, cut.sizes, strict=True)
    ]


def _inside(board: Board, start: Expr, end: Expr, span: tuple[int, int]) -> Expr:
    """Return how much of start to end lies in the rush."""
    return _clipped(board, end, span) - _clipped(board, start, span)


def _clipped(board: Board, at: Expr, span: tuple[int, int]) -> Expr:
    """Return an offset, moved to the nearest of -RUSH to 0."""
    low, high = span
    clipped: Expr = at
    if low < -RUSH:
        clipped = board.model.new_int_var(-RUSH, max(-RUSH, high), "")
        board.model.add_max_equality(clipped, [at, -RUSH])
    if high > 0:
        over, clipped = clipped, board.model.new_int_var(-RUSH, 0, "")
        board.model.add_min_equality(clipped, [over, 0])
    return clipped
