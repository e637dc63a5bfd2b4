"""What is freed in a re-flow: what clashes, what hangs on it, and what contends with it where it is to go."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from core.arrange.problem import Stretch
from core.arrange.reflow_seen import Seen
from core.arrange.tighten import tighten
from core.timetable.clash import Clash
from core.timetable.timetable import Placed, Timetable

_LINKED_NEAR = 600  # minutes; what follows later than that has room enough


def involved(seen: Seen, found: Iterable[Clash]) -> set[int]:
    """Return the tasks of the steps that clashes name."""
    steps = {step for clash in found for step in clash.steps}
    return {index for step in steps for index in seen.problem.loads.get(step, ())}


def hanging(seen: Seen, free: set[int], rounds: int) -> set[int]:
    """Return tasks with those that hang on them by links, so many links away, and near in time."""
    found, last = set(free), set(free)
    for _round in range(rounds):
        new: set[int] = set()
        for index in last:
            for arc in seen.arcs.get(index, ()):
                near = abs(seen.starts.get(arc.after, 0) - seen.starts.get(arc.before, 0)) < _LINKED_NEAR
                new |= {arc.before, arc.after} if near else set()
        last = new - found
        found |= new
    return found


def rivals(seen: Seen, free: set[int], tried: Timetable) -> list[int]:
    """Return the other tasks that want what some want, nearest to their minutes first.

    `tried` says where those stand that are not to stay: what a task wants are hands, kinds of stations and vessels.
    """
    problem = seen.problem
    wanted: dict[object, list[Stretch]] = {}
    for index in sorted(free):
        placed = tried.at.get(problem.tasks[index].key)
        wants = _might_want(seen, index) if placed is None else _wants(seen, index, placed)
        for what, span in wants:
            wanted.setdefault(what, []).append(span)
    far: dict[int, int] = {}
    for index in seen.starts:
        if index in free or problem.tasks[index].fact or not _may_move(seen, index):
            continue
        gaps = [
            max(start - end, begins - ends, 0)
            for what, (begins, ends) in _wants(seen, index, seen.placed(index))
            for start, end in wanted.get(what, ())
        ]
        if gaps:
            far[index] = min(gaps)
    return sorted(far, key=lambda index: (far[index], index))


def _wants(seen: Seen, index: int, placed: Placed) -> Iterator[tuple[object, Stretch]]:
    """Yield what a task wants, and from when to when."""
    task, span = seen.problem.tasks[index], (placed.start, placed.end)
    for use in task.uses:
        yield use.kind, span
    for vessels in task.step.vessels:
        yield vessels.vessel, span
    for hand in placed.hands:
        yield "hands", (hand.start, hand.start + hand.minutes)


def _might_want(seen: Seen, index: int) -> Iterator[tuple[object, Stretch]]:
    """Yield what a task that has no place yet wants, from when it could first begin to when it could last end."""
    task = seen.problem.tasks[index]
    earliest, latest = tighten(seen.problem, seen.problem.high)
    span = (earliest[index], latest[index] + task.longest)
    for use in task.uses:
        yield use.kind, span
    for vessels in task.step.vessels:
        yield vessels.vessel, span
    if task.pieces:
        yield "hands", span


def _may_move(seen: Seen, index: int) -> bool:
    fixed = seen.problem.fixed.get(index)
    return fixed is None or fixed.start is None or fixed.start != seen.starts.get(index)
