"""A day played through: the timetable's order with other lengths, what ends when, what breaks, what makes it late.

The same order as that of the chances (core.arrange.chances_order says what holds up whom), in whole minutes.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

from core.arrange.chances_arcs import Arc, Because, From
from core.arrange.chances_lengths import spread_of
from core.arrange.chances_limits import Limit, LimitKind, limits_of, served_last
from core.arrange.chances_order import Order, order_of
from core.plan.day import Day
from core.plan.ids import DishId, StepId
from core.plan.kitchen import StationKind
from core.plan.menu import LinkKind
from core.plan.network_limits import Key
from core.plan.plan import Plan
from core.timetable.timetable import Timetable

Lengths = Literal["low", "likely", "high"] | Mapping[Key, int]


@dataclass(frozen=True, slots=True)
class PlayedLoad:
    """When a load begins and ends, and how much later than planned (negative: sooner). Offsets and minutes."""

    step: StepId
    load: int
    start: int
    end: int
    later: int
    ends_later: int


@dataclass(frozen=True, slots=True)
class Broken:
    """A limit that does not hold: how long it was, or at the most may be, and by how many minutes it is broken."""

    kind: LimitKind
    step: StepId
    load: int
    then: StepId | None
    most: int
    by: int


@dataclass(frozen=True, slots=True)
class ChainLink:
    """A load on the chain that decides, and what it waited for (None: it began as planned)."""

    step: StepId
    load: int
    why: Because | None


@dataclass(frozen=True, slots=True)
class Played:
    """A day as it would go. `late`: minutes by which the latest dish misses its course (0: none does).

    `chain`: the loads that held each other up until that dish, in order of time; () where nothing is late.
    """

    loads: tuple[PlayedLoad, ...]
    broken: tuple[Broken, ...]
    late: int
    dish: DishId | None
    chain: tuple[ChainLink, ...]

    def at(self, step: StepId, load: int = 0) -> PlayedLoad:
        """Return how a load went; KeyError where there is none."""
        for each in self.loads:
            if each.step == step and each.load == load:
                return each
        raise KeyError((step, load))


@dataclass(slots=True)
class Times:
    """Starts, ends, and when each load's cook is through with it, in minutes."""

    starts: list[int]
    ends: list[int]
    free: list[int]


def played(
    plan: Plan,
    timetable: Timetable,
    lengths: Lengths,
    only_kinds: Collection[StationKind] | None = None,
    day: Day | None = None,
) -> Played:
    """Return the day when loads take other lengths in the order seen.

    `lengths`: the quick or slow ones of all loads, or of those at stations of `only_kinds`; or minutes by load. All
    others take what the timetable gives them. What stands in the cold ends as planned where that can be.
    """
    order = order_of(plan, timetable, day)
    minutes, elastic = _lengths(order, lengths, only_kinds)
    times = replay(order, minutes, elastic)
    loads = tuple(
        PlayedLoad(
            *key,
            times.starts[node],
            times.ends[node],
            times.starts[node] - order.starts[node],
            times.ends[node] - order.ends[node],
        )
        for key, node in order.index.items()
    )
    lasts = served_last(order)
    latest = max(lasts, key=lambda last: times.ends[last[0]] - last[1], default=None)
    late = 0 if latest is None else max(0, times.ends[latest[0]] - latest[1])
    chain: tuple[ChainLink, ...] = ()
    dish = None
    if latest is not None and late > 0:
        chain = _chain(order, times, minutes, latest[0])
        dish = plan.dish_of[order.nodes[latest[0]].key[0]].id
    return Played(loads, tuple(_broken(order, times, lasts)), late, dish, chain)


def _lengths(
    order: Order, lengths: Lengths, only_kinds: Collection[StationKind] | None
) -> tuple[list[int], list[bool]]:
    minutes, elastic = [node.minutes for node in order.nodes], [False] * len(order.nodes)
    kinds = {each.id: each.kind for each in order.plan.kitchen.stations}
    for number, node in enumerate(order.nodes):
        if node.placed is None:
            continue
        spread = spread_of(order, node)
        if not isinstance(lengths, str):
            if node.key in lengths:
                minutes[number] = lengths[node.key]
                continue
        elif not spread.elastic and (
            only_kinds is None or any(kinds.get(spot.station) in only_kinds for spot in node.placed.spots)
        ):
            given = {"low": spread.low, "likely": spread.likely, "high": spread.high}[lengths]
            minutes[number] = max(round(given), int(spread.passed))
        if spread.elastic:
            minutes[number], elastic[number] = round(spread.low), True
    return minutes, elastic


def replay(order: Order, minutes: Sequence[int], elastic: Sequence[bool]) -> Times:
    """Return the loads of an order pushed right by lengths, in whole minutes."""
    starts, ends, free = list(order.starts), list(order.ends), list(order.ends)
    times = Times(starts, ends, free)
    for node in order.sequence:
        one = order.nodes[node]
        start = one.floor if one.at_once and one.fact is None else order.starts[node]
        done = order.starts[node]
        for arc in order.incoming[node]:
            if not arc.to_end:
                start = max(start, reach(times, arc))
                if arc.since is From.HANDS:
                    done = max(done, reach(times, arc))
        if one.fact is None:
            for begin, end in one.away:
                start = end if begin <= start < end else start
        finish = start + minutes[node]
        if elastic[node]:
            finish = max(finish, order.starts[node] + one.minutes)
        finish = max([finish, *(reach(times, arc) for arc in order.incoming[node] if arc.to_end)])
        starts[node], ends[node], free[node] = start, finish, done + minutes[node]
    return times


def reach(times: Times, arc: Arc) -> int:
    """Return the offset before which an arc lets nothing begin (or end)."""
    if arc.since is From.START:
        return times.starts[arc.before] + arc.minutes
    since = times.free if arc.since is From.HANDS else times.ends
    return since[arc.before] + arc.minutes


def _chain(order: Order, times: Times, minutes: Sequence[int], last: int) -> tuple[ChainLink, ...]:
    """Return what held each other up, backwards from a load while something but the clock did."""
    found: list[ChainLink] = []
    node: int | None = last
    while node is not None:
        arc = _binding(order, times, minutes, node)
        one = order.nodes[node]
        found.append(ChainLink(*one.key, None if arc is None else arc.why))
        node = None if arc is None else arc.before
    return tuple(reversed(found))


def _binding(order: Order, times: Times, minutes: Sequence[int], node: int) -> Arc | None:
    arcs = order.incoming[node]
    start, end = times.starts[node], times.ends[node]
    if end > start + minutes[node]:
        ended = [arc for arc in arcs if arc.to_end and reach(times, arc) == end]
        if ended:
            return ended[0]
    if start <= order.starts[node]:
        return None
    held = [arc for arc in arcs if not arc.to_end and reach(times, arc) >= start]
    if not held and start > order.starts[node]:  # pushed past hours in which its cook is away
        held = [arc for arc in arcs if not arc.to_end and reach(times, arc) > order.starts[node]]
    return max(held, key=lambda arc: (reach(times, arc), minutes[arc.before]), default=None)


def _broken(order: Order, times: Times, lasts: Sequence[tuple[int, int]]) -> list[Broken]:
    served: dict[int, int] = {}
    for node, course in lasts:
        served[course] = max(served.get(course, course), times.ends[node])
    found = []
    for limit in limits_of(order):
        by = _over(times, limit, served)
        if by > 0:
            key = order.nodes[limit.before].key
            found.append(Broken(limit.kind, *key, limit.then, limit.most, by))
    return found


def _over(times: Times, limit: Limit, served: Mapping[int, int]) -> int:
    if limit.kind is LimitKind.WAIT:
        assert limit.after is not None
        begins = times.starts if limit.link is LinkKind.START_TO_START else times.ends
        until = times.ends if limit.link is LinkKind.END_TO_END else times.starts
        return until[limit.after] - begins[limit.before] - limit.most
    if limit.kind is LimitKind.KEEP:
        return served.get(limit.until, limit.until) - times.ends[limit.before] - limit.most
    return times.ends[limit.before] - limit.until
