"""Large feasts in parts: dishes are placed a few at a time, then a few tasks at a time are freed and improved.

Each part is a small model of its own in which everything else is constant (decomposition; large neighbourhoods,
Shaw 1998), so that a feast of a thousand steps costs about as much a move as one of a hundred.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator

from ortools.sat.python import cp_model

from core.arrange.found import Found, read_found
from core.arrange.freeze import frozen, hint, without
from core.arrange.model import Model
from core.arrange.neighbourhoods import Neighbourhoods
from core.arrange.problem import Problem
from core.arrange.search import by_latest, without_goal
from core.arrange.watch import Watch
from core.plan.kitchen import COLD, StationKind

Make = Callable[[Problem], Model | None]
Solved = tuple[Model, Found]

LARGE = 150  # tasks from which a feast is worked on in parts
_FIRST_GROUP, _NEXT_GROUP = 70, 30
_ROOMY = COLD | {StationKind.ROOM, StationKind.BURNER}
_QUICK, _THOROUGH = 0.3, 3.0
_FAILURES = 6
_PART = 0.4
_GOOD = (cp_model.OPTIMAL, cp_model.FEASIBLE)


def first_by_parts(problem: Problem, make: Make, watch: Watch) -> Solved | None:
    """Return a first solution built a few dishes at a time, or None where that led nowhere."""
    every = {task.index for task in problem.tasks}
    waiting = _groups(problem)
    placed: set[int] = set()
    best: Solved | None = None
    failed = 0
    while waiting and not watch.over:
        dishes = waiting.pop(0)
        group = {index for dish in dishes for index in dish}
        found = _add(problem, make, watch, best, group, frozenset(every - placed - group))
        if found is not None:
            best, placed = found, placed | group
        elif len(dishes) > 1:
            waiting[:0] = [[dish] for dish in dishes]
        elif failed < _FAILURES:
            failed += 1
            waiting.append(dishes)  # what comes first may leave it a place
        else:
            return None
    return best if not waiting else None


def _groups(problem: Problem) -> list[list[set[int]]]:
    """Return groups of dishes as the numbers of their tasks, those that can wait least first."""
    dishes: dict[str, set[int]] = {}
    for task in problem.tasks:
        dishes.setdefault(task.dish.id, set()).add(task.index)

    def patience(dish: str) -> tuple[int, int]:
        limits = [
            bound.low
            for bound in problem.bounds
            if bound.low is not None and bound.end and bound.task in dishes[dish]
        ]
        heated = sum(bool(way.settings) for index in dishes[dish] for way in problem.tasks[index].ways)
        return -max(limits, default=-(10**6)), -heated

    groups: list[list[set[int]]] = []
    for dish in sorted(dishes, key=patience):
        size = _FIRST_GROUP if len(groups) <= 1 else _NEXT_GROUP
        if groups and sum(map(len, groups[-1])) + len(dishes[dish]) <= size:
            groups[-1].append(dishes[dish])
        else:
            groups.append([dishes[dish]])
    return groups


def _add(
    problem: Problem, make: Make, watch: Watch, best: Solved | None, group: set[int], absent: frozenset[int]
) -> Solved | None:
    """Return a solution with one group more: the others held, or those around it freed too, or all."""
    if best is None:
        return _solved(make(without(problem, absent)), watch, _THOROUGH)
    model, found = best
    for free, work in _wider(problem, found, group, absent):
        part = make(frozen(model.about(problem), found, free, absent))
        if part is None:
            continue
        hint(part, model, found, free - group)
        solved = _solved(part, watch, work)
        if solved is not None or watch.over:
            return solved
    return None


def _wider(
    problem: Problem, found: Found, group: set[int], absent: frozenset[int]
) -> Iterator[tuple[set[int], float]]:
    """Return ever larger sets to free: the new ones, what shares their scarce places, what is near, everything."""
    yield group, _QUICK
    placed = [task for task in problem.tasks if task.index not in group and task.index not in absent]
    kinds = {use.kind for index in group for use in problem.tasks[index].uses} - _ROOMY
    sharing = {task.index for task in placed if any(use.kind in kinds for use in task.uses)}
    yield group | sharing, 2 * _QUICK
    dishes = {problem.tasks[index].dish.id for index in sharing}
    near = {task.index for task in placed if task.dish.id in dishes}
    yield group | near, _THOROUGH
    if len(near) < len(placed):
        yield group | {task.index for task in placed}, 2 * _THOROUGH


def _solved(part: Model | None, watch: Watch, work: float) -> Solved | None:
    if part is None:
        return None
    bare = without_goal(part)
    bare.add_decision_strategy(by_latest(part), cp_model.CHOOSE_HIGHEST_MAX, cp_model.SELECT_MAX_VALUE)
    solver, status = watch.solve(bare, min(work, _QUICK), fixed_search=True)
    if status in _GOOD:
        return part, read_found(part, solver)
    if status == cp_model.INFEASIBLE or work <= _QUICK:
        return None
    bare = without_goal(part)
    hinted = set(bare.proto.solution_hint.vars)
    for index, start in enumerate(part.board.start):
        if start.index not in hinted:
            bare.add_hint(start, part.board.latest[index])
    solver, status = watch.solve(bare, work)
    return (part, read_found(part, solver)) if status in _GOOD else None


def improve_by_parts(
    problem: Problem, solved: Solved, make: Make, watch: Watch, better: Callable[[Solved], None]
) -> Solved:
    """Return the best solution found in the work left; `better` hears each."""
    parts = Neighbourhoods(problem, watch.effort.seed)
    while not watch.over:
        model, found = solved
        free = parts.draw(found)
        part = make(frozen(model.about(problem), found, free))
        if part is None:
            parts.judged(easy=False)
            continue
        hint(part, model, found, free)
        part.board.model.add(part.goals.total <= found.score)
        solver, status = watch.solve(part.board.model, _PART)
        parts.judged(easy=status in (cp_model.OPTIMAL, cp_model.INFEASIBLE))
        if status not in _GOOD:
            continue
        candidate = read_found(part, solver)
        if candidate.score <= found.score:
            solved = (part, candidate)
            if candidate.score < found.score:
                better(solved)
    return solved
