"""What might carry food that waits too long: another way of the step, a free hot place, warming it again.

Offers name places and minutes; whether a food bears them is for the cook to say.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum

from core.arrange.chances_limits import Limit, LimitKind
from core.plan.ids import StationId
from core.plan.kitchen import StationKind
from core.plan.meaning import keep_of, reserved
from core.plan.plan import Plan
from core.plan.step import Holding
from core.timetable.timetable import Placed, Spot, Timetable

WARMING = 15
"""Minutes of warming again before serving (common practice for a covered dish at 160 °C)."""
_HOT = (StationKind.HOT_BOX, StationKind.WARM_DRAWER)
_WARMS = (StationKind.OVEN, StationKind.BURNER)
_COLD = (Holding.FRIDGE, Holding.FREEZER)


class OfferKind(StrEnum):
    """What may be done about food that waits too long."""

    WAY = "another way of the step"
    HOT_PLACE = "a free hot place"
    WARM_AGAIN = "warm it again"


@dataclass(frozen=True, slots=True)
class Offer:
    """WAY: the step's alternative `way`, good until `until`; `enough`: that is long enough.

    HOT_PLACE: `station` has a place free all the while. WARM_AGAIN: it has one free for the last minutes before
    the food is needed, from `start`. How long food keeps there the plan does not say, so `enough` is False.
    """

    kind: OfferKind
    station: StationId | None
    start: int
    until: int
    way: int = 0
    enough: bool = False


def offers(
    plan: Plan, timetable: Timetable, limit: Limit, placed: Placed | None, when: tuple[int, int]
) -> tuple[Offer, ...]:
    """Return what might carry food over a limit; `when`: from when to when it must be carried (offsets)."""
    if placed is None or limit.kind not in {LimitKind.WAIT, LimitKind.KEEP} or _is_cold(plan, limit):
        return ()
    return (
        *_ways(plan, timetable, limit, placed, when),
        *_hot_places(plan, timetable, when),
        *_warming(plan, timetable, when),
    )


def _is_cold(plan: Plan, limit: Limit) -> bool:
    if limit.kind is LimitKind.KEEP:
        keep = keep_of(plan, plan.steps[limit.step])
        return keep is not None and keep.wait.how in _COLD
    links = plan.links_from[limit.step]
    return any(link.after == limit.then and link.wait.how in _COLD for link in links)


def _ways(
    plan: Plan, timetable: Timetable, limit: Limit, placed: Placed, when: tuple[int, int]
) -> Iterator[Offer]:
    """Give the alternatives in a hot place, which keep the food for longer than the way that it is done."""
    step = plan.steps[placed.step]
    for way, other in enumerate(step.alternatives, 1):
        stations = [use.station for use in other.uses if use.kind in _HOT]
        if way == placed.way or not stations:
            continue
        more = reserved(plan, step.id, way).length - placed.length
        until = placed.end + more + limit.most
        fitting = [
            each.id
            for each in plan.kitchen.stations
            if each.kind in _HOT and stations[0] in {None, each.id} and _free(plan, timetable, each.id, when)
        ]
        if more > 0 and fitting:
            yield Offer(OfferKind.WAY, fitting[0], when[0], until, way, enough=until >= when[1])


def _hot_places(plan: Plan, timetable: Timetable, when: tuple[int, int]) -> Iterator[Offer]:
    for station in plan.kitchen.stations:
        if station.kind in _HOT and _free(plan, timetable, station.id, when):
            yield Offer(OfferKind.HOT_PLACE, station.id, *when)


def _warming(plan: Plan, timetable: Timetable, when: tuple[int, int]) -> Iterator[Offer]:
    """Give an oven and a burner that are free just before the food is needed: the first of each kind."""
    last = (max(when[0], when[1] - WARMING), when[1])
    for kind in _WARMS:
        free = [each.id for each in plan.kitchen.of_kind(kind) if _free(plan, timetable, each.id, last)]
        if free and last[0] < last[1]:
            yield Offer(OfferKind.WARM_AGAIN, free[0], *last)


def _free(plan: Plan, timetable: Timetable, station: StationId, when: tuple[int, int]) -> bool:
    """Return whether a unit of a station is free all the while, or none is counted there."""
    units = plan.kitchen.station[station].units
    if units <= 0:
        return True
    stood: list[tuple[int, int, tuple[Spot, ...]]] = [
        *((each.start, each.end, each.spots) for each in timetable.placed),
        *((each.start, each.end, each.spots) for each in timetable.stays),
    ]
    there = [
        (start, end, max(1, spot.units))
        for start, end, spots in stood
        for spot in spots
        if spot.station == station and start < when[1] and end > when[0]
    ]
    moments = [when[0], *(start for start, _end, _units in there if start > when[0])]
    most = max(sum(count for start, end, count in there if start <= at < end) for at in moments)
    return most < units
