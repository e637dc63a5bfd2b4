"""A timetable read against its plan: what can be used of it, what waits, what stands on each station."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum, auto
from functools import cached_property

from core.plan.ids import StationId, StepId, VesselId
from core.plan.kitchen import HEATED
from core.plan.menu import Link, LinkKind
from core.plan.step import Use
from core.timetable.facts import FAR, Facts
from core.timetable.fitting import Fit, fit
from core.timetable.fullness import Full, full_stretches
from core.timetable.timetable import Heating, Placed, Spot, Stay, Timetable, Washing


class Oddity(Enum):
    """Why something on a timetable cannot be used."""

    NOT_IN_MENU = auto()
    NO_SUCH_LOAD = auto()
    TWICE = auto()
    FAR_OFF = auto()
    NOT_NEEDED = auto()
    DROPPED = auto()


@dataclass(frozen=True, slots=True)
class Waiting:
    """Food that must stand somewhere from its step's end until `after` starts (None: until it is served)."""

    before: StepId
    after: StepId | None
    load: int
    start: int
    end: int
    use: Use
    stay: Stay | None

    @property
    def steps(self) -> tuple[StepId, ...]:
        """Return the steps on both sides of the wait."""
        return (self.before,) if self.after is None else (self.before, self.after)


@dataclass(frozen=True, slots=True)
class Thing:
    """Something on one spot during [start, end): a load of a step, or food that waits after it."""

    step: StepId
    load: int
    start: int
    end: int
    use: Use
    spot: Spot
    setting: int | None
    waiting: Waiting | None = None

    @property
    def steps(self) -> tuple[StepId, ...]:
        """Return the steps whose moving moves this thing."""
        return (self.step,) if self.waiting is None else self.waiting.steps


class Book:
    """What a timetable says about its plan's steps. Those unknown, doubled or years away are set apart."""

    def __init__(self, facts: Facts, timetable: Timetable) -> None:
        self.facts = facts
        self.timetable = timetable
        self.loads: dict[StepId, list[Placed]] = {}
        self.odd: list[tuple[Placed, Oddity]] = []
        self._fits: dict[tuple[StepId, int], Fit] = {}
        self._stay_fits: dict[tuple[StepId, StepId | None, int], Fit] = {}
        self._at: dict[StationId, list[Placed]] = {}
        self._things: dict[StationId, list[Thing]] = {}
        self._full: dict[StationId, tuple[Full, ...]] = {}
        known, at = self.loads, self._at
        for placed in timetable.placed:
            oddity = self._oddity(placed)
            if oddity is not None:
                self.odd.append((placed, oddity))
                continue
            loads = known.get(placed.step)
            if loads is None:
                known[placed.step] = [placed]
            else:
                loads.append(placed)
                loads.sort(key=_load)
            if placed.length > 0:
                for station in _stations(placed.spots):
                    at.setdefault(station, []).append(placed)

    def _oddity(self, placed: Placed) -> Oddity | None:
        if self.facts.dropped and placed.key in self.facts.dropped:
            return Oddity.DROPPED
        most = self.facts.load_counts.get(placed.step)
        if most is None:
            return Oddity.NOT_IN_MENU
        if not 0 <= placed.load < most:
            return Oddity.NO_SUCH_LOAD
        there = self.loads.get(placed.step)
        if there is not None and any(each.load == placed.load for each in there):
            return Oddity.TWICE
        start = placed.start
        return Oddity.FAR_OFF if not (-FAR <= start <= FAR and -FAR <= start + placed.length <= FAR) else None

    def fit(self, placed: Placed) -> Fit:
        """Return how a placed load's spots answer to its uses."""
        found = self._fits.get(placed.key)
        if found is None:
            uses = self.facts.need(placed.step, placed.way).uses
            found = self._fits[placed.key] = fit(self.facts, uses, placed.spots)
        return found

    def fit_stay(self, waiting: Waiting, stay: Stay) -> Fit:
        """Return how the spots of the stay that answers a wait suit what it takes."""
        key = (waiting.before, waiting.after, waiting.load)
        found = self._stay_fits.get(key)
        if found is None:
            found = self._stay_fits[key] = fit(self.facts, (waiting.use,), stay.spots)
        return found

    def pairs(self, link: Link) -> list[tuple[int, list[Placed], list[Placed]]]:
        """Return (load, loads before, loads after) for each bond of a link whose sides are placed."""
        before, after = self.loads.get(link.before, []), self.loads.get(link.after, [])
        if not self.facts.paired(link):
            return [(0, before, after)] if before and after else []
        others = {placed.load: placed for placed in after}
        return [(each.load, [each], [others[each.load]]) for each in before if each.load in others]

    @cached_property
    def _stays(self) -> dict[tuple[StepId, StepId | None, int], Stay]:
        found: dict[tuple[StepId, StepId | None, int], Stay] = {}
        for stay in self.timetable.stays:
            if stay.kind is LinkKind.END_TO_START:
                found.setdefault((stay.before, stay.after, stay.load), stay)
        return found

    @cached_property
    def waits(self) -> tuple[Waiting, ...]:
        """Return all waits in scarce places, those of no length too, with the stay that answers each."""
        found: list[Waiting] = []
        for link, use in self.facts.waiting_links:
            for load, before, after in self.pairs(link):
                key, times = (link.before, link.after, load), (before[0].end, after[-1].start)
                found.append(Waiting(*key, *times, use, self._stays.get(key)))
        for step, use in self.facts.kept_steps:
            if step in self.loads:
                course = self.facts.plan.dish_of[step].course
                stay = self._stays.get((step, None, 0))
                found.append(Waiting(step, None, 0, self.loads[step][0].end, course, use, stay))
        return tuple(found)

    @cached_property
    def odd_stays(self) -> tuple[tuple[Stay, Oddity], ...]:
        """Return the stays that answer to no wait, or to one that has a stay already."""
        used = {id(waiting.stay) for waiting in self.waits if waiting.stay is not None}
        asked = {(waiting.before, waiting.after, waiting.load) for waiting in self.waits}
        found = []
        for stay in self.timetable.stays:
            if id(stay) in used:
                used.remove(id(stay))  # a second time the same stay is one too many
                continue
            same = stay.kind is LinkKind.END_TO_START and (stay.before, stay.after, stay.load) in asked
            found.append((stay, Oddity.TWICE if same else Oddity.NOT_NEEDED))
        return tuple(found)

    @cached_property
    def _waits_at(self) -> dict[StationId, list[tuple[Waiting, Stay]]]:
        found: dict[StationId, list[tuple[Waiting, Stay]]] = {}
        for waiting in self.waits:
            if waiting.stay is not None and waiting.end > waiting.start:
                for station in _stations(waiting.stay.spots):
                    found.setdefault(station, []).append((waiting, waiting.stay))
        return found

    @cached_property
    def heatings(self) -> tuple[Heating, ...]:
        """Return the heatings of the kitchen's stations, those years away left out."""
        return tuple(heating for heating in self.timetable.heatings if self.heats_somewhere(heating))

    @cached_property
    def heatings_at(self) -> dict[StationId, list[Heating]]:
        """The heatings of each station, in order of time."""
        found: dict[StationId, list[Heating]] = {}
        for heating in sorted(self.heatings, key=_when):
            found.setdefault(heating.station, []).append(heating)
        return found

    @cached_property
    def washings(self) -> dict[tuple[VesselId, StepId], Washing]:
        """Washings by vessel and the first step of their run: of several the first, those years away left out."""
        found: dict[tuple[VesselId, StepId], Washing] = {}
        for washing in sorted(self.timetable.washings, key=_washed):
            key = (washing.vessel, washing.after)
            if key in self.facts.run_of and max(abs(washing.start), abs(washing.end)) <= FAR:
                found.setdefault(key, washing)
        return found

    def full(self, station: StationId) -> tuple[Full, ...]:
        """Return when a station of the kitchen is full, and not with one dish alone."""
        found = self._full.get(station)
        if found is None:
            place, things = self.facts.plan.kitchen.station[station], self.things(station)
            found = self._full[station] = full_stretches(self.facts, place, things)
        return found

    def heats_somewhere(self, heating: Heating) -> bool:
        """Return whether a heating is of a station of the kitchen, and of this time."""
        there = heating.station in self.facts.plan.kitchen.station
        return there and max(abs(heating.start), abs(heating.end)) <= FAR

    def things(self, station: StationId) -> list[Thing]:
        """Return what stands on a station, in no order; things of no length are left out."""
        found = self._things.get(station)
        if found is None:
            found = self._things[station] = []
            for placed in self._at.get(station, ()):
                what = (placed.step, placed.load, placed.start, placed.end)
                for use, spot in self.fit(placed).pairs:
                    if spot.station == station:
                        found.append(Thing(*what, use, spot, placed.setting))
            for waiting, stay in self._waits_at.get(station, ()):
                what = (waiting.before, waiting.load, waiting.start, waiting.end)
                for use, spot in self.fit_stay(waiting, stay).pairs:
                    if spot.station == station:
                        found.append(Thing(*what, use, spot, stay.setting, waiting))
        return found

    def bakes(self, station: StationId) -> list[Thing]:
        """Return the things with a temperature on a heated station with a heater, in order of time."""
        place = self.facts.plan.kitchen.station.get(station)
        if place is None or place.heater is None or place.kind not in HEATED:
            return []
        bakes = [thing for thing in self.things(station) if thing.use.heat is not None]
        return sorted(bakes, key=lambda thing: (thing.start, thing.end, thing.step, thing.load))


def _stations(spots: tuple[Spot, ...]) -> list[StationId]:
    """Return the stations of spots, each once."""
    if len(spots) == 1:
        return [spots[0].station]
    return list(dict.fromkeys(spot.station for spot in spots))


def _load(placed: Placed) -> int:
    return placed.load


def _when(heating: Heating) -> tuple[int, int, int, str]:
    return heating.start, heating.end, heating.setting, heating.cook or ""


def _washed(washing: Washing) -> tuple[int, int, str]:
    return washing.start, washing.minutes, washing.cook or ""
