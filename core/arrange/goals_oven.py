"""The wish for a quiet oven: heatings from cold, changes of temperature, degrees off the recipes."""

from __future__ import annotations

from core.arrange.goals_meaning import CHANGE, HEATING, off_recipe
from core.arrange.variables import Bake, Board, Cold, Expr, Literal

MOST_PAIRS = 60
"""Pairs of bakes that might share a setting up to which changes are part of the sum.

With 29 dishes and three ovens (some 600 pairs) a first timetable took four times as long, and after the same work
heatings and degrees were worse than with changes left out; measured on two shared cores.
"""


def oven_trouble(board: Board) -> Expr:
    """Return heatings from cold, changes, minutes switched on too soon and degrees off, as degrees off a recipe.

    In a large kitchen changes are left out (they are measured all the same).
    """
    terms: list[Expr] = [each.cold * HEATING + each.spare for each in board.cold]
    if _pairs(board) <= MOST_PAIRS:
        terms += [change * CHANGE for change in changes(board)]
    for bake in board.bakes:
        wanted = bake.settings[0]
        terms += [
            literal * off_recipe(celsius - wanted) for celsius, literal in bake.picks.items() if celsius != wanted
        ]
    return sum(terms) if terms else 0


def changes(board: Board) -> list[Expr]:
    """Return, for each bake that may need it, 1 where its station must change to its setting while it is hot.

    It need not where something stood there at that setting in the time for which the station is kept on.
    """
    return [_change(board, each) for each in board.cold]


def _pairs(board: Board) -> int:
    return sum(
        1 for cold in board.cold for other in board.bakes if other is not cold.bake and _may_be_same(board, cold, other)
    )


def _change(board: Board, cold: Cold) -> Expr:
    there = cold.bake.present[cold.station]
    same = [
        _same(board, cold, other, strictly=index > _number(board, cold.bake))
        for index, other in enumerate(board.bakes)
        if other is not cold.bake and _may_be_same(board, cold, other)
    ]
    if not same and there is None:
        return 1 - cold.cold
    change = board.model.new_bool_var(f"change_{cold.bake.owner}")
    absent = [there.negated()] if there is not None else []
    board.model.add_bool_or([change, cold.cold, *same, *absent])
    return change


def _number(board: Board, bake: Bake) -> int:
    return next(number for number, each in enumerate(board.bakes) if each is bake)


def _keep_on(board: Board, cold: Cold) -> int:
    heater = board.problem.plan.kitchen.station[cold.station].heater
    return heater.keep_on if heater is not None else 0


def _may_be_same(board: Board, cold: Cold, other: Bake) -> bool:
    bake = cold.bake
    if cold.station not in other.present or not set(bake.settings) & set(other.settings):
        return False
    return other.high + _keep_on(board, cold) >= bake.low and other.low <= bake.high


def _same(board: Board, cold: Cold, other: Bake, *, strictly: bool) -> Literal:
    """Return a literal: `other` stood in the station at the same setting shortly before, or still stands there."""
    model, bake = board.model, cold.bake
    literal = model.new_bool_var("")
    model.add(other.start <= bake.start - (1 if strictly else 0)).only_enforce_if(literal)
    model.add(bake.start <= other.end + _keep_on(board, cold)).only_enforce_if(literal)
    there = other.present[cold.station]
    if there is not None:
        model.add_implication(literal, there)
    if bake.picks or other.picks:
        model.add(bake.setting == other.setting).only_enforce_if(literal)
    return literal
