"""What stays as it was seen beside the steps: when stations are switched on, fires lit and vessels washed."""

from __future__ import annotations

from core.arrange.model import Model
from core.arrange.solver import cp_model
from core.arrange.variables import Board, Expr, Literal
from core.timetable.timetable import Timetable


def elsewhere(model: Model, seen: Timetable) -> Expr:
    """Return the minutes by which heatings, fires and washings leave the minute at which they were seen."""
    board, terms = model.board, []
    switched = {(each.station, each.end): each.start for each in seen.heatings}
    placed = seen.at
    for each in board.cold:
        task = board.problem.tasks[each.bake.task] if each.bake.task is not None else None
        was = placed.get(task.key) if task is not None else None
        at = switched.get((each.station, was.start)) if was is not None else None
        if at is not None:
            terms.append(_off(board, each.start, at, each.cold))
    for station in {fire.station for fire in model.fires}:
        lit = sorted(each.start for each in seen.heatings if each.station == station)
        fires = [fire for fire in model.fires if fire.station == station]
        terms += [_off(board, fire.start, at, fire.lit) for fire, at in zip(fires, lit, strict=False)]
    washed = {(each.vessel, each.after): each.end for each in seen.washings}
    for wash in model.washes:
        until = washed.get((wash.vessel.id, wash.run.steps[0]))
        if until is not None and wash.known is None:
            terms.append(_off(board, wash.free, until, wash.done))
    return sum(terms)


def _off(board: Board, var: cp_model.IntVar, at: int, present: Literal) -> cp_model.IntVar:
    off = board.model.new_int_var(0, 2 * (board.high - board.problem.low) + 4 * 24 * 60, "")
    board.model.add(off >= var - at).only_enforce_if(present)
    board.model.add(off >= at - var).only_enforce_if(present)
    return off
