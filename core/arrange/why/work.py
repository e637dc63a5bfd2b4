"""More work than minutes: what must fall into a window, at the least, is more than there is in it.

Cooks' hands and units of stations. A thing with latest start l and earliest end e, lasting p, takes at least
min(p, b - a, e - a, b - l) of the minutes from a to b (energetic reasoning; Erschler and Lopez 1990).
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from core.arrange.demand import Demand
from core.arrange.problem import Problem
from core.arrange.why.crowds import Resource, resources
from core.arrange.why.labels import Edge, Labels, asked
from core.arrange.why.reason import Reason, ReasonKind
from core.arrange.why.sure import Sure, is_bound, why_sure, why_within
from core.plan.network_labels import FAR

LONGEST = 6 * 60
"""Minutes of the longest window looked at."""
_MOST_TRIED = 60  # windows whose wishes are looked at
_MOST_TIMES = 400  # times at which windows begin or end; of more only every second, third and so on
Ints = NDArray[np.int64]


@dataclass(frozen=True)
class _Table:
    """Items as columns."""

    whole: NDArray[np.bool_]
    first: Ints
    latest: Ints
    earliest: Ints
    last: Ints
    least: Ints
    amount: Ints

    @classmethod
    def of(cls, sures: Sequence[Sure]) -> _Table:
        def column(values: Iterator[int]) -> Ints:
            return np.fromiter(values, dtype=np.int64, count=len(sures))

        return cls(
            np.array([each.item.whole for each in sures], dtype=np.bool_),
            column(each.first for each in sures),
            column(each.latest for each in sures),
            column(each.earliest for each in sures),
            column(each.last for each in sures),
            column(each.item.least for each in sures),
            column(each.item.amount for each in sures),
        )

    def near(self, start: int, end: int) -> _Table:
        """Return the items that may take some of the minutes between two times."""
        some = (self.earliest > start) & (self.latest < end)
        some |= ~self.whole & (self.last > start) & (self.first < end)
        return _Table(
            self.whole[some],
            self.first[some],
            self.latest[some],
            self.earliest[some],
            self.last[some],
            self.least[some],
            self.amount[some],
        )

    def within(self, start: int, ends: Ints) -> Ints:
        """Return the least minutes of each item (rows) from one start to each end (columns)."""
        one = np.minimum(self.least, self.earliest - start)[:, None]
        window = (ends - start)[None, :]
        whole = np.minimum(np.minimum(one, window), ends[None, :] - self.latest[:, None])
        outside = np.maximum(0, start - self.first)[:, None] + np.maximum(0, self.last[:, None] - ends[None, :])
        cut = np.minimum(self.least[:, None] - outside, window)
        least: Ints = np.maximum(0, np.where(self.whole[:, None], whole, cut))
        return least


def work(
    problem: Problem, labels: Labels, told: Sequence[Reason] = (), *, about: Demand | None = None
) -> list[Reason]:
    """Return for each resource (or `about`) the window that is most overloaded; `told`: crowds that may say as much.

    The wishes are those of the overloaded window for which the fewest things are enough.
    """
    found: list[Reason] = []
    for resource in resources(problem, labels, about):
        if not resource.shelved:
            reason = _of(problem, labels, resource)
            if reason is not None and not _told(reason, (*told, *found)):
                found.append(reason)
    return found


def _told(reason: Reason, others: Sequence[Reason]) -> bool:
    """Tell whether others say that as much is too much, about the same thing and in the same minutes."""
    too_much = 0
    for other in others:
        if other.about == reason.about and reason.start <= other.start and other.end <= reason.end:
            if other.kind is ReasonKind.WORK:
                too_much += other.over
            else:
                too_much += (other.need - other.have) * (other.end - other.start)
    return too_much >= reason.over


def _of(problem: Problem, labels: Labels, resource: Resource) -> Reason | None:
    sures = [each for each in resource.sures if _counts(each)]
    if not sures:
        return None
    table = _Table.of(sures)
    windows = _overloaded(problem, resource, table)
    if not windows:
        return None
    start, end = max(windows, key=lambda each: (windows[each], each[0] - each[1], each[0]))
    least = table.within(start, np.array([end]))[:, 0] * table.amount
    inside = [(each, int(minutes)) for each, minutes in zip(sures, least, strict=True) if minutes > 0]
    need, have = sum(minutes for _each, minutes in inside), _there(resource, start, end)
    return Reason(
        ReasonKind.WORK,
        _wishes(labels, resource, sures, table, windows),
        start,
        end,
        need=need,
        have=have,
        over=need - have,
        about=resource.about,
        stations=resource.stations,
        shares=tuple(
            each.share(max(each.first, -FAR), min(each.last, FAR), minutes) for each, minutes in inside
        ),
        away=_whole(resource) * (end - start) - have,
    )


def _wishes(
    labels: Labels,
    resource: Resource,
    sures: Sequence[Sure],
    table: _Table,
    windows: dict[tuple[int, int], int],
) -> tuple[Demand, ...]:
    """Return the wishes of the fewest things that are too much for some window by themselves."""
    fewest: tuple[Demand, ...] = ()
    for start, end in sorted(windows, key=lambda each: (each[1] - each[0], -windows[each]))[:_MOST_TRIED]:
        least = table.within(start, np.array([end]))[:, 0] * table.amount
        have, chosen = _there(resource, start, end), []
        for at in np.argsort(-least, kind="stable").tolist():
            if have < 0:
                break
            have -= int(least[at])
            chosen.append(sures[at])
        edges: list[Edge] = []
        for each in chosen:
            edges += why_sure(labels, each.item) if each.item.whole else why_within(labels, each.item)
        wishes = tuple(
            dict.fromkeys((resource.about, *resource.lacking(start, end), *asked(edges)))
        )
        if not fewest or len(wishes) < len(fewest):
            fewest = wishes
    return fewest


def _counts(sure: Sure) -> bool:
    if sure.item.amount <= 0 or sure.item.least <= 0 or (sure.item.share.waits and not sure.surely):
        return False
    if sure.item.whole:
        return sure.latest < FAR // 2 and sure.earliest > -FAR // 2
    return is_bound(sure)


def _overloaded(problem: Problem, resource: Resource, table: _Table) -> dict[tuple[int, int], int]:
    """Return the windows in which too much must lie, and how much too much."""
    starts = {*table.latest.tolist(), *(table.earliest - table.least).tolist(), *resource.changes}
    finals = {*table.earliest.tolist(), *(table.latest + table.least).tolist(), *resource.changes}
    for at in np.flatnonzero(~table.whole):
        starts.add(int(table.first[at]))
        finals.add(int(table.last[at]))
    if problem.now is not None:
        now = problem.now
        starts = {each for each in starts if each > now} | {now}
    ends = np.array(_thinned(sorted(finals)), dtype=np.int64)
    most = _whole(resource)
    found: dict[tuple[int, int], int] = {}
    for start in _thinned(sorted(starts)):
        some = ends[(ends > start) & (ends <= start + LONGEST)]
        if not len(some):
            continue
        near = table.near(start, start + LONGEST)
        need = (near.within(start, some) * near.amount[:, None]).sum(axis=0)
        suspect = need > 0 if resource.changes else need > most * (some - start)
        for end, wanted in zip(some[suspect].tolist(), need[suspect].tolist(), strict=True):
            over = wanted - _there(resource, start, end)
            if over > 0:
                found[start, end] = over
    return found


def _thinned(times: list[int]) -> list[int]:
    return times[:: max(1, -(-len(times) // _MOST_TIMES))]


def _whole(resource: Resource) -> int:
    """Return how much there would be with everybody there, everything open."""
    times = [0, *(at for change in resource.changes for at in (change - 1, change))]
    return max(resource.there(at) for at in times)


def _there(resource: Resource, start: int, end: int) -> int:
    """Return how much there is from start to end, times minutes."""
    times = sorted({start, end, *(at for at in resource.changes if start < at < end)})
    return sum(resource.there(one) * (other - one) for one, other in pairwise(times))
