"""The order of a timetable: what holds up each load when others take longer, in the order seen.

A load begins at its planned time or when it becomes possible, whichever is later. It becomes possible when its
links' least waits are over, when who stands before it on its place, shelf or vessel is gone (and the oven has
changed), and when its cook is through with the work before it. Four things are not rigid:

- What follows at once (a link with no room between least and most) begins as soon as what is before it is done,
  also sooner than planned: nobody leaves a roast in the oven because the clock says so.
- A cook who must wait for something else does the next thing meanwhile: hands push on by as much as the work
  itself runs over, not by what it waited. Touches of steps that cook by themselves are done in passing.
- Food that is done waits somewhere, also where its shelf is not free yet.
- What stands in the cold by itself is taken out at its planned time, or as soon as it has had its low length:
  chilling, curing and setting absorb a late start.

A load that a cook begins does not begin while that cook is away; what has begun is finished.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from heapq import heapify, heappop, heappush

from core.arrange.chances_arcs import Arc, Because, From, Source, nodes_of
from core.arrange.chances_sources import cooks_at, sources_of
from core.plan import calendar
from core.plan.calendar import Stretch, clock_offset
from core.plan.day import Day, Fact, State
from core.plan.ids import CookId
from core.plan.menu import Link, LinkKind
from core.plan.network_limits import Key
from core.plan.plan import Plan
from core.plan.runs import vessel_runs
from core.timetable.timetable import Placed, Timetable

Bond = tuple[Link, tuple[Key, ...], tuple[Key, ...]]
"""A link with the loads that it binds on either side."""
_DAY = 24 * 60
_FURTHEST = 3 * _DAY
_LONG_AGO, _LATEST = -(10**9), 10**9


@dataclass(frozen=True, slots=True)
class Node:
    """A load, or (`placed` None) a washing: its minutes as placed, what of it the day has settled.

    `floor` binds also where it follows at once; `away` are the stretches after its planned start in which it
    cannot begin.
    """

    key: Key
    minutes: int
    placed: Placed | None = None
    fact: Fact | None = None
    at_once: bool = False
    floor: int = _LONG_AGO
    away: tuple[Stretch, ...] = ()


@dataclass(frozen=True)
class Order:
    """Loads with their starts, and the arcs that reach each; `sequence` goes along the arcs.

    `starts` and `ends` are as planned, or as the day has settled them; `planned` and `minutes` are the timetable's,
    from which it is read who follows whom. `absent`: when each cook is away.
    """

    plan: Plan
    timetable: Timetable
    day: Day | None
    nodes: tuple[Node, ...]
    index: dict[Key, int]
    links: tuple[Bond, ...]
    starts: tuple[int, ...]
    planned: tuple[int, ...]
    minutes: tuple[int, ...]
    sources: tuple[Source, ...]
    fixed_arcs: tuple[Arc, ...]
    source_arcs: tuple[tuple[Arc, ...], ...]
    incoming: tuple[tuple[Arc, ...], ...] = field(default=())
    sequence: tuple[int, ...] = field(default=())
    absent: Mapping[CookId, tuple[Stretch, ...]] = field(default_factory=dict)

    @property
    def ends(self) -> tuple[int, ...]:
        """Return the planned ends."""
        return tuple(start + node.minutes for start, node in zip(self.starts, self.nodes, strict=True))

    def moved(self, starts: Mapping[Key, int]) -> Order:
        """Return the order when loads stand at other starts; who follows whom is read anew where they stand."""
        new, planned, nodes = list(self.starts), list(self.planned), list(self.nodes)
        changed = set()
        for key, start in starts.items():
            node = self.index.get(key)
            if node is not None and self.nodes[node].fact is None and new[node] != start:
                new[node] = planned[node] = start
                changed.add(node)
                there = self.nodes[node].placed
                if there is not None:
                    there, at_once = replace(there, start=start), self.nodes[node].at_once
                    nodes[node] = _node(self.plan, self.timetable, self.day, there, at_once, self.absent)
        ends = _ends(planned, self.minutes)
        fed = _fed(len(new), self.fixed_arcs)
        arcs = tuple(
            tuple(source.arcs(planned, ends, fed)) if changed & nodes_of(source) else old
            for source, old in zip(self.sources, self.source_arcs, strict=True)
        )
        return _wired(
            replace(self, nodes=tuple(nodes), starts=tuple(new), planned=tuple(planned), source_arcs=arcs)
        )


def order_of(plan: Plan, timetable: Timetable, day: Day | None = None) -> Order:
    """Return the order of a timetable; of `day`, what is done stands, and nothing else begins before now."""
    placed = _known(plan, timetable, day)
    index = {each.key: number for number, each in enumerate(placed)}
    washings = {number: len(placed) + number for number in range(len(timetable.washings))}
    links = tuple(_bonds(plan, index))
    fixed = [*_of_links(links, index), *_of_loads(plan, index), *_of_decisions(plan, index)]
    at_once = _at_once(links, index)
    away = _absences(plan, placed)
    nodes = [
        _node(plan, timetable, day, each, number in at_once, away) for number, each in enumerate(placed)
    ]
    starts = [_start(each, node, day) for each, node in zip(placed, nodes, strict=True)]
    planned, minutes = [each.start for each in placed], [each.length for each in placed]
    runs = {(run.vessel, run.steps[0]): run.steps for run in vessel_runs(plan)}
    for washing in timetable.washings:
        nodes.append(Node((washing.after, -1), washing.minutes))
        starts.append(washing.start)
        planned.append(washing.start)
        minutes.append(washing.minutes)
        steps = runs.get((washing.vessel, washing.after), ())
        run = [number for key, number in index.items() if key[0] in steps]
        fixed += (Arc(node, len(nodes) - 1, 0, Because.VESSEL) for node in run)
    sources = tuple(sources_of(plan, timetable, index, washings))
    ends, fed = _ends(planned, minutes), _fed(len(nodes), fixed)
    arcs = tuple(tuple(source.arcs(planned, ends, fed)) for source in sources)
    return _wired(
        Order(
            plan,
            timetable,
            day,
            tuple(nodes),
            index,
            links,
            tuple(starts),
            tuple(planned),
            tuple(minutes),
            sources,
            tuple(fixed),
            arcs,
            absent=away,
        )
    )


def _ends(starts: Sequence[int], minutes: Sequence[int]) -> list[int]:
    return [start + length for start, length in zip(starts, minutes, strict=True)]


def _known(plan: Plan, timetable: Timetable, day: Day | None) -> list[Placed]:
    found: dict[Key, Placed] = {}
    for placed in timetable.placed:
        fact = None if day is None else day.of.get(placed.key)
        if placed.step in plan.steps and (fact is None or fact.state is not State.DROPPED):
            found.setdefault(placed.key, placed)
    return list(found.values())


def _bonds(plan: Plan, index: Mapping[Key, int]) -> list[Bond]:
    """Return each link with the loads it binds: pair by pair where both sides have as many, else all."""
    loads: dict[str, list[Key]] = {}
    for key in sorted(index):
        loads.setdefault(key[0], []).append(key)
    found: list[Bond] = []
    for link in plan.menu.links:
        before, after = loads.get(link.before, []), loads.get(link.after, [])
        if not before or not after:
            continue
        if link.kind is LinkKind.END_TO_START and len(before) == len(after):
            found += [(link, (one,), (other,)) for one, other in zip(before, after, strict=True)]
        else:
            found.append((link, tuple(before), tuple(after)))
    return found


def _of_links(links: Sequence[Bond], index: Mapping[Key, int]) -> list[Arc]:
    found = []
    for link, before, after in links:
        first, last = index[before[0]], index[before[-1]]
        if link.kind is LinkKind.START_TO_START:
            found.append(Arc(first, index[after[0]], link.least, Because.LINK, From.START))
        elif link.kind is LinkKind.END_TO_END:
            found.append(Arc(last, index[after[-1]], link.least, Because.LINK, to_end=True))
        else:
            found += [Arc(index[key], index[after[0]], link.least, Because.LINK) for key in before]
    return found


def _of_loads(plan: Plan, index: Mapping[Key, int]) -> list[Arc]:
    found = []
    for (step, load), node in index.items():
        loads, former = plan.steps[step].loads, index.get((step, load - 1))
        if loads is not None and former is not None:
            found.append(Arc(former, node, loads.change_over, Because.LOADS))
    return found


def _of_decisions(plan: Plan, index: Mapping[Key, int]) -> list[Arc]:
    found = []
    for order in plan.decisions.orders:
        then = index.get((order.then, 0))
        firsts = [node for (step, _load), node in index.items() if step == order.first]
        if then is not None:
            found += [Arc(first, then, 0, Because.ORDER) for first in firsts]
    return found


def _at_once(links: Sequence[Bond], index: Mapping[Key, int]) -> set[int]:
    """Return the loads that a link lets follow at once only."""
    return {
        index[after[0]]
        for link, before, after in links
        if link.kind is LinkKind.END_TO_START
        and link.most is not None
        and link.most <= link.least
        and len(before) == len(after) == 1
    }


def _node(
    plan: Plan,
    timetable: Timetable,
    day: Day | None,
    placed: Placed,
    at_once: bool,
    away: Mapping[CookId, tuple[Stretch, ...]],
) -> Node:
    fact = None if day is None else day.of.get(placed.key)
    step = plan.steps[placed.step]
    floors = [] if step.earliest is None else [step.earliest]
    floors += [] if day is None else [day.now]
    if step.clock is not None and placed.load == 0:
        floors.append(clock_offset(plan, step.clock))
    stations = {spot.station for spot in placed.spots}
    floors += [
        each.end for each in timetable.heatings if each.station in stations and each.end <= placed.start
    ]
    stretches = [
        each
        for cook in cooks_at(plan, placed)
        for each in away.get(cook, ())
        if placed.start < each[0] < placed.start + _FURTHEST
    ]
    floor, joined = max(floors, default=_LONG_AGO), calendar.merged(stretches, placed.start, _LATEST)
    return Node(placed.key, _minutes(placed, fact, day), placed, fact, at_once, floor, joined)


def _absences(plan: Plan, placed: Sequence[Placed]) -> dict[CookId, tuple[Stretch, ...]]:
    low = min((each.start for each in placed), default=0)
    high = max((each.start for each in placed), default=0) + _FURTHEST
    return {cook.id: calendar.absences(plan, cook, low, high) for cook in plan.kitchen.cooks}


def _minutes(placed: Placed, fact: Fact | None, day: Day | None) -> int:
    if fact is None or day is None:
        return placed.length
    if fact.end is not None:
        return fact.end - fact.start
    return max(placed.length, day.now - fact.start)


def _start(placed: Placed, node: Node, day: Day | None) -> int:
    if node.fact is not None:
        return node.fact.start
    return placed.start if day is None else max(placed.start, day.now)


def _fed(count: int, arcs: Sequence[Arc]) -> list[set[int]]:
    found: list[set[int]] = [set() for _ in range(count)]
    for arc in arcs:
        found[arc.after].add(arc.before)
    return found


def _wired(order: Order) -> Order:
    """Return the order with its arcs by load, and its loads in a sequence along them.

    Arcs that run in a circle (a timetable with things out of order) are left out, the later load's first.
    """
    count = len(order.nodes)
    strongest: dict[tuple[int, int, From, bool], Arc] = {}
    for arcs in (order.fixed_arcs, *order.source_arcs):
        for arc in arcs:
            tie = (arc.before, arc.after, arc.since, arc.to_end)
            known = strongest.get(tie)
            if known is None or arc.minutes > known.minutes:
                strongest[tie] = arc
    reach: list[list[Arc]] = [[] for _ in range(count)]
    leave: list[list[int]] = [[] for _ in range(count)]
    for arc in strongest.values():
        if order.nodes[arc.after].fact is None and arc.before != arc.after:
            reach[arc.after].append(arc)
            leave[arc.before].append(arc.after)
    sequence = _along(order.planned, reach, leave)
    rank = {node: number for number, node in enumerate(sequence)}
    kept = tuple(tuple(arc for arc in arcs if rank[arc.before] < rank[arc.after]) for arcs in reach)
    return replace(order, incoming=kept, sequence=tuple(sequence))


def _along(starts: Sequence[int], reach: list[list[Arc]], leave: list[list[int]]) -> list[int]:
    waiting = [len(arcs) for arcs in reach]
    heap = [(starts[node], node) for node, count in enumerate(waiting) if count == 0]
    heapify(heap)
    left = sorted(range(len(starts)), key=lambda node: (starts[node], node), reverse=True)
    done: list[int] = []
    seen = [False] * len(starts)
    while len(done) < len(starts):
        if not heap:  # a circle: go on with the one that is planned first
            while seen[left[-1]]:
                left.pop()
            heappush(heap, (starts[left[-1]], left[-1]))
        _start_of, node = heappop(heap)
        if seen[node]:
            continue
        seen[node] = True
        done.append(node)
        for other in leave[node]:
            waiting[other] -= 1
            if waiting[other] == 0 and not seen[other]:
                heappush(heap, (starts[other], other))
    return done
