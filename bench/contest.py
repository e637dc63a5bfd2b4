"""One project, one worker, so many seconds: our scheduler, a plain CP-SAT model, and PyJobShop where installed.

Our scheduler takes part as the cook has it, and with its model solved in one piece, which tells whether it is the
model or the search that costs.
"""

from __future__ import annotations

import importlib.util
import time
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from ortools.sat.python import cp_model

from bench.plain_model import plain_model
from bench.project import Project, broken
from bench.project_plan import plan_of, starts_of
from core.arrange.arranging import arrange
from core.arrange.effort import Effort
from core.arrange.found import read_found
from core.arrange.model import build
from core.arrange.outcome import Fit
from core.arrange.reading import read
from core.arrange.search import first_found
from core.arrange.settle import settle
from core.arrange.watch import Watch
from core.timetable.clashes import clashes
from core.timetable.timetable import Timetable


@dataclass(frozen=True, slots=True)
class Answer:
    """The shortest makespan found (None: none), whether it is proven, or proven that there is none; seconds taken."""

    makespan: int | None
    proven: bool
    seconds: float


_GOOD = (cp_model.OPTIMAL, cp_model.FEASIBLE)
Solve = Callable[[Project, float], Answer]


def solvers() -> dict[str, Solve]:
    """Return who takes part, by name."""
    found: dict[str, Solve] = {"ours": ours, "our model at once": at_once, "plain CP-SAT": plain}
    if peer_installed():
        found["PyJobShop"] = peer
    return found


def peer_installed() -> bool:
    """Tell whether the library that ours is compared with is there."""
    return importlib.util.find_spec("pyjobshop") is not None


def ours(project: Project, seconds: float) -> Answer:
    """Arrange the project as a plan, as the cook has it."""
    began = time.perf_counter()
    outcome = arrange(plan_of(project), Effort(work=1000 * seconds, limit=seconds))
    spent = time.perf_counter() - began
    if outcome.fit is Fit.IMPOSSIBLE:
        return Answer(None, True, spent)
    best = _length(project, outcome.timetable) if outcome.fit is Fit.MEETS else None
    return Answer(best, best is not None and outcome.bound == outcome.score, spent)


def at_once(project: Project, seconds: float) -> Answer:
    """Solve our own model in one piece from a first solution: what arranging would give if it freed all at once."""
    began = time.perf_counter()
    plan = plan_of(project)
    model = build(read(plan))
    if model is None:
        return Answer(None, True, time.perf_counter() - began)
    limit = seconds - (time.perf_counter() - began)
    watch = Watch(Effort(work=1e6, limit=limit), None)
    first, impossible = first_found(model, watch)
    if impossible:
        return Answer(None, True, time.perf_counter() - began)
    whole = model.board.model.clone()
    if first is not None:
        whole.proto.solution_hint.vars.extend(range(len(first.values)))
        whole.proto.solution_hint.values.extend(first.values)
    solver, status = watch.solve(whole, 1e6)
    if status not in _GOOD:
        return Answer(None, status == cp_model.INFEASIBLE, time.perf_counter() - began)
    timetable = settle(model, read_found(model, solver))
    if wrong := clashes(plan, timetable):
        raise RuntimeError(f"{project.name}: {wrong[0].sentence}")
    found = _length(project, timetable)
    return Answer(found, status == cp_model.OPTIMAL, time.perf_counter() - began)


def _length(project: Project, timetable: Timetable) -> int:
    return _checked(project, starts_of(project, timetable))


def plain(project: Project, seconds: float) -> Answer:
    """Solve the plain model."""
    began = time.perf_counter()
    model, starts = plain_model(project)
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.max_time_in_seconds = seconds
    status = solver.solve(model)
    spent = time.perf_counter() - began
    if status not in _GOOD:
        return Answer(None, status == cp_model.INFEASIBLE, spent)
    found = _checked(project, tuple(int(solver.value(start)) for start in starts))
    return Answer(found, status == cp_model.OPTIMAL, spent)


def peer(project: Project, seconds: float) -> Answer:
    """Solve with PyJobShop."""
    import pyjobshop

    began = time.perf_counter()
    model: Any = pyjobshop.Model()
    resources = [model.add_renewable(capacity) for capacity in project.capacities]
    tasks = [model.add_task() for _activity in project.activities]
    for task, activity in zip(tasks, project.activities, strict=True):
        taken = [
            (resource, units)
            for resource, units in zip(resources, activity.demands, strict=False)
            if units > 0 and activity.length > 0
        ]
        model.add_mode(task, [each for each, _units in taken], activity.length, [units for _each, units in taken])
        model.add_end_before_start(task, tasks[-1]) if task is not tasks[-1] else None
    for lag in project.lags:
        model.add_start_before_start(tasks[lag.before], tasks[lag.after], lag.minutes)
    for task in tasks[1:]:
        model.add_start_before_start(tasks[0], task)
    result = model.solve(time_limit=seconds, display=False, num_workers=1)
    spent = time.perf_counter() - began
    status = result.status.value.lower()
    if ("optimal" not in status and "feasible" not in status) or "infeasible" in status:
        return Answer(None, "infeasible" in status, spent)
    found = _checked(project, tuple(int(each.start) for each in result.best.tasks))
    return Answer(found, "optimal" in status, spent)


def _checked(project: Project, starts: tuple[int, ...]) -> int:
    """Return the makespan of starts that hold; what does not hold stops the measurement."""
    first = starts[0]
    starts = tuple(each - first for each in starts)
    if wrong := broken(project, starts):
        raise RuntimeError(f"{project.name}: {wrong[0]}")
    return starts[-1]
