"""Reads a plan into a problem: loads, links, limits, waits and pins become tasks, arcs, bounds and stays."""

from __future__ import annotations

from itertools import pairwise

from core.arrange.problem import Arc, Bound, Fixed, Piece, Problem, Task, Waiting
from core.arrange.settings import settings_of
from core.arrange.tighten import tighten
from core.plan import calendar, meaning
from core.plan.menu import Link, LinkKind
from core.plan.plan import Plan
from core.plan.runs import vessel_runs
from core.plan.step import Attention, Step

_DAY = 24 * 60
_UNSAID = 5  # cost of a minute for what is served with no limit said: as if it kept two hours
_LONGEST = 400 * _DAY  # further back nothing is looked for


def read(plan: Plan) -> Problem:
    """Return the plan as integers."""
    problem = Problem(plan, 0, _last_minute(plan))
    _tasks(plan, problem)
    for dish in plan.menu.dishes:
        for step in dish.steps:
            _limits(plan, problem, step)
    for link in plan.menu.links:
        _link(problem, link)
    for order in plan.decisions.orders:
        problem.arcs.append(Arc(problem.last(order.first), True, problem.first(order.then), False, 0))
    problem.low = plan.opens if plan.opens is not None else _first_minute(problem)
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


def _tasks(plan: Plan, problem: Problem) -> None:
    settings = settings_of(plan)
    for dish in plan.menu.dishes:
        for step in dish.steps:
            kept = meaning.reserved(plan, step.id)
            _span, uses = meaning.way_of(plan, step)
            count = meaning.load_count(dish, step)
            problem.loads[step.id] = []
            for load in range(count):
                index = len(problem.tasks)
                heat = meaning.heat_of(plan, step)
                lengths = tuple(
                    (celsius, meaning.length_at(kept.length, heat, celsius))
                    for celsius in settings.get(step.id, ())
                    if heat is not None
                )
                pieces = _pieces(plan, step, index, kept.length)
                task = Task(index, step, dish, load, count, kept.length, kept.early, uses, lengths, pieces)
                problem.tasks.append(task)
                problem.index[task.key] = index
                problem.loads[step.id].append(index)
                pin = plan.pins.get(task.key)
                if pin is not None:
                    problem.fixed[index] = Fixed(index, pin.start, pin.station, pin.cook)


def _pieces(plan: Plan, step: Step, task: int, length: int) -> tuple[Piece, ...]:
    found = []
    hands = meaning.hands_of(plan, step, length)
    for hand in hands:
        from_end = step.attention is not Attention.HANDS_ON and _counts_from_end(
            step, hand.does, hand.start, length
        )
        offset = length - hand.start - hand.minutes if from_end else hand.start
        whole = hand.minutes == length and len(hands) == 1
        found.append(Piece(task, offset, hand.minutes, hand.people, hand.skill, from_end, whole))
    return tuple(found)


def _counts_from_end(step: Step, does: str, start: int, length: int) -> bool:
    """Tell whether a touch moves with the step's end when its length changes."""
    if does == "out" and start > 0:
        return True
    return any(touch.from_end and length - touch.at - touch.minutes == start for touch in step.touches)


def _limits(plan: Plan, problem: Problem, step: Step) -> None:
    dish = plan.dish_of[step.id]
    loads = problem.loads[step.id]
    for earlier, later in pairwise(loads):
        problem.arcs.append(Arc(earlier, True, later, False, step.loads.change_over if step.loads else 0))
    for index in loads:
        if step.earliest is not None:
            problem.bounds.append(Bound(index, False, low=step.earliest))
        if step.latest is not None:
            problem.bounds.append(Bound(index, True, high=step.latest, gives=True))
        if step.id in plan.last_steps:
            problem.bounds.append(Bound(index, True, high=dish.course, gives=True))
    if step.clock is not None:
        at = calendar.clock_offset(plan, step.clock)
        problem.bounds.append(Bound(loads[0], False, low=at, high=at))
    for index in loads:
        fixed = problem.fixed.get(index)
        if fixed is not None and fixed.start is not None:
            problem.bounds.append(Bound(index, False, low=fixed.start, high=fixed.start, gives=True))
    keep = meaning.keep_of(plan, step)
    if keep is None:
        return
    first = problem.tasks[loads[0]]
    if keep.most is not None:
        low = dish.course - keep.most + first.early
        problem.bounds.append(Bound(first.index, True, low=low, gives=True))
    cost = _cost(keep.most) if keep.most is not None else _UNSAID
    problem.waits.append(Waiting(first.index, None, dish.course, 0, cost, keep.wait.use))


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


def _feed(problem: Problem, first: int, last: int, next_first: int, next_last: int, link: Link) -> None:
    """Food goes from one step to the next: the last load must be done, the first must not be too old."""
    problem.arcs.append(Arc(last, True, next_first, False, link.least))
    if link.most is not None:
        lag = problem.tasks[first].early - link.most
        problem.arcs.append(Arc(next_last, False, first, True, lag, gives=True))
    problem.waits.append(Waiting(first, next_last, 0, link.least, _cost(link.most), link.wait.use, link.kind))


def _bind(problem: Problem, one: tuple[int, bool], other: tuple[int, bool], link: Link) -> None:
    """Bind a start to a start, or an end to an end."""
    problem.arcs.append(Arc(*one, *other, link.least))
    if link.most is not None:
        problem.arcs.append(Arc(*other, *one, -link.most, gives=True))


def _cost(most: int | None) -> int:
    """Return the cost of a minute's wait: a dish at its limit costs about 600, whatever the limit is."""
    if most is None:
        return 1
    return max(1, min(60, round(600 / max(1, most))))


def _first_minute(problem: Problem) -> int:
    """Return a low end of the horizon: the earliest of all latest starts, and two days to spare."""
    problem.low = -_LONGEST
    _earliest, latest = tighten(problem, problem.high)
    lows = [bound.low for bound in problem.bounds if bound.low is not None]
    return _whole_days(max(-_LONGEST, min([0, *latest, *lows])))


def _whole_days(offset: int) -> int:
    return ((offset - 2 * _DAY) // _DAY) * _DAY
