"""What the timeline asks while a step is dragged, and the answers of the core: legal stretch, pushes, clashes."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from functools import cached_property
from typing import Protocol

from app.timeline.bars import Key
from app.timeline.following import drawn_along
from core.plan.decisions import Choice
from core.plan.ids import StationId
from core.plan.meaning import ways_open
from core.plan.network_push import Pusher
from core.plan.plan import Plan
from core.timetable.clash import Clash
from core.timetable.clashes import Checker
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


class Thinking:
    """The core's answers. Made for one plan and timetable; asking is cheap, making it is not."""

    def __init__(self, plan: Plan, timetable: Timetable) -> None:
        self._plan = plan
        self._timetable = timetable
        self._checker = Checker(plan)

    @cached_property
    def _pusher(self) -> Pusher:
        placed = self._timetable.placed
        starts = {each.key: each.start for each in placed}
        plan = in_ways_placed(self._plan, self._timetable)
        return Pusher(plan, starts, lengths={each.key: each.length for each in placed})

    def legal_stretch(self, key: Key) -> tuple[int, int] | None:
        """Return first and last start at which the load breaks no link; None: nowhere."""
        return self._pusher.legal_stretch(key)

    def pushed(self, key: Key, start: int) -> Mapping[Key, int]:
        """Return the new starts of all loads that move when one starts there."""
        return self._pusher.pushed(key, start).moved

    def timetable_if(self, key: Key, start: int, station: StationId | None = None) -> Timetable:
        """Return the timetable as it would be, its waits, heatings, fires and washings drawn along."""
        return moved(self._plan, self._timetable, {**self.pushed(key, start), key: start}, key, station)

    def clashes_if(self, key: Key, start: int, station: StationId | None = None) -> Sequence[Clash]:
        """Return what would clash around all that moves."""
        pushed = self.pushed(key, start)
        after = moved(self._plan, self._timetable, {**pushed, key: start}, key, station)
        return self._checker.clashes(after, {step for step, _load in pushed} | {key[0]})


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
    """Return a timetable with loads at new starts, `key` on another station; all else follows them."""
    placed = tuple(
        _shifted(each, starts[each.key], station if each.key == key else None) if each.key in starts else each
        for each in timetable.placed
    )
    return drawn_along(plan, timetable, placed)


def _shifted(placed: Placed, start: int, station: StationId | None) -> Placed:
    by = start - placed.start
    hands = tuple(replace(hand, start=hand.start + by) for hand in placed.hands)
    spots = placed.spots
    if station is not None and spots:
        spots = (Spot(station, spots[0].units, spots[0].shelf), *spots[1:])
    return replace(placed, start=start, hands=hands, spots=spots)
