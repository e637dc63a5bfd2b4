"""What follows steps as they are moved about: waits, heating up, fires, washing up. To be shown, not to be kept.

Only what hangs on the steps moved is drawn along; all else stays as it is, and costs nothing.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace

from app.timeline.bars import Key
from core.plan.ids import StationId, StepId
from core.plan.kitchen import HEATED, Station
from core.plan.plan import Plan
from core.timetable.book import Book
from core.timetable.clashes_vessel import run_stretch
from core.timetable.facts import Facts
from core.timetable.fires import lights
from core.timetable.nearby import Moved, Nearby
from core.timetable.timetable import Heating, Placed, Stay, Timetable, Washing
from core.timetable.warming import heat_up_minutes


class Follower:
    """Draws along what hangs on moved loads, on one timetable of one plan."""

    def __init__(self, plan: Plan, timetable: Timetable, facts: Facts | None = None) -> None:
        self._plan = plan
        self._timetable = timetable
        self._facts = Facts(plan) if facts is None else facts
        self.nearby = Nearby(plan, timetable, self._facts)

    def drawn_along(self, placed: Mapping[Key, Placed]) -> Moved:
        """Return these loads with everything else that hangs on them brought to where they now stand."""
        steps = {step for step, _load in placed}
        return Moved(placed, self._stays(placed, steps), self._heatings(placed), self._washings(placed, steps))

    def _stays(self, placed: Mapping[Key, Placed], steps: Iterable[StepId]) -> dict[int, Stay | None]:
        numbers = {number for step in steps for number in self.nearby.stays_of.get(step, ())}
        return {number: self._stay(self._timetable.stays[number], placed) for number in numbers}

    def _stay(self, stay: Stay, placed: Mapping[Key, Placed]) -> Stay | None:
        befores = self.nearby.loads(stay.before, placed)
        before = next((each for each in befores if each.load == stay.load), None)
        start = stay.start if before is None else before.end
        end = stay.end
        loads = self.nearby.loads(stay.after, placed) if stay.after is not None else []
        if loads:
            pairs = len(loads) > 1 and len(loads) == len(befores)
            end = loads[min(stay.load, len(loads) - 1)].start if pairs else loads[-1].start
        return replace(stay, start=start, end=end) if end > start else None

    def _washings(self, placed: Mapping[Key, Placed], steps: Iterable[StepId]) -> dict[int, Washing]:
        """Return the washings, each as it is unless its vessels are in use till later: then right after that."""
        numbers = sorted({number for step in steps for number in self.nearby.washings_of.get(step, ())})
        found = {}
        for number in numbers:
            each = self._timetable.washings[number]
            run = self._facts.run_of.get((each.vessel, each.after))
            if run is None:
                continue
            loads = tuple(load for step in run.steps for load in self.nearby.loads(step, placed))
            used = run_stretch(Book(self._facts, Timetable(loads)), run)
            if used is not None and used[1] > each.start:
                found[number] = replace(each, start=used[1])
        return found

    def _heatings(self, placed: Mapping[Key, Placed]) -> dict[StationId, tuple[Heating, ...]]:
        """Return the heatings where anything moved, each before the first bake of its session; fires so as to burn."""
        at = self._timetable.at
        was = [at[key] for key in placed if key in at]
        stations = {spot.station for each in (*was, *placed.values()) for spot in each.spots}
        found = {}
        for station in self._plan.kitchen.stations:
            if station.id in stations and (station.heater is not None or station.id in self.nearby.heatings_on):
                own = self.nearby.heatings_on.get(station.id, [])
                new = self._heated(station, own, placed)
                if new != own:
                    found[station.id] = tuple(new)
        return found

    def _heated(self, station: Station, own: list[Heating], placed: Mapping[Key, Placed]) -> list[Heating]:
        fires = [each for each in own if lights(station, each)]
        others = [each for each in own if each not in fires]
        after = self.nearby.on(station.id, placed)
        before = self.nearby.on(station.id, {}) if fires else []
        found = [_fire(station, each, before, after) for each in fires]
        if station.heater is None or station.kind not in HEATED or not station.heater.from_cold:
            return found + others
        return found + _from_cold(station, others, after)


def _from_cold(station: Station, own: list[Heating], placed: list[Placed]) -> list[Heating]:
    found: list[Heating] = []
    heater = station.heater
    bakes = sorted((each.start, each.end, each.setting) for each in placed if each.setting is not None)
    out: int | None = None
    for start, end, setting in bakes:
        if heater is not None and (out is None or start > out + heater.keep_on):
            begins = start - heat_up_minutes(heater, setting)
            nearest = min(own, key=lambda each: abs(each.end - start), default=None)
            found.append(Heating(station.id, begins, start, setting, None if nearest is None else nearest.cook))
        out = end if out is None else max(out, end)
    return found


def _fire(station: Station, fire: Heating, before: list[Placed], after: list[Placed]) -> Heating:
    """Return a fire moved no more than it takes to burn for what it burnt for, from the first of it on."""
    out = None if station.burns is None else fire.end + station.burns
    served = {each.key for each in before if fire.end < each.end and (out is None or each.start < out)}
    now = [each for each in after if each.key in served]
    if not now:
        return fire
    first, last = min(each.start for each in now), max(each.end for each in now)
    by = 0
    if out is not None and last > out:
        by = last - out
    by = min(by, first - fire.end)
    return replace(fire, start=fire.start + by, end=fire.end + by)
