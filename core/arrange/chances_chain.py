"""What decides lateness: in each late run the chain of loads that held each other up, from the table backwards."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from core.arrange.chances_arcs import Arc, From
from core.arrange.chances_lengths import Minutes
from core.arrange.chances_run import HALF, Days, lateness
from core.plan.ids import StepId

_SAME = 0.01
Runs = npt.NDArray[np.bool_]


@dataclass(frozen=True, slots=True)
class Threat:
    """A load that decides lateness. Shares of the runs in which something is late at the table.

    `decides`: it is on the chain that makes the latest dish late. `over_runs`: it is on that chain and takes at
    least half a minute longer than the timetable gives it. `minutes`: how much longer on average, over late runs.
    """

    step: StepId
    load: int
    decides: float
    over_runs: float
    minutes: float


def threats(days: Days, lasts: list[tuple[int, int]], runs: int) -> tuple[Threat, ...]:
    """Return the loads that decide, the most often over-running first; () where no run is late."""
    if not lasts:
        return ()
    late = lateness(days, lasts, runs)
    rows = np.flatnonzero(late >= HALF)
    if len(rows) == 0:
        return ()
    order, found = days.order, []
    on_chain = _deciding(days, lasts, late, rows)
    for node in reversed(order.sequence):
        here = on_chain.get(node)
        if here is None or not here.any():
            continue
        _further(days, node, here, rows, on_chain)
        one = order.nodes[node]
        if one.placed is None:
            continue
        over = _at(days.lengths[node], rows) - np.float32(one.minutes)
        over_runs = here & (over >= HALF)
        minutes = float(np.where(over_runs, over, 0).mean())
        found.append(Threat(*one.key, float(here.mean()), float(over_runs.mean()), minutes))
    found.sort(key=lambda each: (-each.over_runs, -each.minutes, -each.decides, each.step, each.load))
    return tuple(found)


def _deciding(
    days: Days, lasts: list[tuple[int, int]], late: Minutes, rows: npt.NDArray[np.intp]
) -> dict[int, Runs]:
    """Return the last loads, and in which of the late runs each is the latest of all."""
    worst, found = late[rows], {}
    open_ = np.ones(len(rows), np.bool_)
    for node, course in lasts:
        here = open_ & (_at(days.ends[node], rows) - np.float32(course) >= worst - _SAME)
        if here.any():
            found[node] = here
            open_ = open_ & ~here
    return found


def _further(
    days: Days, node: int, here: Runs, rows: npt.NDArray[np.intp], on_chain: dict[int, Runs]
) -> None:
    """Put on the chain what a load waited for, in those runs in which it waited beyond its planned time."""
    order = days.order
    start, end = _at(days.starts[node], rows), _at(days.ends[node], rows)
    own_end = start + _at(days.lengths[node], rows)
    open_ = here & (start > order.starts[node] + _SAME)
    for arc in order.incoming[node]:
        reach = _at(_since(days, arc), rows) + np.float32(arc.minutes)
        if arc.to_end:
            bound = here & (end > own_end + _SAME) & (reach >= end - _SAME)
        else:
            bound = open_ & (reach >= start - _SAME)
        if bound.any():
            former = on_chain.get(arc.before)
            on_chain[arc.before] = bound if former is None else former | bound
            open_ = open_ & ~bound


def _since(days: Days, arc: Arc) -> Minutes:
    if arc.since is From.START:
        return days.starts[arc.before]
    return days.free[arc.before] if arc.since is From.HANDS else days.ends[arc.before]


def _at(times: Minutes, rows: npt.NDArray[np.intp]) -> Minutes:
    if len(times) == 1:
        return np.full(len(rows), times[0], np.float32)
    return times[rows]
