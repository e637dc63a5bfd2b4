"""Reads a plan into a problem: loads, links, limits, waits and pins become tasks, arcs, bounds and stays."""

from __future__ import annotations

from itertools import pairwise

from core.arrange.demand import Demand, DemandKind
from core.arrange.facts import without_dropped
from core.arrange.goals_meaning import minds
from core.arrange.problem import Arc, Bound, Fixed, Problem, Waiting
from core.arrange.reading_tasks import tasks_of
from core.arrange.tighten import tighten
from core.plan import calendar, meaning
from core.plan.day import Day
from core.plan.meaning import LONGEST_PAUSE
from core.plan.menu import Link, LinkKind
from core.plan.plan import Plan
from core.plan.runs import vessel_runs
from core.plan.step import Step
from core.timetable.timetable import Timetable

_DAY = 24 * 60
_LONGEST = 400 * _DAY  # further back nothing is looked for


def read(
    plan: Plan, day: Day | None = None, seen: Timetable | None = None, *, asking: bool = False
) -> Problem:
    """Return the plan as integers; `seen` says where stands what the day has begun.

    `asking`: what is asked of it may be given up, so that also what lies before the plan opens is looked at.
    """
    plan = without_dropped(plan, day)
    problem = Problem(plan, 0, _last_minute(plan))
    if day is not None:
        problem.now, problem.lit, problem.washed = day.now, day.lit, day.washed
    for task in tasks_of(plan, day, seen):
        problem.tasks.append(task)
        problem.index[task.key] = task.index
        problem.loads.setdefault(task.step.id, []).append(task.index)
        pin = plan.pins.get(task.key)
        if pin is not None and task.begun is None:
            gone = day is not None and pin.start is not None and pin.start < day.now  # that moment has passed
            start = None if gone else pin.start
            problem.fixed[task.index] = Fixed(task.index, start, pin.station, pin.cook)
    for step in plan.steps.values():
        if step.id in problem.loads:
            _limits(plan, problem, step)
    for link in plan.menu.links:
        if link.before in problem.loads and link.after in problem.loads:
            _link(problem, link)
    for order in plan.decisions.orders:
        if order.first in problem.loads and order.then in problem.loads:
            demand = Demand(DemandKind.ORDER, order.first, order.then)
            _arc(problem, Arc(problem.last(order.first), True, problem.first(order.then), False, 0, demand=demand))
    first = _first_minute(problem)
    problem.low = first if plan.opens is None else min(first, plan.opens) if asking else plan.opens
    if problem.now is not None:
        _from_now(problem, problem.now, seen)
    problem.away = {
        cook.id: calendar.absences(plan, cook, problem.low - _DAY, problem.high + _DAY)
        for cook in plan.kitchen.cooks
    }
    problem.runs = vessel_runs(plan)
    return problem


def _last_minute(plan: Plan) -> int:
    courses = [dish.course for dish in plan.menu.dishes]
    latest = [step.latest for step in plan.steps.values() if step.latest is not None]
    clocks = [
        calendar.clock_offset(plan, step.clock) + step.length.high
        for step in plan.steps.values()
        if step.clock
    ]
    pins = [
        pin.start + 2 * plan.steps[pin.step].length.high
        for pin in plan.decisions.pins
        if pin.start is not None
    ]
    return max([0, *courses, *latest, *clocks, *pins])


def _from_now(problem: Problem, now: int, seen: Timetable | None) -> None:
    """Let nothing begin before now but what has begun."""
    begun = [task.begun for task in problem.tasks if task.begun is not None]
    problem.low = min([problem.low, now, *(each.start for each in begun)])
    problem.high = max([problem.high, now, *(each.end for each in begun)])
    opens = now if problem.plan.opens is None else max(now, problem.plan.opens)
    for task in problem.tasks:
        if task.begun is None:
            problem.bounds.append(Bound(task.index, False, low=opens))
        else:
            problem.bounds.append(Bound(task.index, False, low=task.begun.start, high=task.begun.start))
    if seen is not None:
        for task in problem.tasks:
            if task.begun is not None and task.key in seen.at:
                problem.stood[task.index] = seen.at[task.key]


def _arc(problem: Problem, arc: Arc) -> None:
    """Keep an arc, unless facts have settled it: both have begun, or what should follow has."""
    before, after = problem.tasks[arc.before], problem.tasks[arc.after]
    if after.begun is None or (before.begun is None and arc.gives):
        problem.arcs.append(arc)


def _limits(plan: Plan, problem: Problem, step: Step) -> None:
    dish = plan.dish_of[step.id]
    loads = problem.loads[step.id]
    for earlier, later in pairwise(loads):
        _arc(problem, Arc(earlier, True, later, False, step.loads.change_over if step.loads else 0))
    for index in loads:
        begun = problem.tasks[index].begun
        if begun is None:
            _bounds(plan, problem, step, index)
        elif not begun.over and step.id in plan.last_steps:
            demand = Demand(DemandKind.SERVED, step.id)
            problem.bounds.append(Bound(index, True, high=dish.course, gives=True, demand=demand))
    if step.clock is not None and problem.tasks[loads[0]].begun is None:
        at = calendar.clock_offset(plan, step.clock)
        demand = Demand(DemandKind.CLOCK, step.id)
        problem.bounds.append(Bound(loads[0], False, low=at, high=at, demand=demand))
    keep = meaning.keep_of(plan, step)
    if keep is None:
        return
    first = problem.tasks[loads[0]]
    if keep.most is not None:
        demand = Demand(DemandKind.KEEPS, step.id)
        low = dish.course - keep.most
        problem.bounds.append(Bound(first.index, True, low=low, gives=True, early=True, demand=demand))
    cost = minds(keep.most, served=True)
    problem.waits.append(Waiting(first.index, None, dish.course, 0, cost, keep.wait.use))


def _bounds(plan: Plan, problem: Problem, step: Step, index: int) -> None:
    """Bind one load that has not begun: not before, done by, served, pinned."""
    bounds = problem.bounds
    if step.earliest is not None:
        bounds.append(Bound(index, False, low=step.earliest, demand=Demand(DemandKind.EARLIEST, step.id)))
    if step.latest is not None:
        demand = Demand(DemandKind.LATEST, step.id)
        bounds.append(Bound(index, True, high=step.latest, gives=True, demand=demand))
    if step.id in plan.last_steps:
        demand = Demand(DemandKind.SERVED, step.id)
        bounds.append(Bound(index, True, high=plan.dish_of[step.id].course, gives=True, demand=demand))
    fixed = problem.fixed.get(index)
    if fixed is not None and fixed.start is not None:
        demand = Demand(DemandKind.PIN, step.id, load=problem.tasks[index].load)
        bounds.append(Bound(index, False, fixed.start, fixed.start, gives=True, demand=demand))


def _link(problem: Problem, link: Link) -> None:
    before, after = problem.loads[link.before], problem.loads[link.after]
    if link.kind is LinkKind.START_TO_START:
        _bind(problem, (before[0], False), (after[0], False), link)
    elif link.kind is LinkKind.END_TO_END:
        _bind(problem, (before[-1], True), (after[-1], True), link)
    elif len(before) == len(after) > 1:
        for one, other in zip(before, after, strict=True):
            _feed(problem, one, one, other, other, link)
    else:
        _feed(problem, before[0], before[-1], after[0], after[-1], link)


def _most(link: Link) -> Demand:
    return Demand(DemandKind.MOST_WAIT, link.before, link.after, link.kind)


def _feed(problem: Problem, first: int, last: int, next_first: int, next_last: int, link: Link) -> None:
    """Food goes from one step to the next: the last load must be done, the first must not be too old."""
    _arc(problem, Arc(last, True, next_first, False, link.least))
    if link.most is not None:
        arc = Arc(next_last, False, first, True, -link.most, gives=True, early=first, demand=_most(link))
        _arc(problem, arc)
    cost = minds(link.most, served=False)
    problem.waits.append(Waiting(first, next_last, 0, link.least, cost, link.wait.use, link.kind))


def _bind(problem: Problem, one: tuple[int, bool], other: tuple[int, bool], link: Link) -> None:
    """Bind a start to a start, or an end to an end."""
    _arc(problem, Arc(*one, *other, link.least))
    if link.most is not None:
        _arc(problem, Arc(*other, *one, -link.most, gives=True, demand=_most(link)))


def _first_minute(problem: Problem) -> int:
    """Return a low end of the horizon: the earliest of all latest starts, and two days to spare."""
    problem.low = -_LONGEST
    _earliest, latest = tighten(problem, problem.high)
    lows = [bound.low for bound in problem.bounds if bound.low is not None]
    pauses = LONGEST_PAUSE if any(task.cuts > 1 for task in problem.tasks) else 0
    return _whole_days(max(-_LONGEST, min([0, *latest, *lows]) - pauses))


def _whole_days(offset: int) -> int:
    return ((offset - 2 * _DAY) // _DAY) * _DAY
