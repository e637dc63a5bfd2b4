"""Rules of time: links, loads, limits, serving, pins. One method for each, one sentence for each."""

from __future__ import annotations

from core.arrange.demand import Demand, DemandKind
from core.arrange.solver import cp_model
from core.arrange.variables import Board, Expr

LATE, WAITS = 100_000, 20_000  # price of a minute past a limit that gives, against wishes of hundreds


def times(board: Board) -> None:
    """Add all rules of time."""
    links_hold(board)
    limits_hold(board)
    opens(board)


def links_hold(board: Board) -> None:
    """Let what follows come not sooner than the least wait and not later than the most."""
    for arc in board.problem.arcs:
        before = board.end[arc.before] if arc.before_end else board.start[arc.before]
        after = board.end[arc.after] if arc.after_end else board.start[arc.after]
        lag: Expr = arc.lag + (board.early[arc.early] if arc.early is not None else 0)
        give = _stretch(board, WAITS) if arc.gives and board.giving else 0
        board.add_if(arc.demand, board.model.add(after >= before + lag - give))


def limits_hold(board: Board) -> None:
    """Let a step keep its earliest and latest, its clock time, its pin and its serving."""
    for bound in board.problem.bounds:
        at = board.end[bound.task] if bound.end else board.start[bound.task]
        if bound.low is not None:
            give = _stretch(board, WAITS) if bound.gives and board.giving else 0
            early = board.early[bound.task] if bound.early else 0
            board.add_if(bound.demand, board.model.add(at >= bound.low + early - give))
        if bound.high is not None:
            give = _stretch(board, LATE) if bound.gives and board.giving else 0
            board.add_if(bound.demand, board.model.add(at <= bound.high + give))


def opens(board: Board) -> None:
    """Let nothing begin before the plan does; domains hold it already unless it is asked about."""
    plan = board.problem.plan
    if board.asking and plan.opens is not None:
        for task in board.problem.tasks:
            if task.begun is None:
                board.add_if(Demand(DemandKind.OPENS), board.model.add(board.start[task.index] >= plan.opens))


def _stretch(board: Board, price: int) -> cp_model.IntVar:
    extra = board.model.new_int_var(0, board.high - board.problem.low, "")
    board.stretched.append((extra, price))
    return extra
