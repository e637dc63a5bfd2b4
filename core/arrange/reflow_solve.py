"""Solves a part of a re-flow and puts it back into the timetable seen."""

from __future__ import annotations

from dataclasses import dataclass, replace

from core.arrange.claims import loaded_kinds
from core.arrange.found import Found, read_found
from core.arrange.model import Model, laid_out
from core.arrange.naming import NobodyLeft
from core.arrange.problem import Problem
from core.arrange.reflow_part import Part
from core.arrange.reflow_seen import Seen, owners
from core.arrange.rules_stay import elsewhere
from core.arrange.rules_vessel import Wash, washing_of
from core.arrange.settle import settle
from core.arrange.solver import cp_model
from core.arrange.variables import Board, Expr
from core.arrange.watch import Watch
from core.timetable.timetable import Placed, Stay, Timetable

OTHERWISE = 3  # a minute at which a station is switched on or a vessel washed otherwise than was seen
MOVE = 100  # a minute moved, against prices of ways, pieces and fires
_FIRST = 0.05  # work for a part
_LARGE = 3000  # constraints from which a unit of work takes longer
_GOOD = (cp_model.OPTIMAL, cp_model.FEASIBLE)


@dataclass(frozen=True, slots=True)
class Solved:
    """What came of a part: a timetable of the whole (None: none found), and whether it is proven that none is there."""

    timetable: Timetable | None
    impossible: bool = False


def solve(seen: Seen, part: Part, aims: dict[int, int], near: dict[int, int], watch: Watch) -> Solved:
    """Return the first timetable found in which only the part's tasks move.

    `aims` are the starts (of tasks of the whole) from which little is to move, `near` those to try first.
    """
    model = _built(part)
    if model is None:
        return Solved(None, impossible=True)
    _move_little(seen, part, model, aims)
    _tell(seen, part, model, near)
    size = max(1.0, len(model.board.model.proto.constraints) / _LARGE)
    solver, status = watch.solve(model.board.model, _FIRST / size, light=True, first=True)
    if status == cp_model.UNKNOWN and not watch.over:
        work = 2 * _FIRST / max(size, size * size / 2)
        solver, status = watch.solve(model.board.model, work, presolve=False, light=True, first=True)
    return _read(seen, part, model, solver, status)


def impossible(part: Part, watch: Watch) -> bool:
    """Tell whether a part is proven to have no solution."""
    model = _built(part)
    if model is None:
        return True
    return bool(watch.solve(model.board.model, _FIRST, light=True, first=True)[1] == cp_model.INFEASIBLE)


def polish(seen: Seen, part: Part, aims: dict[int, int], watch: Watch) -> Timetable | None:
    """Return a timetable in which the part's tasks are as near to where they are to be as was found; or None."""
    model = _built(part)
    if model is None:
        return None
    _move_little(seen, part, model, aims)
    _tell(seen, part, model, {})
    solver, status = watch.solve(model.board.model, _FIRST, light=True)
    return _read(seen, part, model, solver, status).timetable


def _read(
    seen: Seen, part: Part, model: Model, solver: cp_model.CpSolver, status: cp_model.CpSolverStatus
) -> Solved:
    if status not in _GOOD:
        return Solved(None, impossible=bool(status == cp_model.INFEASIBLE))
    try:
        return Solved(_put_back(seen, part, model, read_found(model, solver)))
    except NobodyLeft:  # none but a walk can do that: all hands are named in the model
        return Solved(None)


def _built(part: Part) -> Model | None:
    """Return the model of a part, all its hands named; without goals, and without the chores that stay."""
    ruled = laid_out(part.problem, loaded_kinds(part.problem))
    if ruled is None:
        return None
    board = ruled.board
    still = _hold_washings(board, part, ruled.washes)
    board.chores = [chore for chore in board.chores if chore.of not in still]
    return ruled.with_hands(_hands(part.problem) | {chore.of for chore in board.chores})


def _hold_washings(board: Board, part: Part, washes: list[Wash]) -> set[str]:
    """Keep the washings that stay as they are; return their chores, which the cooks' times leave out already."""
    ends = {(each.vessel, each.after): each.end for each in part.washings}
    moving = {task.step.id for task, index in zip(part.problem.tasks, part.whole, strict=True) if index in part.moving}
    still = set()
    for wash in washes:
        if wash.known is None and moving.isdisjoint(wash.run.steps):
            end = ends.get((wash.vessel.id, wash.run.steps[0]))
            _fix(board, wash.done, int(end is not None))
            if end is not None:
                _fix(board, wash.free, end)
            still.add(washing_of(wash))
    return still


def _fix(board: Board, var: cp_model.IntVar, at: int) -> None:
    domain = board.model.proto.variables[var.index].domain
    domain.clear()
    domain.extend([at, at])


def _hands(problem: Problem) -> frozenset[str]:
    """Return the keys of the hands at tasks."""
    found = []
    for task in problem.tasks:
        found += [f"{task.index}/cut/{number}" for number in range(task.cuts)]
        found += [f"{task.index}/{piece.way}/{number}" for number, piece in enumerate(task.pieces)]
    return frozenset(found)


def _move_little(seen: Seen, part: Part, model: Model, aims: dict[int, int]) -> None:
    """Let as little as can be move, then the part's other prices count."""
    board = model.board
    moved: list[Expr] = []
    for number, index in enumerate(part.whole):
        at = aims.get(index)
        if index not in part.moving or at is None:
            continue
        far = max(abs(board.earliest[number] - at), abs(board.latest[number] - at))
        by = board.model.new_int_var(0, far, f"m{number}")
        board.model.add(by >= board.start[number] - at)
        board.model.add(by >= at - board.start[number])
        moved.append(by)
    small = sum(literal * price for literal, price in board.priced) + sum(each.cold for each in board.cold)
    board.model.minimize(sum(moved) * MOVE + small + elsewhere(model, seen.timetable) * OTHERWISE)


def _tell(seen: Seen, part: Part, model: Model, near: dict[int, int]) -> None:
    """Tell the model where what moves was, and how it was done."""
    board = model.board
    for number, index in enumerate(part.whole):
        at = near.get(index, seen.starts.get(index))
        if index not in part.moving or at is None:
            continue
        board.model.add_hint(board.start[number], at)
        if index not in seen.starts:
            continue
        placed = seen.placed(index)
        for (way, celsius), pick in board.picks[number].items():
            board.model.add_hint(pick, int((way, celsius) == (placed.way, placed.setting)))


def _put_back(seen: Seen, part: Part, model: Model, found: Found) -> Timetable:
    """Return the timetable seen with the part as it was solved."""
    own = settle(model, found)
    whole, was = seen.problem, seen.timetable
    placed = []
    for index, task in enumerate(whole.tasks):
        placed.append(own.at[task.key] if index in part.moving else was.at[task.key])
    stay = {(each.vessel, each.after) for each in part.washings}
    washings = [each for each in own.washings if (each.vessel, each.after) not in stay]
    return Timetable(
        tuple(placed),
        _stays(seen, part, own),
        tuple(sorted((*part.heatings, *own.heatings), key=lambda each: (each.setting == 0, each.station, each.start))),
        tuple(sorted((*part.washings, *washings), key=lambda each: each.end)),
    )


def _stays(seen: Seen, part: Part, own: Timetable) -> tuple[Stay, ...]:
    """Return stays between tasks that do not move as they were, the others as they are now."""
    whole = seen.problem
    anew = {
        _key(whole, number)
        for number, wait in enumerate(whole.waits)
        if any(owner in part.moving for owner in owners(wait))
    }
    kept = [each for each in seen.timetable.stays if (each.before, each.after, each.load, each.kind) not in anew]
    new = [each for each in own.stays if (each.before, each.after, each.load, each.kind) in anew]
    return tuple(sorted((*kept, *new), key=lambda each: (each.start, each.end, each.before, each.load)))


def _key(whole: Problem, number: int) -> tuple[object, ...]:
    wait = whole.waits[number]
    before = whole.tasks[wait.before]
    after = None if wait.after is None else whole.tasks[wait.after].step.id
    return before.step.id, after, before.load, wait.kind


def shifted(seen: Seen, starts: dict[int, int]) -> Timetable:
    """Return the timetable seen with some tasks elsewhere: their hands, waits and heatings go along, nothing else."""
    whole, was = seen.problem, seen.timetable
    by = {whole.tasks[index].key: start - seen.starts[index] for index, start in starts.items()}
    placed = []
    for each in was.placed:
        far = by.get(each.key, 0)
        hands = tuple(replace(hand, start=hand.start + far) for hand in each.hands)
        placed.append(replace(each, start=each.start + far, hands=hands) if far else each)
    heatings = []
    for heating in was.heatings:
        session = seen.session_of(heating)
        first = [each for each in session.things if each.start == session.start] if session is not None else []
        on = {by.get(whole.tasks[each.task].key, 0) for each in first if each.task is not None}
        far = on.pop() if len(on) == 1 and session is not None and heating.end == session.start else 0
        heatings.append(replace(heating, start=heating.start + far, end=heating.end + far))
    return Timetable(tuple(placed), _stays_with(seen, placed), tuple(heatings), was.washings)


def _stays_with(seen: Seen, placed: list[Placed]) -> tuple[Stay, ...]:
    at = Timetable(tuple(placed)).at
    whole = seen.problem
    ends = {}
    for number, wait in enumerate(whole.waits):
        before = at.get(whole.tasks[wait.before].key)
        after = None if wait.after is None else at.get(whole.tasks[wait.after].key)
        if before is not None:
            ends[_key(whole, number)] = before.end, wait.until if after is None else after.start
    stays = []
    for stay in seen.timetable.stays:
        start, end = ends.get((stay.before, stay.after, stay.load, stay.kind), (stay.start, stay.end))
        if end > start:
            stays.append(replace(stay, start=start, end=end))
    return tuple(stays)
