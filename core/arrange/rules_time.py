"""Rules of time: links, loads, limits, serving, pins. One method for each, one sentence for each."""

from __future__ import annotations

from ortools.sat.python import cp_model

from core.arrange.variables import Board

LATE, WAITS = 100_000, 20_000  # price of a minute past a limit that gives, against wishes of hundreds


def times(board: Board) -> None:
    """Add all rules of time."""
    links_hold(board)
    limits_hold(board)


def links_hold(board: Board) -> None:
    """Let what follows come not sooner than the least wait and not later than the most."""
    for arc in board.problem.arcs:
        before = board.end[arc.before] if arc.before_end else board.start[arc.before]
        after = board.end[arc.after] if arc.after_end else board.start[arc.after]
        if arc.gives and board.giving:
            board.model.add(after >= before + arc.lag - _stretch(board, WAITS))
        else:
            board.model.add(after >= before + arc.lag)


def limits_hold(board: Board) -> None:
    """Let a step keep its earliest and latest, its clock time, its pin and its serving."""
    for bound in board.problem.bounds:
        at = board.end[bound.task] if bound.end else board.start[bound.task]
        if bound.low is not None:
            give = _stretch(board, WAITS) if bound.gives and board.giving else 0
            board.model.add(at >= bound.low - give)
        if bound.high is not None:
            give = _stretch(board, LATE) if bound.gives and board.giving else 0
            board.model.add(at <= bound.high + give)


def _stretch(board: Board, price: int) -> cp_model.IntVar:
    extra = board.model.new_int_var(0, board.high - board.problem.low, "")
    board.stretched.append((extra, price))
    return extra
