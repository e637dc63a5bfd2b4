"""The temperature of a heated station over the day, for drawing: heating up, plateaus, changes, off and cooling.

It draws what the settings on the timetable would do, whether they clash or not: a place that is not heated up
in time is still rising when the food goes in; of two settings at once the one that came last is shown. A fire has
no setting, so its lighting is not drawn.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import NamedTuple

from core.plan.ids import StationId
from core.plan.kitchen import HEATED, Heater
from core.plan.plan import Plan
from core.timetable.book_kept import book_of
from core.timetable.fires import lights
from core.timetable.timetable import Timetable
from core.timetable.warming import minutes_at, points_of, rate_of


class CurvePoint(NamedTuple):
    """A corner of the curve: minutes from plating and °C; straight lines lie between."""

    at: float
    celsius: float


class Plateau(NamedTuple):
    """One setting in use during [start, end), °C."""

    start: int
    end: int
    setting: int


@dataclass(frozen=True, slots=True)
class _On:
    """A stretch in which a station is to have a setting; `bake` False: it is heated up for what follows."""

    start: int
    end: int
    setting: int
    bake: bool


def curve(plan: Plan, timetable: Timetable, station: StationId) -> tuple[CurvePoint, ...]:
    """Return the corners of the temperature curve, from cold to cold; () for what does not heat or is not used."""
    heater = _heater(plan, station)
    if heater is None:
        return ()
    stretches = _stretches(plan, timetable, station)
    if not stretches:
        return ()
    pen = _Pen(heater, stretches[0].start)
    times = sorted({on.start for on in stretches} | {on.end for on in stretches})
    for now, until in zip(times, [*times[1:], None], strict=True):
        wanted = _wanted(heater, stretches, now)
        pen.off() if wanted is None else pen.aim(wanted)
        pen.draw(None if until is None else Fraction(until))
    return tuple(pen.points)


def plateaus(plan: Plan, timetable: Timetable, station: StationId) -> tuple[Plateau, ...]:
    """Return the stretches in which things stand at one setting, pauses that are not worth switching off included.

    Stretches of different settings overlap where the timetable has them at once.
    """
    heater = _heater(plan, station)
    if heater is None:
        return ()
    found: list[Plateau] = []
    for on in _stretches(plan, timetable, station):
        if not on.bake:
            continue
        last = found[-1] if found else None
        same = next((index for index, each in enumerate(found) if _goes_on(heater, each, on, last)), None)
        if same is None:
            found.append(Plateau(on.start, on.end, on.setting))
        else:
            found[same] = found[same]._replace(end=max(found[same].end, on.end))
    return tuple(found)


def _goes_on(heater: Heater, plateau: Plateau, on: _On, last: Plateau | None) -> bool:
    """Return whether a bake goes on with a plateau: same setting, still in use or nothing else since."""
    if plateau.setting != on.setting:
        return False
    return on.start < plateau.end or (plateau is last and on.start <= plateau.end + heater.keep_on)


def _heater(plan: Plan, station: StationId) -> Heater | None:
    place = plan.kitchen.station.get(station)
    return place.heater if place is not None and place.kind in HEATED else None


def _stretches(plan: Plan, timetable: Timetable, station: StationId) -> list[_On]:
    book, place = book_of(plan, timetable), plan.kitchen.station[station]
    found = [
        _On(heating.start, heating.end, heating.setting, bake=False)
        for heating in book.heatings_at.get(station, ())
        if heating.start < heating.end and not lights(place, heating)
    ]
    found += (
        _On(thing.start, thing.end, thing.setting, bake=True)
        for thing in book.bakes(station)
        if thing.setting is not None
    )
    return sorted(found, key=lambda on: (on.start, on.end, on.setting))


def _wanted(heater: Heater, stretches: list[_On], now: int) -> int | None:
    """Return the setting from a minute on; None where the station is off.

    In a pause it is set for the next bake already, if the pause is not worth switching off.
    """
    active = [on for on in stretches if on.start <= now < on.end]
    if active:
        return max(active, key=lambda on: (on.bake, on.start)).setting
    ahead = next((on for on in stretches if on.start > now), None)
    out = max(on.end for on in stretches if on.end <= now)
    if ahead is not None and ahead.bake and ahead.start <= out + heater.keep_on:
        return ahead.setting
    return None


class _Pen:
    """Draws the curve: knows the time, the temperature and where that is going."""

    def __init__(self, heater: Heater, start: int) -> None:
        self.heater = heater
        self.profile = points_of(heater)
        self.at = Fraction(start)
        self.celsius = Fraction(heater.cold)
        self.target = Fraction(heater.cold)
        self.is_off = True
        self.from_cold = False
        self.points = [CurvePoint(float(start), float(heater.cold))]

    def off(self) -> None:
        """Switch off: it cools until it is cold."""
        self.is_off, self.from_cold = True, False
        self.target = min(self.celsius, Fraction(self.heater.cold))

    def aim(self, setting: int) -> None:
        """Set to °C; coming from off it warms as measured from cold, else at the rate of changes."""
        self.from_cold = self.from_cold or self.is_off
        self.is_off = False
        self.target = Fraction(setting)

    def draw(self, until: Fraction | None) -> None:
        """Go on to a minute; None: until the temperature is reached."""
        if self.celsius != self.target:
            if self.from_cold and self.target > self.celsius:
                self._warm_from_cold(until)
            else:
                self._change(until)
        if self.celsius == self.target:
            self.from_cold = False
        if until is not None and until > self.at:
            self._mark(until, self.celsius)

    def _mark(self, at: Fraction, celsius: Fraction) -> None:
        self.at, self.celsius = at, celsius
        self.points.append(CurvePoint(float(at), float(celsius)))

    def _toward(self, at: Fraction, celsius: Fraction, until: Fraction | None) -> bool:
        """Draw a line to a point, cut off at `until`; return whether the point was reached."""
        if until is None or at <= until:
            self._mark(at, celsius)
            return True
        if until > self.at:
            part = (until - self.at) / (at - self.at)
            self._mark(until, self.celsius + part * (celsius - self.celsius))
        return False

    def _change(self, until: Fraction | None) -> None:
        rate = rate_of(self.heater, self.celsius, self.target)
        minutes = abs(self.target - self.celsius) / rate if rate > 0 else Fraction(0)
        self._toward(self.at + minutes, self.target, until)

    def _warm_from_cold(self, until: Fraction | None) -> None:
        if not self.profile:
            self._mark(self.at, self.target)
            return
        begin = minutes_at(self.profile, self.celsius)
        corners = [each for each in self.profile if self.celsius < each[0] < self.target]
        start = self.at
        for celsius in [*(Fraction(each[0]) for each in corners), self.target]:
            later = max(Fraction(0), minutes_at(self.profile, celsius) - begin)
            if not self._toward(start + later, celsius, until):
                return
