"""Where spare minutes can be had: a load begun earlier, with what must move along, judged by the validator."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from core.arrange.chances_arcs import Arc, From
from core.arrange.chances_order import Order
from core.plan.ids import StepId
from core.plan.network_limits import Follows, Key
from core.plan.network_push import Pusher
from core.timetable.clash import Clash, ClashKind
from core.timetable.clashes import Checker
from core.timetable.timetable import Heating, Placed, Stay, Timetable

MINUTES = (5, 10, 15)


@dataclass(frozen=True, slots=True)
class Spare:
    """A load begun `minutes` earlier: the chance of being in time then, and by how much more that is than now.

    `moved`: all loads that then begin at another time, with their new starts.
    """

    step: StepId
    load: int
    minutes: int
    moved: tuple[tuple[Key, int], ...]
    chance: float = 0.0
    gain: float = 0.0

    def told(self, chance: float, gain: float) -> Spare:
        """Return it with its chance."""
        return replace(self, chance=chance, gain=gain)


def earlier(order: Order, key: Key, minutes: Sequence[int]) -> Iterator[Spare]:
    """Give the load begun so many minutes earlier, as far as that makes no clash that is not there already."""
    node = order.index[key]
    if order.nodes[node].fact is not None:
        return
    starts = {each: order.starts[number] for each, number in order.index.items()}
    lengths = {each: order.nodes[number].minutes for each, number in order.index.items()}
    pusher = Pusher(order.plan, starts, list(_follows(order)), lengths)
    checker = Checker(order.plan)
    known = {_same(clash) for clash in checker.clashes(order.timetable)}
    now = None if order.day is None else order.day.now
    for each in minutes:
        push = pusher.pushed(key, starts[key] - each)
        if push.broken or (now is not None and min(push.moved.values()) < now):
            return
        if any(order.nodes[order.index[moved]].fact is not None for moved in push.moved):
            return
        steps = {step for step, _load in push.moved}
        found = checker.clashes(shifted(order.timetable, push.moved), steps)
        if any(_same(clash) not in known for clash in found):
            return
        yield Spare(*key, each, tuple(sorted(push.moved.items())))


def shifted(timetable: Timetable, starts: Mapping[Key, int]) -> Timetable:
    """Return the timetable with loads at other starts; hands, waits and heatings from cold go along."""
    placed = tuple(_moved(each, starts.get(each.key, each.start)) for each in timetable.placed)
    after = replace(timetable, placed=placed)
    steps = {step for step, _load in starts}
    stays = [
        _redrawn(each, after) if each.before in steps or each.after in steps else each
        for each in timetable.stays
    ]
    heatings = tuple(_warmed(each, timetable, after) for each in timetable.heatings)
    return replace(after, stays=tuple(each for each in stays if each.end > each.start), heatings=heatings)


def _moved(placed: Placed, start: int) -> Placed:
    by = start - placed.start
    if by == 0:
        return placed
    hands = tuple(replace(hand, start=hand.start + by) for hand in placed.hands)
    return replace(placed, start=start, hands=hands)


def _redrawn(stay: Stay, timetable: Timetable) -> Stay:
    """Return a stay from the end of its load until what comes after: the same load there, or else the last."""
    before = timetable.at.get((stay.before, stay.load))
    after = timetable.loads_of.get(stay.after, ()) if stay.after is not None else ()
    if stay.after is not None and len(after) == len(timetable.loads_of.get(stay.before, ())) > 1:
        after = tuple(each for each in after if each.load == stay.load)
    start = stay.start if before is None else before.end
    return replace(stay, start=start, end=after[-1].start if after else stay.end)


def _warmed(heating: Heating, former: Timetable, new: Timetable) -> Heating:
    """Return a heating moved with the first load that it was for."""
    for placed in former.placed:
        if placed.start == heating.end and any(spot.station == heating.station for spot in placed.spots):
            by = new.at[placed.key].start - placed.start
            return replace(heating, start=heating.start + by, end=heating.end + by)
    return heating


def _follows(order: Order) -> Iterator[Follows]:
    """Give the orders on places, vessels and hands that the plan's own links do not ask for."""
    ends = order.ends
    for arcs in order.source_arcs:
        for arc in arcs:
            before, after = order.nodes[arc.before], order.nodes[arc.after]
            if before.placed is None or after.placed is None:
                continue
            gap = _gap(order, arc)
            # One that the timetable does not keep is told by its clash.
            if ends[arc.before] + gap <= order.starts[arc.after]:
                yield Follows(before.key, after.key, gap)


def _gap(order: Order, arc: Arc) -> int:
    """Return the minutes of an arc as counted from the end of the load before."""
    if arc.since is From.START:
        return arc.minutes - order.nodes[arc.before].minutes
    return arc.minutes


def _same(clash: Clash) -> tuple[ClashKind, tuple[StepId, ...]]:
    return clash.kind, clash.steps
