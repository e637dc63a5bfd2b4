"""Fires: lit for as long as it takes, by somebody, not too often, and burning during every use."""

from dataclasses import replace

import pytest

from core.plan.kitchen import Heater, Window
from core.plan.step import Loads, Wait
from core.timetable.clash import ClashKind
from core.timetable.clashes import clashes
from core.timetable.facts import FAR
from tests.core.timetable.laid import at, heating, laid, spot, the_clash, told
from tests.support.builders import (
    a_cook,
    a_dish,
    a_fire,
    a_heat,
    a_kitchen,
    a_link,
    a_plan,
    a_step,
    a_use,
    hands_off,
)


def grilled(*more, minutes: int = 30, cooks=1, units: int = 8, **fire):
    """Chops grilled for half an hour on a fire that takes 25 to light, 5 of them a cook, and burns for 60."""
    chops = hands_off("chops.grill", minutes, uses=(a_use("grill", units),))
    kitchen = a_kitchen(stations=(a_fire(**fire),), cooks=cooks)
    return a_plan(a_dish("chops", chops, course=300), *more, kitchen=kitchen)


def lit(plan, *fires, **starts):
    where = {key.replace("_", "."): at(start) for key, start in starts.items()}
    return laid(plan, where, heatings=fires)


def fire(start: str, end: str, cook: str | None = "ann"):
    return heating("grill", at(start), at(end), 0, cook)


FIRE = fire("17:00", "17:25")  # burns until 18:25


def test_the_whole_use_lies_in_its_burning():
    plan = grilled()
    assert not clashes(plan, lit(plan, FIRE, chops_grill="17:25"))
    assert not clashes(plan, lit(plan, FIRE, chops_grill="17:55"))
    clash = the_clash(plan, lit(plan, FIRE, chops_grill="17:24"))
    assert told(clash) == (ClashKind.NO_FIRE, at("17:24"), at("17:25"), 1)
    assert (clash.steps, clash.stations) == (("chops.grill",), ("grill",))
    assert clash.sentence == (
        "Chops: Grill is on the grill from 17:24, and the fire is ready at 17:25, 1 min later. Light it by 16:59."
    )
    clash = the_clash(plan, lit(plan, FIRE, chops_grill="17:56"))
    assert told(clash) == (ClashKind.NO_FIRE, at("18:25"), at("18:26"), 1)
    assert clash.sentence == (
        "Chops: Grill is on the grill until 18:26, and the fire burns out at 18:25: 1 min without a fire."
        " Light another by 18:00."
    )


def test_without_a_fire_nothing_cooks():
    plan = grilled()
    clash = the_clash(plan, lit(plan, chops_grill="17:30"))
    assert told(clash) == (ClashKind.NO_FIRE, at("17:30"), at("18:00"), 30)
    assert clash.sentence == (
        "Chops: Grill is on the grill from 17:30 to 18:00, and no fire burns there then. Light one by 17:05."
    )
    # a heating with a setting is no fire, nor is one of another station or another year
    for other in (
        heating("grill", at("17:00"), at("17:25"), 180),
        heating("grill", at("17:00") - FAR, at("17:25"), 0),
    ):
        assert ClashKind.NO_FIRE in {
            each.kind for each in clashes(plan, lit(plan, other, chops_grill="17:30"))
        }


def test_f17_the_coals_run_out_and_a_second_fire_mends_it():
    """Design, F17: loads end 18:00, chops 18:02 to 18:32, 12 min past 18:20; light a second one by 17:55."""
    leeks = hands_off("leeks.grill", 12, uses=(a_use("grill", 8),), loads=Loads(24, 8, change_over=2))
    plan = grilled(a_dish("leeks", leeks, course=300), cooks=1)
    starts = {"leeks.grill": [at("17:20"), at("17:34"), at("17:48")], "chops.grill": at("18:02")}
    first = fire("16:55", "17:20")
    clash = the_clash(plan, laid(plan, starts, heatings=[first]))
    assert told(clash) == (ClashKind.NO_FIRE, at("18:20"), at("18:32"), 12)
    assert clash.sentence.endswith("12 min without a fire. Light another by 17:55.")
    twice = replace(plan, kitchen=replace(plan.kitchen, stations=(a_fire(fires=2),)))
    assert not clashes(
        twice, laid(twice, starts, heatings=[first, fire("17:55", "18:20")])
    )  # lit beside the leeks
    late = laid(twice, starts, heatings=[first, fire("17:56", "18:21")])
    assert told(the_clash(twice, late)) == (ClashKind.NO_FIRE, at("18:20"), at("18:21"), 1)


def test_a_fire_is_lit_as_often_as_it_may_be():
    plan = grilled()
    second = fire("18:00", "18:25")
    clash = the_clash(plan, lit(plan, FIRE, second, chops_grill="18:00"))
    assert told(clash) == (ClashKind.TOO_MANY_FIRES, at("18:00"), at("18:25"), 1)
    assert clash.sentence == (
        "The grill is lit two times, at 17:00 and 18:00, and may be lit once: leave 1 fire out, or allow more."
    )
    twice = grilled(fires=2)
    assert not clashes(twice, lit(twice, FIRE, second, chops_grill="18:00"))
    third = lit(twice, FIRE, second, fire("19:00", "19:25"), chops_grill="18:00")
    assert clashes(twice, third)[0].sentence.endswith(
        "may be lit two times: leave 1 fire out, or allow more."
    )


@pytest.mark.parametrize(("start", "minutes"), [("16:59", "26 min"), ("17:01", "24 min")])
def test_lighting_takes_its_minutes(start, minutes):
    plan = grilled()
    clash = the_clash(plan, lit(plan, fire(start, "17:25"), chops_grill="17:25"))
    assert (clash.kind, clash.by, clash.stations) == (ClashKind.LENGTH, 1, ("grill",))
    assert clash.sentence == (
        f"The grill is lit at {start} for 17:25, {minutes} later, and takes 25 min to light; light it at 17:00."
    )


def test_a_cook_lays_and_lights_it():
    cream = a_dish("cream", a_step("cream.whip", minutes=10))
    plan = grilled(cream)
    assert not clashes(plan, lit(plan, FIRE, chops_grill="17:30", cream_whip="17:05"))
    assert not clashes(plan, lit(plan, FIRE, chops_grill="17:30", cream_whip="16:50"))
    clash = the_clash(plan, lit(plan, FIRE, chops_grill="17:30", cream_whip="17:04"))
    assert told(clash) == (ClashKind.HANDS_SHORT, at("17:04"), at("17:05"), 1)
    assert clash.steps == ("chops.grill", "cream.whip")
    assert clash.sentence == (
        "Ann has two things to do at once from 17:04 to 17:05: lighting the grill and Cream: Whip."
    )
    nobody = fire("17:00", "17:25", None)
    clash = the_clash(plan, lit(plan, nobody, chops_grill="17:30", cream_whip="17:04"))
    assert clash.sentence == "Nobody is found for lighting the grill from 17:00 to 17:05."


def test_laying_is_not_longer_than_lighting():
    cream = a_dish("cream", a_step("cream.whip", minutes=10))
    plan = grilled(cream, lighting=3)
    gas = fire("17:22", "17:25")
    assert not clashes(plan, lit(plan, gas, chops_grill="17:30", cream_whip="17:25"))
    assert told(the_clash(plan, lit(plan, gas, chops_grill="17:30", cream_whip="17:24")))[3] == 1


def test_a_break_keeps_the_cook_from_lighting():
    ann = a_cook("ann", breaks=(Window(0, 17 * 60 + 4, 17 * 60 + 30),))
    plan = grilled(cooks=(ann,))
    clash = the_clash(plan, lit(plan, FIRE, chops_grill="17:30"))
    assert told(clash) == (ClashKind.COOK_ABSENT, at("17:04"), at("17:05"), 1)
    assert clash.sentence == "Ann is not there from 17:04 to 17:05 for lighting the grill."


@pytest.mark.parametrize("laid_by", [None, "ann"])
def test_what_needs_no_lighting_takes_nobody_and_no_time(laid_by):
    cream = a_dish("cream", a_step("cream.whip", minutes=10))
    plan = grilled(cream, lighting=0)
    on = fire("17:25", "17:25", laid_by)
    assert not clashes(plan, lit(plan, on, chops_grill="17:25", cream_whip="17:20"))
    clash = the_clash(plan, lit(plan, on, chops_grill="17:24", cream_whip="17:20"))
    assert clash.sentence.endswith("1 min later. Light it by 17:24.")
    clash = the_clash(plan, lit(plan, fire("17:24", "17:25", None), chops_grill="17:25", cream_whip="16:20"))
    assert clash.sentence.endswith("for 17:25, 1 min later, and needs no lighting; light it at 17:25.")


def test_a_fire_that_never_burns_out_needs_lighting_only():
    plan = grilled(burns=None)
    assert not clashes(plan, lit(plan, fire("07:00", "07:25"), chops_grill="22:00"))
    assert ClashKind.NO_FIRE in {each.kind for each in clashes(plan, lit(plan, chops_grill="22:00"))}


def test_a_grill_that_is_no_fire_needs_none():
    plan = grilled(lighting=0, burns=None)
    assert not clashes(plan, lit(plan, chops_grill="22:00"))


def test_food_that_waits_on_the_grill_needs_the_fire_too():
    pork, cut = hands_off("pork.roast", 30, uses=(a_use("grill"),)), hands_off("pork.cut", 5)
    links = (a_link("pork.roast", "pork.cut", wait=Wait(use=a_use("grill"))),)
    plan = a_plan(a_dish("pork", pork, cut), links=links, kitchen=a_kitchen(stations=(a_fire(),)))
    assert not clashes(plan, lit(plan, FIRE, pork_roast="17:25", pork_cut="18:25"))
    clash = the_clash(plan, lit(plan, FIRE, pork_roast="17:25", pork_cut="18:26"))
    assert (told(clash), clash.steps) == (
        (ClashKind.NO_FIRE, at("18:25"), at("18:26"), 1),
        ("pork.roast", "pork.cut"),
    )
    assert clash.sentence.startswith("What waits after Pork: Roast is on the grill until 18:26")


def test_a_step_with_two_shares_of_a_grate_is_told_once():
    step = hands_off("chops.grill", 30, uses=(a_use("grill"), a_use("grill")))
    plan = a_plan(a_dish("chops", step), kitchen=a_kitchen(stations=(a_fire(),)))
    assert told(the_clash(plan, lit(plan, chops_grill="17:30")))[3] == 30


def test_two_gaps_are_told_apart():
    plan = grilled(minutes=90, fires=2)
    late = lit(plan, FIRE, fire("18:10", "18:35"), chops_grill="17:24")
    assert [told(each) for each in clashes(plan, late)] == [
        (ClashKind.NO_FIRE, at("17:24"), at("17:25"), 1),
        (ClashKind.NO_FIRE, at("18:25"), at("18:35"), 10),
    ]
    words = clashes(plan, late)[1].sentence
    assert "stays on the grill, and the fire burns out at 18:25: 10 min without a fire" in words


def test_a_fire_in_a_place_with_a_setting_is_lit_and_heated():
    smoker = replace(a_fire("smoker"), kind=a_use("smoker").kind, heater=Heater(50, 120, ((110, 20),)))
    step = hands_off("ham.smoke", 30, uses=(a_use("smoker", heat=a_heat(110)),))
    plan = a_plan(a_dish("ham", step), kitchen=a_kitchen(stations=(smoker,)))
    warm = heating("smoker", at("17:10"), at("17:30"), 110)
    alight = heating("smoker", at("17:04"), at("17:29"), 0)
    assert not clashes(plan, lit(plan, warm, alight, ham_smoke="17:30"))
    assert [each.kind for each in clashes(plan, lit(plan, warm, ham_smoke="17:30"))] == [ClashKind.NO_FIRE]
    clash = the_clash(plan, lit(plan, heating("smoker", at("17:05"), at("17:30"), 0), ham_smoke="17:30"))
    assert clash.kind is ClashKind.HEATING_MISSING
    assert "is not heated up to 110 °C" in clash.sentence


def test_a_closed_place_is_not_lit_or_heated():
    plan = grilled(hours=(Window(0, 17 * 60, 20 * 60),))
    assert not clashes(plan, lit(plan, FIRE, chops_grill="17:25"))
    clash = the_clash(plan, lit(plan, fire("16:59", "17:24"), chops_grill="17:25"))
    assert told(clash) == (ClashKind.WRONG_PLACE, at("16:59"), at("17:00"), 1)
    assert (clash.steps, clash.stations) == (("chops.grill",), ("grill",))
    assert clash.sentence == "The grill is to be lit from 16:59 to 17:00, when it is not there."


def test_a_fire_for_nothing_is_work_for_a_cook_and_no_clash():
    plan = grilled(fires=2)
    assert not clashes(plan, lit(plan, FIRE, fire("10:00", "10:25"), chops_grill="17:25"))


def test_spots_elsewhere_need_no_fire():
    plan = grilled()
    found = clashes(plan, laid(plan, {"chops.grill": at("17:30")}, spots={"chops.grill": [spot("kiln")]}))
    assert [each.kind for each in found] == [ClashKind.WRONG_PLACE]
