"""Shelves: what surely stands in a place together fits by the sum of its areas, and still no sharing-out is found.

Exact: every way to give each thing a shelf high and wide enough, raw things the lowest, is tried (bin packing by
depth-first search, the largest first, equal shelves once).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from core.arrange.claims import slots_for
from core.arrange.demand import Demand
from core.arrange.problem import Problem, Slot
from core.arrange.why.crowds import Resource, resources
from core.arrange.why.labels import Labels, asked
from core.arrange.why.reason import Reason, ReasonKind
from core.arrange.why.sure import Sure, why_sure

_MOST_TRIED = 20_000


class _TooManyWays(Exception):
    """There are too many ways to try them all: nothing is said."""


@dataclass(frozen=True)
class _Thing:
    """Something that needs an area on one of some shelves."""

    sure: Sure
    area: int
    slots: frozenset[Slot]


def shelves(problem: Problem, labels: Labels, about: Demand | None = None) -> list[Reason]:
    """Return for each place with shelves (or `about`) the first minutes at which its things cannot be shared out."""
    found = []
    for resource in resources(problem, labels, about):
        if resource.shelved:
            reason = _of(problem, labels, resource)
            if reason is not None:
                found.append(reason)
    return found


def _of(problem: Problem, labels: Labels, resource: Resource) -> Reason | None:
    things = [
        _Thing(each, each.item.amount, frozenset(slots_for(problem, each.item.use)))
        for each in resource.sures
        if each.surely and each.item.use is not None
    ]
    times = sorted({each.sure.latest for each in things} | {each.sure.earliest for each in things})
    for start, end in pairwise(times):
        here = [each for each in things if each.sure.latest <= start and each.sure.earliest >= end]
        if problem.now is not None and start < problem.now:
            continue
        if sum(each.area for each in here) > resource.there(start) or resource.lacking(start, end):
            continue  # told as a crowd; what stands in a place that is shut is left to the solver
        if not _fits(problem, here):
            return _reason(problem, labels, resource, here)
    return None


def _as_long(here: Sequence[_Thing], now: int | None) -> tuple[int, int]:
    """Return the minutes during which all of them are surely there."""
    start, end = max(each.sure.latest for each in here), min(each.sure.earliest for each in here)
    return (start if now is None else max(start, now)), end


def _reason(problem: Problem, labels: Labels, resource: Resource, here: list[_Thing]) -> Reason:
    when = _as_long(here, problem.now)
    few = list(here)
    for each in sorted(here, key=lambda one: one.area):
        fewer = [one for one in few if one is not each]
        if not _fits(problem, fewer):
            few = fewer
    edges = [edge for each in few for edge in why_sure(labels, each.sure.item)]
    return Reason(
        ReasonKind.SHELVES,
        (resource.about, *asked(edges)),
        *when,
        need=sum(each.area for each in here),
        have=resource.there(when[0]),
        over=when[1] - when[0],
        about=resource.about,
        stations=resource.stations,
        shares=tuple(each.sure.share(each.sure.latest, each.sure.earliest, each.area) for each in here),
        shelved=True,
    )


def _fits(problem: Problem, things: Sequence[_Thing]) -> bool:
    """Tell whether the things can be shared out over the shelves; True also where there are too many ways to try."""
    kitchen = problem.plan.kitchen
    left = {
        slot: kitchen.station[slot[0]].shelves[slot[1]].area
        for each in things
        for slot in each.slots
        if slot[1] is not None
    }
    largest_first = sorted(things, key=lambda each: (len(each.slots), -each.area))
    try:
        return _placed(largest_first, 0, left, [0])
    except _TooManyWays:
        return True


def _placed(things: Sequence[_Thing], at: int, left: dict[Slot, int], tried: list[int]) -> bool:
    if at == len(things):
        return True
    tried[0] += 1
    if tried[0] > _MOST_TRIED:
        raise _TooManyWays
    thing = things[at]
    alike: set[tuple[int, frozenset[int]]] = set()
    for slot in sorted(thing.slots, key=str):
        if left[slot] < thing.area:
            continue
        later = frozenset(number for number, other in enumerate(things[at:]) if slot in other.slots)
        if (left[slot], later) in alike:
            continue
        alike.add((left[slot], later))
        left[slot] -= thing.area
        if _placed(things, at + 1, left, tried):
            return True
        left[slot] += thing.area
    return False
