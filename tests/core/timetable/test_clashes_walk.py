"""Walks: a cook needs the walk between hands in two places, whatever else is done on the way."""

from dataclasses import replace

import pytest

from core.plan.kitchen import Heater
from core.plan.step import Attention, Touch, VesselUse
from core.timetable.clash import ClashKind
from core.timetable.clashes import clashes
from tests.core.timetable.laid import at, heating, laid, spot, the_clash, told, washing
from tests.support.builders import (
    a_dish,
    a_fire,
    a_kitchen,
    a_plan,
    a_step,
    a_use,
    a_vessel,
    an_oven,
    at_oven,
    hands_off,
)


def feast(*more, walk: int = 3, cooks: int = 1, vessels=(), **fields):
    """Leeks on the terrace, soup in the kitchen, cream anywhere: ten minutes of hands each."""
    dishes = (
        a_dish("leeks", a_step("leeks.grill", minutes=10, uses=(a_use("grill"),))),
        a_dish("soup", a_step("soup.stir", minutes=10, uses=(a_use("burner"),))),
        a_dish("cream", a_step("cream.whip", minutes=10)),
    )
    kitchen = replace(a_kitchen(cooks=cooks, vessels=vessels, **fields), walk=walk)
    return a_plan(*dishes, *more, kitchen=kitchen)


LEEKS = {"leeks.grill": at("18:00"), "cream.whip": at("17:30")}


def test_the_walk_lies_between_two_places():
    plan = feast()
    for soup in (at("18:13"), at("17:47")):
        assert not clashes(plan, laid(plan, {**LEEKS, "soup.stir": soup}))
    clash = the_clash(plan, laid(plan, {**LEEKS, "soup.stir": at("18:12")}))
    assert told(clash) == (ClashKind.NO_WALK, at("18:12"), at("18:13"), 1)
    assert (clash.steps, clash.cooks) == (("leeks.grill", "soup.stir"), ("ann",))
    assert clash.sentence == (
        "Ann has 2 min between Leeks: Grill (terrace, until 18:10) and Soup: Stir (kitchen, from 18:12); the walk takes"
        " 3: begin there at 18:13, or let somebody else."
    )
    clash = the_clash(plan, laid(plan, {**LEEKS, "soup.stir": at("17:48")}))
    assert told(clash) == (ClashKind.NO_WALK, at("18:00"), at("18:01"), 1)
    assert the_clash(plan, laid(plan, {**LEEKS, "soup.stir": at("18:10")})).by == 3


def test_hands_that_overlap_are_two_things_at_once_and_no_walk():
    plan = feast()
    clash = the_clash(plan, laid(plan, {**LEEKS, "soup.stir": at("18:09")}))
    assert told(clash) == (ClashKind.HANDS_SHORT, at("18:09"), at("18:10"), 1)


@pytest.mark.parametrize(("walk", "places"), [(0, "terrace"), (3, "kitchen")])
def test_there_is_no_walk_where_there_is_none(walk, places):
    plan = feast(walk=walk)
    stations = plan.kitchen.stations
    stations = tuple(replace(each, place=places) if each.id == "grill" else each for each in stations)
    plan = replace(plan, kitchen=replace(plan.kitchen, stations=stations))
    assert not clashes(plan, laid(plan, {**LEEKS, "soup.stir": at("18:10")}))


def test_two_cooks_need_not_walk():
    plan = feast(cooks=2)
    both = {**LEEKS, "soup.stir": at("18:10")}
    assert not clashes(plan, laid(plan, both, cooks={"soup.stir": "ben"}))
    assert the_clash(plan, laid(plan, both)).kind is ClashKind.NO_WALK


def test_work_in_no_place_is_no_way():
    plan = feast()
    between = {"leeks.grill": at("18:00"), "cream.whip": at("18:10"), "soup.stir": at("18:20")}
    assert not clashes(plan, laid(plan, between))  # the ten minutes are long enough for the walk
    short = {**between, "cream.whip": at("18:10")}
    plan = feast(walk=12)
    clash = the_clash(plan, laid(plan, short))
    assert (clash.kind, clash.by, clash.steps) == (ClashKind.NO_WALK, 2, ("leeks.grill", "soup.stir"))


def test_touches_walk_too_and_the_first_spot_says_where():
    tended = a_step("pan.fry", minutes=30, attention=Attention.TENDED, touches=(Touch(12, 2, "turn"),),
                    uses=(a_use("burner"), a_use("grill")), put_in=0, take_out=0)  # fmt: skip
    plan = feast(a_dish("pan", tended))
    starts = {**LEEKS, "soup.stir": at("16:00"), "pan.fry": at("18:01")}  # turned from 18:13 to 18:15
    assert not clashes(plan, laid(plan, starts))
    clash = the_clash(plan, laid(plan, {**starts, "pan.fry": at("18:00")}))
    assert "Pan: Fry (turn) (kitchen, from 18:12)" in clash.sentence
    swapped = replace(plan, menu=replace(plan.menu, dishes=(*plan.menu.dishes[:3], a_dish("pan", replace(
        tended, uses=tended.uses[::-1])))))  # fmt: skip
    assert not clashes(swapped, laid(swapped, {**starts, "pan.fry": at("18:00")}))


def test_switching_on_and_lighting_are_in_their_stations_place():
    tart = a_dish("tart", hands_off("tart.bake", 30, uses=(at_oven(180),)))
    oven = an_oven(heater=Heater(from_cold=((180, 20),)))
    plan = feast(tart, oven=oven)
    starts = {**LEEKS, "soup.stir": at("16:00"), "tart.bake": at("18:33")}
    good = laid(plan, starts, heatings=[heating("oven", at("18:13"), at("18:33"), 180)])
    assert not clashes(plan, good)
    early = laid(
        plan, {**starts, "tart.bake": at("18:32")}, heatings=[heating("oven", at("18:12"), at("18:32"), 180)]
    )
    assert "switching on the oven (kitchen, from 18:12)" in the_clash(plan, early).sentence
    fire = replace(plan, kitchen=replace(plan.kitchen, stations=(*plan.kitchen.stations[:-2], a_fire())))
    soup = {
        "soup.stir": at("17:00"),
        "cream.whip": at("16:00"),
        "leeks.grill": at("17:38"),
        "tart.bake": at("19:00"),
    }
    oven_on = heating("oven", at("18:30"), at("19:00"), 180)
    lit = laid(fire, soup, heatings=[heating("grill", at("17:13"), at("17:38"), 0), oven_on])
    assert not clashes(fire, lit)
    sooner = {**soup, "leeks.grill": at("17:37")}
    clash = the_clash(
        fire, laid(fire, sooner, heatings=[heating("grill", at("17:12"), at("17:37"), 0), oven_on])
    )
    assert "lighting the grill (terrace, from 17:12)" in clash.sentence
    assert clash.steps == ("soup.stir", "leeks.grill")


def test_washing_up_has_no_place():
    pot = (VesselUse(a_vessel("pot").id),)
    stew = (hands_off("stew.braise", 10, vessels=pot), hands_off("stew.reheat", 10, vessels=pot))
    plan = feast(a_dish("stew", *stew), vessels=(a_vessel("pot"),))
    starts = {
        "leeks.grill": at("18:00"), "soup.stir": at("18:18"), "cream.whip": at("16:00"),
        "stew.braise": at("18:00"), "stew.reheat": at("18:30")}  # fmt: skip
    wash = [washing("pot", at("18:11"), "stew.braise")]
    assert not clashes(plan, laid(plan, starts, washings=wash))
    clash = the_clash(plan, laid(plan, {**starts, "soup.stir": at("18:12")}, washings=[
        washing("pot", at("18:22"), "stew.braise")]))  # fmt: skip
    assert clash.kind is ClashKind.NO_WALK


def test_several_short_ways_are_each_told():
    plan = feast(a_dish("sauce", a_step("sauce.stir", minutes=2, uses=(a_use("burner"),))))
    starts = {**LEEKS, "sauce.stir": at("17:57"), "soup.stir": at("18:11")}
    found = clashes(plan, laid(plan, starts))
    assert [(told(each), each.steps) for each in found] == [
        ((ClashKind.NO_WALK, at("18:00"), at("18:02"), 2), ("sauce.stir", "leeks.grill")),
        ((ClashKind.NO_WALK, at("18:11"), at("18:13"), 2), ("leeks.grill", "soup.stir")),
    ]
    for step in plan.steps:
        own = tuple(each for each in found if step in each.steps)
        assert clashes(plan, laid(plan, starts), [step]) == own


def test_a_spot_that_is_not_there_is_no_place():
    plan = feast()
    found = clashes(
        plan, laid(plan, {**LEEKS, "soup.stir": at("18:10")}, spots={"soup.stir": [spot("kiln")]})
    )
    assert [each.kind for each in found] == [ClashKind.WRONG_PLACE]
