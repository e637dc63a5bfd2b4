"""Many days at once: the loads of an order pushed right by the lengths drawn, all runs in one array each.

Minutes are 32-bit floats, exact to the minute for more than thirty years.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from core.arrange.chances_arcs import Arc, From
from core.arrange.chances_lengths import Minutes
from core.arrange.chances_order import Node, Order

HALF = 0.5
"""Times are told in whole minutes: less than half a minute over a limit is not over."""


@dataclass(slots=True)
class Days:
    """Starts and ends of each load in each run (one number where all runs agree), and the latest end.

    `free`: when the load's cook is through with it, had he waited for nothing but his own work.
    """

    order: Order
    lengths: list[Minutes]
    elastic: list[bool]
    starts: list[Minutes]
    ends: list[Minutes]
    free: list[Minutes]
    last: list[float]
    last_free: list[float]


def simulate(
    order: Order, lengths: list[Minutes], elastic: list[bool], known: Days | None = None
) -> Days:
    """Return all runs of an order; `elastic` loads last until their planned ends at least.

    `known`: days of a similar order with the same lengths, to reuse. What neither stands elsewhere nor is reached
    by other arcs, nor by loads that changed, is not worked out again.
    """
    empty = np.zeros(1, np.float32)
    count = len(order.nodes)
    days = Days(
        order, lengths, elastic, [empty] * count, [empty] * count, [empty] * count, [0.0] * count, [0.0] * count
    )
    changed = [False] * count
    for node in order.sequence:
        if known is not None and _same(known.order, order, node) and not _reached(order, node, changed):
            days.starts[node], days.ends[node], days.free[node] = (
                known.starts[node],
                known.ends[node],
                known.free[node],
            )
            days.last[node], days.last_free[node] = known.last[node], known.last_free[node]
            continue
        _place(days, node)
        if known is not None:
            changed[node] = not (
                np.array_equal(days.ends[node], known.ends[node])
                and np.array_equal(days.starts[node], known.starts[node])
                and np.array_equal(days.free[node], known.free[node])
            )
    return days


def _same(former: Order, order: Order, node: int) -> bool:
    return former.starts[node] == order.starts[node] and former.incoming[node] == order.incoming[node]


def _reached(order: Order, node: int, changed: list[bool]) -> bool:
    return any(changed[arc.before] for arc in order.incoming[node])


def floor_of(order: Order, node: int) -> int:
    """Return the offset before which a load never begins."""
    one = order.nodes[node]
    return one.floor if one.at_once and one.fact is None else order.starts[node]


def _place(days: Days, node: int) -> None:
    order, length = days.order, days.lengths[node]
    one, floor = order.nodes[node], float(floor_of(order, node))
    start: Minutes = np.full(1, floor, np.float32)
    free: Minutes = np.full(1, order.starts[node], np.float32)
    ended: list[Arc] = []
    for arc in order.incoming[node]:
        if arc.to_end:
            ended.append(arc)
        elif _latest(days, arc) > floor:
            start = np.maximum(start, _reach(days, arc))
            if arc.since is From.HANDS:
                free = np.maximum(free, _reach(days, arc))
    start = _not_away(one, start)
    end: Minutes = start + length
    if days.elastic[node]:
        end = np.maximum(end, np.float32(order.starts[node] + one.minutes))
    for arc in ended:
        end = np.maximum(end, _reach(days, arc))
    days.starts[node], days.ends[node] = start, end
    days.free[node] = free + length
    days.last[node], days.last_free[node] = float(end.max()), float(days.free[node].max())


def _latest(days: Days, arc: Arc) -> float:
    if arc.since is From.HANDS:
        return days.last_free[arc.before] + arc.minutes
    # A start is never later than the end, which is at hand.
    return days.last[arc.before] + arc.minutes


def _reach(days: Days, arc: Arc) -> Minutes:
    """Return the offsets before which an arc lets nothing begin."""
    if arc.since is From.START:
        since = days.starts[arc.before]
    else:
        since = days.free[arc.before] if arc.since is From.HANDS else days.ends[arc.before]
    return since if arc.minutes == 0 else since + np.float32(arc.minutes)


def _not_away(one: Node, start: Minutes) -> Minutes:
    if one.away and one.fact is None:
        latest = float(start.max())
        for begin, end in one.away:
            if latest >= begin:
                start = np.where((start >= begin) & (start < end), np.float32(end), start)
                latest = float(start.max())
    return start


def lateness(days: Days, lasts: list[tuple[int, int]], runs: int) -> Minutes:
    """Return by how many minutes the latest of the served dishes is late in each run (negative: early).

    `lasts`: loads that end what is served, with their courses.
    """
    late: Minutes = np.full(runs, -np.inf, np.float32)
    for node, course in lasts:
        late = np.maximum(late, days.ends[node] - np.float32(course))
    return late


def share(true: npt.NDArray[np.bool_]) -> float:
    """Return which part of the runs is true."""
    return float(np.count_nonzero(true)) / len(true)
