"""Rule of fullness: in an oven that is full with more than one dish everything takes longer.

An oven becomes full only when something goes in, so it is enough to look at those minutes.
"""

from __future__ import annotations

from core.arrange.rules_station import Standing, Taken
from core.arrange.variables import Board, Literal
from core.plan.ids import StationId

Reasons = dict[tuple[int, int], list[Literal]]
"""For a task and per cent: the literals by which it takes so much longer."""


def fullness(board: Board, standing: Standing) -> None:
    """Let tasks be longer exactly where their station is full of several dishes at some minute of them."""
    if not board.full:
        return
    reasons: Reasons = {(index, percent): [] for index, each in board.full.items() for percent in each}
    for station in board.problem.plan.kitchen.stations:
        if station.heater is not None and station.heater.full and not station.shelves:
            _at_station(board, standing, station.id, station.heater.full, reasons)
    for (index, percent), why in reasons.items():
        full = board.full[index][percent]
        board.model.add_bool_or([*why, full.negated()])
        for each in why:
            board.model.add_implication(each, full)


def _at_station(
    board: Board, standing: Standing, station: StationId, percent: int, reasons: Reasons
) -> None:
    here = standing.at(station)
    units = board.problem.plan.kitchen.station[station].units
    for number, one in enumerate(here):
        inside = [
            (other, _inside(board, one, other) if index != number else one.present)
            for index, other in enumerate(here)
        ]
        crowded = _crowded(board, standing, one, inside, units)
        if crowded is None:
            continue
        for other, there in inside:
            task = standing.claims[other.claim].task
            if task is None or (task, percent) not in reasons:
                continue
            both = board.model.new_bool_var("")
            lits = [crowded, *([there] if there is not None else [])]
            board.model.add_bool_and(lits).only_enforce_if(both)
            board.model.add_bool_or([both, *(each.negated() for each in lits)])
            reasons[task, percent].append(both)


def _inside(board: Board, one: Taken, other: Taken) -> Literal:
    """Return a literal: `other` is in the station at the minute when `one` goes in."""
    model = board.model
    literal, begun, over = (model.new_bool_var("") for _ in range(3))
    model.add(other.start <= one.start).only_enforce_if(begun)
    model.add(other.start > one.start).only_enforce_if(begun.negated())
    model.add(other.end <= one.start).only_enforce_if(over)
    model.add(other.end > one.start).only_enforce_if(over.negated())
    there = [each for each in (one.present, other.present) if each is not None]
    model.add_bool_and([begun, over.negated(), *there]).only_enforce_if(literal)
    model.add_bool_or([literal, begun.negated(), over, *(each.negated() for each in there)])
    return literal


def _crowded(
    board: Board, standing: Standing, one: Taken, inside: list[tuple[Taken, Literal | None]], units: int
) -> Literal | None:
    """Return a literal: when `one` goes in all units are taken, not by its dish alone (None: never)."""
    model = board.model
    dish = _dish(board, standing, one)
    strangers = [literal for other, literal in inside if _dish(board, standing, other) != dish and literal is not None]
    if sum(other.demand for other, _literal in inside) < units or not strangers:
        return None
    crowded, taken, mixed = (model.new_bool_var("") for _ in range(3))
    load = sum(other.demand * (1 if literal is None else literal) for other, literal in inside)
    model.add(load >= units).only_enforce_if(taken)
    model.add(load < units).only_enforce_if(taken.negated())
    model.add_bool_or(strangers).only_enforce_if(mixed)
    model.add_bool_and([each.negated() for each in strangers]).only_enforce_if(mixed.negated())
    here = [one.present] if one.present is not None else []
    model.add_bool_and([taken, mixed, *here]).only_enforce_if(crowded)
    model.add_bool_or([crowded, taken.negated(), mixed.negated(), *(each.negated() for each in here)])
    return crowded


def _dish(board: Board, standing: Standing, taken: Taken) -> str:
    claim = standing.claims[taken.claim]
    task = claim.task if claim.task is not None else board.problem.waits[claim.waiting].before
    return board.problem.tasks[task].dish.id
