"""A day with one fault for each family of rules: the checker finds exactly those, and a mended day is quiet."""

from __future__ import annotations

from dataclasses import replace

import pytest

from core.plan.check import problems
from core.plan.food import Arrival, Container, Effect, FoodCare, FoodKind
from core.plan.kitchen import StationKind
from core.plan.plan import Plan
from core.plan.step import Doneness, Holding, Keep, Wait
from core.safety.checking import food_report
from core.safety.finding import Report
from core.safety.rules import Family
from core.timetable.timetable import Timetable
from tests.core.safety.planted import HOME, at, dish, food, plan_of, stay
from tests.support.builders import a_link, a_use, hands_off

DAY = 24 * 60
FRIDGE = (a_use("fridge", area=100, height=5),)
OVEN = (a_use("oven", heat=180),)
SERVED_HOT = Keep(wait=Wait(Holding.HOT))


def a_day() -> tuple[Plan, Timetable]:
    """Return ten dishes, each with one fault."""
    core = Doneness(core=75, rest=5)
    dishes = (
        # between cold and hot: cream stands for 121 min
        dish("cream", food("cream", FoodKind.DAIRY), hands_off("cream.whip", 10)),
        # marinating: chicken in the room for 30 min
        dish(
            "wings",
            food("wings", FoodKind.POULTRY),
            hands_off("wings.soak", 30, does="Marinate"),
            hands_off("wings.roast", 40, uses=OVEN, doneness=core),
            keep=SERVED_HOT,
        ),
        # thawing: fish on the counter for three hours
        dish(
            "fish",
            food("cod", FoodKind.FISH, arrives=Arrival.FROZEN),
            hands_off("fish.thaw", 180, does="Thaw"),
            hands_off("fish.bake", 20, uses=OVEN, doneness=core),
            keep=SERVED_HOT,
        ),
        # cooling: a deep pot of stew straight into the fridge
        dish(
            "stew",
            food("stewing beef", FoodKind.CUBED_MEAT, "0.6 kg"),
            hands_off("stew.braise", 120, uses=OVEN, doneness=core),
            hands_off("stew.chill", 12 * 60, uses=FRIDGE, food=FoodCare(depth=150, container=Container.POT)),
            served=False,
        ),
        # reheating: yesterday's soup only to 60 °C
        dish(
            "soup",
            food("ham stock", FoodKind.READY),
            hands_off("soup.warm", 15, uses=(a_use(),), doneness=Doneness(core=60)),
            hands_off("soup.keep", 600, does="Chill", uses=FRIDGE),
            keep=SERVED_HOT,
        ),
        # holding: a gratin at 50 °C in the warm drawer
        dish(
            "gratin",
            food("potatoes", FoodKind.PRODUCE),
            hands_off("gratin.bake", 60, uses=OVEN),
            hands_off("gratin.hold", 45, does="Hold", uses=(a_use(StationKind.WARM_DRAWER, heat=50),)),
        ),
        # storage: minced beef kept raw for three days
        dish(
            "mince",
            food("mince", FoodKind.GROUND_MEAT),
            hands_off("mince.store", 3 * DAY, does="Store", uses=FRIDGE),
            hands_off("mince.fry", 15, uses=(a_use(),), doneness=core),
            keep=SERVED_HOT,
        ),
        # raw first: salad on the board after raw lamb
        dish(
            "lamb",
            food("leg of lamb", FoodKind.WHOLE_CUT),
            hands_off("lamb.trim", 15, uses=(a_use("room"),)),
            hands_off("lamb.roast", 90, uses=OVEN, doneness=core),
            keep=SERVED_HOT,
        ),
        dish(
            "salad", food("lettuce", FoodKind.CUT_PRODUCE), hands_off("salad.cut", 10, uses=(a_use("room"),))
        ),
        # doneness: turkey to 70 °C
        dish(
            "turkey",
            food("turkey", FoodKind.POULTRY),
            hands_off("turkey.roast", 100, uses=OVEN, doneness=Doneness(core=70, rest=20)),
            keep=SERVED_HOT,
        ),
        # the fridge: eight kilograms of hot rice
        dish(
            "rice",
            food("rice", FoodKind.GRAIN, "8 kg"),
            hands_off("rice.boil", 20, uses=(a_use(),)),
            hands_off("rice.chill", 600, uses=FRIDGE, food=FoodCare(depth=20, container=Container.TRAY)),
            served=False,
        ),
    )
    links = (
        a_link("wings.soak", "wings.roast"),
        a_link("fish.thaw", "fish.bake"),
        a_link("stew.braise", "stew.chill"),
        a_link("soup.keep", "soup.warm"),
        a_link("gratin.bake", "gratin.hold"),
        a_link("mince.store", "mince.fry"),
        a_link("lamb.trim", "lamb.roast"),
        a_link("rice.boil", "rice.chill"),
    )
    soup = dishes[4]
    dishes = (
        *dishes[:4],
        replace(
            soup,
            steps=tuple(reversed(soup.steps)),
            ingredients=(replace(soup.ingredients[0], step=soup.steps[1].id),),
        ),
        *dishes[5:],
    )
    placed = (
        at("cream.whip", -121, 10),
        at("wings.soak", -80, 30),
        at("wings.roast", -50, 40, "oven"),
        at("fish.thaw", -210, 180),
        at("fish.bake", -30, 20, "oven"),
        at("stew.braise", -DAY, 120, "oven"),
        at("stew.chill", 120 - DAY, 12 * 60, "fridge/0"),
        at("soup.keep", -620, 600, "fridge/1"),
        at("soup.warm", -20, 15, "burner-1"),
        at("gratin.bake", -110, 60, "oven"),
        at("gratin.hold", -50, 50, "drawer", 50),
        at("mince.store", -3 * DAY - 20, 3 * DAY, "fridge/0"),
        at("mince.fry", -20, 15, "burner-2"),
        at("lamb.trim", -130, 15, "board"),
        at("lamb.roast", -115, 90, "oven"),
        at("salad.cut", -20, 10, "board"),
        at("turkey.roast", -110, 100, "oven"),
        at("rice.boil", -1000, 20, "burner-3"),
        at("rice.chill", -980, 600, "fridge/2"),
    )
    return plan_of(*dishes, links=links), Timetable(
        placed, (stay("mince.store", "mince.fry", -20, -20, "fridge/0"),)
    )


EXPECTED = {
    Family.BETWEEN: ("cream", "two-hours"),
    Family.MARINATING: ("wings", "marinate-cold"),
    Family.THAWING: ("fish", "thaw-cold"),
    Family.COOLING: ("stew", "cool"),
    Family.REHEATING: ("soup", "reheat"),
    Family.HOLDING: ("gratin", "hot-hold"),
    Family.STORAGE: ("mince", "raw-1-2-days"),
    Family.RAW_FIRST: ("salad", "raw-wash"),
    Family.DONENESS: ("turkey", "core-poultry"),
    Family.FRIDGE: ("rice", "fridge-load"),
}


def told(report: Report) -> dict[Family, tuple[str, str]]:
    return {each.family: (str(each.dish), each.rule.id) for each in report.findings}


def test_ten_planted_faults_are_found_and_nothing_else() -> None:
    plan, timetable = a_day()
    assert problems(plan) == ()
    report = food_report(plan, timetable, HOME)
    assert len(report.findings) == 10, [each.sentence for each in report.findings]
    assert told(report) == EXPECTED
    assert len(report.over) == 10


def test_each_finding_has_its_source_a_sentence_and_something_that_mends_it() -> None:
    plan, timetable = a_day()
    for each in food_report(plan, timetable, HOME).findings:
        assert each.rule.source.publisher in each.sentence
        assert each.ways
        assert each.ways[0].sentence.endswith(".")
        ours, _paren, _source = each.sentence.partition(f"({each.rule.source.publisher}")
        assert _source
        assert not {"safe", "safely"} & set(ours.casefold().split())
        assert each.start <= each.end


@pytest.mark.parametrize("family", EXPECTED)
def test_each_fault_goes_away_by_itself(family: Family) -> None:
    plan, timetable = a_day()
    gone = EXPECTED[family][0]
    if family is Family.RAW_FIRST:  # the salad first
        moved = tuple(
            replace(one, start=-115) if one.step == "salad.cut" else one
            for one in timetable.placed
            if one.step != "lamb.trim"
        )
        moved = (*moved, at("lamb.trim", -105, 15, "board"))
        moved = tuple(
            replace(one, start=-90, length=85) if one.step == "lamb.roast" else one for one in moved
        )
        assert set(told(food_report(plan, replace(timetable, placed=moved), HOME))) == set(EXPECTED) - {
            family
        }
        return
    left = tuple(one for one in timetable.placed if not one.step.startswith(f"{gone}."))
    assert set(told(food_report(plan, replace(timetable, placed=left), HOME))) == set(EXPECTED) - {family}


def test_the_edits_that_are_offered_mend_what_they_say() -> None:
    plan, timetable = a_day()
    tried = set()
    for each in food_report(plan, timetable, HOME).findings:
        for way in each.ways:
            if way.edit is not None and each.family in (Family.COOLING, Family.REHEATING, Family.DONENESS):
                after = food_report(way.edit.change(plan), timetable, HOME)
                assert each.family not in told(after), way.sentence
                tried.add(each.family)
    assert tried == {Family.COOLING, Family.REHEATING, Family.DONENESS}


def test_what_a_step_does_may_be_told_instead_of_guessed() -> None:
    plan, timetable = a_day()
    wings = plan.dishes["wings"]
    soak = replace(wings.steps[0], food=FoodCare(Effect.PREPARE))
    dishes = tuple(
        replace(each, steps=(soak, *each.steps[1:])) if each.id == "wings" else each
        for each in plan.menu.dishes
    )
    found = food_report(replace(plan, menu=replace(plan.menu, dishes=dishes)), timetable, HOME)
    assert Family.MARINATING not in told(found)
