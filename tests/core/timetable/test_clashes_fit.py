"""Vessels and places: a load that stands where its vessel does not go is a clash, by size and by what is told."""

from dataclasses import replace

import pytest

from core.arrange import Effort, Fit, arrange
from core.plan.day import Day, Fact, State
from core.plan.step import Loads, VesselUse
from core.timetable.clash import ClashKind
from core.timetable.clashes import Checker, clashes
from core.timetable.on_paper import on_paper
from tests.core.timetable.laid import at, laid, spot, the_clash, told
from tests.support.builders import a_bench, a_kitchen, a_use, a_vessel, an_oven, burners, hands_off

SMALL = an_oven("small", name="Small oven", heater=None, wide=46, deep=38)
BIG = an_oven("big", name="Big oven", heater=None, wide=66, deep=46)
FULL = a_vessel("sheet", name="Full sheet", size="65x45 cm", washing=0)


def baked(vessel=FULL, **fields):
    step = hands_off("tart.bake", 30, uses=(a_use("oven"),), vessels=(VesselUse(vessel.id),), **fields)
    return a_bench(step, kitchen=a_kitchen(stations=(SMALL, BIG), vessels=(vessel,)))


def timetable(plan, station, start="19:00"):
    made = laid(plan, {"tart.bake": at(start)})
    return replace(made, placed=tuple(replace(each, spots=(spot(station),)) for each in made.placed))


def test_a_sheet_in_an_oven_too_small_for_it_is_a_clash():
    plan = baked()
    assert not clashes(plan, timetable(plan, "big"))
    clash = the_clash(plan, timetable(plan, "small"))
    assert told(clash) == (ClashKind.WRONG_PLACE, at("19:00"), at("19:30"), 0)
    assert (clash.steps, clash.stations, clash.vessels) == (("tart.bake",), ("small",), ("sheet",))
    assert clash.sentence == (
        "Tart: Bake stands in Small oven, which is 46x38 cm inside, and Full sheet (65x45 cm) does not fit there;"
        " put it elsewhere, or use another vessel."
    )


@pytest.mark.parametrize(
    ("size", "fit"), [("46x38 cm", True), ("38x46 cm", True), ("47x38 cm", False), ("46x39 cm", False)]
)
def test_a_centimetre_to_either_side_decides(size, fit):
    plan = baked(replace(FULL, size=size))
    assert bool(clashes(plan, timetable(plan, "small"))) is not fit


def test_what_is_told_goes_before_the_sizes():
    plan = baked(replace(FULL, fits=("small",)))
    assert not clashes(plan, timetable(plan, "small"))
    clash = the_clash(plan, timetable(plan, "big"))
    assert clash.sentence.startswith("Tart: Bake stands in Big oven, and Full sheet (65x45 cm) does not fit there;")


def test_only_the_steps_asked_about_are_judged_and_what_has_gone_by_is_not():
    plan = baked()
    wrong = timetable(plan, "small")
    assert Checker(plan).clashes(wrong, {"tart.bake"}) == clashes(plan, wrong)
    day = Day(at("19:30"), (Fact("tart.bake", State.DONE, at("19:00"), at("19:30")),))
    assert not clashes(plan, wrong, day=day)
    assert clashes(plan, wrong, day=replace(day, now=at("19:29"), facts=()))


def test_a_pan_on_the_ring_beside_a_sheet_in_the_oven():
    one, two = burners(2)
    pan = a_vessel("pan", fits=("burner-2",), washing=0)
    step = hands_off(
        "tart.bake", 30, uses=(a_use("burner"), a_use("oven")), vessels=(VesselUse("pan"), VesselUse("sheet"))
    )
    sheet = replace(FULL, fits=("big",))
    plan = a_bench(step, kitchen=a_kitchen(stations=(one, two, SMALL, BIG), vessels=(pan, sheet)))
    made = laid(plan, {"tart.bake": at("19:00")})

    def on(*stations):
        return replace(made, placed=(replace(made.placed[0], spots=tuple(spot(each) for each in stations)),))

    assert not clashes(plan, on("burner-2", "big"))
    assert [each.vessels for each in clashes(plan, on("burner-1", "big"))] == [("pan",)]
    assert [each.vessels for each in clashes(plan, on("burner-2", "small"))] == [("sheet",)]
    assert len(clashes(plan, on("burner-1", "small"))) == 2


def test_neither_arranging_nor_counting_back_on_paper_puts_it_where_it_does_not_fit():
    plan = baked(loads=Loads(8, 4))
    for made in (arrange(plan, Effort(work=0.5)).timetable, on_paper(plan)):
        assert {each.station for one in made.placed for each in one.spots} == {"big"}
    assert arrange(plan, Effort(work=0.5)).fit is Fit.MEETS
