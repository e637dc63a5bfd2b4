"""Prep list, labels, temperature log and menu card: their own rules, worked by hand."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest

from core.measures.quantity import Quantity
from core.plan.food import Effect, FoodCare
from core.plan.kitchen import StationKind
from core.plan.menu import Guest, Ingredient
from core.plan.plan import Plan
from core.plan.step import Doneness, Holding, Keep, Use, Wait
from core.safety import chosen_rules
from core.sheets.kinds import SheetKind
from core.sheets.labels import labels
from core.sheets.menu_card import menu_card
from core.sheets.prep_list import needed, prep_list
from core.sheets.printing import sheet_pdf
from core.sheets.temperature_log import temperature_log
from tests.core.sheets.feasts import harvest
from tests.core.sheets.reading import pages, squeezed
from tests.core.timetable.laid import at, laid
from tests.support.builders import a_dish, a_link, a_plan, a_step, a_use, chained, hands_off

FRIDGE = Use(StationKind.FRIDGE, area=400, height=5)


def a_soup(**fields: object) -> Plan:
    """Return a soup that is boiled, cooled, and chilled until it is served cold."""
    boil = hands_off("soup.boil", 30, uses=(a_use(StationKind.BURNER),))
    cool = replace(hands_off("soup.cool", 60), does="Cool in ice water")
    chill = replace(hands_off("soup.chill", 600, uses=(FRIDGE,)), does="Chill")
    dish = a_dish("soup", boil, cool, chill, keep=Keep(300, Wait(Holding.FRIDGE)), **fields)
    return a_plan(dish, links=chained(boil, cool, chill))


def laid_soup(plan: Plan) -> object:
    return laid(plan, {"soup.boil": -900, "soup.cool": -870, "soup.chill": -810})


def test_cooling_is_read_at_the_start_after_two_hours_and_after_six() -> None:
    """The chill that follows the cooling goes on with its clock: no second one."""
    plan = a_soup()
    readings = [each for day in temperature_log(plan, laid_soup(plan)) for each in day.readings]  # type: ignore[arg-type]
    cooling = [(each.at, each.limit) for each in readings if "3-501.14" in each.source]
    assert cooling == [
        (-870, "write down; the clock runs from 57 °C"),
        (-750, "21 °C or less"),
        (-510, "5 °C or less"),
    ]


FDA = [(-870, "57"), (-750, "21 °C or less"), (-510, "5 °C or less")]


@pytest.mark.parametrize(
    ("rules", "cooling", "hot", "cold", "again"),
    [
        ("us-home", FDA, "60", "4.4", "73.9 °C or more"),
        ("us-establishment", FDA, "57", "5", "74 °C or more"),
        ("uk", [(-870, "63"), (-780, "8 °C or less (advice)")], "63", "8", "75 °C or more"),
    ],
)
def test_limits_are_those_of_the_plans_set_of_rules(
    rules: str, cooling: list[tuple[int, str]], hot: str, cold: str, again: str
) -> None:
    """As published: US FDA Food Code 2022 3-501.14 and .16; USDA FSIS 140 and 40 °F; FSA 63 and 8 °C, in 90 min."""
    heat = replace(hands_off("soup.heat", 20, uses=(a_use(StationKind.BURNER),)), does="Reheat")
    heat = replace(heat, doneness=Doneness("", 80))
    soup = a_soup()
    dish = replace(soup.menu.dishes[0], steps=(*soup.menu.dishes[0].steps, heat), keep=Keep(60, Wait(Holding.HOT)))
    plan = a_plan(dish, links=chained(*dish.steps))
    plan = replace(plan, decisions=replace(plan.decisions, rules=rules))
    timetable = laid(plan, {"soup.boil": -900, "soup.cool": -870, "soup.chill": -810, "soup.heat": -60})
    found = [each for day in temperature_log(plan, timetable) for each in day.readings]
    cooled = [(each.at, each.limit) for each in found if "cool" in each.what.casefold()]
    assert [at_ for at_, _limit in cooled] == [at_ for at_, _limit in cooling]
    assert all(said in limit for (_at, said), (_other, limit) in zip(cooling, cooled, strict=True))
    assert {each.limit for each in found if each.what == "held hot"} == {f"{hot} °C or more"}
    assert f"{cold} °C or less" in {each.limit for each in found if each.clock == "first"}
    assert any(each.limit.startswith(f"core 80 °C; reheating: {again}") for each in found)
    text = " ".join(pages(sheet_pdf(SheetKind.TEMPERATURES, plan, timetable, ())))
    name = chosen_rules(rules).name
    assert f"Numbered limits are rows of the set “{name}”: [1]" in text
    for each in found:
        assert each.source == "plan" or squeezed(each.source) in squeezed(text)


def test_a_set_that_is_not_at_hand_is_said_and_the_usual_one_taken() -> None:
    plan = a_soup()
    plan = replace(plan, decisions=replace(plan.decisions, rules="grandmother"))
    whole = " ".join(pages(sheet_pdf(SheetKind.TEMPERATURES, plan, laid_soup(plan), ())))  # type: ignore[arg-type]
    assert "There are no food rules" in whole
    assert "the set “US home cook”" in whole


def test_bread_on_a_rack_is_not_logged_unless_the_plan_says_so() -> None:
    bake = hands_off("bread.bake", 30, uses=(a_use(StationKind.BURNER),))
    cool = replace(hands_off("bread.cool", 60), does="Cool on racks")
    plan = a_plan(a_dish("bread", bake, cool), links=chained(bake, cool))
    timetable = laid(plan, {"bread.bake": -120, "bread.cool": -90})
    assert temperature_log(plan, timetable) == ()
    told = replace(cool, food=FoodCare(Effect.COOL))
    plan = a_plan(a_dish("bread", bake, told), links=chained(bake, told))
    readings = [each.at for day in temperature_log(plan, timetable) for each in day.readings]
    assert readings == [-90], "two hours and six hours later it has been eaten"


def test_what_is_held_hot_is_read_every_hour_and_at_the_end() -> None:
    boil = hands_off("soup.boil", 30, uses=(a_use(StationKind.BURNER),))
    plan = a_plan(a_dish("soup", boil, keep=Keep(200, Wait(Holding.HOT))))
    readings = [each for day in temperature_log(plan, laid(plan, {"soup.boil": -180})) for each in day.readings]
    assert [(each.at, each.limit) for each in readings] == [
        (-150, "60 °C or more"),
        (-90, "60 °C or more"),
        (-30, "60 °C or more"),
        (0, "60 °C or more"),
    ]


def test_a_label_says_made_wanted_and_use_by() -> None:
    """Chilled from 06:00 on for 600 min, then waits 210 of 300 min: 18:30 ... the plan's limit is 21:00."""
    plan = a_soup(allergens=("celery",))
    (label,) = labels(plan, laid_soup(plan))  # type: ignore[arg-type]
    assert (label.made, label.use_by) == ("Sat 26 Sep, 06:00", "Sat 26 Sep, 21:00")
    assert label.wanted == "Sat 26 Sep, 19:30, to serve"
    assert (label.what, label.kept, label.raw, label.allergens) == ("Chill", "fridge", False, ("celery",))


def a_wait_of_days(days: int, *, raw: bool = False, most: int | None = None) -> Plan:
    mix, bake = a_step("cake.mix"), a_step("cake.bake")
    wait = Wait(Holding.FRIDGE, replace(FRIDGE, raw=raw))
    plan = a_plan(a_dish("cake", mix, bake), links=(a_link("cake.mix", "cake.bake", most=most, wait=wait),))
    return replace(plan, name=f"{days}")


def test_seven_days_with_the_day_of_making_as_the_first() -> None:
    """Made on Sunday 20 September at 19:40: the seventh day is Saturday 26."""
    starts = {"cake.mix": -6 * 1440, "cake.bake": -30}
    plan = a_wait_of_days(6)
    (label,) = labels(plan, laid(plan, starts))
    assert (label.made, label.use_by) == ("Sun 20 Sep, 19:40", "Sat 26 Sep, 23:59")
    plan = a_wait_of_days(6, most=3 * 1440)
    (label,) = labels(plan, laid(plan, starts))
    assert label.use_by == "Wed 23 Sep, 19:40"
    plan = a_wait_of_days(6, raw=True)
    (label,) = labels(plan, laid(plan, starts))
    assert (label.use_by, label.raw) == ("", True)


def test_less_than_two_hours_in_the_cold_needs_no_label() -> None:
    plan = a_wait_of_days(0)
    assert labels(plan, laid(plan, {"cake.mix": -160, "cake.bake": -31})) == ()
    assert len(labels(plan, laid(plan, {"cake.mix": -160, "cake.bake": -30}))) == 1


def test_prep_is_what_hands_do_off_the_heat_until_half_an_hour_before() -> None:
    chop, fry, dress = a_step("dish.chop"), a_step("dish.fry", uses=(a_use(StationKind.BURNER),)), a_step("dish.dress")
    plan = a_plan(a_dish("dish", chop, fry, dress), links=chained(chop, fry, dress))
    for start, there in ((-31, True), (-30, False)):
        timetable = laid(plan, {"dish.chop": start, "dish.fry": -60, "dish.dress": -10})
        found = [line.step for day in prep_list(plan, timetable) for dish in day.dishes for line in dish.lines]
        assert found == (["dish.chop"] if there else [])
    timetable = laid(plan, {"dish.chop": at("19:30") - 1440, "dish.fry": -1400, "dish.dress": -10})
    found = [line.step for day in prep_list(plan, timetable) for dish in day.dishes for line in dish.lines]
    assert found == ["dish.chop", "dish.fry"], "on the day before everything is prep"


def test_what_is_needed_is_scaled_and_in_its_finished_form() -> None:
    dish = a_dish("gratin", written_for=4, wanted=12)
    assert needed(dish, Ingredient("potatoes", Quantity(Fraction(400), "g"), "peeled")) == "1.2 kg potatoes, peeled"
    assert needed(dish, Ingredient("salt")) == "salt"
    odd = Ingredient("salt", Quantity(Fraction(20), "g"), per_kg_of="meat")
    assert needed(dish, odd) == "salt", "what cannot be weighed is named without an amount"


def test_ingredients_stand_on_the_prep_list_once() -> None:
    plan, timetable = harvest()
    said = [
        each
        for day in prep_list(plan, timetable)
        for dish in day.dishes
        for each in (*dish.also, *(one for line in dish.lines for one in line.needed))
    ]
    assert said.count("1 kg strong white flour") == 1
    assert said.count("1.6 kg potatoes, 1.3 kg peeled") == 1


def test_the_card_has_what_comes_from_other_dishes_and_what_is_likely() -> None:
    boil, pour = a_step("stock.boil"), a_step("sauce.pour")
    stock = a_dish("stock", boil, allergens=("celery",), served=False)
    items = (Ingredient("double cream"), Ingredient("almonds"))
    sauce = a_dish("sauce", pour, name="Sauce", ingredients=items)
    plan = a_plan(stock, sauce, links=(a_link("stock.boil", "sauce.pour"),))
    plan = replace(plan, menu=replace(plan.menu, guests=(Guest("Orla", allergies=("milk",)),)))
    (course,) = menu_card(plan).courses
    (dish,) = course.dishes
    assert (dish.dish, dish.contains, dish.likely) == ("Sauce", ("celery",), ("milk", "nuts"))
    assert "Orla" not in str(menu_card(plan))


def test_courses_of_the_card_follow_the_table() -> None:
    plan, _timetable = harvest()
    card = menu_card(plan)
    assert [(course.clock, len(course.dishes)) for course in card.courses] == [("19:23", 10), ("20:45", 1)]
