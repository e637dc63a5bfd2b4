"""Run sheet, prep list, station sheet and plating sheet read back by poppler: all that must stand there, once, no more.

What must stand there is worked out from plan and timetable alone (told.py), times by zoneinfo alone.
"""

from __future__ import annotations

import re
from collections import Counter
from dataclasses import replace

import pytest

from core.plan import meaning
from core.plan.kitchen import HEATED, StationKind
from core.plan.plan import Plan
from core.plan.step import Attention
from core.sheets.kinds import SheetKind
from core.timetable.clashes import clashes
from core.timetable.timetable import Timetable
from tests.core.sheets.feasts import FEASTS, printed
from tests.core.sheets.paper_rows import Row, plating_parts, prep_rows, run_rows, station_rows
from tests.core.sheets.reading import squeezed
from tests.core.sheets.told import (
    all_told,
    clock_said,
    day_said,
    dish_said,
    does_said,
    load_said,
    minutes_said,
    require,
    stations_of,
    when_said,
)

CASES = [
    *((name, "A4") for name in FEASTS),
    ("hall", "Letter across"),
    ("Berlin, autumn", "A4 dense"),
]
HOT = HEATED | {StationKind.BURNER}


def test_the_feasts_meet() -> None:
    for name in FEASTS:
        assert not clashes(*FEASTS[name]()), name


@pytest.mark.parametrize(("name", "page"), CASES)
def test_run(name: str, page: str) -> None:
    """Every beginning, hand, taking out, heating, fire and washing; then serving with every dish of its course."""
    plan, timetable = FEASTS[name]()
    rows = run_rows(printed(SheetKind.RUN, name, page))
    require(plan, all_told(name), [row for row in rows if row.second != "SERVE"])
    assert sum(each.begins is not None for each in all_told(name)) == len(timetable.placed) > 14
    served = [row for row in rows if row.second == "SERVE"]
    courses = sorted({0, *(dish.course for dish in plan.menu.dishes if dish.served)})
    assert [(row.day, row.clock) for row in served] == [(day_said(plan, at), clock_said(plan, at)) for at in courses]
    require_served(plan, dict(zip(courses, served, strict=True)))


def require_served(plan: Plan, served: dict[int, Row]) -> None:
    """Find each dish below its serving, once, and below no other."""
    for dish in plan.menu.dishes:
        if dish.served:
            name = squeezed(dish.code + dish.name)
            assert served[dish.course].text.count(name) == 1, dish.name
            assert not any(name in row.text for at, row in served.items() if at != dish.course)


def test_the_reading_back_sees_a_wrong_minute_a_line_too_many_and_one_too_few() -> None:
    plan, _timetable = FEASTS["weeknight"]()
    rows = [row for row in run_rows(printed(SheetKind.RUN, "weeknight")) if row.second != "SERVE"]
    wanted = all_told("weeknight")
    require(plan, wanted, rows)
    late = next(each for each in wanted if each.begins is not None)
    with pytest.raises(AssertionError):
        require(plan, [replace(late, at=late.at + 1), *(each for each in wanted if each is not late)], rows)
    with pytest.raises(AssertionError):
        require(plan, wanted, [*rows, rows[3]])
    with pytest.raises(AssertionError):
        require(plan, wanted, rows[1:])


def plated(plan: Plan) -> list[tuple[int, int]]:
    """Return the first and last time of what is plated as one: courses within a quarter of an hour of the first."""
    found: list[tuple[int, int]] = []
    for at in sorted({0, *(dish.course for dish in plan.menu.dishes if dish.served)}):
        if found and at - found[-1][0] <= 15:
            found[-1] = (found[-1][0], at)
        else:
            found.append((at, at))
    return found


@pytest.mark.parametrize(("name", "page"), CASES)
def test_prep(name: str, page: str) -> None:
    """All of the days before; of the day itself what hands do off the heat, half an hour before its course.

    What hands do between two courses stands on one sheet or the other.
    """
    plan, timetable = FEASTS[name]()
    wanted = []
    for each in all_told(name):
        if each.begins is None:
            continue
        placed = each.begins
        step, course = plan.steps[placed.step], plan.dish_of[placed.step].course
        throughout = [(hand.start, hand.minutes) for hand in meaning.hands_of(plan, step, placed.length, placed.way)]
        by_hand = step.attention is Attention.HANDS_ON or throughout == [(0, placed.length)]
        hot = {station.kind for station in stations_of(plan, placed)} & HOT
        before = day_said(plan, placed.start) != day_said(plan, 0) and placed.start < 0
        between = placed.start < course - 30 and not any(at - 30 <= placed.start <= end for at, end in plated(plan))
        if before or (by_hand and not hot and (placed.start < min(0, course) - 30 or between)):
            opens = re.escape(does_said(plan, placed) + load_said(plan, placed))
            where = tuple(station.name for station in stations_of(plan, placed))
            wanted.append(replace(each, opens=opens, holds=(minutes_said(placed.length), *where)))
    require(plan, wanted, prep_rows(printed(SheetKind.PREP, name, page)))
    assert len(wanted) > 3
    assert timetable.placed


@pytest.mark.parametrize(("name", "page"), CASES)
def test_station(name: str, page: str) -> None:
    """In, out, how long, dish, what and where of all that stands in heat or on a burner; what is set, on its sheet."""
    plan, timetable = FEASTS[name]()
    hot = {station.id: station for station in plan.kitchen.stations if station.kind in HOT}
    sheets = {
        id_: "Burners" if station.kind is StationKind.BURNER else station.name for id_, station in hot.items()
    }
    wanted: Counter[tuple[str, ...]] = Counter()
    rows = station_rows(printed(SheetKind.STATION, name, page), list(dict.fromkeys(sheets.values())))
    left = list(rows)

    def take(at: int, place: str, second: str, length: str, opens: str, *holds: str) -> None:
        key = (day_said(plan, at), place, clock_said(plan, at))
        found = [
            row for row in left
            if (row.day, row.place, row.clock) == key and squeezed(row.second) == second and row.length == length
            and re.match(opens, row.text) and all(squeezed(text) in row.text for text in holds)
        ]  # fmt: skip
        there = [row for row in rows if (row.day, row.place, row.clock) == key]
        assert found, (key, second, length, opens, holds, there)
        left.remove(found[0])
        wanted[key] += 1

    for placed in timetable.placed:
        for place in dict.fromkeys(sheets[spot.station] for spot in placed.spots if spot.station in sheets):
            dish, end = plan.dish_of[placed.step], when_said(plan, placed.end, placed.start)
            opens = rf"{dish_said(dish)}.*?{re.escape(does_said(plan, placed) + load_said(plan, placed))}"
            burners = [station.name for station in stations_of(plan, placed) if station.kind is StationKind.BURNER]
            heated = placed.setting is not None and plan.kitchen.station[placed.spots[0].station].heater is not None
            heat = [f"{placed.setting}°C"] if heated else []
            take(placed.start, place, end, minutes_said(placed.length), opens, *burners, *heat)
    for stay in timetable.stays:
        for place in dict.fromkeys(sheets[spot.station] for spot in stay.spots if spot.station in sheets):
            end = when_said(plan, stay.end, stay.start)
            take(stay.start, place, end, "", rf"{dish_said(plan.dish_of[stay.before])}.*Waitshere")
    for each in all_told(name):
        act = re.match(r"(?:\(\?i:)?(SET|ON|OFF|Light)(?=.*(?:off|to\d|\)$))", each.opens)
        if act and each.begins is None and set(each.stations) <= set(hot) and not each.opens.startswith("(?:"):
            (station,) = each.stations
            opens = each.opens.replace(act[1], "", 1)
            take(each.at, sheets[station], act[1], "", opens, *each.holds)
    assert not left, left
    assert wanted


@pytest.mark.parametrize(("name", "page"), CASES)
def test_plating(name: str, page: str) -> None:
    """Of each course all that is told in its last half hour, with the minutes to go; then each dish that goes out."""
    plan, _timetable = FEASTS[name]()
    times = sorted({0, *(dish.course for dish in plan.menu.dishes if dish.served)})
    courses: list[list[int]] = []
    for at in times:
        if courses and at - courses[-1][0] <= 15:
            courses[-1].append(at)
        else:
            courses.append([at])
    parts = plating_parts(printed(SheetKind.PLATING, name, page))
    heads = [(part.out, part.times) for part in parts]
    expected = []
    for course in courses:
        clocks = tuple(clock_said(plan, at) for at in course)
        if any(course[0] - 30 <= each.at <= course[-1] for each in all_told(name)):
            expected.append((False, clocks))
        if any(dish.served and dish.course in course for dish in plan.menu.dishes):
            expected.append((True, clocks))
    assert heads == expected
    for part in parts:
        course = next(some for some in courses if tuple(clock_said(plan, at) for at in some) == part.times)
        assert part.day == day_said(plan, course[-1])
        if part.out:
            require_out(plan, course, part.rows)
            continue
        last = [each for each in all_told(name) if course[0] - 30 <= each.at <= course[-1]]
        require(plan, last, part.rows, timed=False)
        for row in part.rows:
            ats = [each.at for each in last if clock_said(plan, each.at) == row.clock]
            to_go = min(at for at in course if at >= ats[0]) - ats[0]
            assert row.second == (minutes_said(to_go) if to_go else "now")


def require_out(plan: Plan, course: list[int], rows: tuple[Row, ...]) -> None:
    wanted = [dish for dish in plan.menu.dishes if dish.served and dish.course in course]
    assert len(rows) == len(wanted)
    for dish in wanted:
        name = squeezed(dish.code + dish.name)
        found = [row for row in rows if row.clock == clock_said(plan, dish.course) and row.text.startswith(name)]
        assert len(found) == 1, dish.name
        assert squeezed(dish.plating) in found[0].text


def test_timetable_is_whole() -> None:
    """Every load of every step of these feasts is placed, so nothing is missing from the sheets unseen."""
    for name in FEASTS:
        plan, timetable = FEASTS[name]()
        assert isinstance(timetable, Timetable)
        loads = {
            (step.id, load)
            for step in plan.steps.values()
            for load in range(meaning.load_count(plan.dish_of[step.id], step))
        }
        assert {placed.key for placed in timetable.placed} == loads, name
