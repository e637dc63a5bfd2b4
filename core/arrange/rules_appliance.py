"""Rule of one appliance: stations that are the same machine are never used or heated in the same minute."""

from __future__ import annotations

from ortools.sat.python import cp_model

from core.arrange.claims import in_one_appliance
from core.arrange.demand import Demand, DemandKind
from core.arrange.rules_station import Standing
from core.arrange.variables import Board
from core.plan.ids import StationId

_Span = cp_model.IntervalVar


def not_both(board: Board, standing: Standing) -> None:
    """Keep what is on one station apart from what is on the other, heating up included."""
    done: set[frozenset[StationId]] = set()
    for station in board.problem.plan.kitchen.stations:
        for other in in_one_appliance(board.problem, station.id):
            pair = frozenset({station.id, other})
            if pair not in done:
                done.add(pair)
                _apart(board, standing, station.id, other)


def _apart(board: Board, standing: Standing, one: StationId, other: StationId) -> None:
    asked = board.ask(Demand(DemandKind.NOT_WITH, station=min(one, other), other=max(one, other)))
    mine, theirs = _spans(board, standing, one), _spans(board, standing, other)
    if asked is not None:
        return  # what is asked about is only ever relaxed: such pairs are left to the second look
    for span in mine:
        for each in theirs:
            board.model.add_no_overlap([span, each])


def _spans(board: Board, standing: Standing, station: StationId) -> list[_Span]:
    found = [each.interval for each in standing.at(station)]
    for each in board.cold:
        if each.station == station:
            size = board.model.new_int_var(0, board.high - board.problem.low + 24 * 60, "")
            found.append(
                board.model.new_optional_interval_var(each.start, size, each.bake.start, each.cold, "")
            )
    return found
