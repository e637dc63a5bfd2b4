"""The lines of stations that heat: on, to another setting, off."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from core.measures.heat import show_heat
from core.measures.minutes import show_minutes, show_tminus
from core.plan.ids import StationId
from core.plan.kitchen import Heater, Station
from core.plan.plan import Plan
from core.sheets.dial import dial_words
from core.sheets.lines import Act, Line
from core.sheets.places import station_name
from core.sheets.step_lines import cook_names
from core.sheets.words import clock_at, when
from core.timetable.fires import lights
from core.timetable.heat_curve import Plateau, plateaus
from core.timetable.timetable import Heating, Timetable
from core.timetable.warming import change_minutes


def heat_lines(plan: Plan, timetable: Timetable) -> Iterator[Line]:
    """Yield the lines of all stations that heat, station by station."""
    for station in plan.kitchen.stations:
        heatings = sorted(
            (each for each in timetable.heatings if each.station == station.id), key=lambda each: each.start
        )
        for heating in heatings:
            if not lights(station, heating):
                yield _on(plan, station, heating)
        if station.heater is not None:
            yield from _settings(plan, timetable, station, station.heater, heatings)


def _settings(
    plan: Plan, timetable: Timetable, station: Station, heater: Heater, heatings: list[Heating]
) -> Iterator[Line]:
    """Yield the changes of setting and the switching off between the stretches at one setting.

    A fire is neither switched on nor off; one lit since the last stretch is at its setting without a change.
    """
    last: Plateau | None = None
    out = 0
    for plateau in sorted(plateaus(plan, timetable, station.id)):
        anew = last is None or _is_anew(station, heater, heatings, plateau.start, out)
        if last is not None and anew:
            yield from _off(plan, timetable, station, out)
        if anew and not heater.from_cold and not station.is_fire:
            yield _line(plan, plateau.start, Act.ON, station, to=plateau.setting)
        if last is not None and not anew and plateau.setting != last.setting:
            at = min(out, plateau.start)
            there = at + change_minutes(heater, last.setting, plateau.setting)
            reached = f", there by {when(plan, there, at)}" if there > at else ""
            detail = f"from {show_heat(last.setting)}{reached}"
            who = _who_is_there(plan, timetable, station.id, at)
            yield _line(plan, at, Act.SET, station, to=plateau.setting, detail=detail, who=who)
        out = plateau.end if last is None or anew else max(out, plateau.end)
        last = plateau
    if last is not None:
        yield from _off(plan, timetable, station, out)


def _is_anew(station: Station, heater: Heater, heatings: list[Heating], start: int, out: int) -> bool:
    """Return whether a stretch at one setting does not go on from the one before, which was over at `out`."""
    if station.is_fire and any(lights(station, each) and out <= each.end <= start for each in heatings):
        return True
    return any(each.end == start for each in heatings) or (
        not station.is_fire and start > out + heater.keep_on
    )


def _on(plan: Plan, station: Station, heating: Heating) -> Line:
    minutes = show_minutes(heating.end - heating.start)
    detail = f"from cold, {minutes}, hot by {when(plan, heating.end, heating.start)}"
    who = cook_names(plan, [heating.cook])
    line = _line(plan, heating.start, Act.ON, station, to=heating.setting, detail=detail, who=who)
    if heating.setting == 0:  # a fire by an older kitchen
        line = replace(line, does=f"{station_name(station)} on")
    return replace(line, minutes=1)


def _off(plan: Plan, timetable: Timetable, station: Station, at: int) -> Iterator[Line]:
    if not station.is_fire:
        yield _line(plan, at, Act.OFF, station, who=_who_is_there(plan, timetable, station.id, at))


def _line(
    plan: Plan, at: int, act: Act, station: Station, *, to: int | None = None, detail: str = "", who: str = ""
) -> Line:
    does = f"{station_name(station)} {'off' if to is None else f'to {show_heat(to)}'}"
    details = tuple(filter(None, (detail, "" if to is None else dial_words(station, to))))
    clock, tminus = clock_at(plan, at), show_tminus(at)
    return Line(at, clock, tminus, act, does, details=details, who=who, station=station.id)


def _who_is_there(plan: Plan, timetable: Timetable, station: StationId, at: int) -> str:
    """Return the cook whose hands are at a station in a minute or the one before it; "" for nobody."""
    hands = [
        hand
        for placed in timetable.placed
        if any(spot.station == station for spot in placed.spots)
        for hand in placed.hands
        if hand.cook is not None and hand.start <= at <= hand.start + hand.minutes
    ]
    soonest = sorted(hands, key=lambda hand: (hand.start + hand.minutes != at, hand.start))
    return cook_names(plan, [hand.cook for hand in soonest[:1]])
