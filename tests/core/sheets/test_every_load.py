"""Every load of every step is on the sheet once, at its true clock time, and so is every hand."""

from __future__ import annotations

from collections import Counter
from datetime import datetime
from itertools import pairwise

import pytest
from hypothesis import given, settings

from core.measures.clock import Moment
from core.plan.ids import CookId
from core.plan.plan import Plan
from core.plan.step import Attention, Step
from core.sheets import Act, Line, RunSheet, run_sheet
from core.timetable.on_paper import on_paper
from core.timetable.timetable import Timetable
from tests.core.sheets.feasts import HALL, HARVEST, WEEKNIGHT, counted_back, harvest
from tests.core.sheets.reading import on_the_wall
from tests.support.builders import a_bench, a_plan, a_step, at_oven, chained, hands_off
from tests.support.strategies import plans

FEASTS = {
    "harvest by hand": harvest,
    "harvest on paper": lambda: counted_back(HARVEST),
    "weeknight": lambda: counted_back(WEEKNIGHT),
    "hall": lambda: counted_back(HALL),
}


def lines_of(sheet: RunSheet) -> list[Line]:
    return [line for day in sheet.days for line in day.lines]


def require_every_load_once(plan: Plan, timetable: Timetable) -> RunSheet:
    sheet = run_sheet(plan, timetable, ())
    begins = [(line.step, line.load) for line in lines_of(sheet) if line.begins]
    assert Counter(begins) == Counter(placed.key for placed in timetable.placed)
    for day in sheet.days:
        for line in day.lines:
            at = on_the_wall(plan, line.at)
            assert at.date() == day.day
            assert line.clock.split()[0] == f"{at.hour:02}:{at.minute:02}"
            if line.begins:
                assert line.at == timetable.at[line.step, line.load].start
    require_nothing_twice(plan, timetable, lines_of(sheet))
    assert [day.day for day in sheet.days] == sorted({day.day for day in sheet.days})
    assert all(one.at <= other.at for one, other in pairwise(lines_of(sheet)))
    return sheet


def may_be_cut(step: Step) -> bool:
    return step.least_piece is not None and step.attention is Attention.HANDS_ON and step.hands == 1


def require_nothing_twice(plan: Plan, timetable: Timetable, lines: list[Line]) -> None:
    """Find each piece of a step that is done in pieces, each fire and each washing on one line of its own."""
    pieces = Counter(
        (placed.key, hand.start)
        for placed in timetable.placed
        if may_be_cut(plan.steps[placed.step]) and len(placed.hands) > 1
        for hand in placed.hands
    )
    cut = {key for key, _start in pieces}
    assert Counter(
        ((line.step, line.load), line.at)
        for line in lines
        if line.step is not None and (line.step, line.load) in cut and line.act in {Act.DO, Act.MORE}
    ) == pieces  # fmt: skip
    assert not [line for line in lines if line.act is Act.MORE and (line.step, line.load) not in cut]
    fires = Counter(
        (each.station, each.start)
        for each in timetable.heatings
        if plan.kitchen.station[each.station].is_fire and each.setting == 0
    )
    assert Counter((line.station, line.at) for line in lines if line.act is Act.LIGHT) == fires
    washed = Counter((each.vessel, each.start) for each in timetable.washings)
    assert Counter((line.vessel, line.at) for line in lines if line.act is Act.WASH) == washed
    assert not [line for line in lines if "to 0 °C" in line.does]


@pytest.mark.parametrize("name", FEASTS)
def test_the_demo_feasts(name: str) -> None:
    plan, timetable = FEASTS[name]()
    sheet = require_every_load_once(plan, timetable)
    assert sum(line.begins for line in lines_of(sheet)) == len(timetable.placed) >= 15


@settings(max_examples=60)
@given(plans())
def test_any_plan(plan: Plan) -> None:
    timetable = on_paper(plan)
    if timetable.placed:
        require_every_load_once(plan, timetable)


@pytest.mark.parametrize("name", FEASTS)
def test_every_hand_is_told(name: str) -> None:
    """Whoever the timetable asks for finds a line with their name in the minute in which it begins."""
    plan, timetable = FEASTS[name]()
    told = {
        (line.at, who) for line in lines_of(run_sheet(plan, timetable, ())) for who in line.who.split(", ")
    }
    asked = [(each.start, each.cook) for placed in timetable.placed for each in placed.hands]
    asked += [(each.start, each.cook) for each in timetable.heatings]
    asked += [(each.start, each.cook) for each in timetable.washings]
    assert len(asked) > 15
    for start, cook in asked:
        assert cook is not None
        assert (start, plan.kitchen.cook[CookId(cook)].name) in told


def test_nobody_is_told_two_things_at_once() -> None:
    plan, timetable = harvest()
    lines = lines_of(run_sheet(plan, timetable))
    for cook in plan.kitchen.cooks:
        busy = sorted(
            (line.at, line.at + line.minutes)
            for line in lines
            if line.minutes and cook.name in line.who.split(", ")
        )
        assert len(busy) > 5
        assert all(end <= start for (_, end), (start, _) in pairwise(busy)), cook.name


# ---- Sunday 25 October 2026 in London: at 02:00 BST the clocks go back to 01:00 GMT


def a_night_of_clock_change() -> tuple[Plan, Timetable]:
    steps = (
        hands_off("bread.prove", minutes=600),
        a_step("bread.shape", minutes=30),
        a_step("bread.slash", minutes=10),
        hands_off("bread.bake", minutes=40, uses=(at_oven(),)),
    )
    plan = a_bench(*steps, links=chained(*steps), plating="2026-10-25 13:00", zone="Europe/London")
    starts = {"bread.prove": -1350, "bread.shape": -750, "bread.slash": -690, "bread.bake": -60}
    timetable = on_paper(plan)
    moved = tuple(
        type(each)(each.step, starts[each.step], each.length, each.load, each.spots, each.setting, each.hands)
        for each in timetable.placed
    )
    return plan, Timetable(moved, (), timetable.heatings)


def test_across_the_clock_change_the_minutes_are_true() -> None:
    """Worked by hand from 13:00 GMT: less 1350 min is 14:30 UTC, 15:30 BST; less 750 it is 00:30 UTC, 01:30 BST;

    less 690 it is 01:30 UTC, which is 01:30 again, GMT.
    """
    plan, timetable = a_night_of_clock_change()
    sheet = require_every_load_once(plan, timetable)
    began = {line.step: (line.clock, line.tminus) for line in lines_of(sheet) if line.begins}
    assert began["bread.prove"] == ("15:30", "T-22:30")
    assert began["bread.shape"] == ("01:30 BST", "T-12:30")
    assert began["bread.slash"] == ("01:30 GMT", "T-11:30")
    assert began["bread.bake"] == ("12:00", "T-1:00")
    saturday, sunday = sheet.days
    assert (saturday.title, saturday.note) == ("Saturday 24 October", "")
    assert sunday.title == "Sunday 25 October"
    assert sunday.note.startswith("The clocks go back by 1 h on this day")


def test_the_plan_moved_to_another_sunday_has_other_clock_times() -> None:
    """A week later the same minutes before plating are an hour of the clock later in the night."""
    plan, timetable = a_night_of_clock_change()
    later = a_plan(*plan.menu.dishes, links=plan.menu.links, plating="2026-11-01 13:00", zone="Europe/London")
    sheet = require_every_load_once(later, timetable)
    began = {line.step: line.clock for line in lines_of(sheet) if line.begins}
    assert began["bread.shape"] == "00:30"
    assert began["bread.slash"] == "01:30"
    assert not any(day.note for day in sheet.days)


def test_the_spring_change() -> None:
    """Sunday 28 March 2027: 13:00 BST is 12:00 UTC; 660 min sooner is 01:00 UTC, which the clock shows as 02:00."""
    step = a_step("soup.boil", minutes=20)
    plan = a_bench(step, plating="2027-03-28 13:00", zone="Europe/London")
    made = on_paper(plan).placed[0]
    for start, clock in ((-660, "02:00"), (-661, "00:59")):
        moved = Timetable((type(made)(made.step, start, made.length, hands=made.hands),))
        sheet = require_every_load_once(plan, moved)
        assert next(line.clock for line in lines_of(sheet) if line.begins) == clock
        assert sheet.days[0].note.startswith("The clocks go forward by 1 h")


def test_serving_is_there_though_no_dish_is_served_then() -> None:
    plan, timetable = a_night_of_clock_change()
    assert Moment(datetime(2026, 10, 25, 13), "Europe/London") == plan.plating
    served = [line for line in lines_of(run_sheet(plan, timetable)) if line.act is Act.SERVE]
    assert [(line.clock, line.tminus) for line in served] == [("13:00", "T")]
