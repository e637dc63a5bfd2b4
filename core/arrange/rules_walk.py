"""Walking counted as work, where hands are not named: to a place apart before, and from it after.

Whoever has something else to do there within the time of the walk to and fro stays. This asks for a little more
than the rule does, and is left out where nothing fits.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from core.arrange.labour import Labour
from core.arrange.solver import cp_model
from core.arrange.variables import Board, Expr, Literal

_MOST = 40  # labours in places apart: beyond these the pairs would make the model slow


def ways_elsewhere(board: Board, labours: list[Labour]) -> Iterator[tuple[Labour, cp_model.IntervalVar]]:
    """Return the walks to and from each labour in a place apart, with the labour."""
    walk = board.problem.plan.kitchen.walk
    apart = _apart(labours)
    if len(apart) > _MOST:
        return
    for one, place in apart:
        near = [other for other, there in apart if other is not one and there == place]
        before = _stays(board, [(other.end, one.start, other) for other in near], 2 * walk)
        after = _stays(board, [(one.end, other.start, other) for other in near], 2 * walk)
        for start, stays in ((one.start - walk, before), (_one_number(board, one), after)):
            walks = board.model.new_bool_var("")
            given = [stays.negated()] + ([one.present] if one.present is not None else [])
            board.model.add_bool_or([walks, *(each.negated() for each in given)])
            yield one, board.model.new_optional_fixed_size_interval_var(start, walk, walks, "")


def _one_number(board: Board, labour: Labour) -> Expr:
    """Return when a labour ends as one number: that of work in pieces is a sum, which no interval takes."""
    if labour.task not in board.cuts:
        return labour.end
    end = board.model.new_int_var(board.problem.low, board.high + 24 * 60, "")
    board.model.add(end == labour.end)
    return end


def _apart(labours: list[Labour]) -> list[tuple[Labour, str]]:
    """Return the labours that are surely in a place where fewer are than in the busiest one."""
    surely = [
        (labour, next(iter(labour.places)))
        for labour in labours
        if len(labour.places) == 1 and next(iter(labour.places.values())) is None
    ]
    busiest = Counter(place for _labour, place in surely).most_common(1)
    return [(labour, place) for labour, place in surely if place != busiest[0][0]] if busiest else []


def _stays(board: Board, gaps: list[tuple[Expr, Expr, Labour]], most: int) -> Literal:
    """Return a literal that may hold only where one of the gaps is shorter than the walk to and fro."""
    model = board.model
    stays, why = model.new_bool_var(""), []
    for end, start, other in gaps:
        literal = model.new_bool_var("")
        model.add(start >= end).only_enforce_if(literal)
        model.add(start - end < most).only_enforce_if(literal)
        if other.present is not None:
            model.add_implication(literal, other.present)
        why.append(literal)
    model.add_bool_or([*why, stays.negated()])
    return stays
