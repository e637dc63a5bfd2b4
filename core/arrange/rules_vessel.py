"""Rule of vessels: a run holds its vessel from first start to last end, then it is washed."""

from __future__ import annotations

from ortools.sat.python import cp_model

from core.arrange.variables import Board, Expr
from core.plan import meaning
from core.plan.runs import Run
from core.plan.step import Holding


def vessels(board: Board) -> None:
    """No more vessels of a kind are in use at any minute than there are."""
    for vessel in board.problem.plan.kitchen.vessels:
        runs = [run for run in board.problem.runs if run.vessel == vessel.id]
        if sum(run.count for run in runs) <= vessel.count:
            continue
        intervals = [_held(board, run, vessel.washing) for run in runs]
        counts = [run.count for run in runs]
        board.model.add_cumulative(intervals, counts, vessel.count)


def _held(board: Board, run: Run, washing: int) -> cp_model.IntervalVar:
    model, problem = board.model, board.problem
    tasks = [index for step in run.steps for index in problem.loads[step]]
    ends: list[Expr] = [board.end[index] for index in tasks]
    for step in run.steps:
        keep = meaning.keep_of(problem.plan, problem.plan.steps[step])
        if keep is not None and keep.wait.how is Holding.VESSEL:
            ends.append(problem.plan.dish_of[step].course)
    starts: list[Expr] = [board.start[index] for index in tasks]
    start, end = starts[0], ends[0]
    if len(starts) > 1:
        start = model.new_int_var(problem.low, board.high, "")
        model.add_min_equality(start, starts)
    if len(ends) > 1:
        end = model.new_int_var(problem.low, board.high, "")
        model.add_max_equality(end, ends)
    size = model.new_int_var(0, board.high - problem.low + washing, "")
    washed = model.new_int_var(problem.low, board.high + washing, "")
    model.add(washed == end + washing)
    return model.new_interval_var(start, size, washed, "")
