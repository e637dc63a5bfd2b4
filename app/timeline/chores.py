"""Bars beside the steps: heating up, fires that are lit and burn, and what cooks do for them and for vessels."""

from __future__ import annotations

from dataclasses import replace

from PySide6.QtCore import QCoreApplication

from app.look.words import clock_text, word
from app.timeline.bars import Bar, BarKind
from app.timeline.making import Maker
from app.timeline.rows import Claim, packed
from core.plan.ids import CookId
from core.plan.kitchen import Station
from core.sheets.words import lowered
from core.timetable.fires import burns_out, hand_minutes, lights
from core.timetable.timetable import Heating, Washing


def heat_bars(maker: Maker, station: Station, rows: int) -> list[Bar]:
    """Return the bars of a station that heats up, over all its rows."""
    own = [each for each in maker.timetable.heatings if each.station == station.id]
    return [_heating_bar(each, rows) for each in own if not lights(station, each)]


def fire_bars(maker: Maker, station: Station) -> tuple[list[Bar], int]:
    """Return the bars of fires that are lit and burn, in rows of the lane's crown, and how many rows those are.

    A fire that is lit while another burns has a row of its own.
    """
    own = [each for each in maker.timetable.heatings if each.station == station.id and lights(station, each)]
    fires = [found for fire in own if (found := _fire_bars(maker, station, fire))]
    rows, count = packed([Claim(found[0].start, found[-1].end) for found in fires])
    bars = [
        replace(bar, row=row - count) for found, row in zip(fires, rows, strict=True) for bar in found
    ]
    return bars, count


def cook_bars(maker: Maker, cooks: frozenset[CookId]) -> list[tuple[CookId | None, Bar]]:
    """Return what cooks do beside the steps, each with its cook (None: nobody known does it).

    Switching on by nobody is left out: it takes a minute, and no timetable asks for it to be drawn.
    """
    found: list[tuple[CookId | None, Bar]] = []
    stations = maker.plan.kitchen.station
    for heating in maker.timetable.heatings:
        cook = heating.cook if heating.cook in cooks else None
        station = stations.get(heating.station)
        if station is not None and lights(station, heating):
            minutes = hand_minutes(station, heating)
            if minutes:
                found.append((cook, _laying_bar(station, heating, minutes, cook)))
        elif cook is not None:
            name = heating.station if station is None else station.name or station.id
            says = (_translated("{station} on").format(station=name),)
            bar = replace(_heating_bar(heating, 1), end=heating.start + 1, full=True, says=says)
            found.append((cook, bar))
    for washing in maker.timetable.washings:
        vessel = maker.plan.kitchen.vessel.get(washing.vessel)
        if vessel is not None and vessel.by_hand and washing.minutes > 0:
            cook = washing.cook if washing.cook in cooks else None
            found.append((cook, _washing_bar(washing, vessel.name or vessel.id, cook)))
    return found


def _heating_bar(heating: Heating, rows: int) -> Bar:
    return Bar(
        BarKind.HEATING,
        heating.start,
        heating.end,
        rows=rows,
        says=(word("heating"),),
        station=heating.station,
        cook=heating.cook,
        setting=heating.setting or None,
    )


def _fire_bars(maker: Maker, station: Station, fire: Heating) -> list[Bar]:
    """Return a fire's lighting and its burning; one without an end of its own burns for what is cooked on it."""
    burning = Bar(BarKind.FIRE, fire.end, fire.end, row=-1, station=station.id)
    ready = clock_text(maker.plan.wall(fire.end))
    found = []
    if fire.end > fire.start:
        says = (_translated("lighting, ready at {time}").format(time=ready), _translated("lighting"))
        found.append(replace(burning, kind=BarKind.LIGHTING, start=fire.start, says=says, cook=fire.cook))
    if station.burns is None:
        until = max((each.end for each in maker.book.things(station.id) if each.end > fire.end), default=fire.end)
        burns = [_translated("burning")]
    else:
        until = burns_out(station, fire)
        out = clock_text(maker.plan.wall(until))
        burns = [_translated(text).format(time=out) for text in ("burns until {time}", "until {time}")]
    if until > fire.end:
        found.append(replace(burning, end=until, says=tuple(burns)))
    return found


def _laying_bar(station: Station, fire: Heating, minutes: int, cook: CookId | None) -> Bar:
    name = lowered(station.name or station.id)
    says = (_translated("Light the {station}").format(station=name), _translated("lighting"))
    return Bar(BarKind.CHORE, fire.start, fire.start + minutes, says=says, station=station.id, cook=cook)


def _washing_bar(washing: Washing, vessel: str, cook: CookId | None) -> Bar:
    says = (_translated("Wash the {vessel}").format(vessel=lowered(vessel)), _translated("washing"))
    return Bar(BarKind.CHORE, washing.start, washing.end, says=says, vessel=washing.vessel, cook=cook)


def _translated(text: str) -> str:
    return QCoreApplication.translate("timeline", text)
