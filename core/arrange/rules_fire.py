"""Rule of fires: what stands on coals does so while some fire burns, and a fire is lit beforehand by a cook."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

from core.arrange.demand import Demand, DemandKind
from core.arrange.rules_station import Standing, Taken
from core.arrange.solver import cp_model
from core.arrange.variables import Board, Chore, Expr, Literal
from core.plan.day import Lit
from core.plan.ids import StationId
from core.plan.kitchen import Station

_AGAIN = 300  # price of a fire
_OUT = 1_000_000  # price of standing on coals that are out, where limits give
_SOONER = 1  # price of a minute that a fire is lit before the end of the day: coals are lit as late as can be


@dataclass(frozen=True, slots=True)
class Fire:
    """One fire of a station: whether it is lit, from when (lit, ready) to when it burns; `known`: the day lit it."""

    station: StationId
    lit: Literal
    start: cp_model.IntVar
    ready: Expr
    out: Expr
    known: Lit | None = None


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
    burns = station.burns if station.burns is not None else 2 * (board.high - board.problem.low) + 24 * 60
    found = [
        _known(board, station, each, burns) for each in board.problem.lit if each.station == station.id
    ]
    for number in range(len(found), station.fires):
        found.append(_to_light(board, station, number, burns))
        if number:
            board.model.add(found[-1].start >= found[-2].start).only_enforce_if(found[-1].lit)
            board.model.add_implication(found[-1].lit, found[-2].lit)
    _joined(board, station, found, here)
    return found


def _known(board: Board, station: Station, lit: Lit, burns: int) -> Fire:
    """Return a fire that the day has lit; whoever lays it now goes on with it."""
    model, now = board.model, board.problem.now or 0
    left = lit.start + min(station.laying, station.lighting) - now
    if left > 0:
        name = f"fire {station.id} lit {lit.start}"
        board.chores.append(Chore(now, left, None, station.place, name, lit.cook))
    ready = lit.start + station.lighting
    return Fire(station.id, model.new_constant(1), model.new_constant(lit.start), ready, ready + burns, lit)


def _to_light(board: Board, station: Station, number: int, burns: int) -> Fire:
    """Return a fire that may be lit, and the hands that laying it takes."""
    model, problem = board.model, board.problem
    first = problem.low - station.lighting if problem.now is None else problem.now
    lit = model.new_bool_var(f"lit_{station.id}_{number}")
    start = model.new_int_var(first, board.high, f"fire_{station.id}_{number}")
    lasts = model.new_int_var(0, board.high - first, "")
    model.add(lasts >= board.high - start).only_enforce_if(lit)
    board.priced += [(lit, _AGAIN), (lasts, _SOONER)]
    laying = min(station.laying, station.lighting)
    if laying:
        board.chores.append(Chore(start, laying, lit, station.place, f"fire {station.id} {number}"))
    ready = start + station.lighting
    return Fire(station.id, lit, start, ready, ready + burns)


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
    if board.giving:  # where nothing fits, what goes on after the coals are out is told as a clash
        out = model.new_bool_var("")
        board.stretched.append((out, _OUT))
        absent.append(out)
    board.add_if(demand, model.add_bool_or([*literals, *absent]))
    return literals
