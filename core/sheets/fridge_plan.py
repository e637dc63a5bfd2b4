"""The fridge plan: what stands on which shelf of every cold place at which hour, and how full the shelves are."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, datetime, timedelta

from core.measures.clock import offset_of
from core.measures.words import join_words
from core.plan.ids import StepId
from core.plan.kitchen import COLD, Station
from core.plan.plan import Plan
from core.sheets.beside import marks_of
from core.sheets.chart import Block, Chart, Lane, chart, stacked
from core.sheets.places import shelf_name, station_name
from core.sheets.step_words import done_as, way_done
from core.sheets.table import Column, Group, Look, Row
from core.sheets.words import clock_at, day_about, day_name, shortened, when
from core.timetable.book import Book, Thing
from core.timetable.facts import Facts
from core.timetable.load import shelf_curves
from core.timetable.timetable import Timetable

_DISH, _WHAT, _FOR = 60, 60, 40
_FROM = 6 * 60


@dataclass(frozen=True, slots=True)
class Standing:
    """Something on a shelf from when to when: its dish, what was done to it last, whether it is raw."""

    start: int
    end: int
    clock: str
    out: str
    code: str
    dish: str
    marks: tuple[str, ...]
    what: str
    shelf: str
    index: int | None
    raw: bool
    steps: tuple[StepId, ...]


@dataclass(frozen=True, slots=True)
class FridgeDay:
    """A day of a cold place: the shelves by the hour, what goes in on this day, and how full each shelf gets."""

    title: str
    about: str
    chart: Chart
    goes_in: tuple[Standing, ...]
    fullest: str


@dataclass(frozen=True, slots=True)
class FridgePlan:
    """A cold place with the days on which something stands in it."""

    name: str
    days: tuple[FridgeDay, ...]


def fridge_plans(plan: Plan, timetable: Timetable) -> tuple[FridgePlan, ...]:
    """Return a plan for each cold place that is used."""
    book = Book(Facts(plan), timetable)
    found = []
    for station in plan.kitchen.stations:
        if station.kind in COLD:
            standing = _standing(plan, book, station)
            if standing:
                found.append(FridgePlan(station_name(station), tuple(_days(plan, timetable, station, standing))))
    return tuple(found)


def _standing(plan: Plan, book: Book, station: Station) -> list[Standing]:
    """Return what stands there; a dish that goes on standing on its shelf in the minute in which it is done is one."""
    things = sorted(book.things(station.id), key=lambda each: (each.start, each.end, each.step, each.load))
    found: list[Standing] = []
    for thing in things:
        one = _stands(plan, book.timetable, station, thing)
        goes_on = next(
            (
                at
                for at, each in enumerate(found)
                if each.end == one.start
                and (each.index, each.dish) == (one.index, one.dish)
                and set(each.steps) & set(thing.steps)
            ),
            None,
        )
        if goes_on is None:
            found.append(one)
            continue
        before = found[goes_on]
        found[goes_on] = Standing(
            before.start, one.end, before.clock, when(plan, one.end, before.start), before.code, before.dish,
            before.marks, before.what, before.shelf, before.index, before.raw or one.raw, (*before.steps, *one.steps),
        )  # fmt: skip
    return found


def _stands(plan: Plan, timetable: Timetable, station: Station, thing: Thing) -> Standing:
    dish, step = plan.dish_of[thing.step], plan.steps[thing.step]
    index = thing.spot.shelf
    shelf = "" if index is None or len(station.shelves) < 2 else shelf_name(station, index)
    return Standing(
        thing.start,
        thing.end,
        clock_at(plan, thing.start),
        when(plan, thing.end, thing.start),
        shortened(dish.code, 8),
        shortened(dish.name, _DISH) or dish.id,
        marks_of(dish),
        shortened(done_as(step, way_done(timetable, step.id)), _WHAT) + _goes_to(plan, timetable, thing),
        shelf,
        index,
        thing.use.raw,
        thing.steps,
    )


def _goes_to(plan: Plan, timetable: Timetable, thing: Thing) -> str:
    """Return for what food waits there, "" where it is not waiting or to be served."""
    after = None if thing.waiting is None else thing.waiting.after
    if after is None:
        return ""
    return f", for: {shortened(done_as(plan.steps[after], way_done(timetable, after)), _FOR)}"


def _days(plan: Plan, timetable: Timetable, station: Station, standing: list[Standing]) -> Iterable[FridgeDay]:
    first = plan.wall(min(each.start for each in standing)).date()
    last = plan.wall(max(each.end for each in standing) - 1).date()
    for number in range((last - first).days + 1):
        day = first + timedelta(days=number)
        midnight, end = _midnight(plan, day), _midnight(plan, day + timedelta(days=1))
        here = [each for each in standing if each.start < end and each.end > midnight]
        if here:
            moves = [at for each in here for at in (each.start, each.end) if midnight < at < end]
            start = min([midnight + _FROM, *moves])
            drawn = chart(plan, start, end, _lanes(station, here))
            goes_in = tuple(each for each in here if each.start >= midnight)
            yield FridgeDay(
                day_name(day), day_about(plan, day), drawn, goes_in, _fullest(plan, timetable, station, midnight, end)
            )


def _midnight(plan: Plan, day: date) -> int:
    return offset_of(plan.plating, datetime.combine(day, datetime.min.time()))


def _lanes(station: Station, here: list[Standing]) -> Iterable[Lane]:
    """Return the lanes of the shelves, the top one first, as one looks into the fridge."""
    for index in reversed(range(max(1, len(station.shelves)))):
        own = [each for each in here if (each.index or 0) == index]
        name = shelf_name(station, index) if len(station.shelves) > 1 else station_name(station)
        blocks = [_block(each) for each in own]
        yield from stacked(name, blocks, 1)


def _block(each: Standing) -> Block:
    raw = "RAW " if each.raw else ""
    label, *shorter = (f"{raw}{mark}" for mark in each.marks)
    return Block(each.start, each.end, label, dark=each.raw, shorter=(*shorter, each.marks[-1]))


def _fullest(plan: Plan, timetable: Timetable, station: Station, start: int, end: int) -> str:
    """Return how full the shelves get on a day: "lowest shelf 60 % at 14:00 and second shelf 35 % at 18:47"."""
    told = []
    for index, curve in enumerate(shelf_curves(plan, timetable, station.id)):
        there = [each for each in curve if each.start < end and each.end > start and each.amount > 0]
        area = station.shelves[index].area
        if there and area > 0:
            most = max(there, key=lambda each: (each.amount, -each.start))
            name = f"{shelf_name(station, index)} " if len(station.shelves) > 1 else ""
            since = f"at {clock_at(plan, most.start)}" if most.start > start else "from midnight"
            told.append(f"{name}{-(-100 * most.amount // area)} % {since}")
    return f"Fullest: {join_words(told)}." if told else ""


_COLUMNS = (
    Column("", Look.TICK),
    Column("in", Look.TIME),
    Column("out", Look.TEXT),
    Column("what stands there", Look.THING, share=1.8),
)
_SHELF = Column("shelf", Look.THING, share=1)
_MIND = Column("mind", Look.THING, share=1)
_RAW = "RAW: below what is ready to eat"


def fridge_group(day: FridgeDay) -> Group:
    """Return what goes in on a day as rows, the raw marked; shelves have a column only where there are some."""
    last = (_SHELF,) if any(each.shelf for each in day.goes_in) else ()
    last = last or ((_MIND,) if any(each.raw for each in day.goes_in) else ())
    rows = []
    for each in day.goes_in:
        what = f"{f'{each.code} {each.dish}'.strip()}\n{each.what}"
        where = "\n".join(filter(None, (each.shelf, _RAW if each.raw else "")))
        rows.append(Row(("", each.clock, each.out, what, where)[: len(_COLUMNS) + len(last)]))
    return Group(day.title, tuple(rows), day.about, columns=(*_COLUMNS, *last))
