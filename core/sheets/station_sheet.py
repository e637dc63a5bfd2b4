"""The station sheet: all that passes through an oven, a grill or the burners, as lanes and as lines, day by day."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from math import gcd

from core.measures.clock import offset_of
from core.measures.heat import show_heat
from core.measures.minutes import show_minutes
from core.measures.words import plural
from core.plan.check_words import unit_word
from core.plan.ids import StationId, StepId
from core.plan.kitchen import HEATED, Station, StationKind
from core.plan.plan import Plan
from core.sheets.beside import marks_of
from core.sheets.chart import Block, Chart, Lane, chart, stacked
from core.sheets.dial import with_dial
from core.sheets.fire_lines import fire_lines
from core.sheets.heat_lines import heat_lines
from core.sheets.lines import Act, Line
from core.sheets.places import place_of, place_of_stay, station_name
from core.sheets.run_sheet import day_lines
from core.sheets.whose import EVERYBODY, Whose
from core.sheets.words import capital, clock_at, day_about, day_name, shortened, when
from core.timetable.book import Book, Thing
from core.timetable.facts import Facts
from core.timetable.heat_curve import plateaus
from core.timetable.timetable import Timetable

_DISH = 60
WAITS = "WAITS"


@dataclass(frozen=True, slots=True)
class StationLine:
    """What goes in (`act` IN) or stays waiting (WAITS), or what is set: from when to when, of which dish, where."""

    at: int
    clock: str
    out: str
    act: str
    what: str
    code: str = ""
    dish: str = ""
    place: str = ""
    details: tuple[str, ...] = ()
    who: str = ""
    step: StepId | None = None
    load: int = 0


@dataclass(frozen=True, slots=True)
class StationDay:
    """A day at a station."""

    title: str
    about: str
    chart: Chart
    lines: tuple[StationLine, ...]


@dataclass(frozen=True, slots=True)
class StationSheet:
    """A station, or the burners together, with the days on which it is used."""

    name: str
    days: tuple[StationDay, ...]


def station_sheets(plan: Plan, timetable: Timetable, of: Whose = EVERYBODY) -> tuple[StationSheet, ...]:
    """Return a sheet for each heated station that is used and one for all burners; with `of` those of its stations."""
    book = Book(Facts(plan), timetable)
    told = day_lines(plan, timetable)
    groups: list[tuple[Station, ...]] = []
    for station in plan.kitchen.stations:
        wanted = station.id in of.stations if of.stations else station.kind in HEATED
        groups += [(station,)] if wanted else []
    burners = plan.kitchen.of_kind(StationKind.BURNER)
    if not of.stations:
        groups.append(burners)
    elif of.stations == {each.id for each in burners}:
        groups = [burners]
    sheets = (_sheet(plan, book, told, group) for group in groups)
    return tuple(sheet for sheet in sheets if sheet.days)


def _sheet(plan: Plan, book: Book, told: list[Line], stations: tuple[Station, ...]) -> StationSheet:
    name = station_name(stations[0]) if len(stations) == 1 else "Burners"
    lines = sorted(_lines(plan, book, told, stations), key=lambda each: (each.at, each.step is not None))
    things = {station.id: book.things(station.id) for station in stations}
    days: dict[date, list[StationLine]] = {}
    for line in lines:
        days.setdefault(plan.wall(line.at).date(), []).append(line)
    return StationSheet(name, tuple(_day(plan, book, stations, things, day, own) for day, own in sorted(days.items())))


def _day(
    plan: Plan,
    book: Book,
    stations: tuple[Station, ...],
    things: dict[StationId, list[Thing]],
    day: date,
    lines: list[StationLine],
) -> StationDay:
    midnight, next_day = (_midnight(plan, each) for each in (day, day + timedelta(days=1)))
    ends = [min(thing.end, next_day) for own in things.values() for thing in own if midnight <= thing.start < next_day]
    begins = [line.at for line in lines]
    lanes: list[Lane] = []
    for station in stations:
        lanes += _lanes(plan, book, station, things[station.id])
    drawn = chart(plan, min(begins), max([*ends, *begins]), lanes)
    return StationDay(day_name(day), day_about(plan, day), drawn, tuple(lines))


def _midnight(plan: Plan, day: date) -> int:
    return offset_of(plan.plating, datetime.combine(day, datetime.min.time()))


def _lanes(plan: Plan, book: Book, station: Station, things: list[Thing]) -> Iterable[Lane]:
    heats = [
        Block(
            each.start,
            each.end,
            with_dial(station, each.setting),
            shorter=(show_heat(each.setting), f"{each.setting}°"),
        )
        for each in plateaus(plan, book.timetable, station.id)
    ]
    heats += [
        Block(each.start, each.end, "heat up", dark=True, shorter=("heat", "up"))
        for each in book.heatings_at.get(station.id, ())
        if each.end > each.start
    ]
    name = station_name(station)
    if heats:
        yield from stacked(f"{name}, °C", heats, 1)
    # Where all take two grate places or eight at a time, a lane is two or eight of them.
    share = gcd(station.units, *(thing.spot.units for thing in things)) or 1
    blocks = []
    for each in things:
        label, *shorter = _marks(plan, each)
        tall = min(each.spot.units, station.units) // share
        blocks.append(Block(each.start, each.end, label, tall, shorter=tuple(shorter)))
    used = station.units // share
    label = plural(station.units, unit_word(station.kind)) if heats else name
    yield from stacked(capital(label), blocks, used)


def _marks(plan: Plan, thing: Thing) -> tuple[str, ...]:
    """Return what may stand in a block, the longest first."""
    dish = plan.dish_of[thing.step]
    wait = " (waits)" if thing.waiting is not None else ""
    whole, brief, *less = marks_of(dish)
    return f"{whole}{wait}", f"{brief}{wait}", *less


def _lines(plan: Plan, book: Book, told: list[Line], stations: tuple[Station, ...]) -> Iterable[StationLine]:
    ids = {station.id for station in stations}
    for line in told:
        if line.step is None or not line.begins:
            continue
        placed = book.timetable.at[line.step, line.load]
        if any(spot.station in ids for spot in placed.spots):
            details = tuple(each for each in line.details if each.startswith(("done when", "note")))
            look = [each for each in line.details if "look from" in each]
            look = [f"look from {each.rpartition('look from ')[2]}" for each in look]
            out = f"{when(plan, placed.end, placed.start)}\n{show_minutes(placed.length)}"
            place = _within(place_of(plan, placed), stations)
            yield StationLine(
                line.at, line.clock, out, "IN", line.does, line.code, line.dish, place,
                (*look, *details), line.who, line.step, line.load,
            )  # fmt: skip
    waiting = {
        (thing.step, thing.load, thing.start): (thing, thing.waiting.stay)
        for station in stations
        for thing in book.things(station.id)
        if thing.waiting is not None and thing.waiting.stay is not None
    }
    for thing, stay in waiting.values():
        dish, start = plan.dish_of[thing.step], thing.start
        name, until = shortened(dish.name, _DISH) or dish.id, when(plan, thing.end, start)
        yield StationLine(
            start, clock_at(plan, start), until, WAITS, "Waits here", shortened(dish.code, 8), name,
            _within(place_of_stay(plan, stay), stations),
        )  # fmt: skip
    for line in (*heat_lines(plan, book.timetable), *fire_lines(book)):
        if line.station in ids:
            act = line.act.value if line.act is not Act.LIGHT else ""
            yield StationLine(line.at, line.clock, "", act, line.does, details=line.details, who=line.who)


def _within(place: str, stations: tuple[Station, ...]) -> str:
    """Return a place without the name of the station whose sheet it is: "160 °C, 2 racks"."""
    return place if len(stations) > 1 else place.removeprefix(station_name(stations[0])).removeprefix(", ")
