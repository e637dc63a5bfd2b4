"""Which stations a step's vessels leave it: a vessel stands only on or in what it fits.

A vessel fits the stations that it lists; one that lists none fits by its size wherever a station's measures inside
are told too, either way round, and anywhere else. Room temperature and machines bear any vessel. A step with
several places and several vessels (a pan on the ring, a tray in the warm drawer) asks of each vessel only that it
stand in those of its places that it fits at all; it must fit in one.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from core.plan.ids import StationId
from core.plan.kitchen import Kitchen, Station, StationKind, Vessel
from core.plan.outline import goes_in, outline
from core.plan.step import Step, Use

ANY_VESSEL = frozenset({StationKind.ROOM, StationKind.MACHINE})
"""Kinds of places that bear any vessel."""


class Barred(NamedTuple):
    """Stations that one share of a step cannot have, and the first of its vessels that fits none of the kind."""

    stations: frozenset[StationId]
    too_large: Vessel | None = None


def fits(vessel: Vessel, station: Station) -> bool:
    """Tell whether a vessel goes on or into a station."""
    if station.kind in ANY_VESSEL:
        return True
    if vessel.fits:
        return station.id in vessel.fits
    if station.wide <= 0 or station.deep <= 0:
        return True
    sides = outline(vessel.size)
    return sides is None or goes_in(sides, station.wide, station.deep)


def barred(kitchen: Kitchen, step: Step, uses: Sequence[Use]) -> tuple[Barred, ...]:
    """Return for each share of stations of a way of a step what its vessels keep it from."""
    vessels = [each for use in step.vessels for each in kitchen.vessels if each.id == use.vessel]
    vessels = [each for each in vessels if each.fits or outline(each.size) is not None]
    if not vessels:
        return (Barred(frozenset()),) * len(uses)
    there = [[each for each in kitchen.of_kind(use.kind) if use.station in (None, each.id)] for use in uses]
    left_out: list[set[StationId]] = [set() for _use in uses]
    too_large: list[Vessel | None] = [None for _use in uses]
    for vessel in vessels:
        left = [[each for each in stations if fits(vessel, each)] for stations in there]
        somewhere = any(left)
        for number, stations in enumerate(there):
            if len(left[number]) == len(stations) or (somewhere and not left[number]):
                continue
            left_out[number] |= {each.id for each in stations if each not in left[number]}
            if not left[number] and too_large[number] is None:
                too_large[number] = vessel
    return tuple(Barred(frozenset(out), large) for out, large in zip(left_out, too_large, strict=True))


def without(stations: Sequence[Station], out: Barred) -> tuple[Station, ...]:
    """Return those of some stations that are not barred."""
    return tuple(each for each in stations if each.id not in out.stations)
