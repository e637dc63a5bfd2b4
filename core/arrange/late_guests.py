"""Guests late: how long the menu can stand from a moment on, and what happens when serving is put off.

What has begun stays where it is: nothing finished may be moved in time. What has not begun moves with the guests,
unless the food keeps better when it is done as planned and waits afterwards, or it must follow at once on what has
begun (core.arrange.late_rooms). Offsets and minutes; nothing here says that food is safe.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from core.arrange.chances_limits import LimitKind
from core.arrange.chances_order import Order, order_of
from core.arrange.chances_spare import shifted
from core.arrange.late_offers import Offer, offers
from core.arrange.late_rooms import NEVER, Reach, Room, Rooms, rooms_of, ties
from core.measures.refusal import Refusal
from core.plan.day import Day
from core.plan.ids import DishId, StepId
from core.plan.menu import LinkKind
from core.plan.network_limits import Key
from core.plan.plan import Plan
from core.timetable.clash import Clash, ClashKind
from core.timetable.clashes import clashes
from core.timetable.timetable import Timetable

__all__ = ["Allowance", "Held", "LateGuests", "Moved", "Offer", "Over", "Patience", "guests_late", "how_late"]

_LONGEST = 24 * 60
_TOLD_AS_OVER = frozenset({ClashKind.WAITED_TOO_LONG, ClashKind.LATE, ClashKind.PIN_MOVED, ClashKind.MISSING})


@dataclass(frozen=True, slots=True)
class Allowance:
    """How many minutes a dish can still be put off (None: nothing limits it), and the wait that decides.

    The food waits after `step` (None: nothing limits it) until `then` begins, or, None, until it is served. It
    waits since `since` (an offset, perhaps still to come), as planned for `lasts` of at most `most` minutes.
    `shared`: the minutes if every wait on the way takes a part, so that some steps begin a little later and others
    not; never less.
    """

    dish: DishId
    minutes: int | None
    step: StepId | None = None
    load: int = 0
    then: StepId | None = None
    kind: LimitKind = LimitKind.KEEP
    since: int = 0
    lasts: int = 0
    most: int = 0
    shared: int | None = None


@dataclass(frozen=True, slots=True)
class Patience:
    """How many minutes the menu can stand from `now` (None: nothing limits it); the first dish decides.

    `dishes` are those still to be served, the least patient first.
    """

    now: int
    minutes: int | None
    dishes: tuple[Allowance, ...]

    @property
    def decides(self) -> Allowance | None:
        """Return the dish that decides."""
        return self.dishes[0] if self.minutes is not None else None


@dataclass(frozen=True, slots=True)
class Moved:
    """A load that begins `by` minutes later, at `start`."""

    step: StepId
    load: int
    start: int
    by: int


@dataclass(frozen=True, slots=True)
class Held:
    """A load not begun that stays where it is planned; `after`: the step after which it cannot wait so long."""

    step: StepId
    load: int
    start: int
    after: StepId | None


@dataclass(frozen=True, slots=True)
class Over:
    """Food that waits too long: after `step` until `then` (None: until served) `lasts` of at most `most` minutes.

    Since `since`; it is good until `until`, and `by` minutes short. `offers`: what might carry it.
    """

    dish: DishId
    step: StepId
    load: int
    then: StepId | None
    kind: LimitKind
    since: int
    until: int
    lasts: int
    most: int
    by: int
    offers: tuple[Offer, ...] = ()


@dataclass(frozen=True)
class LateGuests:
    """Serving put off by `minutes` at `now`.

    `moved` and `held`: what has not begun; `under_way`: loads that go on as they are. `over`: the worst first.
    `clashes`: what else then clashes that did not before (a cook gone home, a place taken longer). `timetable` is
    the day as it would be; in a plan whose plating stays, served dishes then have their courses `minutes` later.
    """

    now: int
    minutes: int
    moved: tuple[Moved, ...]
    held: tuple[Held, ...]
    under_way: tuple[Key, ...]
    over: tuple[Over, ...]
    clashes: tuple[Clash, ...]
    timetable: Timetable


def how_late(plan: Plan, timetable: Timetable, now: int, day: Day | None = None) -> Patience:
    """Return how long serving can be put off at an offset, as planned or as `day` says things stand.

    Without a day, what is planned to begin by now has begun; with one, what a fact is about or was planned before.
    """
    rooms = rooms_of(order_of(plan, timetable, _at(day, now)), now)
    found = [_allowance(rooms, dish, reach) for dish, reach in rooms.dishes.items()]
    found.sort(key=lambda each: (NEVER if each.minutes is None else each.minutes, each.dish))
    return Patience(now, found[0].minutes if found else None, tuple(found))


def guests_late(
    plan: Plan, timetable: Timetable, now: int, minutes: int, day: Day | None = None
) -> LateGuests:
    """Return what happens when at an offset serving is put off by so many minutes.

    Dishes served by then are left alone. Raise Refusal for less than a minute or more than a day.
    """
    if not 1 <= minutes <= _LONGEST:
        raise Refusal("Say how many minutes later the guests come: 1 to 1,440.")
    day = _at(day, now)
    rooms = rooms_of(order_of(plan, timetable, day), now)
    order = rooms.order
    stays = _staying(rooms, minutes)
    waiting = [node for node in order.index.values() if node not in rooms.begun]
    moving = [node for node in waiting if node not in stays and not _is_served(rooms, node)]
    starts = {order.nodes[node].key: order.starts[node] + minutes for node in moving}
    later_plan, later = _later(rooms, timetable, starts, minutes)
    over = [
        _over(rooms, room, minutes, later_plan, later)
        for room in rooms.rooms
        if room.left < minutes and _grows(rooms, room, set(moving))
    ]
    over.sort(key=lambda each: (-each.by, each.step, each.load))
    before = {(each.kind, each.steps) for each in clashes(plan, timetable)}
    new = [
        each
        for each in clashes(later_plan, later)
        if each.kind not in _TOLD_AS_OVER and (each.kind, each.steps) not in before and each.end > now
    ]
    held = [_held(rooms, node) for node in waiting if node in stays]
    held.sort(key=lambda each: (each.start, each.step, each.load))
    moved = [Moved(*order.nodes[node].key, order.starts[node] + minutes, minutes) for node in moving]
    moved.sort(key=lambda each: (each.start, each.step, each.load))
    going = [node for node in rooms.begun if order.ends[node] > now]
    under_way = sorted((order.starts[node], order.nodes[node].key) for node in going)
    return LateGuests(
        now,
        minutes,
        tuple(moved),
        tuple(held),
        tuple(key for _start, key in under_way),
        tuple(over),
        tuple(new),
        later,
    )


def _at(day: Day | None, now: int) -> Day | None:
    return None if day is None else replace(day, now=now)


def _allowance(rooms: Rooms, dish: DishId, reach: Reach) -> Allowance:
    room = reach.room
    if reach.minutes >= NEVER or room is None:
        return Allowance(dish, None)
    step, load = rooms.order.nodes[room.limit.before].key
    return Allowance(
        dish,
        max(0, reach.minutes),
        step,
        load,
        room.limit.then,
        room.limit.kind,
        room.since,
        room.lasts,
        room.limit.most,
        max(0, reach.minutes, reach.shared),
    )


def _is_served(rooms: Rooms, node: int) -> bool:
    """Return whether a load belongs to a dish that is on the table already."""
    dish = rooms.order.plan.dish_of[rooms.order.nodes[node].key[0]]
    return dish.served and dish.course <= rooms.now


def _staying(rooms: Rooms, minutes: int) -> set[int]:
    """Return the loads not begun that do not move: what they wait after bears less than what comes after them."""
    bears = _bears(rooms, minutes)
    return {
        node for node, reach in rooms.loads.items() if reach.minutes < bears.get(node, minutes)
    }


def _bears(rooms: Rooms, minutes: int) -> dict[int, int]:
    """Return for each load how much of the delay the dishes that it leads to can bear at the best."""
    order = rooms.order
    further: dict[int, list[int]] = {}
    for before, after in ties(order):
        further.setdefault(before, []).append(after)
    found: dict[int, int] = {}
    for node in reversed(order.sequence):
        one = order.nodes[node]
        known = [found[each] for each in further.get(node, ()) if each in found]
        if one.placed is not None and one.placed.step in order.plan.last_steps:
            reach = rooms.dishes.get(order.plan.dish_of[one.placed.step].id)
            if reach is not None:
                known.append(min(minutes, reach.minutes))
        if known:
            found[node] = max(known)
    return found


def _grows(rooms: Rooms, room: Room, moving: set[int]) -> bool:
    """Return whether a wait becomes longer: what it begins after stays, what ends it moves."""
    if room.before is not None and room.before in moving:
        return False
    if room.after is not None:
        return room.after in moving
    return room.dish in rooms.dishes


def _over(rooms: Rooms, room: Room, minutes: int, plan: Plan, later: Timetable) -> Over:
    order, limit = rooms.order, room.limit
    step, load = order.nodes[limit.before].key
    by, until = minutes - room.left, room.since + limit.most
    needed = until + by
    found = offers(plan, later, limit, order.nodes[limit.before].placed, (max(rooms.now, room.since), needed))
    dish = order.plan.dish_of[step].id
    lasts = room.lasts + minutes
    return Over(dish, step, load, limit.then, limit.kind, room.since, until, lasts, limit.most, by, found)


def _held(rooms: Rooms, node: int) -> Held:
    order, room = rooms.order, rooms.loads[node].room
    after = None if room is None or room.before is None else order.nodes[room.before].key[0]
    return Held(*order.nodes[node].key, order.starts[node], after)


def _later(
    rooms: Rooms, timetable: Timetable, starts: Mapping[Key, int], minutes: int
) -> tuple[Plan, Timetable]:
    """Return plan and timetable with the dishes still to come served later."""
    plan, order = rooms.order.plan, rooms.order
    dishes = tuple(
        replace(dish, course=dish.course + minutes) if dish.id in rooms.dishes else dish
        for dish in plan.menu.dishes
    )
    later_plan = replace(plan, menu=replace(plan.menu, dishes=dishes))
    moved = shifted(_as_it_is(order, timetable), starts)
    stays = tuple(
        replace(stay, end=stay.end + minutes)
        if stay.after is None and plan.dish_of[stay.before].id in rooms.dishes
        else stay
        for stay in moved.stays
        if stay.before in plan.steps and stay.kind is LinkKind.END_TO_START
    )
    washings = tuple(
        replace(each, start=each.start + minutes) if each.start >= rooms.now else each
        for each in moved.washings
    )
    return later_plan, replace(moved, stays=stays, washings=washings)


def _as_it_is(order: Order, timetable: Timetable) -> Timetable:
    """Return the timetable with what the day has settled at its real times."""
    if order.day is None:
        return timetable
    placed = []
    for each in timetable.placed:
        node = order.index.get(each.key)
        if node is not None:
            start, end = order.starts[node], order.ends[node]
            placed.append(replace(each, start=start, length=end - start) if order.nodes[node].fact else each)
    return replace(timetable, placed=tuple(placed))
