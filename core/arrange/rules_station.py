"""Rules of stations: everything stands somewhere that fits, and no place is over-full at any minute."""

from __future__ import annotations

from dataclasses import dataclass, field

from ortools.sat.python import cp_model

from core.arrange.claims import Claim, Slot, claims_of, pooled_kinds
from core.arrange.variables import Board, Expr, wait_ends
from core.plan import calendar
from core.plan.kitchen import StationKind

Literal = cp_model.IntVar


@dataclass(slots=True)
class Standing:
    """Where claims may stand: for each claim its slots with their literals (None: surely), and the pools."""

    claims: list[Claim] = field(default_factory=list)
    slots: list[dict[Slot, Literal | None]] = field(default_factory=list)
    pools: frozenset[StationKind] = frozenset()


def stations(board: Board, explicit: frozenset[StationKind] = frozenset()) -> Standing:
    """Add the rules of stations; return where claims may stand."""
    claims = claims_of(board.problem)
    standing = Standing(claims, [], pooled_kinds(board.problem, claims, explicit))
    spaces: dict[Slot, list[tuple[cp_model.IntervalVar, int]]] = {}
    pools: dict[StationKind, list[tuple[cp_model.IntervalVar, int]]] = {}
    for claim in claims:
        if claim.use.kind in standing.pools:
            interval = _in_pool(board, claim)
            if interval is not None:
                pools.setdefault(claim.use.kind, []).append((interval, claim.use.units))
            standing.slots.append({})
        else:
            standing.slots.append(_choose(board, claim, spaces))
    _loads_stay_put(board, standing)
    _pins_hold(board, standing)
    for slot, demands in spaces.items():
        _not_over_full(board, slot, demands)
    for kind, demands in pools.items():
        _capacity(board.model, demands, len(board.problem.plan.kitchen.of_kind(kind)))
    return standing


def _ends(board: Board, claim: Claim) -> tuple[Expr, Expr, Expr, Literal | None]:
    """Return start, size and end of a claim, and for food that need not wait whether it does (None: surely)."""
    if claim.task is not None:
        return board.start[claim.task], board.length[claim.task], board.end[claim.task], None
    wait = board.problem.waits[claim.waiting]
    start, end = wait_ends(board, wait)
    size = board.model.new_int_var(0, board.high - board.problem.low, f"z{claim.wait}")
    board.model.add(end == start + size)
    if wait.least > 0:
        return start, size, end, None
    does = board.model.new_bool_var(f"waits{claim.wait}")
    board.model.add(size >= 1).only_enforce_if(does)
    board.model.add(size == 0).only_enforce_if(does.negated())
    return start, size, end, does


def _in_pool(board: Board, claim: Claim) -> cp_model.IntervalVar | None:
    """Return the interval for which a claim takes some of the pool; loads keep theirs from first to last."""
    if claim.task is not None:
        task = board.problem.tasks[claim.task]
        if task.loads == 1:
            return board.interval[claim.task]
        if task.load > 0:
            return None
        last = board.problem.loads[task.step.id][-1]
        size = board.model.new_int_var(0, board.high - board.problem.low, "")
        return board.model.new_interval_var(board.start[claim.task], size, board.end[last], "")
    begins, lasts, ends, does = _ends(board, claim)
    if does is None:
        return board.model.new_interval_var(begins, lasts, ends, "")
    return board.model.new_optional_interval_var(begins, lasts, ends, does, "")


def _choose(
    board: Board, claim: Claim, spaces: dict[Slot, list[tuple[cp_model.IntervalVar, int]]]
) -> dict[Slot, Literal | None]:
    """Let a claim take exactly one of its slots (or as many as its units, one each)."""
    start, size, end, does = _ends(board, claim)
    shelved = any(shelf is not None and shelf >= 0 for _station, shelf in claim.slots)
    demand = claim.use.area if shelved else (1 if claim.many else claim.use.units)
    wanted = claim.use.units if claim.many else 1
    if not claim.slots or len(claim.slots) < wanted:
        # nowhere to stand: it cannot be, or cannot wait
        board.model.add_bool_or([] if does is None else [does.negated()])
        return {}
    if does is None and len(claim.slots) == wanted:
        for slot in claim.slots:
            interval = board.model.new_interval_var(start, size, end, "")
            spaces.setdefault(slot, []).append((interval, demand))
        return dict.fromkeys(claim.slots)
    chosen: dict[Slot, Literal | None] = {}
    for slot in claim.slots:
        literal = board.model.new_bool_var(f"{claim.name}@{slot[0]}{'' if slot[1] is None else slot[1]}")
        interval = board.model.new_optional_interval_var(start, size, end, literal, "")
        spaces.setdefault(slot, []).append((interval, demand))
        chosen[slot] = literal
    taken = sum(literal for literal in chosen.values() if literal is not None)
    board.model.add(taken == (wanted if does is None else wanted * does))
    return chosen


def _loads_stay_put(board: Board, standing: Standing) -> None:
    """All loads of a step stand where its first load stands."""
    firsts: dict[tuple[int, int], dict[Slot, Literal | None]] = {}
    for claim, slots in zip(standing.claims, standing.slots, strict=True):
        if claim.task is None:
            continue
        task = board.problem.tasks[claim.task]
        first = board.problem.loads[task.step.id][0]
        if task.load == 0:
            firsts[first, claim.number] = slots
            continue
        for slot, literal in slots.items():
            other = firsts[first, claim.number].get(slot)
            if literal is not None and other is not None:
                board.model.add(literal == other)


def _pins_hold(board: Board, standing: Standing) -> None:
    """Let a step that is pinned to a station stand there with one of its uses at least."""
    for fixed in board.problem.fixed.values():
        if fixed.station is None:
            continue
        there: list[Literal] = []
        surely = known = False
        for claim, slots in zip(standing.claims, standing.slots, strict=True):
            if claim.task != fixed.task:
                continue
            for (station, _shelf), literal in slots.items():
                if station == fixed.station:
                    known = True
                    surely = surely or literal is None
                    there += [] if literal is None else [literal]
        if known and not surely:
            board.model.add_bool_or(there)


def _not_over_full(board: Board, slot: Slot, demands: list[tuple[cp_model.IntervalVar, int]]) -> None:
    """Keep a station (or shelf) from holding more than it has, or anything while it is not there."""
    station = board.problem.plan.kitchen.station[slot[0]]
    capacity = station.units if slot[1] is None else 1
    if slot[1] is not None and slot[1] >= 0:
        capacity = station.shelves[slot[1]].area
    closed = calendar.closed(board.problem.plan, station, board.problem.low, board.high)
    if closed:
        for interval, _demand in demands:
            blocks = [board.model.new_fixed_size_interval_var(a, b - a, "") for a, b in closed]
            board.model.add_no_overlap([interval, *blocks])
    if station.kind is not StationKind.ROOM or station.units > 0 or station.shelves:
        _capacity(board.model, demands, capacity)


def _capacity(
    model: cp_model.CpModel, demands: list[tuple[cp_model.IntervalVar, int]], capacity: int
) -> None:
    taking = [(interval, demand) for interval, demand in demands if demand > 0]
    if sum(demand for _interval, demand in taking) <= capacity:
        return
    if capacity == 1:
        model.add_no_overlap([interval for interval, _demand in taking])
    else:
        model.add_cumulative([each for each, _ in taking], [demand for _, demand in taking], capacity)
