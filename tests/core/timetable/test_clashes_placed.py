"""What is missing, unknown, doubled, far off, of the wrong length, or moved from its pin."""

from dataclasses import replace

import pytest

from core.plan.decisions import Pin
from core.plan.ids import CookId, StationId, StepId
from core.plan.step import Attention, Loads, Touch
from core.timetable.clash import ClashKind
from core.timetable.clashes import clashes
from core.timetable.facts import FAR
from core.timetable.timetable import Placed, Timetable
from tests.core.timetable.laid import at, laid, placed, spot, the_clash, told
from tests.support.builders import a_dish, a_kitchen, a_plan, a_step, a_use, an_oven, at_oven, hands_off

SOUP = a_dish("soup", hands_off("soup.boil", 20))
LEEKS = a_dish("leeks", hands_off("leeks.grill", 8, loads=Loads(18, 6)), course=75)


def test_a_step_without_its_place_in_the_timetable_is_missing():
    clash = the_clash(a_plan(SOUP), Timetable())
    assert told(clash) == (ClashKind.MISSING, 0, 0, 1)
    assert clash.steps == ("soup.boil",)
    assert clash.sentence == "Soup: Boil is not on the timetable."


def test_missing_loads_are_counted():
    plan = a_plan(LEEKS)
    assert not clashes(plan, laid(plan, {"leeks.grill": [0, 8, 16]}))
    clash = the_clash(plan, laid(plan, {"leeks.grill": [0, 8]}))
    assert told(clash) == (ClashKind.MISSING, 75, 75, 1)
    assert clash.sentence == "One of the three loads of Leeks: Grill is not on the timetable."
    clash = the_clash(plan, laid(plan, {"leeks.grill": 0}))
    assert clash.by == 2
    assert clash.sentence == "Two of the three loads of Leeks: Grill are not on the timetable."
    clash = the_clash(plan, Timetable())
    assert clash.by == 3
    assert clash.sentence == "Leeks: Grill is not on the timetable."


def test_a_step_that_the_menu_does_not_have_is_told():
    plan = a_plan(SOUP)
    good = laid(plan, {"soup.boil": at("19:00")})
    more = Placed(StepId("tart.bake"), at("18:00"), 30)
    clash = the_clash(plan, replace(good, placed=(*good.placed, more)))
    assert (clash.kind, clash.start, clash.end) == (ClashKind.WRONG_PLACE, at("18:00"), at("18:30"))
    assert clash.steps == ("tart.bake",)
    assert clash.sentence == 'The timetable has "tart.bake", which is no step of the menu.'


@pytest.mark.parametrize(
    ("load", "words"),
    [
        (1, "The timetable has load 2 of Soup: Boil, which comes to 1 load."),
        (-1, "The timetable has load 0 of Soup: Boil, which comes to 1 load."),
    ],
)
def test_a_load_too_many_is_told(load, words):
    plan = a_plan(SOUP)
    good = laid(plan, {"soup.boil": at("19:00")})
    clash = the_clash(
        plan, replace(good, placed=(*good.placed, placed(plan, "soup.boil", at("18:00"), load)))
    )
    assert (clash.kind, clash.start, clash.end) == (ClashKind.WRONG_PLACE, at("18:00"), at("18:20"))
    assert clash.sentence == words


def test_a_load_too_many_of_several_is_told():
    plan = a_plan(LEEKS)
    clash = the_clash(plan, laid(plan, {"leeks.grill": [0, 8, 16, 24]}))
    assert clash.sentence == "The timetable has load 4 of Leeks: Grill, which comes to 3 loads."


def test_a_step_placed_twice_counts_where_it_comes_first():
    plan = a_plan(SOUP)
    good = laid(plan, {"soup.boil": at("19:00")})
    clash = the_clash(plan, replace(good, placed=(*good.placed, placed(plan, "soup.boil", at("19:20")))))
    assert (clash.kind, clash.start, clash.end) == (ClashKind.WRONG_PLACE, at("19:20"), at("19:40"))
    assert clash.sentence == "Soup: Boil is on the timetable twice."
    plan = a_plan(LEEKS)
    good = laid(plan, {"leeks.grill": [0, 8, 16]})
    clash = the_clash(plan, replace(good, placed=(*good.placed, placed(plan, "leeks.grill", 24, 2))))
    assert clash.sentence == "Load 3 of Leeks: Grill is on the timetable twice."


def test_a_time_of_other_years_is_told_and_not_called_missing():
    plan = a_plan(SOUP)
    assert the_clash(plan, laid(plan, {"soup.boil": FAR - 20})).kind is ClashKind.LATE
    clash = the_clash(plan, laid(plan, {"soup.boil": FAR - 19}))
    assert clash.kind is ClashKind.WRONG_PLACE
    assert clash.sentence == "Soup: Boil is placed more than ten years from plating."
    clash = the_clash(plan, laid(plan, {"soup.boil": -(10**15)}))
    assert (clash.kind, clash.start) == (ClashKind.WRONG_PLACE, -(10**15))


def with_length(timetable: Timetable, length: int) -> Timetable:
    return replace(timetable, placed=tuple(replace(each, length=length) for each in timetable.placed))


@pytest.mark.parametrize(
    ("length", "start", "end", "by", "words"),
    [
        (19, "19:19", "19:20", 1, "Soup: Boil is given 19 min and needs 20 min."),
        (21, "19:20", "19:21", 1, "Soup: Boil is given 21 min and needs 20 min."),
        (0, "19:00", "19:20", 20, "Soup: Boil is given 0 min and needs 20 min."),
        (-5, "18:55", "19:20", 25, "Soup: Boil is given −5 min and needs 20 min."),
    ],
)
def test_a_load_has_its_reserved_length(length, start, end, by, words):
    plan = a_plan(SOUP)
    clash = the_clash(plan, with_length(laid(plan, {"soup.boil": at("19:00")}), length))
    assert told(clash) == (ClashKind.LENGTH, at(start), at(end), by)
    assert clash.sentence == words


def test_another_oven_setting_asks_for_another_length():
    oven = an_oven(heater=None)
    step = hands_off("gratin.bake", 60, uses=(at_oven(180),))
    plan = a_plan(a_dish("gratin", step), kitchen=a_kitchen(oven=oven))
    timetable = laid(plan, {"gratin.bake": at("18:00")}, settings={"gratin.bake": 190})
    assert timetable.placed[0].length == 54  # 1 % a degree
    assert not clashes(plan, timetable)
    clash = the_clash(plan, with_length(timetable, 60))
    assert told(clash) == (ClashKind.LENGTH, at("18:54"), at("19:00"), 6)
    assert clash.sentence == "Gratin: Bake is given 1 h at 190 °C and needs 54 min."


def test_a_temperature_on_a_burner_leaves_the_length_alone():
    step = hands_off("oil.heat", 11, uses=(a_use("burner", heat=180),))
    plan = a_plan(a_dish("oil", step))
    assert not clashes(plan, laid(plan, {"oil.heat": at("19:00")}, settings={"oil.heat": 190}))


def test_a_pinned_start_holds_to_the_minute():
    plan = a_plan(SOUP, pins=(Pin(StepId("soup.boil"), start=at("19:00")),))
    assert not clashes(plan, laid(plan, {"soup.boil": at("19:00")}))
    clash = the_clash(plan, laid(plan, {"soup.boil": at("18:59")}))
    assert told(clash) == (ClashKind.PIN_MOVED, at("18:59"), at("19:00"), 1)
    assert clash.sentence == "Soup: Boil starts at 18:59; you pinned it to 19:00."
    clash = the_clash(plan, laid(plan, {"soup.boil": at("19:01")}))
    assert (clash.start, clash.end, clash.by) == (at("19:00"), at("19:01"), 1)


def test_a_pin_of_one_load_leaves_the_others_alone():
    plan = a_plan(LEEKS, pins=(Pin(StepId("leeks.grill"), load=1, start=8),))
    assert not clashes(plan, laid(plan, {"leeks.grill": [-20, 8, 30]}))
    clash = the_clash(plan, laid(plan, {"leeks.grill": [-20, 9, 30]}))
    assert clash.sentence == "Load 2 of Leeks: Grill starts at 19:39; you pinned it to 19:38."


def test_a_pinned_station_is_one_of_its_spots():
    step = hands_off("pot.boil", 20, uses=(a_use("burner", 2),))
    plan = a_plan(a_dish("pot", step), pins=(Pin(step.id, station=StationId("burner-3")),))
    here = [spot("burner-1"), spot("burner-3")]
    assert not clashes(plan, laid(plan, {"pot.boil": at("19:00")}, spots={"pot.boil": here}))
    clash = the_clash(plan, laid(plan, {"pot.boil": at("19:00")}))
    assert (clash.kind, clash.start, clash.end) == (ClashKind.PIN_MOVED, at("19:00"), at("19:20"))
    assert clash.stations == ("burner-3",)
    assert clash.sentence == "Pot: Boil does not stand on Burner 3, where you pinned it."


def test_a_pinned_cook_does_all_of_it():
    touches = (Touch(5), Touch(10))
    step = a_step("pot.boil", minutes=20, attention=Attention.TENDED, touches=touches, put_in=0, take_out=0)
    pin = Pin(step.id, cook=CookId("ben"))
    plan = a_plan(a_dish("pot", step), kitchen=a_kitchen(cooks=2), pins=(pin,))
    good = laid(plan, {"pot.boil": at("19:00")}, cooks={"pot.boil": "ben"})
    assert not clashes(plan, good)
    load = good.placed[0]
    hands = (load.hands[0], replace(load.hands[1], cook=CookId("ann")))
    clash = the_clash(plan, replace(good, placed=(replace(load, hands=hands),)))
    assert (clash.kind, clash.start, clash.end) == (ClashKind.PIN_MOVED, at("19:00"), at("19:20"))
    assert clash.cooks == ("ben",)
    assert clash.sentence == "Pot: Boil is not all done by Ben, to whom you pinned it."
