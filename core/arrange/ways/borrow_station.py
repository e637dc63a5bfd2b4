"""Borrowing a station for the hours it is used; lighting another fire."""

from __future__ import annotations

from dataclasses import replace

from core.arrange.ways.case import Case
from core.arrange.ways.easing import Easing, Family
from core.arrange.ways.hours import window_of
from core.arrange.ways.way import Change, Unit, WayKind
from core.plan.edits import AddStation, AllowFires, ChangeStep, Edit, Together
from core.plan.ids import StationId, StepId, fresh
from core.plan.kitchen import COLD, Shelf, Station, StationKind
from core.plan.plan import Plan
from core.plan.step import Use
from core.timetable.timetable import Spot, Timetable

_NAMES = {
    StationKind.FRIDGE: "Cool box",
    StationKind.FREEZER: "Borrowed freezer",
    StationKind.COLD_COUNTER: "Cool box",
    StationKind.BURNER: "Camping stove",
    StationKind.HOT_BOX: "Insulated box",
}
_MOST_FIRES = 2


def borrow_stations(case: Case) -> Family:
    """Propose one more of each kind of station near the trouble; steps bound to a named one are set free for it."""
    found = [
        _borrow(case, kind)
        for kind in case.kinds()
        if kind is not StationKind.ROOM and case.plan.kitchen.of_kind(kind)
    ]
    return Family(WayKind.BORROW_STATION, tuple(found))


def _borrow(case: Case, kind: StationKind) -> Easing:
    station = _like(case, kind)
    free = [step for step in case.steps if case.rank[step] <= 1 and _bound(case, step, kind)]

    def joined(lent: Station, freed: list[StepId]) -> Edit:
        add = AddStation(lent)
        if not freed:
            return add
        return Together(f"Borrow {lent.name}", (add, *(_freed(case, step, kind) for step in freed)))

    def fitted(plan: Plan, _size: int, timetable: Timetable) -> Edit | None:
        hours = hours_of(timetable, station.id)
        if hours is None:
            return None
        there = {each.step for each in timetable.placed if _stands(each.spots, station.id)}
        lent = replace(station, hours=(window_of(plan, *hours),))
        return joined(lent, [step for step in free if step in there])

    def told(_size: int, timetable: Timetable) -> tuple[Change, ...]:
        begins, ends = hours_of(timetable, station.id) or (None, None)
        area = max((shelf.area for shelf in station.shelves), default=0)
        unit, amount = (Unit.AREA, area) if station.shelves else (Unit.UNITS, station.units)
        return (
            Change(unit, 0, amount, station=station.id, begins=begins, ends=ends, name=station.name),
        )

    return Easing(WayKind.BORROW_STATION, lambda _size: joined(station, free), told, fitted=fitted)


def _like(case: Case, kind: StationKind) -> Station:
    """Return a station like the kitchen's first of that kind; a cold one with a shelf for the largest thing."""
    kitchen = case.plan.kitchen
    like = kitchen.of_kind(kind)[0]
    name = _NAMES.get(kind, f"Borrowed {kind}")
    new = StationId(fresh(name, kitchen.station))
    shelves = like.shelves
    if kind in COLD:
        uses = [use for step in case.steps for use in (*case.uses(step), *_waits(case, step)) if use.kind is kind]
        area, height = max((u.area for u in uses), default=0), max((u.height for u in uses), default=0)
        shelves = (Shelf(max(1, area), max(1, height)),)
    return replace(like, id=new, name=name, shelves=shelves, hours=(), not_with=())


def _waits(case: Case, step: StepId) -> list[Use]:
    return [link.wait.use for link in case.plan.links_from[step] if link.wait.use is not None]


def _bound(case: Case, step: StepId, kind: StationKind) -> bool:
    return any(use.kind is kind and use.station is not None for use in case.step(step).uses)


def _freed(case: Case, step: StepId, kind: StationKind) -> Edit:
    uses = tuple(
        replace(use, station=None) if use.kind is kind else use for use in case.step(step).uses
    )
    return ChangeStep(step, replace(case.step(step), uses=uses))


def _stands(spots: tuple[Spot, ...], station: StationId) -> bool:
    return any(spot.station == station for spot in spots)


def hours_of(timetable: Timetable, station: StationId) -> tuple[int, int] | None:
    """Return from when to when a station is used, heated up included."""
    found = [(each.start, each.end) for each in timetable.placed if _stands(each.spots, station)]
    found += [(each.start, each.end) for each in timetable.stays if _stands(each.spots, station)]
    found += [(each.start, each.end) for each in timetable.heatings if each.station == station]
    return (min(start for start, _end in found), max(end for _start, end in found)) if found else None


def second_fires(case: Case) -> Family:
    """Propose one or two more fires wherever something near the trouble stands on one."""
    kinds = case.kinds()
    fires = [each for each in case.plan.kitchen.stations if each.is_fire and each.kind in kinds]
    return Family(WayKind.SECOND_FIRE, tuple(_fire(each) for each in fires), joint=True)


def _fire(station: Station) -> Easing:
    def told(size: int, timetable: Timetable) -> tuple[Change, ...]:
        by = light_by(station, timetable)
        return (
            Change(Unit.FIRES, station.fires, station.fires + size, station=station.id, begins=by),
        )

    return Easing(
        WayKind.SECOND_FIRE,
        lambda size: AllowFires(station.id, station.fires + size),
        told,
        _MOST_FIRES,
        1,
    )


def light_by(station: Station, timetable: Timetable) -> int | None:
    """Return the latest minute at which the last fire may be lit.

    It must be ready when the one before is spent or, if nothing cooks then, when it is next needed.
    """
    fires = sorted(each.end for each in timetable.heatings if each.station == station.id)
    if len(fires) < 2 or station.burns is None:
        return None
    spent = fires[-2] + station.burns
    used = [(each.start, each.end) for each in timetable.placed if _stands(each.spots, station.id)]
    used += [(each.start, each.end) for each in timetable.stays if _stands(each.spots, station.id)]
    after = [max(start, spent) for start, end in used if end > spent]
    return min(after) - station.lighting if after else None
