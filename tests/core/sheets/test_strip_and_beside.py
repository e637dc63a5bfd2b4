"""The day at one glance above the page, and what cooks beside the work: worked by hand on small plans."""

from __future__ import annotations

import io
from dataclasses import replace

import pytest
from pypdf import PdfReader

from core.plan.plan import Plan
from core.plan.step import Attention, Doneness
from core.sheets import Act, as_pdf, run_sheet
from core.sheets.beside import LANES
from core.sheets.strip import Bar, strip_of, together
from core.timetable.sweep import Level
from core.timetable.timetable import Timetable
from tests.core.sheets.feasts import HALL, counted_back, harvest
from tests.core.timetable.laid import at, heating, laid
from tests.support.builders import a_bench, a_dish, a_plan, a_step, at_oven, chained, hands_off


def a_bake_and_a_chop() -> tuple[Plan, Timetable]:
    done, oven = Doneness("", 74), (at_oven(180),)
    bake = a_step("roast.bake", "Roast", 60, attention=Attention.TENDED, uses=oven, doneness=done)
    chop = a_step("salad.chop", "Chop", 20)
    plan = a_plan(a_dish("roast", bake, name="Roast hen", code="R"), a_dish("salad", chop, name="Salad"))
    timetable = laid(
        plan,
        {"roast.bake": at("17:30"), "salad.chop": at("17:40")},
        heatings=[heating("oven", at("17:14"), at("17:30"), 180)],
    )
    return plan, timetable


def test_the_strip_runs_from_hour_to_hour_and_is_cut_to_shares() -> None:
    """Plated at 19:30: from 17:00 to 20:00; one of two racks from 17:30 to 18:30; one cook's hands."""
    plan, timetable = a_bake_and_a_chop()
    (day,) = run_sheet(plan, timetable, ()).days
    strip = day.strip
    assert strip is not None
    assert (strip.start, strip.end) == (at("17:00"), at("20:00"))
    assert [clock for _at, clock in strip.hours] == ["17:00", "18:00", "19:00", "20:00"]
    rows = {row.name: row.bars for row in strip.rows}
    assert rows["Oven"] == (Bar(at("17:30"), at("18:30"), 0.5, "180°"),)
    assert Bar(at("17:40"), at("18:00"), 1.0) in rows["Hands"]
    assert strip.serves == (0,)
    assert "Burners" not in rows


def test_curves_are_added() -> None:
    assert together([(Level(0, 10, 1),), (Level(5, 15, 2),)]) == (Level(0, 5, 1), Level(5, 10, 3), Level(10, 15, 2))


def test_a_strip_across_the_night_of_a_clock_change_marks_true_hours() -> None:
    """Sunday 25 October 2026, London: 01:00 comes twice, and is told apart."""
    step = a_step("soup.boil", minutes=200)
    plan = a_bench(step, plating="2026-10-25 03:00", zone="Europe/London")
    lines = tuple(line for day in run_sheet(plan, laid(plan, {"soup.boil": -210}), ()).days for line in day.lines)
    strip = strip_of(plan, laid(plan, {"soup.boil": -210}), lines)
    assert [clock for _at, clock in strip.hours] == ["00:00", "01 BST", "01 GMT", "02:00", "03:00"]


def test_what_is_in_the_oven_stands_beside_the_work() -> None:
    plan, timetable = a_bake_and_a_chop()
    (day,) = run_sheet(plan, timetable, ()).days
    told = [(line.act, line.heat) for line in day.lines]
    assert told == [
        (Act.ON, ("",)),
        (Act.IN, ("R",)),
        (Act.DO, ("R",)),
        (Act.OUT, ("",)),
        (Act.OFF, ("",)),
        (Act.SERVE, ("",)),
    ]


@pytest.mark.parametrize("feast", [harvest, lambda: counted_back(HALL)])
def test_whatever_cooks_by_itself_has_its_lane_from_in_to_out(feast: object) -> None:
    plan, timetable = feast()  # type: ignore[operator]
    lines = [line for day in run_sheet(plan, timetable, ()).days for line in day.lines]
    assert max(len(line.heat) for line in lines) <= LANES
    found = 0
    for number, line in enumerate(lines):
        if line.act is Act.IN and line.step is not None and line.code and "oven" in " ".join(line.details).casefold():
            ends = (Act.OUT, Act.READY)
            key = (line.step, line.load)
            out = next((n for n, each in enumerate(lines) if (each.step, each.load) == key and each.act in ends), None)
            if out is not None and all(len([mark for mark in each.heat if mark]) < LANES for each in lines[number:out]):
                assert all(line.code[:3] in each.heat for each in lines[number:out])
                found += 1
    assert found > 3


def test_the_probe_has_a_box_where_the_food_comes_out() -> None:
    plan, timetable = a_bake_and_a_chop()
    sheet = run_sheet(plan, timetable, ())
    probed = [(line.act, line.core) for day in sheet.days for line in day.lines if line.core is not None]
    assert probed == [(Act.OUT, 74)]
    (page,) = PdfReader(io.BytesIO(as_pdf(sheet))).pages
    assert "core 74 °C, read: °C" in " ".join(page.extract_text().split())


def test_what_waits_where_it_cooked_is_probed_when_it_is_done() -> None:
    """Nobody takes it out, so that a line of its own says when to read; the going in has no box any more."""
    done, oven = Doneness("", 74), (at_oven(180),)
    bake = hands_off("roast.bake", 60, uses=oven, doneness=done)
    stand = hands_off("roast.stand", 20, uses=oven)
    plan = a_plan(a_dish("roast", bake, stand, name="Roast hen", code="R"), links=chained(bake, stand))
    timetable = laid(
        plan,
        {"roast.bake": at("17:30"), "roast.stand": at("18:30")},
        heatings=[heating("oven", at("17:14"), at("17:30"), 180)],
    )
    lines = [line for day in run_sheet(plan, timetable, ()).days for line in day.lines]
    told = [(line.clock, line.act, line.core) for line in lines if line.step == "roast.bake"]
    assert told == [("17:30", Act.IN, None), ("18:30", Act.READY, 74)]
    bare = replace(bake, doneness=Doneness("golden"))
    plan = a_plan(a_dish("roast", bare, stand, name="Roast hen", code="R"), links=chained(bare, stand))
    lines = [line for day in run_sheet(plan, timetable, ()).days for line in day.lines]
    assert [line.act for line in lines if line.step == "roast.bake"] == [Act.IN], "without a probe nobody need come"
