"""Do the spots of a thing answer to the places it needs? Spots follow the order of the uses."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum, auto

from core.plan.kitchen import Station, StationKind
from core.plan.step import Use
from core.timetable.facts import Facts
from core.timetable.timetable import Spot


class Misfit(Enum):
    """What can be wrong with a spot."""

    NO_PLACE = auto()
    NOT_NEEDED = auto()
    UNKNOWN_STATION = auto()
    OTHER_STATION = auto()
    UNITS = auto()
    NO_SHELF = auto()
    TOO_HIGH = auto()
    RAW_ABOVE = auto()


@dataclass(frozen=True, slots=True)
class Fault:
    """A use without its spot, a spot without a use, or one that does not suit; `by` in units or cm."""

    misfit: Misfit
    use: Use | None
    spot: Spot | None
    by: int = 0
    taken: int = 0


@dataclass(frozen=True, slots=True)
class Fit:
    """Which use stands on which spot (on known stations only), and what is wrong."""

    pairs: tuple[tuple[Use, Spot], ...]
    faults: tuple[Fault, ...]


def fit(facts: Facts, uses: tuple[Use, ...], spots: tuple[Spot, ...]) -> Fit:
    """Return how spots answer to uses."""
    if len(uses) == len(spots) == 1 and _plain(facts, uses[0], spots[0]):
        return Fit(((uses[0], spots[0]),), ())
    needing = [use for use in uses if facts.needs_spot(use)]
    left = list(spots)
    pairs: list[tuple[Use, Spot]] = []
    faults: list[Fault] = []
    for index, use in enumerate(needing):
        short = len(left) < len(needing) - index
        if not left or (short and not _suits(facts, use, left[0])):
            faults.append(Fault(Misfit.NO_PLACE, use, None, by=use.units))
            continue
        taken = _take(facts, use, left)
        faults += _faults(facts, use, taken)
        pairs += ((use, spot) for spot in taken if spot.station in facts.plan.kitchen.station)
    faults += (Fault(Misfit.NOT_NEEDED, None, spot) for spot in left)
    return Fit(tuple(pairs), tuple(faults))


def _plain(facts: Facts, use: Use, spot: Spot) -> bool:
    """Return whether a use stands on its spot and nothing more needs to be asked, as most do."""
    station = facts.plan.kitchen.station.get(spot.station)
    if station is None or station.kind is not use.kind or use.station not in {None, station.id}:
        return False
    return not station.shelves and use.units == spot.units


def _take(facts: Facts, use: Use, left: list[Spot]) -> list[Spot]:
    taken = [left.pop(0)]
    if not facts.one_place(use):
        while left and sum(spot.units for spot in taken) < use.units and _suits(facts, use, left[0]):
            taken.append(left.pop(0))
    return taken


def _suits(facts: Facts, use: Use, spot: Spot) -> bool:
    station = facts.plan.kitchen.station.get(spot.station)
    return station is not None and station.kind is use.kind and use.station in {None, station.id}


def _faults(facts: Facts, use: Use, taken: list[Spot]) -> list[Fault]:
    found: list[Fault] = []
    counted = True
    for spot in taken:
        station = facts.plan.kitchen.station.get(spot.station)
        if station is None:
            found.append(Fault(Misfit.UNKNOWN_STATION, use, spot))
        elif not _suits(facts, use, spot):
            found.append(Fault(Misfit.OTHER_STATION, use, spot))
        elif station.shelves:
            counted = False
            found += _shelf_faults(station, use, spot)
        elif station.kind is StationKind.ROOM and station.units <= 0:
            counted = False  # as much as one likes
    units = sum(spot.units for spot in taken)
    if not found and counted and units != use.units:
        found.append(Fault(Misfit.UNITS, use, taken[0], by=abs(units - use.units), taken=units))
    return found


def _shelf_faults(station: Station, use: Use, spot: Spot) -> list[Fault]:
    if spot.shelf is None and use.area == 0 and not use.raw:
        return []
    if spot.shelf is None or not 0 <= spot.shelf < len(station.shelves):
        return [Fault(Misfit.NO_SHELF, use, spot)]
    found = []
    over = use.height - station.shelves[spot.shelf].height
    if over > 0:
        found.append(Fault(Misfit.TOO_HIGH, use, spot, by=over))
    if use.raw and spot.shelf > 0:
        found.append(Fault(Misfit.RAW_ABOVE, use, spot, by=spot.shelf))
    return found
