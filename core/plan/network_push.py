"""Dragging: where a load may go, and the least that the others move so that the waits hold again.

Starts that satisfy all limits form a lattice: among all answers to a drag there is one in which every single
load moves the least, and pushing along violated limits finds it. A limit that is broken already and does not
touch the dragged load counts as broken as it is: it is never made worse, nor mended by the way.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from heapq import heappop, heappush

from core.plan.network import Network
from core.plan.network_labels import FAR, Arc, Bound, Web
from core.plan.network_limits import Follows, Key, Limit, LimitKind, pinned_starts
from core.plan.plan import Plan


@dataclass(frozen=True, slots=True)
class Broken:
    """A limit that does not hold, and by how many minutes."""

    limit: Limit
    by: int


@dataclass(frozen=True, slots=True)
class Push:
    """The loads that get another start, the dragged one among them, and limits that cannot hold then."""

    moved: dict[Key, int]
    broken: tuple[Broken, ...] = ()


class Pusher:
    """Answers for one timetable while the mouse moves; asking again about the same load is cheap.

    `order_arcs` say who follows whom on a station; `lengths` are the lengths placed where they differ from
    those reserved. Pinned loads stand where they are seen and do not move, except the one that is dragged.
    """

    def __init__(
        self,
        plan: Plan,
        starts: Mapping[Key, int],
        order_arcs: Sequence[Follows] = (),
        lengths: Mapping[Key, int] | None = None,
    ) -> None:
        pinned = {key: starts.get(key, start) for key, start in pinned_starts(plan).items()}
        self.network = Network.of(plan, lengths, order_arcs, pinned)
        self._pins = pinned
        self._index = self.network.index
        self._seen = _all_starts(self.network, starts)
        self._placed = [key in starts for key in self.network.keys]
        self._web = _eased(self.network.web, self._seen)
        self._held: tuple[int, list[int], list[int]] | None = None

    def broken_now(self) -> tuple[Broken, ...]:
        """Return the limits that the starts seen break."""
        return self._broken(range(len(self.network.limits)), {})

    def legal_stretch(self, key: Key) -> tuple[int, int] | None:
        """Return first and last start at which a load's limits hold, others moving along; None: nowhere."""
        node = self._index[key]
        earliest, latest = self._without(node)
        web = self.network.web
        first = max(self._bounds(web.floors[node]), default=-FAR)
        first = max([first, *(earliest[other] + minutes for other, minutes, _no in web.before[node])])
        last = min(self._bounds(web.ceilings[node]), default=FAR)
        last = min([last, *(latest[other] - minutes for other, minutes, _no in web.after[node])])
        # Waits that contradict each other around this load let it stand nowhere; one trial tells.
        if first > last or self.pushed(key, first).broken:
            return None
        return first, last

    def pushed(self, key: Key, start: int) -> Push:
        """Return the least moves of others that let a load start there, and what breaks where they cannot."""
        node = self._index[key]
        earliest, latest = self._without(node)
        web, new = self.network.web, {node: start}
        later = [(other, start + minutes) for other, minutes, _no in web.after[node]]
        sooner = [(other, start - minutes) for other, minutes, _no in web.before[node]]
        self._push(new, [each for each in later if each[1] <= latest[each[0]]], self._web.after, 1)
        self._push(new, [each for each in sooner if each[1] >= earliest[each[0]]], self._web.before, -1)
        keys, seen = self.network.keys, self._seen
        moves = [each for each, there in new.items() if self._placed[each] and there != seen[each]]
        return Push({key: start} | {keys[each]: new[each] for each in moves}, self._broken_at(node, new))

    def slip(self, key: Key, alone: bool = False) -> int:
        """Return by how many minutes a load can start later, pushing others or, `alone`, nothing else."""
        node = self._index[key]
        start, web = self._seen[node], self._web
        ceiling = min(self._bounds(web.ceilings[node]), default=FAR)
        if alone:
            there = [self._seen[other] - minutes for other, minutes, _number in web.after[node]]
        elif key not in self._pins:
            return self._latest[node] - start
        else:
            latest = self._without(node)[1]
            there = [latest[other] - minutes for other, minutes, _number in web.after[node]]
        return min([ceiling, *there]) - start

    def _push(self, new: dict[int, int], bounds: list[Bound], arcs: list[list[Arc]], way: int) -> None:
        """Move what the bounds push, and what that pushes in turn: later (`way` 1) or sooner (-1)."""
        seen, rank, dragged = self._seen, self._web.rank, next(iter(new))
        heap: list[tuple[int, int]] = []
        waiting: set[int] = set()

        def move(node: int, start: int) -> None:
            if node != dragged and way * start > way * new.get(node, seen[node]):
                new[node] = start
                if node not in waiting:
                    waiting.add(node)
                    heappush(heap, (way * rank[node], node))

        for node, start in bounds:
            move(node, start)
        while heap:
            _rank, node = heappop(heap)
            waiting.discard(node)
            start = new[node]
            for other, minutes, _number in arcs[node]:
                move(other, start + way * minutes)

    @cached_property
    def _latest(self) -> list[int]:
        return self._web.latest().starts

    def _without(self, node: int) -> tuple[list[int], list[int]]:
        """Return earliest and latest starts of all others as if a load were not there."""
        if self._held is None or self._held[0] != node:
            self._held = node, self._web.earliest(node).starts, self._web.latest(node).starts
        return self._held[1], self._held[2]

    def _broken_at(self, node: int, new: Mapping[int, int]) -> tuple[Broken, ...]:
        """Return the limits around a load that do not hold, but its pin: the drag is about to renew it."""
        web = self.network.web
        own = [number for _minutes, number in (*web.floors[node], *web.ceilings[node])]
        own += [number for _other, _minutes, number in (*web.before[node], *web.after[node])]
        return tuple(each for each in self._broken(own, new) if each.limit.kind is not LimitKind.PIN)

    def _broken(self, numbers: Iterable[int], new: Mapping[int, int]) -> tuple[Broken, ...]:
        web, found = self.network.web, []
        for number in numbers:
            limit, tail, head = self.network.limits[number], web.tails[number], web.heads[number]
            before = 0 if tail < 0 else new.get(tail, self._seen[tail])
            after = 0 if head < 0 else new.get(head, self._seen[head])
            if after < before + limit.minutes:
                found.append(Broken(limit, before + limit.minutes - after))
        return tuple(found)

    def _bounds(self, bounds: list[Bound]) -> list[int]:
        """Return a load's own bounds but its pin."""
        limits = self.network.limits
        return [minutes for minutes, number in bounds if limits[number].kind is not LimitKind.PIN]


def can_slip(
    plan: Plan,
    starts: Mapping[Key, int],
    order_arcs: Sequence[Follows] = (),
    lengths: Mapping[Key, int] | None = None,
    alone: bool = False,
) -> dict[Key, int]:
    """Return by how many minutes each load can start later while all limits hold.

    Others may be pushed (total float), unless `alone`: then nothing else moves (free float). A pinned load
    slips as if its own pin were lifted; one that is too late already slips by 0.
    """
    pusher = Pusher(plan, starts, order_arcs, lengths)
    return {key: pusher.slip(key, alone) for key in pusher.network.keys if key in starts}


def _all_starts(network: Network, starts: Mapping[Key, int]) -> list[int]:
    """Return a start for every node; loads not on the timetable stand as late as those after them allow."""
    web = network.web
    seen = [starts.get(key, FAR) for key in network.keys]
    for node in reversed(web.order):
        if network.keys[node] not in starts:
            late = [minutes for minutes, _number in web.ceilings[node]]
            late += [seen[other] - minutes for other, minutes, _number in web.after[node]]
            seen[node] = min((minutes for minutes in late if minutes < FAR // 2), default=0)
    return seen


def _eased(web: Web, seen: Sequence[int]) -> Web:
    """Return the web with every limit that the starts break asked only as far as they keep it.

    The starts satisfy what is left, so its labels always come to rest.
    """

    def ease(arcs: list[Arc], node: int, way: int) -> list[Arc]:
        return [(other, min(minutes, way * (seen[other] - seen[node])), no) for other, minutes, no in arcs]

    floors, ceilings = zip(seen, web.floors, strict=True), zip(seen, web.ceilings, strict=True)
    return replace(
        web,
        after=[ease(arcs, node, 1) for node, arcs in enumerate(web.after)],
        before=[ease(arcs, node, -1) for node, arcs in enumerate(web.before)],
        floors=[[(min(least, start), no) for least, no in each] for start, each in floors],
        ceilings=[[(max(most, start), no) for most, no in each] for start, each in ceilings],
    )
