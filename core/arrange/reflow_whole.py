"""The last step of a re-flow: the model of the whole plan, in which first little may move and then everything."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from core.arrange.claims import loaded_kinds
from core.arrange.found import read_found
from core.arrange.model import Model, build
from core.arrange.naming import NobodyLeft
from core.arrange.outcome import WishKind
from core.arrange.problem import Problem, Task
from core.arrange.reflow_solve import MOVE, OTHERWISE
from core.arrange.rules_stay import elsewhere
from core.arrange.settle import settle
from core.arrange.solver import cp_model
from core.arrange.watch import Watch
from core.plan.day import Day
from core.plan.plan import Plan
from core.timetable.clashes import clashes
from core.timetable.timetable import Timetable

_NEAR = 120
_LINKED_NEAR = 600
_WIDE = 0.3  # work for everything within two hours: a first valid answer soon, polished by arranging later
_GOOD = (cp_model.OPTIMAL, cp_model.FEASIBLE)


def whole(
    plan: Plan, problem: Problem, seen: Timetable, watch: Watch, day: Day | None
) -> Timetable | None:
    """Return the nearest timetable of the whole model that was found, or None. It may clash: judge it."""
    starts = problem.starts_in(seen)
    named: frozenset[str] = frozenset()
    while not watch.over:
        model = build(problem, seen=starts, named=named, explicit=loaded_kinds(problem), moves=True)
        if model is None:
            return None
        small = model.goals.given + sum(each.cold for each in model.board.cold) + elsewhere(model, seen) * OTHERWISE
        model.board.model.minimize(model.goals.parts[WishKind.KEEP] * MOVE + small)
        try:
            return _nearest(plan, model, starts, seen, watch, day)
        except NobodyLeft as trouble:
            if trouble.keys <= named:
                return None
            named |= trouble.keys
    return None


def _nearest(
    plan: Plan, model: Model, starts: dict[int, int], seen: Timetable, watch: Watch, day: Day | None
) -> Timetable | None:
    problem = model.board.problem
    small = _troubled(plan, problem, starts, seen, day)
    middle = small | _around(problem, starts, small)
    for free, work in ((small, 0.1), (middle, 0.15), (None, _WIDE), (None, watch.left)):
        if watch.over:
            return None
        part = _held(model, starts, free, window=_NEAR if work == _WIDE else None)
        if free is not None:
            _same_places(model, part.proto, seen, free)
        solver, status = watch.solve(part, work, presolve=free is not None)
        if status in _GOOD:
            found = read_found(model, solver)
            return settle(model, found)
    return None


def _troubled(
    plan: Plan, problem: Problem, starts: dict[int, int], seen: Timetable, day: Day | None
) -> set[int]:
    """Return what cannot stay: new steps, pins elsewhere, what clashes, and what hangs on these by links."""
    free = {task.index for task in problem.tasks if task.index not in starts}
    moved = {index for index, fixed in problem.fixed.items() if fixed.start not in (None, starts.get(index))}
    with_pins = _with_pins(problem, seen)
    involved = {step for clash in clashes(plan, with_pins, day=day) for step in clash.steps}
    if day is not None:
        moved |= {task.index for task in problem.tasks if _overtaken(task, starts, day.now)}
    free |= moved | {task.index for task in problem.tasks if task.step.id in involved}
    for _round in range(3):
        for arc in problem.arcs:
            if arc.before in free or arc.after in free:
                near = abs(starts.get(arc.after, 0) - starts.get(arc.before, 0)) < _LINKED_NEAR
                free |= {arc.before, arc.after} if near else set()
    return free


def _overtaken(task: Task, starts: dict[int, int], now: int) -> bool:
    """Tell whether the day has moved a task: it began or ended otherwise, or did not begin when it should."""
    at = starts.get(task.index)
    if at is None:
        return True
    if task.begun is not None:
        return task.begun.start != at or task.begun.end != at + task.length
    return at < now


def _with_pins(problem: Problem, seen: Timetable) -> Timetable:
    placed = []
    for each in seen.placed:
        fixed = problem.fixed.get(problem.index.get(each.key, -1))
        start = each.start if fixed is None or fixed.start is None else fixed.start
        by = start - each.start
        hands = tuple(replace(hand, start=hand.start + by) for hand in each.hands)
        placed.append(replace(each, start=start, hands=hands))
    return replace(seen, placed=tuple(placed))


def _around(problem: Problem, starts: dict[int, int], free: set[int]) -> set[int]:
    dishes = {problem.tasks[index].dish.id for index in free}
    places = [starts[index] for index in free if index in starts]
    low, high = min(places, default=0) - _NEAR, max(places, default=0) + _NEAR
    if high - low > 24 * 60:
        low = high - 24 * 60
    return {
        task.index
        for task in problem.tasks
        if task.dish.id in dishes or low <= starts.get(task.index, low) <= high
    }


def _held(
    model: Model, starts: dict[int, int], free: set[int] | None, window: int | None
) -> cp_model.CpModel:
    """Return a copy in which tasks outside `free` stay where they were, or within a window of it."""
    part = model.board.model.clone()
    proto = part.proto
    for index, start in enumerate(model.board.start):
        if index not in starts or model.board.problem.tasks[index].begun is not None:
            continue
        part.add_hint(start, starts[index])
        fixed = model.board.problem.fixed.get(index)
        if fixed is not None and fixed.start is not None:
            continue
        if free is not None and index not in free:
            _narrow(proto, start, starts[index], starts[index])
        elif window is not None:
            _narrow(proto, start, starts[index] - window, starts[index] + window)
    return part


def _same_places(model: Model, proto: Any, seen: Timetable, free: set[int]) -> None:
    """Keep the setting and the place of every task outside `free`, where the model has a say in them."""
    problem = model.board.problem
    settings = {each.key: each.setting for each in seen.placed}
    ways = {each.key: each.way for each in seen.placed}
    spots = {each.key: {(spot.station, spot.shelf) for spot in each.spots} for each in seen.placed}
    for task in problem.tasks:
        if task.index in free:
            continue
        for way, literal in model.board.way[task.index].items():
            if literal is not None and way == ways.get(task.key):
                _narrow(proto, literal, 1, 1)
        for (way, celsius), pick in model.board.picks[task.index].items():
            if celsius == settings.get(task.key) and way == ways.get(task.key):
                _narrow(proto, pick, 1, 1)
    for claim, slots in zip(model.standing.claims, model.standing.slots, strict=True):
        if claim.task is None or claim.task in free or claim.many:
            continue
        key = problem.tasks[claim.task].key
        for slot, place in slots.items():
            if (
                place is not None
                and slot in spots.get(key, set())
                and len(problem.tasks[claim.task].uses) == 1
            ):
                _narrow(proto, place, 1, 1)


def _narrow(proto: Any, var: cp_model.IntVar, low: int, high: int) -> None:
    domain = cp_model.Domain.from_flat_intervals(list(proto.variables[var.index].domain))
    kept = domain.intersection_with(cp_model.Domain(low, high))
    if not kept.is_empty():
        stored = proto.variables[var.index].domain
        stored.clear()
        stored.extend(kept.flattened_intervals())
