"""Places as a cook says them on paper."""

from __future__ import annotations

from core.measures.words import plural
from core.plan.check_words import unit_word
from core.plan.kitchen import Station, StationKind, Vessel
from core.plan.plan import Plan
from core.plan.step import Holding, Wait
from core.sheets.dial import with_dial
from core.sheets.words import shortened
from core.timetable.timetable import Placed, Spot, Stay

NAME = 40
"""Most characters of a station's, vessel's or cook's name on a line."""

_ON = frozenset({StationKind.BURNER, StationKind.GRILL})
_AT = frozenset({StationKind.ROOM, StationKind.MACHINE})
_KEPT = {
    Holding.COUNTER: "on the counter",
    Holding.FRIDGE: "in the fridge",
    Holding.FREEZER: "in the freezer",
    Holding.HOT: "held hot",
    Holding.VESSEL: "in its vessel",
}


def place_of(plan: Plan, placed: Placed) -> str:
    """Return where a load stands: "Oven, 160 °C, 2 racks", "Fridge, lowest shelf", "Burner 1 + Burner 2"."""
    return _places(plan, placed.spots, placed.setting)


def place_of_stay(plan: Plan, stay: Stay) -> str:
    """Return where food waits, "" where that place is not told."""
    return _places(plan, stay.spots, stay.setting)


def kinds_of(plan: Plan, placed: Placed) -> set[StationKind]:
    """Return the kinds of station at which a load stands."""
    stations = (plan.kitchen.station.get(spot.station) for spot in placed.spots)
    return {station.kind for station in stations if station is not None}


def waits_at(plan: Plan, wait: Wait, stay: Stay | None) -> str:
    """Return how food waits: "in Fridge, lowest shelf", "held hot in Vacuum flask", "on the counter"."""
    place = "" if stay is None else place_of_stay(plan, stay)
    if stay is None or not place:
        return _KEPT[wait.how]
    station = next(plan.kitchen.station[each.station] for each in stay.spots if each.station in plan.kitchen.station)
    hot = "held hot " if wait.how is Holding.HOT else ""
    return f"{hot}{_before(station)} {place}"


def station_name(station: Station) -> str:
    """Return a station's name, its id where it has none."""
    return shortened(station.name, NAME) or station.id


def vessel_words(vessel: Vessel, count: int) -> str:
    """Return vessels as they are fetched: "Saucepan, 3 l", "2 × Tin, 40x30 cm"."""
    many = f"{count}\N{NO-BREAK SPACE}× " if count > 1 else ""
    name = shortened(vessel.name, NAME) or vessel.id
    return many + ", ".join(filter(None, (name, shortened(vessel.size, NAME))))


def _before(station: Station) -> str:
    return "on" if station.kind in _ON else "at" if station.kind in _AT else "in"


def _places(plan: Plan, spots: tuple[Spot, ...], setting: int | None) -> str:
    found: dict[str, list[str]] = {}
    for spot in spots:
        station = plan.kitchen.station.get(spot.station)
        if station is None:
            continue
        about = found.setdefault(station_name(station), [])
        for each in _about(station, spot, setting):
            if each not in about:
                about.append(each)
    return " + ".join(", ".join((name, *about)) for name, about in found.items())


def _about(station: Station, spot: Spot, setting: int | None) -> list[str]:
    """Return what is to be known of a spot: the setting, the shelf, how many racks or places."""
    found = []
    if setting is not None and station.heater is not None:
        found.append(with_dial(station, setting))
    if spot.shelf is not None:
        if len(station.shelves) > 1:
            found.append(shelf_name(station, spot.shelf))
    elif spot.units > 1 and station.kind not in _AT:
        found.append(plural(spot.units, unit_word(station.kind)))
    return found


def shelf_name(station: Station, index: int) -> str:
    """Return "lowest shelf", "shelf 3 from below", or a shelf's own name."""
    name = shortened(station.shelves[index].name, NAME) if 0 <= index < len(station.shelves) else ""
    if name:
        return name if " " in name or "shelf" in name.casefold() else f"{name} shelf"
    return "lowest shelf" if index == 0 else f"shelf {index + 1} from below"
