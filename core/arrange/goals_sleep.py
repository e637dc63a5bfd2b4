"""The wish to sleep: minutes by which the first hands of a day begin before the hour the cook named."""

from __future__ import annotations

from dataclasses import dataclass

from core.arrange.goals_meaning import Morning, mornings
from core.arrange.problem import Piece, Task
from core.arrange.solver import cp_model
from core.arrange.variables import Board, Expr, Literal, start_domain


@dataclass(frozen=True, slots=True)
class _Begins:
    """Where a cook's hands begin: an offset as an expression, what it can be, and whether it is at all."""

    at: Expr
    can: cp_model.Domain
    present: Literal | None


def too_early(board: Board) -> Expr:
    """Return the minutes of all mornings from the first hands to when one would rather begin."""
    begins = [*_of_tasks(board), *_of_chores(board)]
    terms: list[Expr] = []
    for morning in mornings(board.problem.plan, board.problem.low - 24 * 60, board.high):
        window = cp_model.Domain(morning.dawn, morning.until - 1)
        some = [each for each in begins if not each.can.intersection_with(window).is_empty()]
        if not some:
            continue
        early = board.model.new_int_var(0, morning.until - morning.dawn, f"early{morning.day}")
        for each in some:
            _counts(board, each, morning, early)
        terms.append(early)
    return sum(terms) if terms else 0


def _counts(board: Board, begins: _Begins, morning: Morning, early: cp_model.IntVar) -> None:
    """Let hands that begin in a morning make it early; those that begin later do so of themselves."""
    given = [begins.present] if begins.present is not None else []
    if begins.can.min() < morning.dawn:
        not_before = board.model.new_bool_var("")
        board.model.add(begins.at < morning.dawn).only_enforce_if([*given, not_before.negated()])
        given.append(not_before)
    board.model.add(early >= morning.until - begins.at).only_enforce_if(given)


def _of_tasks(board: Board) -> list[_Begins]:
    found = []
    for task in board.problem.tasks:
        cut = board.cuts.get(task.index)
        if cut is not None:
            low, high = board.earliest[task.index], board.latest[task.index] + task.longest
            whole = cp_model.Domain(low, high)
            found += [
                _Begins(at, whole, there if number else None)
                for number, (at, there) in enumerate(zip(cut.starts, cut.there, strict=True))
            ]
            continue
        can = start_domain(board.problem, task, board.earliest[task.index], board.latest[task.index])
        found += [_of_piece(board, task, piece, can) for piece in task.pieces if piece.minutes]
    return found


def _of_piece(board: Board, task: Task, piece: Piece, can: cp_model.Domain) -> _Begins:
    present = board.way[task.index][piece.way]
    if not piece.from_end:
        at: Expr = board.start[task.index] + piece.offset
        return _Begins(at, can.addition_with(cp_model.Domain(piece.offset, piece.offset)), present)
    back = piece.offset + piece.minutes
    lasts = cp_model.Domain(task.shortest - back, task.longest - back)
    return _Begins(board.end[task.index] - back, can.addition_with(lasts), present)


def _of_chores(board: Board) -> list[_Begins]:
    whole = cp_model.Domain(board.problem.low - 24 * 60, board.high + 24 * 60)
    return [_Begins(chore.start, whole, chore.present) for chore in board.chores if chore.minutes]
