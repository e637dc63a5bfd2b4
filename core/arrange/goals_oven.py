"""The wish for a quiet oven: heatings from cold, changes of temperature, degrees off the recipes.

What is not moved in a model counts as well, as numbers: the goal of a part is that of the whole.
"""

from __future__ import annotations

from core.arrange.goals_meaning import CHANGE, HEATING, off_recipe
from core.arrange.held_heat import follows, standing
from core.arrange.variables import Bake, Board, Cold, Expr, Literal
from core.plan.ids import StationId

MOST_PAIRS = 60
"""Pairs of bakes that might share a setting up to which changes are part of the sum, where the whole is one model.

With 29 dishes and three ovens (some 600 pairs) a first timetable took four times as long, and after the same work
heatings and degrees were worse than with changes left out; measured on two shared cores. Large feasts are worked on
in parts, in which most pairs are numbers: there they count.
"""


def oven_trouble(board: Board) -> Expr:
    """Return heatings from cold, changes, minutes switched on too soon and degrees off, as degrees off a recipe.

    Where the whole is one model with many bakes changes are left out (they are measured all the same).
    """
    terms: list[Expr] = [each.cold * HEATING + each.spare for each in board.cold]
    if board.problem.changes is None:
        board.problem.changes = _pairs(board) <= MOST_PAIRS
    if board.problem.changes:
        terms += [change * CHANGE for change in changes(board)]
    for bake in board.bakes:
        if bake.picks:
            terms += [
                literal * off_recipe(celsius - bake.wanted)
                for celsius, literal in bake.picks.items()
                if celsius != bake.wanted
            ]
        elif bake.settings[0] != bake.wanted:
            terms.append(off_recipe(bake.settings[0] - bake.wanted))
    return sum(terms) if terms else 0


def changes(board: Board) -> list[Expr]:
    """Return, for each bake that may need it, 1 where its station must change to its setting while it is hot.

    It need not where something stood there at that setting in the time for which the station is kept on.
    """
    found = [_change(board, each.bake, each.station, each) for each in board.cold]
    found += [_change(board, bake, station, None) for bake, station in board.warm]
    return [each for each in found if not isinstance(each, int) or each]


def _pairs(board: Board) -> int:
    return sum(
        1
        for cold in board.cold
        for other in board.bakes
        if other is not cold.bake and _may_be_same(board, cold.bake, cold.station, other)
    )


def _change(board: Board, bake: Bake, station: StationId, cold: Cold | None) -> Expr:
    """Return whether a station must change to the setting of a bake; `cold` is the heating that it may have instead."""
    there = bake.present[station]
    number = _number(board, bake)
    same: list[Literal] = []
    for index, other in enumerate(board.bakes):
        if other is bake or not _may_be_same(board, bake, station, other):
            continue
        known = _known_same(board, bake, station, other, strictly=index > number)
        if known:
            return 0
        if known is None:
            same.append(_same(board, bake, station, other, strictly=index > number))
    if not same and there is None:
        return 1 if cold is None else 1 - cold.cold
    change = board.model.new_bool_var(f"change_{bake.owner}")
    absent = [there.negated()] if there is not None else []
    heated = [cold.cold] if cold is not None else []
    board.model.add_bool_or([change, *heated, *same, *absent])
    return change


def _number(board: Board, bake: Bake) -> int:
    return next(number for number, each in enumerate(board.bakes) if each is bake)


def _keep_on(board: Board, station: StationId) -> int:
    heater = board.problem.plan.kitchen.station[station].heater
    return heater.keep_on if heater is not None else 0


def _may_be_same(board: Board, bake: Bake, station: StationId, other: Bake) -> bool:
    if station not in other.present or not set(bake.settings) & set(other.settings):
        return False
    return other.high + _keep_on(board, station) >= bake.low and other.low <= bake.high


def _known_same(board: Board, bake: Bake, station: StationId, other: Bake, *, strictly: bool) -> bool | None:
    """Tell whether `other` leaves the station at the setting of `bake`, where neither is moved; None: it depends."""
    mine, its = standing(board, bake, station), standing(board, other, station)
    if mine is None or its is None or bake.picks or other.picks:
        return None
    return follows(mine, its, _keep_on(board, station), strictly=strictly)


def _same(board: Board, bake: Bake, station: StationId, other: Bake, *, strictly: bool) -> Literal:
    """Return a literal: `other` stood in the station at the same setting shortly before, or still stands there."""
    model = board.model
    literal = model.new_bool_var("")
    model.add(other.start <= bake.start - (1 if strictly else 0)).only_enforce_if(literal)
    model.add(bake.start <= other.end + _keep_on(board, station)).only_enforce_if(literal)
    there = other.present[station]
    if there is not None:
        model.add_implication(literal, there)
    if bake.picks or other.picks:
        model.add(bake.setting == other.setting).only_enforce_if(literal)
    return literal
