"""To which other stations and cooks the step of a bar may go where it stands, in any reading."""

from __future__ import annotations

from dataclasses import replace

from app.timeline.bars import Bar, BarKind, Lane, LaneKind
from app.timeline.drag import named_for, takes
from app.timeline.scene import Scene
from core.plan.kitchen import Station


def own_station(scene: Scene, bar: Bar) -> Station | None:
    """Return the station at which a bar's step is done; None where it has none or more than one."""
    placed = scene.timetable.at.get(bar.key) if bar.key is not None else None
    places = {spot.station for spot in placed.spots} if placed is not None else set()
    if len(places) != 1 or bar.kind is BarKind.STAY:
        return None
    return scene.plan.kitchen.station.get(places.pop())


def other_stations(scene: Scene, bar: Bar) -> list[Station]:
    """Return the other stations of the kind that have room for a bar's step, in the kitchen's order."""
    own, key = own_station(scene, bar), bar.key
    if own is None or key is None:
        return []
    units = max((spot.units for spot in scene.timetable.at[key].spots), default=1)
    wide, named = replace(bar, rows=units), named_for(scene, bar)
    stations = scene.plan.kitchen.stations
    return [each for each in stations if each is not own and takes(_lane(own), _lane(each), wide, named)]


def beside(scene: Scene, bar: Bar, by: int) -> Station | None:
    """Return the next station down (`by` 1) or up (-1) in the order of the lanes, to which a bar's step may go."""
    own = own_station(scene, bar)
    if own is None:
        return None
    shown = [lane.station.id for lane in scene.lanes if lane.station is not None]
    order = {station.id: at for at, station in enumerate(scene.plan.kitchen.stations)}
    if own.id in shown:
        order = {**{key: len(shown) + at for key, at in order.items()}, **{key: at for at, key in enumerate(shown)}}
    others = [each for each in other_stations(scene, bar) if (order[each.id] - order[own.id]) * by > 0]
    return min(others, key=lambda each: abs(order[each.id] - order[own.id]), default=None)


def _lane(station: Station) -> Lane:
    return Lane(f"station:{station.id}", LaneKind.STATION, station.name, station=station)
