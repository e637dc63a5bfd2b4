"""Chains: waits, times and lengths that contradict each other whatever stands where. No search is needed."""

from __future__ import annotations

from collections.abc import Sequence

from core.arrange.demand import Demand, DemandKind
from core.arrange.problem import Problem
from core.arrange.why.labels import ORIGIN, Edge, Labels, asked
from core.arrange.why.reason import FactKind, Reason, ReasonKind, Tie
from core.plan.ids import StepId
from core.plan.menu import Link, LinkKind
from core.plan.network_limits import Key, Limit, LimitKind

MOST = 8
"""Chains that are told of one plan; each is another contradiction."""

_LIMIT = {
    DemandKind.MOST_WAIT: LimitKind.MOST,
    DemandKind.KEEPS: LimitKind.KEEPS,
    DemandKind.SERVED: LimitKind.SERVED,
    DemandKind.EARLIEST: LimitKind.EARLIEST,
    DemandKind.LATEST: LimitKind.LATEST,
    DemandKind.CLOCK: LimitKind.CLOCK,
    DemandKind.PIN: LimitKind.PIN,
    DemandKind.ORDER: LimitKind.ORDER,
    DemandKind.OPENS: LimitKind.OPENS,
}
_WAITS = frozenset({DemandKind.MOST_WAIT, DemandKind.KEEPS, DemandKind.ORDER})
_EASIEST = (
    DemandKind.MOST_WAIT,
    DemandKind.KEEPS,
    DemandKind.PIN,
    DemandKind.ORDER,
    DemandKind.LATEST,
    DemandKind.EARLIEST,
    DemandKind.CLOCK,
    DemandKind.OPENS,
    DemandKind.SERVED,
)
"""Which wish of a chain is set aside to look for the next chain: what touches the fewest others first."""


def chains(problem: Problem, labels: Labels) -> tuple[list[Reason], Labels]:
    """Return all contradictions found one after the other, and labels of what is left when they are set aside."""
    found: list[Reason] = []
    for _look in range(2 * MOST):
        if not labels.circle or len(found) >= MOST:
            break
        circle = labels.circle
        demands = _fewest(labels, circle)
        reason = _reason(problem, circle, demands)
        if not any(_same_story(reason, other) for other in found):
            found.append(reason)
        if not demands:
            break
        labels = labels.without({min(demands, key=lambda each: _EASIEST.index(each.kind))})
    return found, labels


def _same_story(reason: Reason, told: Reason) -> bool:
    """Tell whether a chain runs through steps of one told already, from another fixed time or to another."""
    waits = {each for each in reason.demands if each.kind in _WAITS}
    return _steps(reason) <= _steps(told) and waits <= set(told.demands)


def _steps(reason: Reason) -> set[StepId]:
    limits = [tie.limit for tie in reason.chain]
    return {key[0] for limit in limits for key in (limit.before, limit.after) if key is not None}


def _fewest(labels: Labels, circle: Sequence[Edge]) -> tuple[Demand, ...]:
    """Return wishes of a circle none of which can be left out: exact, since no resource takes part."""
    kept = list(asked(circle))
    for demand in tuple(kept):
        others = [each for each in kept if each != demand]
        if labels.with_only(others).circle:
            kept = others
    return tuple(kept)


def _reason(problem: Problem, circle: Sequence[Edge], demands: tuple[Demand, ...]) -> Reason:
    over = sum(edge.minutes for edge in circle)
    ties = tuple(tie for edge in circle if (tie := _tie(problem, edge)) is not None)
    first = next((at for at, tie in enumerate(ties) if tie.limit.before is None), 0)
    low, high = _between(circle)
    return Reason(
        ReasonKind.CHAIN,
        demands,
        min(low, high),
        max(low, high),
        need=high - low + over,
        have=high - low,
        over=over,
        chain=ties[first:] + ties[:first],
        minimal=True,
    )


def _between(circle: Sequence[Edge]) -> tuple[int, int]:
    """Return after which fixed time and by which the chain must come; where it hangs on none, 0 and the most waits."""
    low = next((edge.minutes for edge in circle if edge.tail == ORIGIN), None)
    high = next((-edge.minutes for edge in circle if edge.head == ORIGIN), None)
    if low is None or high is None:
        return 0, -sum(edge.minutes for edge in circle if edge.minutes < 0)
    return low, high


def _tie(problem: Problem, edge: Edge) -> Tie | None:
    """Return an edge as a limit that can be put into words; None for a length, which its neighbours tell."""
    if edge.bound is not None:
        key = problem.tasks[edge.bound.task].key
        low = edge.tail == ORIGIN
        before, after = (None, key) if low else (key, None)
        if edge.demand is not None:
            return Tie(Limit(_LIMIT[edge.demand.kind], before, after, edge.minutes))
        fact = FactKind.NOW if problem.tasks[edge.bound.task].begun is None else FactKind.BEGUN
        return Tie(Limit(LimitKind.OPENS, before, after, edge.minutes), fact)
    if edge.arc is not None:
        one, other = problem.tasks[edge.arc.before].key, problem.tasks[edge.arc.after].key
        return Tie(_of_arc(problem, edge, one, other))
    if edge.demand is not None:  # the plan opens
        return Tie(Limit(LimitKind.OPENS, None, problem.tasks[(edge.head - 1) // 2].key, edge.minutes))
    return None


def _of_arc(problem: Problem, edge: Edge, one: Key, other: Key) -> Limit:
    if edge.demand is not None and edge.demand.kind is DemandKind.ORDER:
        return Limit(LimitKind.ORDER, one, other, edge.minutes)
    if one[0] == other[0]:
        length = problem.tasks[problem.index[one]].shortest
        return Limit(LimitKind.LOADS, one, other, edge.minutes + length)
    kind = LimitKind.LEAST if edge.demand is None else LimitKind.MOST
    return Limit(kind, one, other, edge.minutes, _link(problem, edge, one, other))


def _link(problem: Problem, edge: Edge, one: Key, other: Key) -> Link | None:
    """Return the link that an arc was made from; a most wait runs backwards."""
    if edge.demand is not None:
        return next(
            (link for link in problem.plan.menu.links
             if link.key == (edge.demand.step, edge.demand.after, edge.demand.link)), None
        )  # fmt: skip
    arc = edge.arc
    kinds = {(True, False): LinkKind.END_TO_START, (False, False): LinkKind.START_TO_START}
    kind = kinds.get((arc.before_end, arc.after_end), LinkKind.END_TO_END) if arc is not None else None
    return next((link for link in problem.plan.menu.links if link.key == (one[0], other[0], kind)), None)
