"""The temperature of a heated station as the timeline draws it: a line through time, and the plateaus on it."""

from __future__ import annotations

from dataclasses import dataclass

from core.plan.kitchen import Heater, Station
from core.plan.plan import Plan
from core.timetable.timetable import Timetable


@dataclass(frozen=True, slots=True)
class Plateau:
    """A stretch at one setting in °C."""

    start: int
    end: int
    setting: int


@dataclass(frozen=True, slots=True)
class Curve:
    """Points (minute, °C) joined by straight lines, and the plateaus among them."""

    points: tuple[tuple[float, float], ...] = ()
    plateaus: tuple[Plateau, ...] = ()
    cold: int = 20
    hottest: int = 250

    def share(self, celsius: float) -> float:
        """Return how high a temperature stands between cold (0) and the station's highest setting (1)."""
        return max(0.0, min(1.0, (celsius - self.cold) / max(1, self.hottest - self.cold)))


def curve_of(plan: Plan, timetable: Timetable, station: Station) -> Curve | None:
    """Return the curve of a heated station, or None where it has no heater."""
    heater = station.heater
    if heater is None:
        return None
    plateaus = _plateaus(timetable, station, heater)
    starts = {each.end: each.start for each in timetable.heatings if each.station == station.id}
    points: list[tuple[float, float]] = []
    for at, plateau in enumerate(plateaus):
        before = plateaus[at - 1] if at else None
        if before is not None and plateau.start - before.end <= heater.keep_on:
            rate = heater.up if plateau.setting > before.setting else heater.down
            needed = abs(plateau.setting - before.setting) / max(rate, 0.1)
            points += [(max(before.end, plateau.start - needed), before.setting)]
        else:
            if before is not None:
                cooled = before.end + (before.setting - heater.cold) / max(heater.down, 0.1)
                points += [(before.end, before.setting), (cooled, heater.cold)]
            lit = starts.get(plateau.start, plateau.start)
            points += [(lit, heater.cold)]
        points += [(plateau.start, plateau.setting), (plateau.end, plateau.setting)]
    if plateaus:
        last = plateaus[-1]
        points += [(last.end + (last.setting - heater.cold) / max(heater.down, 0.1), heater.cold)]
    return Curve(tuple(points), tuple(plateaus), heater.cold, heater.highest)


def _plateaus(timetable: Timetable, station: Station, heater: Heater) -> list[Plateau]:
    things = [(each.start, each.end, each.setting, each.spots) for each in timetable.placed]
    things += [(each.start, each.end, each.setting, each.spots) for each in timetable.stays]
    inside = sorted(
        (start, end, setting)
        for start, end, setting, spots in things
        if setting is not None and any(spot.station == station.id for spot in spots)
    )
    found: list[Plateau] = []
    for start, end, setting in inside:
        last = found[-1] if found else None
        if last is not None and last.setting == setting and start - last.end <= heater.keep_on:
            found[-1] = Plateau(last.start, max(last.end, end), setting)
        else:
            found.append(Plateau(start, end, setting))
    return found
