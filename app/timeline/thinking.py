"""What the timeline asks while a step is dragged, and the answers of the core: legal stretch, pushes, clashes."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from functools import cached_property
from typing import Protocol

from app.timeline.bars import Key
from core.plan.ids import StationId
from core.plan.kitchen import HEATED
from core.plan.network_push import Pusher
from core.plan.plan import Plan
from core.timetable.clash import Clash
from core.timetable.clashes import Checker
from core.timetable.timetable import Heating, Placed, Spot, Stay, Timetable
from core.timetable.warming import heat_up_minutes


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
        return Pusher(self._plan, starts, lengths={each.key: each.length for each in placed})

    def legal_stretch(self, key: Key) -> tuple[int, int] | None:
        """Return first and last start at which the load breaks no link; None: nowhere."""
        return self._pusher.legal_stretch(key)

    def pushed(self, key: Key, start: int) -> Mapping[Key, int]:
        """Return the new starts of all loads that move when one starts there."""
        return self._pusher.pushed(key, start).moved

    def timetable_if(self, key: Key, start: int, station: StationId | None = None) -> Timetable:
        """Return the timetable as it would be, its waits and heatings drawn along."""
        return moved(self._plan, self._timetable, {**self.pushed(key, start), key: start}, key, station)

    def clashes_if(self, key: Key, start: int, station: StationId | None = None) -> Sequence[Clash]:
        """Return what would clash around all that moves."""
        pushed = self.pushed(key, start)
        after = moved(self._plan, self._timetable, {**pushed, key: start}, key, station)
        return self._checker.clashes(after, {step for step, _load in pushed} | {key[0]})


def moved(
    plan: Plan,
    timetable: Timetable,
    starts: Mapping[Key, int],
    key: Key | None = None,
    station: StationId | None = None,
) -> Timetable:
    """Return a timetable with loads at new starts, `key` on another station; waits and heatings follow."""
    placed = tuple(
        _shifted(each, starts[each.key], station if each.key == key else None) if each.key in starts else each
        for each in timetable.placed
    )
    after = Timetable(placed)
    stays = tuple(stay for each in timetable.stays if (stay := _stay(after, each)) is not None)
    return Timetable(placed, stays, _heatings(plan, timetable, placed))


def _shifted(placed: Placed, start: int, station: StationId | None) -> Placed:
    by = start - placed.start
    hands = tuple(replace(hand, start=hand.start + by) for hand in placed.hands)
    spots = placed.spots
    if station is not None and spots:
        spots = (Spot(station, spots[0].units, spots[0].shelf), *spots[1:])
    return replace(placed, start=start, hands=hands, spots=spots)


def _stay(after: Timetable, stay: Stay) -> Stay | None:
    before = after.at.get((stay.before, stay.load))
    start = stay.start if before is None else before.end
    end = stay.end
    loads = after.loads_of.get(stay.after, ()) if stay.after is not None else ()
    if loads:
        pairs = len(loads) > 1 and len(loads) == len(after.loads_of.get(stay.before, ()))
        end = loads[min(stay.load, len(loads) - 1)].start if pairs else loads[-1].start
    return replace(stay, start=start, end=end) if end > start else None


def _heatings(plan: Plan, timetable: Timetable, placed: tuple[Placed, ...]) -> tuple[Heating, ...]:
    """Return the heatings, each before the first bake of its session as it now stands."""
    found: list[Heating] = []
    for station in plan.kitchen.stations:
        own = [each for each in timetable.heatings if each.station == station.id]
        if station.heater is None or station.kind not in HEATED or not station.heater.from_cold:
            found += own
            continue
        out: int | None = None
        bakes = sorted(
            (each.start, each.end, each.setting)
            for each in placed
            if each.setting is not None and any(spot.station == station.id for spot in each.spots)
        )
        for start, end, setting in bakes:
            if out is None or start > out + station.heater.keep_on:
                begins = start - heat_up_minutes(station.heater, setting)
                nearest = min(own, key=lambda each: abs(each.end - start), default=None)
                found.append(Heating(station.id, begins, start, setting, None if nearest is None else nearest.cook))
            out = end if out is None else max(out, end)
    return tuple(found)
