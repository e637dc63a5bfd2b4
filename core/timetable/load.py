"""How much of everything is in use when, as step functions: units, shelves, hands, vessels, and their peaks.

Each curve is a tuple of Level(start, end, amount), in order, stretches of nothing left out. Clashing timetables
have curves too: they go above what there is.
"""

from __future__ import annotations

from core.plan.ids import CookId, StationId, VesselId
from core.plan.plan import Plan
from core.timetable.book import Thing
from core.timetable.book_kept import book_of
from core.timetable.clashes_vessel import vessel_holds
from core.timetable.fires import hand_minutes
from core.timetable.sweep import Held, Level, levels, peak
from core.timetable.timetable import Timetable, Washing

__all__ = ["Level", "area_curve", "hands_curve", "load_curve", "peak", "shelf_curves", "vessel_curve"]


def load_curve(plan: Plan, timetable: Timetable, station: StationId) -> tuple[Level, ...]:
    """Return the units of a station in use over time, by steps and by food that waits."""
    return levels(_held(thing, thing.spot.units) for thing in _things(plan, timetable, station))


def area_curve(plan: Plan, timetable: Timetable, station: StationId) -> tuple[Level, ...]:
    """Return the cm2 in use over time on all shelves of a station together."""
    return levels(_held(thing, thing.use.area) for thing in _things(plan, timetable, station))


def shelf_curves(plan: Plan, timetable: Timetable, station: StationId) -> tuple[tuple[Level, ...], ...]:
    """Return the cm2 in use over time on each shelf of a station, lowest first."""
    place = plan.kitchen.station.get(station)
    if place is None:
        return ()
    things = _things(plan, timetable, station)
    return tuple(
        levels(_held(thing, thing.use.area) for thing in things if thing.spot.shelf == index)
        for index in range(len(place.shelves))
    )


def hands_curve(plan: Plan, timetable: Timetable, cook: CookId | None = None) -> tuple[Level, ...]:
    """Return how many hands are at work over time; with `cook`, the things that one cook does at once."""
    found: list[Held[None]] = []
    for loads in book_of(plan, timetable).loads.values():
        for placed in loads:
            found += (
                Held(hand.start, hand.start + hand.minutes, 1, None)
                for hand in placed.hands
                if cook is None or hand.cook == cook
            )
    found += (
        Held(
            heating.start,
            heating.start + hand_minutes(plan.kitchen.station.get(heating.station), heating),
            1,
            None,
        )
        for heating in timetable.heatings
        if cook is None or heating.cook == cook
    )
    found += (
        Held(washing.start, washing.end, 1, None)
        for washing in timetable.washings
        if _by_hand(plan, washing) and (cook is None or washing.cook == cook)
    )
    return levels(found)


def _by_hand(plan: Plan, washing: Washing) -> bool:
    vessel = plan.kitchen.vessel.get(washing.vessel)
    return vessel is not None and vessel.by_hand


def vessel_curve(plan: Plan, timetable: Timetable, vessel: VesselId) -> tuple[Level, ...]:
    """Return how many of a vessel are in use, unwashed or being washed over time.

    What is never washed counts for as long as any of the kind is in use.
    """
    if vessel not in plan.kitchen.vessel:
        return ()
    return levels(vessel_holds(book_of(plan, timetable), vessel))


def _things(plan: Plan, timetable: Timetable, station: StationId) -> list[Thing]:
    return book_of(plan, timetable).things(station)


def _held(thing: Thing, amount: int) -> Held[None]:
    return Held(thing.start, thing.end, max(0, amount), None)
