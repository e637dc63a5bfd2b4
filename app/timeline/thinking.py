"""What the timeline asks while a step is dragged, and the answers of the core: legal stretch, pushes, clashes."""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping, Sequence
from dataclasses import replace
from functools import cached_property
from typing import Protocol

from app.timeline.bars import Key
from app.timeline.drag_hands import hands_at_length
from app.timeline.drag_wish import Wish
from app.timeline.following import Follower
from core.plan.decisions import Choice
from core.plan.ids import CookId, StationId
from core.plan.meaning import ways_open
from core.plan.menu import Menu
from core.plan.network_push import Pusher
from core.plan.plan import Plan
from core.timetable.clash import Clash
from core.timetable.clashes import Checker
from core.timetable.nearby import Moved
from core.timetable.timetable import Placed, Spot, Timetable


class Thinker(Protocol):
    """Answers about one timetable. Starts are minutes from plating."""

    def legal_stretch(self, key: Key) -> tuple[int, int] | None:
        """Return first and last start at which the load breaks no link; None: nowhere."""
        ...

    def pushed(self, key: Key, start: int) -> Mapping[Key, int]:
        """Return the new starts of all loads that move when one starts there."""
        ...

    def timetable_if(self, key: Key, start: int, station: StationId | None = None) -> Timetable:
        """Return the timetable as it would be."""
        ...

    def clashes_if(self, key: Key, start: int, station: StationId | None = None) -> Sequence[Clash]:
        """Return what would clash around all that moves."""
        ...

    def legal_shift(self, keys: Collection[Key]) -> tuple[int, int] | None:
        """Return by how many minutes loads may move together and break no link; None: not at all."""
        ...

    def pushed_by(self, wish: Wish) -> Mapping[Key, int]:
        """Return the new starts of all loads that move when this is done, those held among them."""
        ...

    def timetable_by(self, wish: Wish) -> Timetable:
        """Return the timetable as it would be."""
        ...

    def place_by(self, wish: Wish, station: StationId) -> tuple[Plan, Timetable]:
        """Return what would stand on a station and heat it, with as much of the plan as that is about."""
        ...

    def warm(self) -> bool:
        """Work out ahead a part of what every answer needs; tell whether there is more."""
        ...

    def clashes_by(self, wish: Wish) -> Sequence[Clash]:
        """Return what would clash around all that moves."""
        ...


class Thinking:
    """The core's answers. Made for one plan and timetable; asking is cheap, making it is not."""

    def __init__(self, plan: Plan, timetable: Timetable) -> None:
        self._plan = plan
        self._timetable = timetable
        self._checker = Checker(plan)
        self._resized: tuple[Mapping[Key, int], Pusher] | None = None
        self._answered: tuple[Wish, Mapping[Key, int], Moved] | None = None
        self._cold: list[Callable[[], object]] = [
            lambda: self._pusher,
            lambda: self._checker.facts.runs,
            lambda: self._follower,
            lambda: self.clashes_if(timetable.placed[0].key, timetable.placed[0].start),
        ]

    def warm(self) -> bool:
        """Work out ahead a part of what every answer needs, so that a grip is quick; tell whether there is more."""
        if self._cold and self._timetable.placed:
            self._cold.pop(0)()
        return bool(self._cold and self._timetable.placed)

    @cached_property
    def _pusher(self) -> Pusher:
        placed = self._timetable.placed
        starts = {each.key: each.start for each in placed}
        plan = in_ways_placed(self._plan, self._timetable)
        return Pusher(plan, starts, lengths={each.key: each.length for each in placed})

    @cached_property
    def _follower(self) -> Follower:
        return Follower(self._plan, self._timetable, self._checker.facts)

    def legal_stretch(self, key: Key) -> tuple[int, int] | None:
        """Return first and last start at which the load breaks no link; None: nowhere."""
        return self._pusher.legal_stretch(key)

    def legal_shift(self, keys: Collection[Key]) -> tuple[int, int] | None:
        """Return by how many minutes loads may move together and break no link; None: not at all."""
        return self._pusher.legal_shift(keys)

    def pushed(self, key: Key, start: int) -> Mapping[Key, int]:
        """Return the new starts of all loads that move when one starts there."""
        return self._pusher.pushed(key, start).moved

    def pushed_by(self, wish: Wish) -> Mapping[Key, int]:
        """Return the new starts of all loads that move when this is done, those held among them."""
        return self._pusher_for(wish).pushed_all(wish.starts).moved

    def timetable_if(self, key: Key, start: int, station: StationId | None = None) -> Timetable:
        """Return the timetable as it would be, its waits, heatings, fires and washings drawn along."""
        return self.timetable_by(Wish(key, {key: start}, station))

    def timetable_by(self, wish: Wish) -> Timetable:
        """Return the timetable as it would be, its waits, heatings, fires and washings drawn along."""
        return self._moved(wish)[1].onto(self._timetable)

    def place_by(self, wish: Wish, station: StationId) -> tuple[Plan, Timetable]:
        """Return what would stand on a station and heat it, with as much of the plan as that is about."""
        place = self._follower.nearby.at(station, self._moved(wish)[1])
        return _about(self._plan, place), place

    def clashes_if(self, key: Key, start: int, station: StationId | None = None) -> Sequence[Clash]:
        """Return what would clash around all that moves."""
        return self.clashes_by(Wish(key, {key: start}, station))

    def clashes_by(self, wish: Wish) -> Sequence[Clash]:
        """Return what would clash around all that moves."""
        pushed, moved = self._moved(wish)
        steps = {step for step, _load in pushed}
        return self._checker.clashes(self._follower.nearby.around(moved, steps), steps)

    def _pusher_for(self, wish: Wish) -> Pusher:
        if not wish.lengths:
            return self._pusher
        if self._resized is None or self._resized[0] != wish.lengths:
            self._resized = wish.lengths, self._pusher.with_lengths(wish.lengths)
        return self._resized[1]

    def _moved(self, wish: Wish) -> tuple[Mapping[Key, int], Moved]:
        """Return the new starts, and all that stands otherwise; asked again about the same, as it was."""
        if self._answered is None or self._answered[0] != wish:
            pushed = self.pushed_by(wish)
            at = self._timetable.at
            placed = {key: self._put(at[key], start, wish) for key, start in pushed.items() if key in at}
            self._answered = wish, pushed, self._follower.drawn_along(placed)
        return self._answered[1], self._answered[2]

    def _put(self, placed: Placed, start: int, wish: Wish) -> Placed:
        own = placed.key == wish.key
        length = wish.lengths.get(placed.key)
        if length is not None and length != placed.length:
            placed = replace(placed, length=length, hands=hands_at_length(self._plan, placed, length))
        return _shifted(placed, start, wish.station if own else None, wish.cook if own else None)


def _about(plan: Plan, timetable: Timetable) -> Plan:
    """Return a plan with the dishes on a timetable alone, and the links among these."""
    known = dict.fromkeys(each.step for each in timetable.placed if each.step in plan.steps)
    dishes = {plan.dish_of[step].id: plan.dish_of[step] for step in known}
    steps = {step.id for dish in dishes.values() for step in dish.steps}
    links = (link for step in steps for link in plan.links_from[step] if link.after in steps)
    return replace(plan, menu=Menu(tuple(dishes.values()), tuple(links)))


def in_ways_placed(plan: Plan, timetable: Timetable) -> Plan:
    """Return the plan with each step's way chosen as it is placed, so that waits count from that way's spread."""
    ways = {each.step: each.way for each in timetable.placed if each.step in plan.steps}
    other = {step: way for step, way in ways.items() if way != ways_open(plan, plan.steps[step])[0]}
    if not other:
        return plan
    kept = tuple(choice for choice in plan.decisions.choices if choice.step not in other)
    chosen = tuple(Choice(step, way) for step, way in other.items())
    return replace(plan, decisions=replace(plan.decisions, choices=(*kept, *chosen)))


def moved(
    plan: Plan,
    timetable: Timetable,
    starts: Mapping[Key, int],
    key: Key | None = None,
    station: StationId | None = None,
) -> Timetable:
    """Return a timetable with loads at new starts, `key` on another station; what hangs on them follows."""
    at = timetable.at
    placed = {
        each: _shifted(at[each], start, station if each == key else None, None)
        for each, start in starts.items()
        if each in at
    }
    return Follower(plan, timetable).drawn_along(placed).onto(timetable)


def _shifted(placed: Placed, start: int, station: StationId | None, cook: CookId | None) -> Placed:
    by = start - placed.start
    hands = tuple(
        replace(hand, start=hand.start + by, cook=hand.cook if cook is None else cook) for hand in placed.hands
    )
    spots = placed.spots
    if station is not None and spots:
        spots = (Spot(station, spots[0].units, spots[0].shelf), *spots[1:])
    return replace(placed, start=start, hands=hands, spots=spots)
