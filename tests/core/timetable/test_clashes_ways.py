"""Ways: each step is done in one way that the plan leaves open, with that way's length, places, heat and transfers."""

from dataclasses import replace

import pytest

from core.plan.decisions import Choice
from core.plan.step import Alternative, Attention, Loads, Manner, Span
from core.timetable.clash import ClashKind
from core.timetable.clashes import clashes
from tests.core.timetable.laid import at, laid, the_clash, told
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

SLOW = Alternative("slow", Span.of(65), (a_use("grill"),))
LEG = hands_off("leg.roast", 45, uses=(a_use("burner"),), alternatives=(SLOW,))


def test_what_is_open_may_be_done_in_any_way():
    plan = a_plan(a_dish("leg", LEG))
    assert not clashes(plan, laid(plan, {"leg.roast": at("18:00")}))
    assert not clashes(plan, laid(plan, {"leg.roast": at("18:00")}, ways={"leg.roast": 1}))


def test_a_way_has_its_own_length_and_places():
    plan = a_plan(a_dish("leg", LEG))
    slow = laid(plan, {"leg.roast": at("18:00")}, ways={"leg.roast": 1})
    load = slow.placed[0]
    clash = the_clash(plan, replace(slow, placed=(replace(load, length=64),)))
    assert told(clash) == (ClashKind.LENGTH, at("19:04"), at("19:05"), 1)
    assert clash.sentence == "Leg: Roast is given 1 h 4 min and needs 1 h 5 min."
    found = clashes(plan, replace(slow, placed=(replace(load, way=0),)))
    assert [each.sentence for each in found] == [
        "Leg: Roast stands on the grill and needs a burner.",
        "Leg: Roast is given 1 h 5 min and needs 45 min.",
    ]


def test_what_is_chosen_is_the_only_way():
    for way, words in (
        (1, "Leg: Roast is done as written; you chose to do it the way “slow”."),
        (0, "Leg: Roast is done the way “slow”; you chose to do it as written."),
    ):
        plan = a_plan(a_dish("leg", LEG), choices=(Choice(LEG.id, way),))
        assert not clashes(plan, laid(plan, {"leg.roast": at("18:00")}))
        other = laid(plan, {"leg.roast": at("18:00")}, ways={"leg.roast": 1 - way})
        clash = the_clash(plan, other)
        assert (clash.kind, clash.start, clash.sentence) == (ClashKind.WRONG_PLACE, at("18:00"), words)


@pytest.mark.parametrize("way", [-1, 2, 10**9])
def test_a_way_that_there_is_not_is_told(way):
    plan = a_plan(a_dish("leg", LEG))
    good = laid(plan, {"leg.roast": at("18:00")})
    clash = the_clash(plan, replace(good, placed=(replace(good.placed[0], way=way),)))
    assert (clash.kind, clash.sentence) == (
        ClashKind.WRONG_PLACE,
        f"Leg: Roast is done in way {way} besides the written one, and has 1 other way.",
    )
    plain = a_plan(a_dish("leg", hands_off("leg.roast", 45)))
    good = laid(plain, {"leg.roast": at("18:00")})
    clash = the_clash(plain, replace(good, placed=(replace(good.placed[0], way=way),)))
    assert clash.sentence == f"Leg: Roast is done in way {way} besides the written one, and has no other way."


def test_all_loads_are_done_in_one_way():
    step = hands_off("leg.roast", 45, loads=Loads(2, 1), alternatives=(Alternative("", Span.of(45)),))
    plan = a_plan(a_dish("leg", step))
    good = laid(plan, {"leg.roast": [at("17:00"), at("18:00")]}, ways={"leg.roast": 1})
    assert not clashes(plan, good)
    first, second = good.placed
    clash = the_clash(plan, replace(good, placed=(first, replace(second, way=0))))
    assert (clash.kind, clash.start) == (ClashKind.WRONG_PLACE, at("18:00"))
    assert clash.sentence == (
        "Load 2 of Leg: Roast is done as written, the first load the other way, number 1; all loads of a step are done"
        " in one way."
    )


def test_transfers_and_heat_are_those_of_the_way():
    oven = Alternative("in the oven", Span.of(30), (at_oven(180),))
    step = a_step("leg.roast", minutes=30, attention=Attention.HANDS_OFF, alternatives=(oven,))
    kitchen = a_kitchen(oven=an_oven(heater=None))
    plan = a_plan(a_dish("leg", step), kitchen=kitchen)
    counter, oven_way = (laid(plan, {"leg.roast": at("18:00")}, ways={"leg.roast": way}) for way in (0, 1))
    assert [len(each.placed[0].hands) for each in (counter, oven_way)] == [0, 2]
    assert not clashes(plan, counter)
    assert not clashes(plan, oven_way)
    nobody = replace(oven_way, placed=(replace(oven_way.placed[0], hands=()),))
    assert [each.sentence for each in clashes(plan, nobody)] == [
        "Nobody is found for Leg: Roast (in) from 18:00 to 18:01.",
        "Nobody is found for Leg: Roast (out) from 18:29 to 18:30.",
    ]


def test_how_early_the_food_may_be_done_is_the_ways():
    spread = Alternative("by feel", Span(40, 50, 60))
    step = hands_off("leg.roast", 45, alternatives=(spread,))
    carve = hands_off("leg.carve", 10)
    plan = a_plan(
        a_dish("leg", step, carve), links=(a_link("leg.roast", "leg.carve", 0, 30),), manner=Manner.SAFE
    )
    written = {"leg.roast": at("18:00"), "leg.carve": at("19:15")}  # done at 18:45
    assert not clashes(plan, laid(plan, written))
    clash = the_clash(plan, laid(plan, {**written, "leg.carve": at("19:16")}))
    assert (clash.kind, clash.by) == (ClashKind.WAITED_TOO_LONG, 1)
    # the other way takes 60, and may be done after 40: 18:40
    felt = {"leg.roast": 1}
    assert not clashes(plan, laid(plan, {**written, "leg.carve": at("19:10")}, ways=felt))
    clash = the_clash(plan, laid(plan, {**written, "leg.carve": at("19:11")}, ways=felt))
    assert (clash.kind, clash.by) == (ClashKind.WAITED_TOO_LONG, 1)
