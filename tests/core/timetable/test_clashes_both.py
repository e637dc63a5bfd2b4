"""Stations of one appliance are never used or heated in the same minute."""

from dataclasses import replace

import pytest

from core.plan.ids import StationId
from core.plan.kitchen import Heater
from core.plan.step import Wait
from core.timetable.clash import ClashKind
from core.timetable.clashes import clashes
from tests.core.timetable.laid import at, heating, laid, the_clash, told
from tests.support.builders import (
    a_dish,
    a_grill,
    a_kitchen,
    a_link,
    a_plan,
    a_use,
    an_oven,
    at_oven,
    hands_off,
)

OVEN, GRILL = StationId("oven"), StationId("grill")


def supper(naming: str = "oven", from_cold=(), **grill):
    """Tart in the oven, toast under its grill, half an hour each."""
    oven = an_oven(heater=Heater(from_cold=from_cold))
    over = replace(a_grill(), place="kitchen", **grill)
    if naming in {"oven", "both"}:
        oven = replace(oven, not_with=(GRILL, StationId("kiln")))
    if naming in {"grill", "both"}:
        over = replace(over, not_with=(OVEN,))
    tart = a_dish("tart", hands_off("tart.bake", 30, uses=(at_oven(180),)))
    toast = a_dish("toast", hands_off("toast.brown", 30, uses=(a_use("grill"),)))
    return a_plan(tart, toast, kitchen=a_kitchen(stations=(oven, over)))


@pytest.mark.parametrize("naming", ["oven", "grill", "both"])
def test_one_after_the_other(naming):
    plan = supper(naming)
    for toast in ("18:30", "17:30"):
        assert not clashes(plan, laid(plan, {"tart.bake": at("18:00"), "toast.brown": at(toast)}))
    clash = the_clash(plan, laid(plan, {"tart.bake": at("18:00"), "toast.brown": at("18:29")}))
    assert told(clash) == (ClashKind.NOT_BOTH, at("18:29"), at("18:30"), 1)
    assert (clash.steps, clash.stations) == (("tart.bake", "toast.brown"), ("oven", "grill"))
    assert clash.sentence == (
        "The oven and the grill cannot be used at once: from 18:29 to 18:30 the oven has Tart: Bake and the grill has"
        " Toast: Brown. Move one of them by 1 min."
    )
    clash = the_clash(plan, laid(plan, {"tart.bake": at("18:00"), "toast.brown": at("17:31")}))
    assert told(clash) == (ClashKind.NOT_BOTH, at("18:00"), at("18:01"), 1)


def test_stations_that_do_not_name_each_other_are_used_at_once():
    plan = supper("neither")
    assert not clashes(plan, laid(plan, {"tart.bake": at("18:00"), "toast.brown": at("18:00")}))


def test_heating_up_counts_as_use():
    plan = supper(from_cold=((180, 20),))
    on = [heating("oven", at("17:40"), at("18:00"), 180)]
    assert not clashes(plan, laid(plan, {"tart.bake": at("18:00"), "toast.brown": at("17:10")}, heatings=on))
    clash = the_clash(plan, laid(plan, {"tart.bake": at("18:00"), "toast.brown": at("17:11")}, heatings=on))
    assert told(clash) == (ClashKind.NOT_BOTH, at("17:40"), at("17:41"), 1)
    assert "the oven has to heat up and the grill has Toast: Brown" in clash.sentence
    assert clash.steps == ("tart.bake", "toast.brown")


def test_lighting_counts_as_use_and_burning_alone_does_not():
    plan = supper(lighting=25, burns=300)
    fire = [heating("grill", at("17:05"), at("17:30"), 0)]
    good = {"tart.bake": at("16:35"), "toast.brown": at("18:30")}
    assert not clashes(plan, laid(plan, good, heatings=fire))
    assert not clashes(plan, laid(plan, {**good, "tart.bake": at("18:00")}, heatings=fire))
    clash = the_clash(plan, laid(plan, {**good, "tart.bake": at("16:36")}, heatings=fire))
    assert (told(clash), clash.steps) == (
        (ClashKind.NOT_BOTH, at("17:05"), at("17:06"), 1),
        ("tart.bake", "toast.brown"),
    )
    assert "the grill has to be lit" in clash.sentence


def test_food_that_waits_there_counts():
    plan = supper()
    cut = hands_off("toast.cut", 5)
    toast = replace(plan.menu.dishes[1], steps=(*plan.menu.dishes[1].steps, cut))
    link = a_link("toast.brown", "toast.cut", wait=Wait(use=a_use("grill")))
    menu = replace(plan.menu, dishes=(plan.menu.dishes[0], toast), links=(link,))
    plan = replace(plan, menu=menu)
    starts = {"toast.brown": at("17:00"), "toast.cut": at("18:00"), "tart.bake": at("18:00")}
    assert not clashes(plan, laid(plan, starts))
    clash = the_clash(plan, laid(plan, {**starts, "toast.cut": at("18:01")}))
    assert (clash.kind, clash.by, clash.steps) == (
        ClashKind.NOT_BOTH,
        1,
        ("tart.bake", "toast.brown", "toast.cut"),
    )
