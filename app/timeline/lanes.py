"""The three readings of a plan: by station, by dish, by cook. Lanes with their bars in rows; no pixels."""

from __future__ import annotations

from dataclasses import replace
from typing import Literal, get_args

from app.look.words import KIND_ICON, word
from app.timeline.bars import Bar, Lane, LaneKind, Shade
from app.timeline.chores import fire_bars, heat_bars
from app.timeline.lane_cooks import cook_lanes
from app.timeline.lane_vessels import vessel_lanes
from app.timeline.making import Maker
from app.timeline.rows import Claim, in_order, packed, racked
from app.timeline.shelves import shelved_lane
from core.measures.heat import show_heat
from core.plan.calendar import closed
from core.plan.ids import StepId
from core.plan.kitchen import HEATED, Station, StationKind
from core.plan.menu import Dish
from core.plan.plan import Plan
from core.timetable.timetable import Timetable

Reading = Literal["station", "dish", "cook"]
READINGS: tuple[Reading, ...] = get_args(Reading)
"""The readings in the order in which one key goes through them."""

_ORDER = (
    StationKind.OVEN,
    StationKind.BURNER,
    StationKind.GRILL,
    StationKind.SMOKER,
    StationKind.WARM_DRAWER,
    StationKind.HOT_BOX,
    StationKind.MACHINE,
    StationKind.ROOM,
    StationKind.FRIDGE,
    StationKind.COLD_COUNTER,
    StationKind.FREEZER,
)
_ALWAYS = frozenset(_ORDER[:4]) | {StationKind.FRIDGE}
"""Kinds that have their lane even while nothing stands there."""
_MANY_ROWS = 3


def lanes_of(plan: Plan, timetable: Timetable, reading: Reading, low: int, high: int) -> tuple[Lane, ...]:
    """Return the lanes of a reading from top to bottom, shaded between two minutes."""
    maker = Maker(plan, timetable)
    if reading == "cook":
        return tuple(cook_lanes(maker, low, high, whole=True))
    if reading == "dish":
        return tuple(_dish_lane(maker, dish) for dish in plan.menu.dishes)
    stations = sorted(plan.kitchen.stations, key=lambda each: _ORDER.index(each.kind))
    lanes: list[Lane] = []
    for station in stations:
        if station.kind not in _ALWAYS and station.id not in maker.used:
            continue
        lane = shelved_lane(maker, station) if station.shelves else _station_lane(maker, station)
        shades = tuple(Shade(start, end, word("closed")) for start, end in closed(plan, station, low, high))
        above = lanes[-1].station if lanes else None
        joined = above is not None and above.kind is station.kind is StationKind.BURNER
        lanes.append(replace(lane, shades=shades, joined=joined))
    lanes += _worktop_lane(maker)
    lanes += vessel_lanes(maker)
    lanes += cook_lanes(maker, low, high)
    return tuple(lanes)


def next_reading(reading: Reading) -> Reading:
    """Return the reading that follows one, the first after the last."""
    return READINGS[(READINGS.index(reading) + 1) % len(READINGS)]


def _station_lane(maker: Maker, station: Station) -> Lane:
    things: list[tuple[Bar, int]] = []
    for placed in maker.placed_on.get(station.id, ()):
        on = [spot.units for spot in placed.spots if spot.station == station.id]
        units = max(1, sum(on))  # none are taken of a room, and yet it is there
        if on:
            things.append((maker.step_bar(placed, station.id), units))
    for stay in maker.stays_on.get(station.id, ()):
        on = [spot.units for spot in stay.spots if spot.station == station.id]
        units = max(1, sum(on))
        if on and stay.end > stay.start:
            things.append((maker.stay_bar(stay, station.id), units))
    loose = station.units == 0 or station.kind is StationKind.ROOM
    if loose:
        rows, count = packed([Claim(bar.start, bar.end) for bar, _units in things])
        runs = [[(row, 1)] for row in rows]
    else:
        runs, count = racked([Claim(bar.start, bar.end, units) for bar, units in things], station.units)
    bars = [
        replace(bar, row=row, rows=span)
        for (bar, _units), given in zip(things, runs, strict=True)
        for row, span in given
    ]
    if station.is_fire:
        bars = [_with_setting(bar) for bar in bars]
    bars += heat_bars(maker, station, max(1, station.units))
    fires, crown = fire_bars(maker, station)
    many = max(1, station.units) > _MANY_ROWS and not loose
    return Lane(
        f"station:{station.id}",
        LaneKind.STATION,
        station.name,
        in_order([*bars, *fires]),
        count,
        None if loose else station.units,
        row_share=max(0.3, _MANY_ROWS / station.units) if many else 1.0,
        icon=KIND_ICON[station.kind],
        station=station,
        crown=crown if station.is_fire else int(station.heater is not None and station.kind in HEATED),
    )


def _with_setting(bar: Bar) -> Bar:
    """Return a bar that says its setting itself: where a fire burns, the crown tells of the fire."""
    if bar.setting is None or not bar.says:
        return bar
    return replace(bar, says=(f"{bar.says[0]}, {show_heat(bar.setting)}", *bar.says))


def _worktop_lane(maker: Maker) -> list[Lane]:
    bars = [maker.step_bar(placed) for placed in maker.placed if not placed.spots]
    if not bars:
        return []
    rows, count = packed([Claim(bar.start, bar.end) for bar in bars], _followed(maker, bars))
    bars = [replace(bar, row=row) for bar, row in zip(bars, rows, strict=True)]
    return [Lane("worktop", LaneKind.WORKTOP, word("no station"), in_order(bars), count, icon="worktop")]


def _dish_lane(maker: Maker, dish: Dish) -> Lane:
    bars = []
    for placed in maker.placed:
        if maker.plan.dish_of[placed.step].id != dish.id:
            continue
        station = placed.spots[0].station if placed.spots else None
        bar = maker.step_bar(placed, station, stays=False)
        at = maker.plan.kitchen.station[station].name if station in maker.plan.kitchen.station else ""
        does = bar.says[-1]
        told = at and at.casefold() not in does.casefold()
        bars.append(replace(bar, says=(f"{does}, {at}", does) if told else (does,)))
    rows, count = packed([Claim(bar.start, bar.reach) for bar in bars], _followed(maker, bars))
    bars = [replace(bar, row=row) for bar, row in zip(bars, rows, strict=True)]
    return Lane(
        f"dish:{dish.id}",
        LaneKind.DISH,
        dish.name,
        in_order(bars),
        count,
        icon="dish",
        code=maker.codes[dish.id],
        tone=maker.tones[dish.id],
        dish=dish.id,
    )


def _followed(maker: Maker, bars: list[Bar]) -> list[int | None]:
    """Return for each bar the number of the bar that it follows by a link, so that a chain keeps its row."""
    at: dict[StepId, int] = {}
    for number, bar in enumerate(bars):
        if bar.step is not None:
            at[bar.step] = number
    found: list[int | None] = []
    for bar in bars:
        links = maker.plan.links_to.get(bar.step, ()) if bar.step is not None else ()
        before = [at[link.before] for link in links if link.before in at]
        found.append(max(before, key=lambda number: bars[number].end, default=None))
    return found
