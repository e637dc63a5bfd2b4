"""What is already known of the heat of bakes that a model does not move, so that it needs no variables."""

from __future__ import annotations

from core.arrange.problem import Stretch
from core.arrange.variables import Bake, Board
from core.plan.ids import StationId


def standing(board: Board, bake: Bake, station: StationId) -> Stretch | None:
    """Return from when to when a bake that is not moved in this model is surely in a station; None: not known."""
    if not bake.held or station not in bake.present or bake.present[station] is not None:
        return None
    if bake.task is not None:
        begun = board.problem.tasks[bake.task].begun
        return None if begun is None else (begun.start, begun.end)
    if bake.wait is None:
        return None
    wait = board.problem.waits[bake.wait]
    before = board.problem.tasks[wait.before].begun
    if before is None:
        return None
    if wait.after is None:
        return None if board.giving or board.asking else (before.end, wait.until)
    after = board.problem.tasks[wait.after].begun
    return None if after is None else (before.end, after.start)


def follows(mine: Stretch, other: Stretch, keep_on: int, *, strictly: bool) -> bool:
    """Tell whether a bake finds its station warm from another: that stood there shortly before, or still stands.

    `strictly`: of two that go in together, this one is not the one that finds it warm.
    """
    return other[0] <= mine[0] - (1 if strictly else 0) and mine[0] <= other[1] + keep_on


def surely_warm(number: int, spans: list[Stretch | None], keep_on: int) -> bool:
    """Tell whether a bake finds its station warm from another, both not moved; `spans` in the bakes' order."""
    mine = spans[number]
    return mine is not None and any(
        other is not None and follows(mine, other, keep_on, strictly=index > number)
        for index, other in enumerate(spans)
        if index != number
    )
