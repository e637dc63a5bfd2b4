"""How long the food that has begun can still stand, on every way to the table.

Each wait has room: what it may last less what it lasts as planned. When serving is put off, what has begun stays
where it is and what has not begun moves with the guests, or stays where it is planned where the food keeps better
afterwards (a braise on the flame rather than unseasoned beside it). So on each way from begun food to the table
one wait becomes longer, the roomiest; the way with the least such room is as far as the dish can go. This is the
bottleneck of a network; it is found like a shortest path, with the greatest room of a way for its length.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from heapq import heappop, heappush
from itertools import count

from core.arrange.chances_arcs import Because
from core.arrange.chances_limits import Limit, LimitKind, limits_of
from core.arrange.chances_order import Order
from core.plan.ids import DishId
from core.plan.meaning import reserved
from core.plan.menu import LinkKind

NEVER = 10**9
"""Room of what has no limit."""
_BEGUN = -NEVER


@dataclass(frozen=True, slots=True)
class Room:
    """A wait before `after` (a load) or before a dish is served, its limit and the minutes left as planned.

    `before` None: the world's clock or a fire, which does not wait. `since`: the offset from which it counts.
    """

    limit: Limit
    before: int | None
    after: int | None
    dish: DishId | None
    since: int
    lasts: int

    @property
    def left(self) -> int:
        """Return by how many minutes the wait may become longer (negative: it is too long as planned)."""
        return self.limit.most - self.lasts

    @property
    def gives(self) -> int:
        """Return what is left, but nothing at all where one step follows at once on another."""
        return _BEGUN if self.limit.at_once else self.left


@dataclass(frozen=True, slots=True)
class Reach:
    """How far something can be put off: minutes, the wait that decides, and the minutes when waits share it."""

    minutes: int
    room: Room | None
    shared: int


@dataclass(frozen=True)
class Rooms:
    """What has begun of an order at `now`, all rooms, and how far loads and dishes can be put off."""

    order: Order
    now: int
    begun: frozenset[int]
    rooms: tuple[Room, ...]
    loads: dict[int, Reach]
    dishes: dict[DishId, Reach]


def rooms_of(order: Order, now: int) -> Rooms:
    """Return the rooms at a moment (offset)."""
    begun = frozenset(number for number in order.index.values() if _has_begun(order, number, now))
    rooms = tuple(_rooms(order, now))
    coming = {
        dish.id for dish in order.plan.menu.dishes if dish.served and dish.course > now
    }
    loads, dishes = _reached(order, begun, rooms, coming)
    return Rooms(order, now, begun, rooms, loads, dishes)


def ties(order: Order) -> Iterator[tuple[int, int]]:
    """Give loads of which the first cannot move past the second: all that hold each other up but cooks."""
    for node, arcs in enumerate(order.incoming):
        for arc in arcs:
            if arc.why is not Because.HANDS:
                yield arc.before, node


def _has_begun(order: Order, number: int, now: int) -> bool:
    node = order.nodes[number]
    if node.placed is None or node.fact is not None:
        return node.fact is not None
    return node.placed.start <= now if order.day is None else node.placed.start < now


def _rooms(order: Order, now: int) -> Iterator[Room]:
    plan, starts, ends = order.plan, order.starts, order.ends
    for limit in limits_of(order):
        if limit.kind is LimitKind.WAIT:
            assert limit.after is not None
            since = starts[limit.before] if limit.link is LinkKind.START_TO_START else _done(order, limit.before)
            until = ends[limit.after] if limit.link is LinkKind.END_TO_END else starts[limit.after]
            yield Room(limit, limit.before, limit.after, None, since, until - since)
        elif limit.kind is LimitKind.KEEP:
            dish, since = plan.dish_of[limit.step], _done(order, limit.before)
            yield Room(limit, limit.before, None, dish.id, since, dish.course - since)
        elif limit.kind is LimitKind.LATEST or _is_lit(order, limit, now):
            end = ends[limit.before]
            yield Room(limit, None, limit.before, None, limit.until, end - limit.until)
    for (step, load), node in order.index.items():
        if plan.steps[step].clock is not None and load == 0:
            clock = Limit(LimitKind.LATEST, node, None, 0, starts[node], step=step)
            yield Room(clock, None, node, None, starts[node], 0)


def _done(order: Order, number: int) -> int:
    """Return when a load's food may be done: at its end, or as much sooner as a safe length reserves for it."""
    node = order.nodes[number]
    if node.placed is None or node.fact is not None:
        return order.ends[number]
    return order.ends[number] - reserved(order.plan, node.placed.step, node.placed.way).early


def _is_lit(order: Order, limit: Limit, now: int) -> bool:
    """Return whether the fire that a load depends on has been lit: one that has not moves with the guests."""
    placed = order.nodes[limit.before].placed
    stations = {spot.station for spot in placed.spots} if placed is not None else set()
    fires = [each for each in order.timetable.heatings if each.station in stations]
    burns = {each.id: each.burns for each in order.plan.kitchen.stations}
    return any(
        fire.start <= now and fire.end + (burns[fire.station] or 0) == limit.until for fire in fires
    )


def _reached(
    order: Order, begun: frozenset[int], rooms: Sequence[Room], coming: set[DishId]
) -> tuple[dict[int, Reach], dict[DishId, Reach]]:
    """Return how far each load and each dish still to be served can be put off."""
    leaving: dict[int | None, list[Room]] = {}
    for room in rooms:
        if room.dish is None or room.dish in coming:
            leaving.setdefault(room.before, []).append(room)
    former: dict[int, list[int]] = {}
    for before, after in ties(order):
        former.setdefault(after, []).append(before)
    widest = _least(begun, leaving, former, max, _BEGUN)
    summed = _least(begun, leaving, former, lambda minutes, left: minutes + max(0, left), 0)
    reaches = {each: Reach(minutes, why, summed[each][0]) for each, (minutes, why) in widest.items()}
    loads = {each: reach for each, reach in reaches.items() if isinstance(each, int) and each not in begun}
    dishes = {dish: reaches.get(dish, Reach(NEVER, None, NEVER)) for dish in sorted(coming)}
    return loads, dishes


def _least(
    begun: frozenset[int],
    leaving: Mapping[int | None, Sequence[Room]],
    former: Mapping[int, Sequence[int]],
    further: Callable[[int, int], int],
    first: int,
) -> dict[int | DishId, tuple[int, Room | None]]:
    """Return for all that begun food leads to the way with the least minutes, and the wait that makes them.

    Dijkstra's way. What a load must wait for comes with it: it is put off no further.
    """
    best: dict[int | DishId, tuple[int, Room | None]] = {}
    numbers = count()
    heap: list[tuple[int, int, int | DishId | None, Room | None]] = [
        (first, next(numbers), start, None) for start in (None, *sorted(begun))
    ]
    while heap:
        minutes, _number, here, why = heappop(heap)
        if here is not None:
            if here in best:
                continue
            best[here] = minutes, why
            if isinstance(here, str):
                continue
            for each in former.get(here, ()):
                heappush(heap, (minutes, next(numbers), each, why))
        for room in leaving.get(here, ()):
            to = room.dish if room.after is None else room.after
            wider = why is None or room.gives > minutes
            heappush(heap, (further(minutes, room.gives), next(numbers), to, room if wider else why))
    return best
