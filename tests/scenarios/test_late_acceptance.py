"""Acceptance scenarios of late guests and of a roast that is behind, and of lengths that vary (F1, F7, F15, F16)."""

from dataclasses import replace

import pytest

from core.arrange.chances import chances
from core.arrange.late_guests import guests_late, how_late
from core.arrange.late_offers import OfferKind
from core.arrange.late_played import played
from core.plan.day import Day, Fact, State
from core.plan.ids import StepId
from core.plan.kitchen import Station, StationKind
from core.plan.step import Alternative, Keep, Manner, Span
from tests.core.timetable.laid import at, laid
from tests.support.builders import (
    a_dish,
    a_kitchen,
    a_link,
    a_plan,
    a_step,
    a_use,
    an_oven,
    at_oven,
    hands_off,
)

BOX = Station("box", "Insulated box", StationKind.HOT_BOX)


# ---------------------------------------------------------------- F15, Signal House


def signal_house():
    """Return plan and timetable of 19:30, as they stand at 18:40."""
    box = Alternative("in the insulated box", Span(20, 45, 75), (a_use(StationKind.HOT_BOX),))
    dishes = (
        a_dish(
            "pork",
            hands_off("pork.roast", 95, uses=(at_oven(160),)),
            hands_off("pork.rest", (15, 15, 45), alternatives=(box,)),
            a_step("pork.carve", minutes=10),
            keep=Keep(0),
        ),
        a_dish("gratin", hands_off("gratin.bake", 70, uses=(at_oven(160),)), keep=Keep(60)),
        a_dish("squash", hands_off("squash.roast", 35, uses=(at_oven(210, units=2),)), keep=Keep(20)),
        a_dish("fritters", a_step("fritters.fry", minutes=11, uses=(a_use(StationKind.BURNER),)), keep=Keep(8)),
        a_dish("beans", a_step("beans.finish", minutes=5, uses=(a_use(StationKind.BURNER),)), keep=Keep(5)),
        a_dish("trout", a_step("trout.slice", minutes=20), keep=Keep(180)),
    )
    links = (a_link("pork.roast", "pork.rest", 0, 0), a_link("pork.rest", "pork.carve", 0, 45))
    kitchen = a_kitchen(BOX, oven=an_oven(racks=2), cooks=3)
    plan = a_plan(*dishes, links=links, kitchen=kitchen, manner=Manner.LIKELY, plating="2026-09-26 19:30")
    starts = {
        "pork.roast": at("17:00"),
        "pork.rest": at("18:35"),
        "pork.carve": at("19:20"),
        "gratin.bake": at("17:30"),
        "squash.roast": at("18:50"),
        "fritters.fry": at("19:15"),
        "beans.finish": at("19:25"),
        "trout.slice": at("17:30"),
    }
    cooks = {"pork.carve": "ann", "fritters.fry": "ben", "beans.finish": "cat", "trout.slice": "ben"}
    oven = dict.fromkeys(("pork.roast", "gratin.bake", "squash.roast"))
    return plan, laid(plan, starts, cooks={**oven, **cooks})


def test_signal_house_guests_thirty_minutes_late():
    plan, timetable = signal_house()
    value = guests_late(plan, timetable, at("18:40"), 30)
    moved = {each.step: each.start for each in value.moved}
    assert moved == {
        "squash.roast": at("19:20"),
        "fritters.fry": at("19:45"),
        "beans.finish": at("19:55"),
        "pork.carve": at("19:50"),
    }
    over = {each.step: each for each in value.over}
    assert set(over) == {"pork.rest", "gratin.bake"}
    rest, gratin = over["pork.rest"], over["gratin.bake"]
    assert (rest.until, rest.by) == (at("19:35"), 15)
    assert (gratin.until, gratin.by) == (at("19:40"), 20)
    box = rest.offers[0]
    assert (box.kind, box.station, box.until, box.enough) == (OfferKind.WAY, "box", at("20:05"), True)
    offered = {(each.kind, each.station) for each in gratin.offers}
    assert (OfferKind.HOT_PLACE, "box") in offered  # "back into the oven or box it": the oven is full of squash
    assert (OfferKind.WARM_AGAIN, "oven") not in offered
    assert value.held == ()
    done = {each.key for each in timetable.placed if each.end <= at("18:40")}
    assert done.isdisjoint((each.step, each.load) for each in value.moved)


def test_signal_house_told_for_how_long_it_can_stand():
    """Gratin 60 less 50; pork 60 less 45; trout 180 less 100; nothing else has begun."""
    value = how_late(*signal_house(), at("18:40"))
    found = {each.dish: each.minutes for each in value.dishes}
    assert found == {
        "gratin": 10,
        "pork": 15,
        "trout": 80,
        "squash": None,
        "fritters": None,
        "beans": None,
    }
    assert value.minutes == 10


# ---------------------------------------------------------------- F16, Copper Beech


def copper_beech():
    dishes = (
        a_dish(
            "roast",
            hands_off("roast.bake", 95, uses=(at_oven(160),)),
            hands_off("roast.rest", (20, 20, 30)),
            a_step("roast.carve", minutes=10),
        ),
        a_dish("squash", hands_off("squash.roast", 35, uses=(at_oven(210, units=2),))),
    )
    links = (a_link("roast.bake", "roast.rest", 0, 0), a_link("roast.rest", "roast.carve"))
    oven = an_oven(racks=2)
    oven = replace(oven, heater=replace(oven.heater, up=6.25))  # 160 to 210 in 8 min
    plan = a_plan(*dishes, links=links, kitchen=a_kitchen(oven=oven), manner=Manner.LIKELY)
    starts = {
        "roast.bake": at("17:05"),
        "roast.rest": at("18:40"),
        "roast.carve": at("19:20"),
        "squash.roast": at("18:50"),
    }
    return plan, laid(plan, starts, cooks={"roast.bake": None, "squash.roast": None})


def test_copper_beech_the_roast_is_behind():
    """12 degrees at half a degree a minute from 18:35: out 18:59."""
    facts = (Fact(StepId("roast.bake"), State.UNDER_WAY, at("17:05"), at("18:59")),)
    day = played(*copper_beech(), {}, day=Day(at("18:35"), facts))
    carve, squash = day.at(StepId("roast.carve")), day.at(StepId("squash.roast"))
    assert (carve.start, carve.end) == (at("19:20"), at("19:30"))  # as planned; from 19:19 it could be
    assert (squash.start, squash.end) == (at("19:07"), at("19:42"))
    assert (day.late, day.dish) == (12, "squash")
    assert [each.step for each in day.chain] == ["roast.bake", "squash.roast"]


# ---------------------------------------------------------------- F1 and F7: what a wait can absorb


def test_ash_lane_the_rest_covers_a_quick_roast():
    """Lamb 80/90/105, in at 16:45 by the high length; carve 18:50. Rest 20 to 60."""
    roast = hands_off("lamb.roast", (80, 90, 105), uses=(at_oven(180),))
    dish = a_dish("lamb", roast, a_step("lamb.carve", minutes=10))
    plan = a_plan(dish, links=(a_link("lamb.roast", "lamb.carve", 20, 60),), plating="2026-09-26 19:00")
    timetable = laid(plan, {"lamb.roast": -135, "lamb.carve": -10}, cooks={"lamb.roast": None})
    value = chances(plan, timetable)
    assert (value.on_time, value.limits) == (1, ())


@pytest.mark.parametrize("manner", list(Manner))
def test_priory_road_guests_wait_for_the_souffle(manner):
    """22/25/28 and good for 2 min: ready between 18:57 and 19:03, and 19:00 sharp on half of the days only."""
    dish = a_dish("souffle", hands_off("souffle.bake", (22, 25, 28), uses=(at_oven(190),)), keep=Keep(2))
    plan = a_plan(dish, plating="2026-09-26 19:00", manner=manner)
    value = chances(plan, laid(plan, {"souffle.bake": -25}, cooks={"souffle.bake": None}))
    (serving,) = value.servings
    assert -3 <= serving.p10 < 0 < serving.p90 <= 3
    assert 0.5 < value.on_time < 0.75
    assert value.nearly == 1


def test_priory_road_the_braise_waits_for_the_guests():
    dish = a_dish("braise", hands_off("braise.oven", (150, 180, 240), uses=(at_oven(150),)), keep=Keep(120))
    plan = a_plan(dish, plating="2026-09-26 19:00")
    value = chances(plan, laid(plan, {"braise.oven": -240}, cooks={"braise.oven": None}))
    assert (value.on_time, value.limits) == (1, ())
    (serving,) = value.servings
    assert serving.p50 == pytest.approx(-55, abs=4)  # expected at 18:00, three-point mean 185 min
