"""The part of a problem that a few wishes concern: the rest, with its own wishes given up, can go out of the way.

Kept are the steps that the wishes name, what must lie between them, and what holds a place or a vessel for them.
What only comes before or after them moves as far off as it needs to, there being nothing that keeps it near.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator
from dataclasses import replace

from core.arrange.claims import slots_for
from core.arrange.demand import Demand, DemandKind
from core.arrange.problem import Bound, Problem, Task
from core.arrange.solver import cp_model
from core.arrange.tighten import tighten
from core.arrange.variables import start_domain
from core.arrange.why.labels import Labels, begins, ends
from core.plan import calendar
from core.plan.ids import DishId, StepId
from core.plan.kitchen import Station, StationKind

_DAY = 24 * 60
_MOST_DAYS = 14
_ROUNDS = 8  # times that hours of cooks and waits narrow each other
_LAST = (60, 180)  # minutes before serving in which most of what cannot be lies


def room_for(problem: Problem) -> int:
    """Return whole days in which all tasks could be done one after the other, and a day to spare."""
    minutes = sum(task.length if task.cuts > 1 else task.longest for task in problem.tasks)
    minutes += sum(max(0, arc.lag) for arc in problem.arcs)
    return min(minutes // _DAY + 2, _MOST_DAYS) * _DAY


def concerned(
    problem: Problem, kept: Collection[Demand], always: Collection[StepId] = ()
) -> frozenset[StepId]:
    """Return the steps that wishes concern, as above, and `always`; where the plan opens, what precedes them too."""
    steps = {step for demand in kept for step in (demand.step, demand.after) if step is not None}
    steps = steps & problem.loads.keys() | set(always) | _at_fires(problem, kept)
    kinds = {demand.kind_of for demand in kept if demand.kind is DemandKind.STATION}
    vessels = {demand.vessel for demand in kept if demand.kind is DemandKind.VESSEL}
    opens = any(demand.kind is DemandKind.OPENS for demand in kept)
    tied = [set(run.steps) & problem.loads.keys() for run in problem.runs if run.vessel in vessels]
    tied += [
        {problem.tasks[wait.before].step.id, problem.tasks[wait.after].step.id}
        for wait in problem.waits
        if wait.use is not None and wait.use.kind in kinds and wait.after is not None
    ]
    after, before = _followers(problem, kept)
    while True:
        later, sooner = _reached(steps, after), _reached(steps, before)
        more = steps | (sooner if opens else later & sooner)
        for group in tied:
            if group & more:
                more |= group
        if more == steps:
            return frozenset(steps)
        steps = more


def _at_fires(problem: Problem, kept: Collection[Demand]) -> set[StepId]:
    """Return what may stand on fires that burn out: days off there is no fire left for it."""
    fires = {demand.station for demand in kept if demand.kind is DemandKind.FIRE}
    if not fires:
        return set()
    found = set()
    for task in problem.tasks:
        uses = [use for way in task.ways for use in way.uses]
        if any(station in fires for use in uses for station, _shelf in slots_for(problem, use)):
            found.add(task.step.id)
    for wait in problem.waits:
        if wait.use is not None and any(station in fires for station, _shelf in slots_for(problem, wait.use)):
            found.add(problem.tasks[wait.before].step.id)
    return found


def stubborn(problem: Problem) -> frozenset[StepId]:
    """Return steps that could not be done even alone in the kitchen: they are never out of the way."""
    found = {task.step.id for task in problem.tasks if task.begun is None and _cannot_be(problem, task)}
    return frozenset(found | _waits_crowd(problem))


def _waits_crowd(problem: Problem) -> set[StepId]:
    """Return steps whose own food must wait in several places of a kind at once, with fewer than that there."""
    found: set[StepId] = set()
    surely = [wait for wait in problem.waits if wait.use is not None and wait.least > 0 and wait.after is not None]
    for one in surely:
        beside = [each for each in surely if each.before == one.before and each.use == one.use]
        if one.use is None or len(beside) < 2:
            continue
        stations = problem.plan.kitchen.of_kind(one.use.kind)
        if len(beside) * max(1, one.use.units) > sum(max(1, each.units) for each in stations):
            found |= {problem.tasks[index].step.id for each in beside for index in (each.before, each.after or 0)}
    return found


def _cannot_be(problem: Problem, task: Task) -> bool:
    kitchen = problem.plan.kitchen
    if len(task.ways) == 1:
        for use in task.ways[0].uses:
            stations = {station for station, _shelf in slots_for(problem, use)}
            if use.kind is not StationKind.ROOM and not any(
                _long_enough(problem, kitchen.station[each], task.shortest) for each in stations
            ):
                return True
    counts = {vessel.id: vessel.count for vessel in kitchen.vessels}
    if any(use.count > counts.get(use.vessel, 0) for use in task.step.vessels):
        return True
    if _too_many_hands(problem, task):
        return True
    return bool(start_domain(problem, task, problem.low, problem.high).is_empty())


def _too_many_hands(problem: Problem, task: Task) -> bool:
    """Tell whether a step's own touches meet in a minute for which there are too few cooks."""
    for way in task.ways:
        held = [
            (start, start + piece.minutes, piece.people)
            for piece in task.pieces
            if piece.way == way.number
            for start in [way.shortest - piece.offset - piece.minutes if piece.from_end else piece.offset]
        ]
        for at, _end, _people in held:
            if sum(people for start, end, people in held if start <= at < end) > len(problem.plan.kitchen.cooks):
                return True
    return False


def _long_enough(problem: Problem, station: Station, minutes: int) -> bool:
    """Tell whether a station is there, and burns, for so many minutes on end."""
    if station.burns is not None and station.burns * station.fires < minutes:
        return False
    times = sorted(calendar.stretch_of(problem.plan, window) for window in station.hours)
    return not times or any(end - start >= minutes for start, end in times)


def _followers(
    problem: Problem, kept: Collection[Demand]
) -> tuple[dict[StepId, set[StepId]], dict[StepId, set[StepId]]]:
    after: dict[StepId, set[StepId]] = {}
    before: dict[StepId, set[StepId]] = {}
    for arc in problem.arcs:
        if arc.demand is None or arc.demand in kept:
            one, other = problem.tasks[arc.before].step.id, problem.tasks[arc.after].step.id
            after.setdefault(one, set()).add(other)
            before.setdefault(other, set()).add(one)
    return after, before


def _reached(steps: Iterable[StepId], along: dict[StepId, set[StepId]]) -> set[StepId]:
    found = set(steps)
    waiting = list(found)
    while waiting:
        for other in along.get(waiting.pop(), ()):
            if other not in found:
                found.add(other)
                waiting.append(other)
    return found


def part_of(problem: Problem, steps: Collection[StepId]) -> Problem:
    """Return a problem of some steps alone, with all their loads, numbered anew."""
    old = [task.index for task in problem.tasks if task.step.id in steps]
    new = {index: number for number, index in enumerate(old)}
    part = Problem(problem.plan, problem.low, problem.high)
    for index in old:
        task, number = problem.tasks[index], new[index]
        pieces = tuple(replace(piece, task=number) for piece in task.pieces)
        part.tasks.append(replace(task, index=number, pieces=pieces))
        part.index[task.key] = number
        part.loads.setdefault(task.step.id, []).append(number)
    part.arcs = [
        replace(
            arc,
            before=new[arc.before],
            after=new[arc.after],
            early=None if arc.early is None else new[arc.early],
        )
        for arc in problem.arcs
        if arc.before in new and arc.after in new
    ]
    part.bounds = [replace(each, task=new[each.task]) for each in problem.bounds if each.task in new]
    part.waits = [
        replace(each, before=new[each.before], after=None if each.after is None else new[each.after])
        for each in problem.waits
        if each.before in new and (each.after is None or each.after in new)
    ]
    part.runs = problem.runs
    part.fixed = {new[at]: replace(each, task=new[at]) for at, each in problem.fixed.items() if at in new}
    part.away, part.now = problem.away, problem.now
    part.stood = {new[at]: each for at, each in problem.stood.items() if at in new}
    part.lit, part.washed = problem.lit, problem.washed
    return part


def without_a_start(problem: Problem) -> tuple[frozenset[StepId], ...]:
    """Return the steps of each dish in which a step could never begin for the waits and the hours of its cooks."""
    narrow = replace(problem, bounds=list(problem.bounds))
    opens = problem.plan.opens
    if opens is not None:
        narrow.bounds += [Bound(task.index, False, low=opens) for task in problem.tasks if task.begun is None]
    dishes: dict[DishId, None] = {}
    for _round in range(_ROUNDS):
        low, high = tighten(narrow, narrow.high)
        moved = False
        for task in problem.tasks:
            first, last = low[task.index], high[task.index]
            starts = start_domain(problem, task, first, last) if first <= last else cp_model.Domain(1, 0)
            if starts.is_empty():
                dishes[task.dish.id] = None
            elif (starts.min(), starts.max()) != (first, last):
                narrow.bounds.append(Bound(task.index, False, starts.min(), starts.max()))
                moved = True
        if dishes or not moved:
            break
    return tuple(
        frozenset(task.step.id for task in problem.tasks if task.dish.id == dish) for dish in dishes
    )


def last_hours(problem: Problem, labels: Labels) -> Iterator[frozenset[StepId]]:
    """Return the steps that can only be done in the last hour, the last three hours before something is served."""
    courses = sorted({task.dish.course for task in problem.tasks if task.dish.served})
    found: set[frozenset[StepId]] = set()
    for minutes in _LAST:
        for course in courses:
            steps = frozenset(
                task.step.id
                for task in problem.tasks
                if labels.earliest[begins(task.index)] >= course - minutes
                and labels.latest[ends(task.index)] <= course
            )
            if len(steps) > 1 and steps not in found:
                found.add(steps)
                yield steps
