"""Rules of hands: a cook does one thing at a time, with the skill it asks, and not when absent.

Cooks are not named here: counts for everybody and for each skill decide, which is much quicker and exact
where skills are nested; names are given afterwards. Pieces in `named` get a cook inside the model.
"""

from __future__ import annotations

from dataclasses import dataclass, field

from ortools.sat.python import cp_model

from core.arrange.problem import Piece
from core.arrange.variables import Board, Expr
from core.plan.ids import CookId

SWITCH_ON = 1  # minutes of a cook to switch an oven on


@dataclass(slots=True)
class Hands:
    """Intervals that need cooks, and for named pieces who may do them."""

    pieces: list[Piece] = field(default_factory=list)
    named: dict[int, dict[CookId, cp_model.IntVar]] = field(default_factory=dict)


def hands(board: Board, named: frozenset[int]) -> Hands:
    """Add the rules of hands; `named` are numbers of pieces that get a cook in the model."""
    found = Hands([piece for task in board.problem.tasks for piece in task.pieces])
    demands: list[tuple[cp_model.IntervalVar, int, str]] = []
    per_cook: dict[CookId, list[cp_model.IntervalVar]] = {
        cook.id: [] for cook in board.problem.plan.kitchen.cooks
    }
    for number, piece in enumerate(found.pieces):
        start = piece_start(board, piece)
        interval = _lasting(board, piece, start)
        demands.append((interval, piece.people, piece.skill))
        fixed = board.problem.fixed.get(piece.task)
        pinned = fixed.cook if fixed is not None else None
        if number in named or pinned is not None:
            found.named[number] = _choose_cooks(board, piece, start, per_cook, pinned)
    for each in board.cold:
        interval = board.model.new_optional_fixed_size_interval_var(each.start, SWITCH_ON, each.cold, "")
        demands.append((interval, 1, ""))
    for skill in sorted({skill for _interval, _people, skill in demands} | {""}):
        _enough(
            board, [(each, people) for each, people, asked in demands if not skill or asked == skill], skill
        )
    for cook, intervals in per_cook.items():
        if intervals:
            board.model.add_no_overlap(intervals + _blocks(board, cook))
    return found


def piece_start(board: Board, piece: Piece) -> Expr:
    """Return when a piece begins."""
    if piece.from_end:
        return board.end[piece.task] - (piece.offset + piece.minutes)
    return board.start[piece.task] + piece.offset


def _lasting(
    board: Board, piece: Piece, start: Expr, present: cp_model.IntVar | None = None
) -> cp_model.IntervalVar:
    """Return the interval of a piece; one that lasts as long as its task changes with the task's length."""
    size = board.length[piece.task] if piece.whole else piece.minutes
    if isinstance(size, int):
        if present is None:
            return board.model.new_fixed_size_interval_var(start, size, "")
        return board.model.new_optional_fixed_size_interval_var(start, size, present, "")
    if present is None:
        return board.model.new_interval_var(start, size, board.end[piece.task], "")
    return board.model.new_optional_interval_var(start, size, board.end[piece.task], present, "")


def _enough(board: Board, demands: list[tuple[cp_model.IntervalVar, int]], skill: str) -> None:
    """At no minute are more cooks (with a skill) needed than are there."""
    cooks = [cook for cook in board.problem.plan.kitchen.cooks if not skill or skill in cook.skills]
    if not demands:
        return
    intervals = [interval for interval, _people in demands]
    counts = [people for _interval, people in demands]
    for cook in cooks:
        blocks = _blocks(board, cook.id)
        intervals += blocks
        counts += [1] * len(blocks)
    if len(cooks) == 1 and all(count == 1 for count in counts):
        board.model.add_no_overlap(intervals)
    else:
        board.model.add_cumulative(intervals, counts, len(cooks))


def _blocks(board: Board, cook: CookId) -> list[cp_model.IntervalVar]:
    low, high = board.problem.low - 24 * 60, board.high + 24 * 60
    return [
        board.model.new_fixed_size_interval_var(a, b - a, "")
        for a, b in board.problem.away[cook]
        if b > low and a < high
    ]


def _choose_cooks(
    board: Board,
    piece: Piece,
    start: Expr,
    per_cook: dict[CookId, list[cp_model.IntervalVar]],
    pinned: CookId | None,
) -> dict[CookId, cp_model.IntVar]:
    """Give a piece as many cooks as it needs, each free and there for all of it."""
    chosen = {}
    for cook in board.problem.plan.kitchen.cooks:
        if piece.skill and piece.skill not in cook.skills:
            continue
        literal = board.model.new_bool_var(f"h{piece.task}_{cook.id}")
        interval = _lasting(board, piece, start, literal)
        per_cook[cook.id].append(interval)
        chosen[cook.id] = literal
    board.model.add(sum(chosen.values()) == piece.people)
    if pinned is not None:
        if pinned not in chosen or piece.people > 1:
            board.model.add_bool_or([])  # who is pinned cannot do it, or not alone
        else:
            board.model.add(chosen[pinned] == 1)
    return chosen
