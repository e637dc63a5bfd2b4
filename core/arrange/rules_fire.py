"""Rule of fires: what stands on coals does so while some fire burns, and a fire is lit beforehand by a cook."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

from ortools.sat.python import cp_model

from core.arrange.demand import Demand, DemandKind
from core.arrange.rules_station import Standing, Taken
from core.arrange.variables import Board, Chore, Expr, Literal
from core.plan.ids import StationId
from core.plan.kitchen import Station

_AGAIN = 300  # price of a fire
_SOONER = 1  # price of a minute that a fire is lit before the end of the day: coals are lit as late as can be


@dataclass(frozen=True, slots=True)
class Fire:
    """One fire of a station: whether it is lit, from when (lit, ready) to when it burns."""

    station: StationId
    lit: Literal
    start: cp_model.IntVar
    ready: Expr
    out: Expr


def fires(board: Board, standing: Standing) -> list[Fire]:
    """Add the rule; return the fires that may be lit."""
    found = []
    for station in board.problem.plan.kitchen.stations:
        if station.is_fire:
            here = standing.at(station.id)
            if here:
                found += _of_station(board, station, here)
    return found


def _of_station(board: Board, station: Station, here: list[Taken]) -> list[Fire]:
    model, high = board.model, board.high
    burns = station.burns if station.burns is not None else 2 * (high - board.problem.low) + 1
    found: list[Fire] = []
    for number in range(station.fires):
        lit = model.new_bool_var(f"lit_{station.id}_{number}")
        start = model.new_int_var_from_domain(_lighting(board, station), f"fire_{station.id}_{number}")
        if found:
            model.add_implication(lit, found[-1].lit)
            model.add(start >= found[-1].start)
        ready = start + station.lighting
        found.append(Fire(station.id, lit, start, ready, ready + burns))
        lasts = model.new_int_var(0, 2 * (high - board.problem.low) + 24 * 60, "")
        model.add(lasts >= high - start).only_enforce_if(lit)
        board.priced += [(lit, _AGAIN), (lasts, _SOONER)]
        laying = min(station.laying, station.lighting)
        if laying:
            board.chores.append(_laid(board, station, found[-1], laying, number))
    _joined(board, station, found, here)
    return found


def _lighting(board: Board, station: Station) -> cp_model.Domain:
    first = board.problem.low - station.lighting
    if board.problem.now is None:
        return cp_model.Domain(first, board.high)
    lit = [each.start for each in board.problem.lit if each.station == station.id]
    return cp_model.Domain.from_values(lit).union_with(cp_model.Domain(board.problem.now, board.high))


def _laid(board: Board, station: Station, fire: Fire, minutes: int, number: int) -> Chore:
    """Return the hands that lighting takes, unless it was lit before now."""
    there: Literal = fire.lit
    if board.problem.now is not None and any(each.station == station.id for each in board.problem.lit):
        there = board.model.new_bool_var("")
        board.model.add_implication(there, fire.lit)
        board.model.add(fire.start >= board.problem.now).only_enforce_if(there)
        board.model.add(fire.start < board.problem.now).only_enforce_if([there.negated(), fire.lit])
    return Chore(fire.start, minutes, there, station.place, f"fire {station.id} {number}")


def _joined(board: Board, station: Station, found: list[Fire], here: list[Taken]) -> None:
    """Let every use begin in a fire's burning and end in the same, or in one that joins on to it."""
    model = board.model
    demand = Demand(DemandKind.FIRE, station=station.id)
    joins = []
    for one, then in pairwise(found):
        join = model.new_bool_var("")
        model.add(then.ready <= one.out).only_enforce_if(join)
        model.add_implication(join, then.lit)
        joins.append(join)
    for taken in here:
        first = _in_one(board, taken, found, demand, start=True)
        last = _in_one(board, taken, found, demand, start=False)
        for begins, literal in enumerate(first):
            for ends, other in enumerate(last):
                if ends < begins:
                    model.add_bool_or([literal.negated(), other.negated()])
                for join in joins[begins:ends]:
                    model.add_bool_or([literal.negated(), other.negated(), join])


def _in_one(board: Board, taken: Taken, found: list[Fire], demand: Demand, *, start: bool) -> list[Literal]:
    """Return literals by fire: a use begins (or ends) while it burns; one of them holds where the use is."""
    model, literals = board.model, []
    for fire in found:
        literal = model.new_bool_var("")
        model.add_implication(literal, fire.lit)
        if start:
            model.add(taken.start >= fire.ready).only_enforce_if(literal)
            model.add(taken.start < fire.out).only_enforce_if(literal)
        else:
            model.add(taken.end > fire.ready).only_enforce_if(literal)
            model.add(taken.end <= fire.out).only_enforce_if(literal)
        literals.append(literal)
    absent = [taken.present.negated()] if taken.present is not None else []
    board.add_if(demand, model.add_bool_or([*literals, *absent]))
    return literals
