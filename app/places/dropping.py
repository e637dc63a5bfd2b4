"""What a drop on the timeline means: a pin, and what is seen at once, before any arranging."""

from __future__ import annotations

from dataclasses import replace

from core.plan.edits import Edit, PinStep
from core.plan.ids import StationId, StepId
from core.plan.network_push import Pusher
from core.plan.plan import Plan
from core.timetable.timetable import Placed, Spot, Timetable


def dropped(
    plan: Plan, seen: Timetable, step: StepId, load: int, start: int, station: object
) -> tuple[Edit, Timetable]:
    """Return the edit that pins a step and the timetable seen with it there and its dependents pushed along."""
    where = StationId(station) if isinstance(station, str) and station else None
    pin = PinStep(step, load, start, where)
    starts = {each.key: each.start for each in seen.placed}
    push = Pusher(plan, starts).pushed((step, load), start)
    new = {**starts, **push.moved, (step, load): start}
    placed = tuple(_moved(each, new[each.key], where if each.key == (step, load) else None) for each in seen.placed)
    return pin, with_stays(plan, replace(seen, placed=placed))


def _moved(placed: Placed, start: int, station: StationId | None) -> Placed:
    """Return it at another start, with its hands, on another station of the same kind if one is given."""
    by = start - placed.start
    hands = tuple(replace(hand, start=hand.start + by) for hand in placed.hands)
    spots = placed.spots
    if station is not None and spots and station not in {spot.station for spot in spots}:
        spots = (Spot(station, spots[0].units, spots[0].shelf), *spots[1:])
    return replace(placed, start=start, hands=hands, spots=spots)


def with_stays(plan: Plan, timetable: Timetable) -> Timetable:
    """Return the timetable with its stays and heatings drawn from where the steps are now."""
    at = timetable.at
    stays = []
    for stay in timetable.stays:
        before = at.get((stay.before, stay.load))
        after = timetable.loads_of.get(stay.after, ()) if stay.after is not None else ()
        if before is None:
            continue
        end = stay.end if stay.after is None or not after else after[min(stay.load, len(after) - 1)].start
        if stay.after is not None and after and len(timetable.loads_of[stay.before]) != len(after):
            end = after[-1].start
        if end > before.end:
            stays.append(replace(stay, start=before.end, end=end))
    heatings = []
    for heating in timetable.heatings:
        first = min(
            (
                each.start
                for each in timetable.placed
                if each.setting is not None
                and any(spot.station == heating.station for spot in each.spots)
                and abs(each.start - heating.end) < 12 * 60
                and each.end > heating.end
            ),
            default=heating.end,
        )
        by = first - heating.end
        heatings.append(replace(heating, start=heating.start + by, end=first))
    return replace(timetable, stays=tuple(stays), heatings=tuple(heatings))
