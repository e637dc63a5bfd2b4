"""Washing up: after the run, once, for its minutes, by a cook where it is done by hand."""

from dataclasses import replace

import pytest

from core.plan.step import VesselUse
from core.timetable.clash import ClashKind
from core.timetable.clashes import clashes
from core.timetable.facts import FAR
from tests.core.timetable.laid import at, laid, the_clash, told, washing
from tests.support.builders import a_dish, a_kitchen, a_link, a_plan, a_step, a_vessel, hands_off

POT = (VesselUse(a_vessel("pot").id),)
SOUP = {"soup.sweat": at("17:30"), "soup.boil": at("18:00"), "stew.braise": at("18:30")}


def supper(*more, cooks=1, **vessel):
    """Soup holds the pot until 18:20, the stew from 18:30."""
    soup = a_dish("soup", hands_off("soup.sweat", 10, vessels=POT), hands_off("soup.boil", 20, vessels=POT))
    stew = a_dish("stew", hands_off("stew.braise", 30, vessels=POT))
    kitchen = a_kitchen(cooks=cooks, vessels=(a_vessel("pot", name="28 cm pot", **vessel),))
    return a_plan(soup, stew, *more, links=(a_link("soup.sweat", "soup.boil"),), kitchen=kitchen)


def washed(plan, *washings, **starts):
    return laid(
        plan, {**SOUP, **{key.replace("_", "."): start for key, start in starts.items()}}, washings=washings
    )


def test_it_begins_when_the_pot_is_empty():
    plan = supper()
    assert not clashes(plan, washed(plan, washing("pot", at("18:20"), "soup.sweat")))
    clash = the_clash(plan, washed(plan, washing("pot", at("18:19"), "soup.sweat")))
    assert told(clash) == (ClashKind.OUT_OF_ORDER, at("18:19"), at("18:20"), 1)
    assert (clash.steps, clash.vessels) == (("soup.sweat", "soup.boil"), ("pot",))
    assert (
        clash.sentence == "28 cm pot is to be washed at 18:19 and is in use until 18:20; wash it 1 min later."
    )


@pytest.mark.parametrize(
    ("minutes", "words"),
    [
        (4, "28 cm pot is given 4 min to be washed and needs 5; wash it until 18:25."),
        (6, "28 cm pot is given 6 min to be washed and needs 5; wash it until 18:25."),
    ],
)
def test_it_takes_its_minutes(minutes, words):
    plan = supper()
    clash = the_clash(plan, washed(plan, washing("pot", at("18:20"), "soup.sweat", minutes)))
    assert (clash.kind, clash.by, clash.sentence) == (ClashKind.LENGTH, 1, words)


def test_what_needs_no_washing_is_not_washed():
    plan = supper(washing=0)
    assert not clashes(plan, washed(plan))
    clash = the_clash(plan, washed(plan, washing("pot", at("18:20"), "soup.sweat")))
    assert clash.sentence == "28 cm pot is given 5 min to be washed and needs none; leave it out."


def test_it_takes_a_cook_who_is_free():
    cream = a_dish("cream", a_step("cream.whip", minutes=10))
    plan = supper(cream)
    wash = washing("pot", at("18:20"), "soup.sweat")
    assert not clashes(plan, washed(plan, wash, cream_whip=at("18:10")))
    assert not clashes(plan, washed(plan, wash, cream_whip=at("18:25")))
    clash = the_clash(plan, washed(plan, wash, cream_whip=at("18:11")))
    assert told(clash) == (ClashKind.HANDS_SHORT, at("18:20"), at("18:21"), 1)
    assert clash.steps == ("cream.whip", "soup.sweat", "soup.boil")
    assert clash.sentence == (
        "Ann has two things to do at once from 18:20 to 18:21: Cream: Whip and washing 28 cm pot."
    )
    clash = the_clash(plan, washed(plan, replace(wash, cook=None), cream_whip=at("18:11")))
    assert clash.sentence == "Nobody is found for washing 28 cm pot from 18:20 to 18:25."
    # at night nobody washes
    late = {"cream_whip": at("18:10"), "stew_braise": at("23:10"), "soup_boil": at("22:36")}
    found = clashes(plan, washed(plan, washing("pot", at("22:56"), "soup.sweat"), **late))
    away = [each for each in found if each.kind is ClashKind.COOK_ABSENT]
    assert [each.sentence for each in away] == ["Ann is not there from 23:00 to 23:01 for washing 28 cm pot."]


def test_a_machine_washes_alone():
    cream = a_dish("cream", a_step("cream.whip", minutes=10))
    plan = supper(cream, by_hand=False)
    wash = washing("pot", at("18:20"), "soup.sweat", cook=None)
    assert not clashes(plan, washed(plan, wash, cream_whip=at("18:15")))


def test_one_washing_does_for_all_vessels_of_a_run():
    tins = (VesselUse(a_vessel("pot").id, 2),)
    buns = a_dish("buns", hands_off("buns.bake", 10, vessels=tins))
    rolls = a_dish("rolls", hands_off("rolls.bake", 10, vessels=tins))
    plan = a_plan(buns, rolls, kitchen=a_kitchen(vessels=(a_vessel("pot", 2, name="Tin"),)))
    starts = {"buns.bake": at("18:00"), "rolls.bake": at("18:15")}
    assert not clashes(plan, laid(plan, starts, washings=[washing("pot", at("18:10"), "buns.bake")]))
    assert the_clash(plan, laid(plan, starts)).by == 2


@pytest.mark.parametrize(
    ("more", "words"),
    [
        (washing("pot", at("18:25"), "soup.sweat"), "after Soup: Sweat, after which it is washed already"),
        (
            washing("pot", at("18:25"), "soup.boil"),
            "after Soup: Boil, which is no first step with that vessel",
        ),
        (
            washing("wok", at("18:25"), "soup.sweat"),
            "after Soup: Sweat, which is no first step with that vessel",
        ),
    ],
)
def test_washings_of_nothing_are_told(more, words):
    plan = supper()
    clash = the_clash(plan, washed(plan, washing("pot", at("18:20"), "soup.sweat"), more))
    name = "28 cm pot" if more.vessel == "pot" else '"wok"'
    assert (clash.kind, clash.start, clash.end) == (ClashKind.WRONG_PLACE, at("18:25"), at("18:30"))
    assert clash.sentence == f"{name} is to be washed from 18:25 to 18:30 {words}; leave it out."


def test_a_washing_years_away_is_nonsense():
    plan = supper()
    wash = washing("pot", at("18:20"), "soup.sweat")
    clash = the_clash(plan, washed(plan, wash, washing("pot", FAR, "stew.braise")))
    assert clash.sentence.endswith(
        "after Stew: Braise, and that is more than ten years from plating; leave it out."
    )
    assert not clashes(plan, washed(plan, wash, washing("pot", FAR - 5, "stew.braise")))


def test_the_same_washing_listed_twice_is_one_too_many():
    plan = supper()
    wash = washing("pot", at("18:20"), "soup.sweat", cook="ann")
    found = clashes(plan, washed(plan, wash, wash))
    assert [each.kind for each in found] == [ClashKind.WRONG_PLACE]


def test_what_is_not_placed_is_not_washed():
    plan = supper()
    wash = washing("pot", at("18:20"), "soup.sweat")
    found = clashes(plan, laid(plan, {"stew.braise": at("18:30")}, washings=[wash]))
    assert [each.sentence for each in found if each.kind is ClashKind.WRONG_PLACE] == [
        "28 cm pot is to be washed from 18:20 to 18:25 after Soup: Sweat, which is not on the timetable; leave it out."
    ]
