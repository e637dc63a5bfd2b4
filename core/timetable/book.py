"""A timetable read against its plan: what can be used of it, what waits, what stands on each station."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum, auto
from functools import cached_property

from core.plan.ids import StationId, StepId
from core.plan.kitchen import HEATED
from core.plan.menu import Link, LinkKind
from core.plan.step import Use
from core.timetable.facts import FAR, Facts
from core.timetable.fitting import Fit, fit
from core.timetable.timetable import Placed, Spot, Stay, Timetable


class Oddity(Enum):
    """Why something on a timetable cannot be used."""

    NOT_IN_MENU = auto()
    NO_SUCH_LOAD = auto()
    TWICE = auto()
    FAR_OFF = auto()
    NOT_NEEDED = auto()


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
        self._stay_fits: dict[Waiting, Fit] = {}
        self._at: dict[StationId, list[Placed]] = {}
        self._things: dict[StationId, list[Thing]] = {}
        seen: set[tuple[StepId, int]] = set()
        for placed in timetable.placed:
            oddity = self._oddity(placed, seen)
            if oddity is not None:
                self.odd.append((placed, oddity))
                continue
            seen.add(placed.key)
            self.loads.setdefault(placed.step, []).append(placed)
            if placed.length > 0:
                for station in {spot.station for spot in placed.spots}:
                    self._at.setdefault(station, []).append(placed)
        for loads in self.loads.values():
            if len(loads) > 1:
                loads.sort(key=lambda placed: placed.load)

    def _oddity(self, placed: Placed, seen: set[tuple[StepId, int]]) -> Oddity | None:
        if placed.step not in self.facts.plan.steps:
            return Oddity.NOT_IN_MENU
        if not 0 <= placed.load < self.facts.loads(placed.step):
            return Oddity.NO_SUCH_LOAD
        if placed.key in seen:
            return Oddity.TWICE
        if max(abs(placed.start), abs(placed.end)) > FAR:
            return Oddity.FAR_OFF
        return None

    def fit(self, placed: Placed) -> Fit:
        """Return how a placed load's spots answer to its uses."""
        found = self._fits.get(placed.key)
        if found is None:
            found = self._fits[placed.key] = fit(self.facts, self.facts.need(placed.step).uses, placed.spots)
        return found

    def fit_stay(self, waiting: Waiting) -> Fit:
        """Return how a stay's spots answer to the wait's use; a wait without its stay stands nowhere."""
        if waiting.stay is None:
            return Fit((), ())
        found = self._stay_fits.get(waiting)
        if found is None:
            found = self._stay_fits[waiting] = fit(self.facts, (waiting.use,), waiting.stay.spots)
        return found

    def length(self, placed: Placed) -> int:
        """Return the minutes that a load needs where it stands, at the setting it has there."""
        need = self.facts.need(placed.step)
        stations = self.facts.plan.kitchen.station
        for use, spot in self.fit(placed).pairs:
            if use.heat is not None and stations[spot.station].kind in HEATED:
                return need.length_with(use, placed.setting)
        return need.length

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
        for link in self.facts.waiting_links:
            for load, before, after in self.pairs(link):
                key, times = (link.before, link.after, load), (before[0].end, after[-1].start)
                self._wait(found, key, times, link.wait.use)
        for step, use in self.facts.kept_steps:
            if step in self.loads:
                times = self.loads[step][0].end, self.facts.plan.dish_of[step].course
                self._wait(found, (step, None, 0), times, use)
        return tuple(found)

    def _wait(
        self,
        found: list[Waiting],
        key: tuple[StepId, StepId | None, int],
        times: tuple[int, int],
        use: Use | None,
    ) -> None:
        if use is not None:
            found.append(Waiting(*key, *times, use, self._stays.get(key)))

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
            for waiting in self.waits:
                if waiting.stay is not None and waiting.end > waiting.start:
                    what = (waiting.before, waiting.load, waiting.start, waiting.end)
                    for use, spot in self.fit_stay(waiting).pairs:
                        if spot.station == station:
                            found.append(Thing(*what, use, spot, waiting.stay.setting, waiting))
        return found

    def bakes(self, station: StationId) -> list[Thing]:
        """Return the things with a temperature on a heated station with a heater, in order of time."""
        place = self.facts.plan.kitchen.station.get(station)
        if place is None or place.heater is None or place.kind not in HEATED:
            return []
        bakes = [thing for thing in self.things(station) if thing.use.heat is not None]
        return sorted(bakes, key=lambda thing: (thing.start, thing.end, thing.step, thing.load))
