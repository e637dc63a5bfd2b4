"""Dragging: where a load may go, and the least that the others move so that the waits hold again.

Starts that satisfy all limits form a lattice: among all answers to a drag there is one in which every single
load moves the least, and pushing along violated limits finds it. A limit that is broken already and does not
touch the dragged load counts as broken as it is: it is never made worse, nor mended by the way.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping, Sequence
from copy import copy
from dataclasses import dataclass, replace
from functools import cached_property
from heapq import heappop, heappush

from core.plan.menu import LinkKind
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
        self._held: tuple[frozenset[int], dict[int, int], dict[int, int]] | None = None

    def broken_now(self) -> tuple[Broken, ...]:
        """Return the limits that the starts seen break."""
        return self._broken(range(len(self.network.limits)), {})

    def legal_stretch(self, key: Key) -> tuple[int, int] | None:
        """Return first and last start at which a load's limits hold, others moving along; None: nowhere."""
        shift = self.legal_shift((key,))
        start = self._seen[self._index[key]]
        return None if shift is None else (start + shift[0], start + shift[1])

    def legal_shift(self, keys: Collection[Key]) -> tuple[int, int] | None:
        """Return by how many minutes several loads can move together at the least and most; None: nowhere.

        Limits between them bind nothing, for they keep their distances; what lies between them moves along.
        """
        nodes = frozenset(self._index[key] for key in keys)
        earliest, latest = self._without(nodes)
        web, seen = self.network.web, self._seen
        least, most = -FAR, FAR
        for node in nodes:
            first = max(self._bounds(web.floors[node]), default=-FAR)
            before = (earliest[other] + minutes for other, minutes, _no in web.before[node] if other not in nodes)
            last = min(self._bounds(web.ceilings[node]), default=FAR)
            after = (latest[other] - minutes for other, minutes, _no in web.after[node] if other not in nodes)
            least = max(least, max([first, *before]) - seen[node])
            most = min(most, min([last, *after]) - seen[node])
        # Waits that contradict each other around these loads let them stand nowhere; one trial tells.
        if least > most or self.pushed_all({key: seen[self._index[key]] + least for key in keys}).broken:
            return None
        return least, most

    def pushed(self, key: Key, start: int) -> Push:
        """Return the least moves of others that let a load start there, and what breaks where they cannot."""
        return self.pushed_all({key: start})

    def pushed_all(self, starts: Mapping[Key, int]) -> Push:
        """Return the least moves of others that let several loads start there, and what breaks where they cannot.

        Limits between these loads are broken only where they were not before.
        """
        new = {self._index[key]: start for key, start in starts.items()}
        held = frozenset(new)
        earliest, latest = self._without(held)
        web = self.network.web
        later = [
            (other, start + minutes)
            for node, start in new.items()
            for other, minutes, _no in web.after[node]
            if other not in held and start + minutes <= latest[other]
        ]
        sooner = [
            (other, start - minutes)
            for node, start in new.items()
            for other, minutes, _no in web.before[node]
            if other not in held and start - minutes >= earliest[other]
        ]
        self._push(new, held, later, self._web.after, 1)
        self._push(new, held, sooner, self._web.before, -1)
        keys, seen = self.network.keys, self._seen
        moves = [each for each, there in new.items() if self._placed[each] and there != seen[each]]
        moved = dict(starts) | {keys[each]: new[each] for each in moves}
        return Push(moved, self._broken_at(held, new))

    def with_lengths(self, lengths: Mapping[Key, int]) -> Pusher:
        """Return who answers when some loads take other lengths: only the limits around these are made anew."""
        return _resized(self, lengths)

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
            latest = self._without(frozenset((node,)))[1]
            there = [latest[other] - minutes for other, minutes, _number in web.after[node]]
        return min([ceiling, *there]) - start

    def _push(
        self, new: dict[int, int], held: frozenset[int], bounds: list[Bound], arcs: list[list[Arc]], way: int
    ) -> None:
        """Move what the bounds push, and what that pushes in turn: later (`way` 1) or sooner (-1)."""
        seen, rank = self._seen, self._web.rank
        heap: list[tuple[int, int]] = []
        waiting: set[int] = set()

        def move(node: int, start: int) -> None:
            if node not in held and way * start > way * new.get(node, seen[node]):
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

    def _without(self, nodes: frozenset[int]) -> tuple[dict[int, int], dict[int, int]]:
        """Return earliest and latest starts of all that hangs together with some loads, as if these were not there."""
        if self._held is None or self._held[0] != nodes:
            self._held = nodes, *_apart_from(self._web, nodes)
        return self._held[1], self._held[2]

    def _broken_at(self, nodes: frozenset[int], new: Mapping[int, int]) -> tuple[Broken, ...]:
        """Return the limits around loads that do not hold, but their pins: the drag is about to renew them."""
        web = self.network.web
        outer: list[int] = []
        inner: set[int] = set()
        for node in nodes:
            outer += [number for _minutes, number in (*web.floors[node], *web.ceilings[node])]
            for other, _minutes, number in (*web.before[node], *web.after[node]):
                if other in nodes:
                    inner.add(number)
                else:
                    outer.append(number)
        before = {each.limit: each.by for each in self._broken(inner, {})} if inner else {}
        found = [each for each in self._broken(outer, new) if each.limit.kind is not LimitKind.PIN]
        found += [each for each in self._broken(sorted(inner), new) if each.by > before.get(each.limit, 0)]
        return tuple(found)

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


def _apart_from(web: Web, nodes: frozenset[int]) -> tuple[dict[int, int], dict[int, int]]:
    """Return earliest and latest starts as if some nodes were not there, of all that hangs together with them."""
    near, waiting = {node: number for number, node in enumerate(nodes)}, list(nodes)
    while waiting:
        node = waiting.pop()
        for other, _minutes, _no in (*web.after[node], *web.before[node]):
            if other not in near:
                near[other] = len(near)
                waiting.append(other)
    part = Web.empty(len(near))
    part.order.extend(near[node] for node in sorted(near, key=lambda each: web.rank[each]))
    for node, number in near.items():
        if node in nodes:
            continue
        part.floors[number].extend(web.floors[node])
        part.ceilings[number].extend(web.ceilings[node])
        for other, minutes, _no in web.after[node]:
            if other not in nodes:
                part.after[number].append((near[other], minutes, len(part.tails)))
                part.before[near[other]].append((number, minutes, len(part.tails)))
                part.tails.append(number)
                part.heads.append(near[other])
    # bounds from outside force no circle: they have numbers of their own, with no node behind them
    for bounds in (*part.floors, *part.ceilings):
        bounds[:] = [(minutes, len(part.tails)) for minutes, _no in bounds]
    part.tails.append(-1)
    part.heads.append(-1)
    earliest, latest = part.earliest().starts, part.latest().starts
    return {node: earliest[at] for node, at in near.items()}, {node: latest[at] for node, at in near.items()}


def _resized(pusher: Pusher, lengths: Mapping[Key, int]) -> Pusher:
    """Return a pusher for the same starts in whose limits some loads have other lengths."""
    network, index = pusher.network, pusher.network.index
    by = {index[key]: length - network.lengths.minutes[key] for key, length in lengths.items()}
    beyond = {index[key]: length - network.lengths.longest[key] for key, length in lengths.items()}
    if not any(by.values()) and not any(beyond.values()):
        return pusher
    web, limits = network.web, list(network.limits)
    after, before = list(web.after), list(web.before)
    floors, ceilings = list(web.floors), list(web.ceilings)
    touched: set[int] = set()
    for node in by:
        touched |= {number for _minutes, number in (*web.floors[node], *web.ceilings[node])}
        touched |= {number for _other, _minutes, number in (*web.before[node], *web.after[node])}
    for number in touched:
        limit, tail, head = limits[number], web.tails[number], web.heads[number]
        longer = _growth(limit, by.get(tail, 0), beyond.get(head, 0))
        if not longer:
            continue
        minutes = limit.minutes + longer
        limits[number] = replace(limit, minutes=minutes)
        if tail < 0:
            floors[head] = [(minutes if no == number else old, no) for old, no in floors[head]]
        elif head < 0:
            ceilings[tail] = [(-minutes if no == number else old, no) for old, no in ceilings[tail]]
        else:
            after[tail] = [(to, minutes if no == number else old, no) for to, old, no in after[tail]]
            before[head] = [(to, minutes if no == number else old, no) for to, old, no in before[head]]
    new = copy(pusher)
    new.__dict__.pop("_latest", None)
    was = network.lengths
    known = replace(was, minutes={**was.minutes, **lengths}, longest={**was.longest, **lengths})
    bent = replace(web, after=after, before=before, floors=floors, ceilings=ceilings)
    new.network = Network(network.plan, known, tuple(limits), bent)
    new._web = _eased(bent, new._seen)
    new._held = None
    return new


def _growth(limit: Limit, tail: int, head: int) -> int:
    """Return by how many minutes a limit grows when its first load lasts so much longer than reserved (`tail`).

    `head`: how much longer its second load lasts than it was taken to last at most; see Lengths.longest.
    """
    kind, link = limit.kind, limit.link
    if kind in _AFTER_THE_END:
        return tail
    if kind is LimitKind.KEEPS:
        return -head
    if link is None or link.kind is LinkKind.START_TO_START:
        return 0
    if link.kind is LinkKind.END_TO_END:
        return tail - head
    return tail if kind is LimitKind.LEAST else -head


_AFTER_THE_END = frozenset(
    {LimitKind.LOADS, LimitKind.ORDER, LimitKind.FOLLOWS, LimitKind.SERVED, LimitKind.LATEST}
)
