"""The tables of a timetable: every line of the run sheet at its time, and what stands where from when to when."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime

from core.hatch.table import Cell, Table, columns
from core.plan.ids import StepId
from core.plan.kitchen import Station
from core.plan.plan import Plan
from core.sheets.lines import Line, RunSheet
from core.sheets.places import station_name
from core.sheets.step_words import done_as, way_done
from core.sheets.words import plain
from core.timetable.fires import lights
from core.timetable.timetable import Spot, Timetable

_TIMES = columns(
    ("day", 11), ("from", 17), ("to", 17), ("UTC offset", 10), ("minutes from plating", 9), ("T-minus", 10),
    ("act", 8), ("does", 34), ("code", 6), ("dish", 24), ("details", 50), ("core °C", 8), ("who", 16), ("hands min", 9),
    ("step", 18), ("load", 6),
)  # fmt: skip
_PLACES = columns(
    ("place", 22), ("kind", 12), ("use", 10), ("units", 6), ("shelf", 14), ("°C", 6), ("from", 17), ("to", 17),
    ("minutes", 9), ("dish", 24), ("what", 34), ("step", 18), ("load", 6),
)  # fmt: skip


def times_table(plan: Plan, sheet: RunSheet) -> Table:
    """Return a row for each line of the run sheet, in its order; a moment ends when it begins."""
    return Table("times", _TIMES, tuple(_time(plan, line) for day in sheet.days for line in day.lines))


def places_table(plan: Plan, timetable: Timetable) -> Table:
    """Return a row for each stretch in which a place is used, waited in or heated, place by place."""
    rows = sorted(_uses(plan, timetable), key=lambda row: row[0])
    return Table("places", _PLACES, tuple(row for _key, row in rows))


def _time(plan: Plan, line: Line) -> tuple[Cell, ...]:
    begin = plan.wall(line.at)
    served = [f"{each.code} {each.dish}".strip() for each in line.served]
    return (
        begin.date(), begin.replace(tzinfo=None), plan.wall(line.at + line.minutes).replace(tzinfo=None),
        _gap(begin), line.at, line.tminus, line.act.value, line.does, line.code, line.dish,
        "; ".join([*line.details, *served]), line.core, line.who, line.minutes, line.step or "",
        line.load + 1 if line.step else None,
    )  # fmt: skip


def _gap(at: datetime) -> str:
    """Return how far the clock stands from UTC: "UTC+01:00"; told with letters, since "+0100" would be a formula."""
    return f"UTC{at.isoformat()[-6:]}"


_Key = tuple[int, int, str]


@dataclass(frozen=True, slots=True)
class _Stretch:
    """A stretch of minutes in which something is so: `food` is its dish, what is done, step and load."""

    use: str
    start: int
    end: int
    setting: int | None
    food: tuple[Cell, Cell, Cell, Cell] = ("", "", "", None)


def _uses(plan: Plan, timetable: Timetable) -> Iterator[tuple[_Key, tuple[Cell, ...]]]:
    rank = {station.id: number for number, station in enumerate(plan.kitchen.stations)}
    for spot, stretch in _stretches(plan, timetable):
        station = plan.kitchen.station.get(spot.station)
        if station is not None:
            key = (rank[station.id], stretch.start, str(stretch.food[2]))
            yield key, _row(plan, station, spot, stretch)


def _stretches(plan: Plan, timetable: Timetable) -> Iterator[tuple[Spot, _Stretch]]:
    for placed in timetable.placed:
        food = _of_step(plan, placed.step, placed.load, placed.way)
        for spot in placed.spots:
            yield spot, _Stretch("in use", placed.start, placed.end, placed.setting, food)
    for stay in timetable.stays:
        food = _of_step(plan, stay.before, stay.load, way_done(timetable, stay.before))
        for spot in stay.spots:
            yield spot, _Stretch("waiting", stay.start, stay.end, stay.setting, food)
    for heating in timetable.heatings:
        station = plan.kitchen.station.get(heating.station)
        fire = station is not None and lights(station, heating)
        use = "lighting" if fire else "heating up"
        yield Spot(heating.station), _Stretch(use, heating.start, heating.end, heating.setting or None)


def _of_step(plan: Plan, step: StepId, load: int, way: int) -> tuple[Cell, Cell, Cell, Cell]:
    known = plan.steps.get(step)
    if known is None:
        return "", step, step, load + 1
    dish = plan.dish_of[step]
    return plain(dish.name) or dish.id, done_as(known, way), step, load + 1


def _row(plan: Plan, station: Station, spot: Spot, stretch: _Stretch) -> tuple[Cell, ...]:
    shelf = ""
    if spot.shelf is not None and 0 <= spot.shelf < len(station.shelves):
        shelf = plain(station.shelves[spot.shelf].name) or f"{spot.shelf + 1} from below"
    begin, over = (plan.wall(at).replace(tzinfo=None) for at in (stretch.start, stretch.end))
    return (
        station_name(station), station.kind.value, stretch.use, spot.units, shelf, stretch.setting, begin, over,
        stretch.end - stretch.start, *stretch.food,
    )  # fmt: skip
