"""Rules of stations: everything stands somewhere that fits, and no place is over-full at any minute."""

from __future__ import annotations

from dataclasses import dataclass, field

from core.arrange.claims import Claim, claims_of, pooled_kinds
from core.arrange.demand import Demand, DemandKind
from core.arrange.problem import Begun, Slot
from core.arrange.solver import cp_model
from core.arrange.variables import Board, Expr, Literal, wait_ends
from core.plan import calendar
from core.plan.ids import StationId
from core.plan.kitchen import StationKind


@dataclass(frozen=True, slots=True)
class Taken:
    """A share of a slot for a time: its interval, how much, whether at all (None: surely), by which claim."""

    interval: cp_model.IntervalVar
    start: Expr
    end: Expr
    demand: int
    present: Literal | None
    claim: int


@dataclass(slots=True)
class Standing:
    """Where claims may stand: for each claim its slots with their literals (None: surely), and the pools.

    `taken` are the intervals by slot: what lies wholly before now is not among them.
    """

    claims: list[Claim] = field(default_factory=list)
    slots: list[dict[Slot, Literal | None]] = field(default_factory=list)
    pools: frozenset[StationKind] = frozenset()
    taken: dict[Slot, list[Taken]] = field(default_factory=dict)

    def at(self, station: StationId) -> list[Taken]:
        """Return all that is taken of a station, on whichever shelf or ring."""
        return [each for slot, taken in self.taken.items() if slot[0] == station for each in taken]


def stations(board: Board, explicit: frozenset[StationKind] = frozenset()) -> Standing:
    """Add the rules of stations; return where claims may stand."""
    claims = claims_of(board.problem)
    standing = Standing(claims, [], pooled_kinds(board.problem, claims, explicit))
    pools: dict[StationKind, list[tuple[cp_model.IntervalVar, int]]] = {}
    for number, claim in enumerate(claims):
        if claim.use.kind in standing.pools:
            interval = _in_pool(board, claim)
            if interval is not None:
                pools.setdefault(claim.use.kind, []).append((interval, claim.use.units))
            standing.slots.append({})
        else:
            standing.slots.append(_choose(board, number, standing))
    _loads_stay_put(board, standing)
    _pins_hold(board, standing)
    for slot, taken in standing.taken.items():
        _not_over_full(board, standing, slot, taken)
    for kind, demands in pools.items():
        most = len(board.problem.plan.kitchen.of_kind(kind))
        if board.giving:
            facts = [c for c in claims if c.use.kind is kind and _begun(board, c)]
            most = max(most, sum(claim.use.units for claim in facts))
        _capacity(board, kind, demands, most)
    return standing


def _ends(board: Board, claim: Claim) -> tuple[Expr, Expr, Expr, Literal | None]:
    """Return start, size and end of a claim, and the literal whether it is at all (None: surely)."""
    if claim.task is not None:
        index = claim.task
        begun = board.problem.tasks[index].begun
        if begun is not None and begun.fact:
            since = max(begun.start, _now(board))
            return since, max(0, begun.end - since), max(since, begun.end), None
        return board.start[index], board.length[index], board.end[index], board.way[index][claim.way]
    wait = board.problem.waits[claim.waiting]
    start, end = wait_ends(board, wait)
    fact = board.problem.tasks[wait.before].fact
    begun = board.problem.tasks[wait.before].begun if fact else None
    if begun is not None and begun.over:  # what waited before now is past
        start = max(begun.end, _now(board))
    size = board.model.new_int_var(0, board.high - board.problem.low, f"z{claim.wait}")
    if wait.least > 0 and begun is None and _sure(board):
        board.model.add(end == start + size)
        return start, size, end, None
    does = board.model.new_bool_var(f"waits{claim.wait}")
    board.model.add(end == start + size).only_enforce_if(does)
    board.model.add(size >= 1).only_enforce_if(does)
    board.model.add(size == 0).only_enforce_if(does.negated())
    if begun is None and _sure(board):
        board.model.add(end == start).only_enforce_if(does.negated())
    else:
        board.model.add(end <= start).only_enforce_if(does.negated())
    return start, size, end, does


def _sure(board: Board) -> bool:
    """Tell whether what follows cannot begin before what it waits for: there are no facts that say otherwise."""
    return board.problem.now is None


def _now(board: Board) -> int:
    return board.problem.low if board.problem.now is None else board.problem.now


def _past(board: Board, claim: Claim) -> bool:
    """Tell whether a claim lies wholly before now."""
    begun: Begun | None = None if claim.task is None else board.problem.tasks[claim.task].begun
    return begun is not None and begun.fact and begun.end <= _now(board)


def _in_pool(board: Board, claim: Claim) -> cp_model.IntervalVar | None:
    """Return the interval for which a claim takes some of the pool; loads keep theirs from first to last."""
    if _past(board, claim):
        return None
    if claim.task is not None:
        task = board.problem.tasks[claim.task]
        if task.loads == 1 and not task.fact:
            return board.interval[claim.task]
        loads = [each for each in board.problem.loads[task.step.id] if not board.problem.tasks[each].fact]
        if task.fact or claim.task not in loads[:1]:
            start, size, end, _does = _ends(board, claim)
            return board.model.new_interval_var(start, size, end, "") if task.fact else None
        lasts = board.model.new_int_var(0, board.high - board.problem.low, "")
        return board.model.new_interval_var(board.start[claim.task], lasts, board.end[loads[-1]], "")
    begins, minutes, ends, does = _ends(board, claim)
    if does is None:
        return board.model.new_interval_var(begins, minutes, ends, "")
    return board.model.new_optional_interval_var(begins, minutes, ends, does, "")


def _choose(board: Board, number: int, standing: Standing) -> dict[Slot, Literal | None]:
    """Let a claim take exactly one of its slots (or as many as its units, one each)."""
    claim = standing.claims[number]
    start, size, end, does = _ends(board, claim)
    shelved = any(shelf is not None and shelf >= 0 for _station, shelf in claim.slots)
    demand = claim.use.area if shelved else (1 if claim.many else claim.use.units)
    wanted = claim.use.units if claim.many else 1
    if not claim.slots or len(claim.slots) < wanted:
        # nowhere to stand: it cannot be, or cannot wait
        if not _past(board, claim):
            nowhere = board.model.add_bool_or([] if does is None else [does.negated()])
            board.add_if(_room(claim.use.kind), nowhere)
        return {}
    chosen: dict[Slot, Literal | None] = {}
    alone = len(claim.slots) == wanted
    for slot in claim.slots:
        literal = does
        if not alone:
            literal = board.model.new_bool_var(f"{claim.name}@{slot[0]}{'' if slot[1] is None else slot[1]}")
        chosen[slot] = literal
        if _past(board, claim):
            continue
        if literal is None:
            interval = board.model.new_interval_var(start, size, end, "")
        else:
            interval = board.model.new_optional_interval_var(start, size, end, literal, "")
        standing.taken.setdefault(slot, []).append(Taken(interval, start, end, demand, literal, number))
    if not alone:
        taken = sum(literal for literal in chosen.values() if literal is not None)
        board.model.add(taken == (wanted if does is None else wanted * does))
    return chosen


def _room(kind: StationKind) -> Demand:
    return Demand(DemandKind.STATION, kind_of=kind)


def _loads_stay_put(board: Board, standing: Standing) -> None:
    """All loads of a step stand where its first load stands."""
    firsts: dict[tuple[int, int, int], dict[Slot, Literal | None]] = {}
    for claim, slots in zip(standing.claims, standing.slots, strict=True):
        if claim.task is None:
            continue
        task = board.problem.tasks[claim.task]
        key = (board.problem.loads[task.step.id][0], claim.way, claim.number)
        if key not in firsts:
            firsts[key] = slots
            continue
        for slot in {**firsts[key], **slots}:
            mine, others = (each.get(slot, 0) for each in (slots, firsts[key]))
            if mine is not others:
                board.model.add((1 if mine is None else mine) == (1 if others is None else others))


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
            task = board.problem.tasks[fixed.task]
            demand = Demand(DemandKind.PIN, task.step.id, load=task.load)
            board.add_if(demand, board.model.add_bool_or(there))


def _begun(board: Board, claim: Claim) -> bool:
    return claim.task is not None and board.problem.tasks[claim.task].fact


def _not_over_full(board: Board, standing: Standing, slot: Slot, taken: list[Taken]) -> None:
    """Keep a station (or shelf) from holding more than it has, or anything while it is not there."""
    station = board.problem.plan.kitchen.station[slot[0]]
    capacity = station.units if slot[1] is None else 1
    if slot[1] is not None and slot[1] >= 0:
        capacity = station.shelves[slot[1]].area
    closed = calendar.closed(board.problem.plan, station, board.problem.low, board.high)
    if closed:
        there = board.ask(Demand(DemandKind.CLOSED, station=station.id))
        for each in taken:
            blocks = [blocked(board, stretch, there) for stretch in closed]
            board.model.add_no_overlap([each.interval, *blocks])
    if station.kind is not StationKind.ROOM or station.units > 0 or station.shelves:
        if board.giving:  # more may stand there already than fits: it cannot be undone
            facts = [each for each in taken if _begun(board, standing.claims[each.claim])]
            capacity = max(capacity, sum(each.demand for each in facts))
        _capacity(board, station.kind, [(each.interval, each.demand) for each in taken], capacity)


def blocked(board: Board, stretch: tuple[int, int], there: Literal | None) -> cp_model.IntervalVar:
    """Return an interval that keeps a stretch free of everything, where its wish holds."""
    begins, ends = stretch
    if there is None:
        return board.model.new_fixed_size_interval_var(begins, ends - begins, "")
    return board.model.new_optional_fixed_size_interval_var(begins, ends - begins, there, "")


def _capacity(
    board: Board, kind: StationKind, demands: list[tuple[cp_model.IntervalVar, int]], capacity: int
) -> None:
    taking = [(interval, demand) for interval, demand in demands if demand > 0]
    total = sum(demand for _interval, demand in taking)
    if total <= capacity:
        return
    asked = board.ask(_room(kind))
    if capacity == 1 and asked is None:
        board.model.add_no_overlap([interval for interval, _demand in taking])
    else:
        most: Expr = capacity if asked is None else capacity * asked + total * (1 - asked)
        board.model.add_cumulative([each for each, _ in taking], [demand for _, demand in taking], most)
