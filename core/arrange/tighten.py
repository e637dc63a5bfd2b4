"""Tightens every task's start domain by the waits alone (label correction on the temporal network)."""

from __future__ import annotations

from core.arrange.problem import Problem


def tighten(
    problem: Problem, high_end: int, *, giving: bool = False, asking: bool = False
) -> tuple[list[int], list[int]]:
    """Return earliest and latest starts, nothing ending after `high_end`.

    `giving` leaves out what may stretch, `asking` what a wish asks.

    Where a latest comes before an earliest the waits contradict each other: nothing can meet.
    """
    count = len(problem.tasks)
    low = [problem.low] * count
    high = [high_end - task.shortest for task in problem.tasks]
    for bound in problem.bounds:
        if (giving and bound.gives) or (asking and bound.demand is not None):
            continue
        task = problem.tasks[bound.task]
        if bound.low is not None:
            least = bound.low + (task.early if bound.early else 0)
            low[bound.task] = max(low[bound.task], least - (task.longest if bound.end else 0))
        if bound.high is not None:
            high[bound.task] = min(high[bound.task], bound.high - (task.shortest if bound.end else 0))
    arcs = [
        _as_starts(problem, number)
        for number, arc in enumerate(problem.arcs)
        if not (giving and arc.gives) and not (asking and arc.demand is not None)
    ]
    for _round in range(count + 1):
        changed = False
        for one, other, lag in arcs:
            if low[one] + lag > low[other]:
                low[other] = low[one] + lag
                changed = True
            if high[other] - lag < high[one]:
                high[one] = high[other] - lag
                changed = True
        if not changed:
            break
    return low, high


def _as_starts(problem: Problem, number: int) -> tuple[int, int, int]:
    """Return an arc between starts with the least lag it can mean over all settings."""
    arc = problem.arcs[number]
    before, after = problem.tasks[arc.before], problem.tasks[arc.after]
    lag = arc.lag + (problem.tasks[arc.early].early if arc.early is not None else 0)
    if arc.before_end:
        lag += before.shortest
    if arc.after_end:
        lag -= after.longest
    return arc.before, arc.after, lag
