"""Earliest and latest starts by label correction over plain lists. Knows numbers only, no plan."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Sequence
from dataclasses import dataclass

FAR = 10**9
"""Minutes that stand for 'no bound'."""

Arc = tuple[int, int, int]
"""The other node, minutes, and the number of the limit that asks it."""
Bound = tuple[int, int]
"""Minutes, and the number of the limit that asks it."""


@dataclass(frozen=True)
class Labels:
    """A start for each node and the number of the limit that forces it (-1: none).

    `rest` False: some starts would move for ever, and the limits that force them run in a circle.
    """

    starts: list[int]
    because: list[int]
    rest: bool


@dataclass(frozen=True)
class Web:
    """Nodes with arcs `start[other] >= start[node] + minutes`, and bounds from outside as (minutes, limit).

    `order` goes along the arcs that point forward; where these run in a circle the order is as good as any.
    """

    after: list[list[Arc]]
    before: list[list[Arc]]
    floors: list[list[Bound]]
    ceilings: list[list[Bound]]
    order: list[int]
    rank: list[int]
    tails: list[int]
    heads: list[int]

    @classmethod
    def empty(cls, count: int) -> Web:
        """Return a web of so many nodes without limits."""
        arcs: tuple[list[list[Arc]], ...] = tuple([[] for _ in range(count)] for _ in range(2))
        bounds: tuple[list[list[Bound]], ...] = tuple([[] for _ in range(count)] for _ in range(2))
        return cls(arcs[0], arcs[1], bounds[0], bounds[1], [], [0] * count, [], [])

    def earliest(self, skip: int = -1) -> Labels:
        """Return the earliest starts, as if node `skip` were not there."""
        starts, because = [], []
        for bounds in self.floors:
            minutes, number = max(bounds, key=_minutes, default=(-FAR, -1))
            starts.append(minutes)
            because.append(number)
        rest = _raised(starts, because, self.after, self.order, self.tails, skip)
        return Labels(starts, because, rest)

    def latest(self, skip: int = -1) -> Labels:
        """Return the latest starts, as if node `skip` were not there."""
        starts, because = [], []
        for bounds in self.ceilings:
            minutes, number = min(bounds, key=_minutes, default=(FAR, -1))
            starts.append(-minutes)
            because.append(number)
        rest = _raised(starts, because, self.before, self.order[::-1], self.heads, skip)
        return Labels([-each for each in starts], because, rest)


def web_of(
    nodes: Sequence[Hashable],
    limits: Sequence[tuple[Hashable | None, Hashable | None, int]],
    forward: Callable[[int], bool],
) -> Web:
    """Return the web of limits (before, after, minutes); `forward` says which of them give the order."""
    index = {node: number for number, node in enumerate(nodes)}
    count = len(nodes)
    web = Web.empty(count)
    waiting = [0] * count
    following: list[list[int]] = [[] for _ in range(count)]
    for number, (before, after, minutes) in enumerate(limits):
        tail = -1 if before is None else index[before]
        head = -1 if after is None else index[after]
        web.tails.append(tail)
        web.heads.append(head)
        if tail < 0:
            web.floors[head].append((minutes, number))
        elif head < 0:
            web.ceilings[tail].append((-minutes, number))
        else:
            web.after[tail].append((head, minutes, number))
            web.before[head].append((tail, minutes, number))
            if forward(number):
                waiting[head] += 1
                following[tail].append(head)
    _sort(web.order, waiting, following)
    for rank, node in enumerate(web.order):
        web.rank[node] = rank
    return web


def _sort(order: list[int], waiting: list[int], following: list[list[int]]) -> None:
    ready = [node for node, count in enumerate(waiting) if count == 0]
    for node in ready:
        for other in following[node]:
            waiting[other] -= 1
            if waiting[other] == 0:
                ready.append(other)
    order += ready
    order += [node for node, count in enumerate(waiting) if count > 0]


def _raised(
    starts: list[int],
    because: list[int],
    arcs: list[list[Arc]],
    order: list[int],
    tails: list[int],
    skip: int,
) -> bool:
    """Raise the starts until every arc holds and return True; False where they would rise for ever."""
    if skip >= 0:
        starts[skip] = FAR * 2
    stale = bytearray(b"\1") * len(starts)
    rounds = 0
    while any(stale):
        for node in order:
            if not stale[node]:
                continue
            stale[node] = 0
            start = starts[node]
            if node == skip or start <= -FAR // 2:
                continue
            for other, minutes, number in arcs[node]:
                if start + minutes > starts[other]:
                    starts[other] = start + minutes
                    because[other] = number
                    stale[other] = 1
        rounds += 1
        if rounds % 4 == 0 and _chasing(because, tails):
            return False
    return True


def _chasing(because: list[int], tails: list[int]) -> bool:
    """Return whether limits force in a circle: such starts never rest (Cherkassky and Goldberg 1999)."""
    seen = [0] * len(because)
    for first in range(len(because)):
        node = first
        while node >= 0 and not seen[node]:
            seen[node] = first + 1
            number = because[node]
            node = tails[number] if number >= 0 else -1
        if node >= 0 and seen[node] == first + 1:
            return True
    return False


def _minutes(bound: Bound) -> int:
    return bound[0]
