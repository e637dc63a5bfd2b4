"""One look at a whole feast: is there a timetable that keeps everything? A look, and no proof of the contrary."""

from __future__ import annotations

from core.arrange.found import read_found
from core.arrange.model import build
from core.arrange.naming import NobodyLeft
from core.arrange.reading import read
from core.arrange.search import without_goal
from core.arrange.settle import settle
from core.arrange.solver import cp_model
from core.arrange.watch import Watch
from core.plan.day import Day
from core.plan.plan import Plan
from core.timetable.as_planned import with_seen
from core.timetable.clashes import clashes
from core.timetable.timetable import Timetable


def meets_at_once(
    plan: Plan, watch: Watch, work: float, *, near: Timetable | None = None, day: Day | None = None
) -> bool | None:
    """Return True where a timetable was found in which the validator finds no clash; None where none was found.

    False where the solver says that there is none: that is worth a proof, and is none, being asked once.

    Without presolve and linear relaxation, near a timetable or at latest starts: where there is one it is found in a
    fraction of the time that the solver needs to prepare itself.
    """
    day = day if day is None or near is None else with_seen(day, near)
    problem = read(plan, day, near)
    model = build(problem, walking=True, aims=False)
    if model is None or watch.over:
        return None if watch.over else False
    bare = without_goal(model)
    seen = problem.starts_in(near) if near is not None else {}
    for index, start in enumerate(model.board.start):
        bare.add_hint(start, seen.get(index, model.board.latest[index]))
    solver, status = watch.solve(bare, work, presolve=False, light=True)
    if status not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        return False if status == cp_model.INFEASIBLE else None
    try:
        timetable = settle(model, read_found(model, solver))
    except NobodyLeft:
        return None
    return None if clashes(plan, timetable, day=day) else True
