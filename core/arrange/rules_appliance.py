"""Rule of one appliance: stations that are the same machine are never used or heated in the same minute."""

from __future__ import annotations

from core.arrange.demand import Demand, DemandKind
from core.arrange.rules_fire import Fire
from core.arrange.rules_station import Standing
from core.arrange.solver import cp_model
from core.arrange.variables import Board
from core.plan.ids import StationId

_Span = cp_model.IntervalVar


def not_both(board: Board, standing: Standing, lit: list[Fire]) -> None:
    """Keep what is on one station apart from what is on the other, heating up and lighting included."""
    for one, other in board.problem.plan.kitchen.apart:
        _apart(board, standing, lit, (one.id, other.id))


def _apart(board: Board, standing: Standing, lit: list[Fire], pair: tuple[StationId, StationId]) -> None:
    one, other = pair
    asked = board.ask(Demand(DemandKind.NOT_WITH, station=min(one, other), other=max(one, other)))
    mine, theirs = _spans(board, standing, lit, one), _spans(board, standing, lit, other)
    for span in mine:
        for each in theirs:
            if asked is None:
                board.model.add_no_overlap([span, each])
            else:
                board.model.add_cumulative([span, each], [1, 1], 2 - asked)


def _spans(board: Board, standing: Standing, lit: list[Fire], station: StationId) -> list[_Span]:
    found = [each.interval for each in standing.at(station)]
    for each in board.cold:
        if each.station == station:
            size = board.model.new_int_var(0, board.high - board.problem.low + 24 * 60, "")
            found.append(
                board.model.new_optional_interval_var(each.start, size, each.bake.start, each.cold, "")
            )
    for fire in lit:
        minutes = board.problem.plan.kitchen.station[station].lighting
        if fire.station == station and minutes:
            found.append(
                board.model.new_optional_fixed_size_interval_var(fire.start, minutes, fire.lit, "")
            )
    return found
