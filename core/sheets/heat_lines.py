"""The lines of stations that heat: on, to another setting, off."""

from __future__ import annotations

from collections.abc import Iterator

from core.measures.heat import show_heat
from core.measures.minutes import show_minutes, show_tminus
from core.plan.ids import StationId
from core.plan.kitchen import Heater, Station
from core.plan.plan import Plan
from core.sheets.lines import Act, Line
from core.sheets.places import station_name
from core.sheets.step_lines import cook_names
from core.sheets.words import clock_at, when
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
            yield _on(plan, station, heating)
        if station.heater is not None:
            yield from _settings(plan, timetable, station, station.heater, heatings)


def _settings(
    plan: Plan, timetable: Timetable, station: Station, heater: Heater, heatings: list[Heating]
) -> Iterator[Line]:
    """Yield the changes of setting and the switching off between the stretches at one setting."""
    found = sorted(plateaus(plan, timetable, station.id))
    last: Plateau | None = None
    out = 0
    for plateau in found:
        anew = last is None or plateau.start > out + heater.keep_on
        anew = anew or any(each.end == plateau.start for each in heatings)
        if last is not None and anew:
            yield from _off(plan, timetable, station, out)
        if anew and not heater.from_cold:
            yield _line(plan, plateau.start, Act.ON, station, f"to {show_heat(plateau.setting)}", ())
        if last is not None and not anew and plateau.setting != last.setting:
            yield _change(plan, timetable, station, heater, last, plateau, min(out, plateau.start))
        out = plateau.end if last is None or anew else max(out, plateau.end)
        last = plateau
    if last is not None:
        yield from _off(plan, timetable, station, out)


def _on(plan: Plan, station: Station, heating: Heating) -> Line:
    minutes = show_minutes(heating.end - heating.start)
    details = (f"from cold, {minutes}, hot by {when(plan, heating.end, heating.start)}",)
    who = cook_names(plan, [heating.cook])
    return _line(plan, heating.start, Act.ON, station, f"to {show_heat(heating.setting)}", details, who, 1)


def _change(
    plan: Plan,
    timetable: Timetable,
    station: Station,
    heater: Heater,
    last: Plateau,
    plateau: Plateau,
    at: int,
) -> Line:
    there = at + change_minutes(heater, last.setting, plateau.setting)
    reached = f", there by {when(plan, there, at)}" if there > at else ""
    details = (f"from {show_heat(last.setting)}{reached}",)
    who = _who_is_there(plan, timetable, station.id, at)
    return _line(plan, at, Act.SET, station, f"to {show_heat(plateau.setting)}", details, who)


def _off(plan: Plan, timetable: Timetable, station: Station, at: int) -> Iterator[Line]:
    if station.burns is None and not station.lighting:  # a fire is not switched off
        who = _who_is_there(plan, timetable, station.id, at)
        yield _line(plan, at, Act.OFF, station, "", (), who)


def _line(
    plan: Plan,
    at: int,
    act: Act,
    station: Station,
    does: str,
    details: tuple[str, ...],
    who: str = "",
    minutes: int = 0,
) -> Line:
    words = f"{station_name(station)} {does or act.value.lower()}"
    clock, tminus = clock_at(plan, at), show_tminus(at)
    return Line(at, clock, tminus, act, words, details=details, who=who, minutes=minutes, station=station.id)


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
