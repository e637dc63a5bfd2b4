"""Plans in which food is plainly at risk though no word of the plan says so: each is found, or asked about."""

from __future__ import annotations

from dataclasses import replace

import pytest

from core.plan.food import Arrival, Container, Effect, FoodCare, FoodKind
from core.plan.ids import StationId
from core.plan.kitchen import Station, StationKind
from core.plan.menu import Guest, Ingredient
from core.plan.plan import Plan
from core.plan.step import Doneness, Holding, Keep, Wait
from core.safety.finding import Report
from core.safety.rules import Measure, RuleSet
from tests.core.safety.planted import (
    CODE,
    HOME,
    UK,
    at,
    dish,
    food,
    ids,
    only,
    plan_of,
    report,
    told,
)
from tests.support.builders import a_link, a_use, hands_off

DAY = 24 * 60
FRIDGE = (a_use("fridge", area=100, height=5),)
OVEN = (a_use("oven", heat=180),)
RING = (a_use(),)
DONE = Doneness(core=80)
HOT = Keep(wait=Wait(Holding.HOT))
RICE = food("rice", FoodKind.GRAIN, "300 g")
CHICKEN = food("chicken", FoodKind.POULTRY)


BOIL = hands_off("x.boil", 20, uses=RING, doneness=Doneness(core=90)), at("x.boil", -420, 20, "burner-1")


# ---------------------------------------------------------------- held, with or without heat


@pytest.mark.parametrize("does", ["Hold covered", "Keep under a cloth", "Hold, lid on", "Keep"])
def test_keeping_without_heat_is_not_holding_hot(does: str) -> None:
    found = only(told(RICE, BOIL, (hands_off("x.keep", 300, does=does), at("x.keep", -400, 400))))
    assert (found.rule.id, found.over) == ("two-hours", 280)


@pytest.mark.parametrize(
    ("does", "cold"), [("Keep in the fridge", True), ("Hold cold", True), ("Hold", False)]
)
def test_keeping_in_the_cold_is_told_by_its_words(does: str, cold: bool) -> None:
    found = told(
        food("cream", FoodKind.DAIRY), (hands_off("x.keep", 300, does=does), at("x.keep", -300, 300))
    )
    assert ids(found) == ([] if cold else ["two-hours"])


def test_where_it_is_held_how_hot_is_asked_for_once_that_matters() -> None:
    keep = hands_off("x.keep", 300, does="Keep hot")
    for minutes, asked in ((120, 0), (121, 1)):
        found = told(
            RICE, (BOIL[0], at("x.boil", -minutes - 20, 20)), (keep, at("x.keep", -minutes, minutes))
        )
        assert found.findings == ()
        assert len(found.untold) == asked
    assert (
        found.untold[0]
        == "X: Keep hot: say how warm the food is held there; 60 °C (140 °F) or more is asked for."
    )
    waits = told(RICE, BOIL, keep=HOT)
    assert "say how warm the food is held there" in waits.untold[0]


def test_a_hot_box_whose_thermometer_shows_fifty_degrees() -> None:
    box = Station(StationId("hotbox"), "Hot box", StationKind.HOT_BOX, 1, keeps_at=50)
    step = hands_off("x.hold", 60, does="Hold", uses=(a_use(StationKind.HOT_BOX),))
    found = only(told(RICE, BOIL, (step, at("x.hold", -400, 400, "hotbox")), more=(box,)))
    assert (found.rule.id, found.over) == ("hot-hold", 10)
    hotter = replace(box, keeps_at=60)
    assert ids(told(RICE, BOIL, (step, at("x.hold", -400, 400, "hotbox")), more=(hotter,))) == []


def test_an_oven_too_cool_to_cook_cooks_nothing() -> None:
    rice = food("rice", FoodKind.GRAIN, "300 g")
    for setting, missed in ((50, ["two-hours"]), (57, [])):
        warm = hands_off("x.warm", 300, does="Warm gently", uses=(a_use("oven", heat=setting),))
        found = told(rice, BOIL, (warm, at("x.warm", -400, 400, "oven", setting)))
        assert ids(found) == missed


def test_dough_that_proves_in_a_warm_oven_ferments() -> None:
    prove = hands_off("x.prove", 300, does="Prove", uses=(a_use("oven", heat=30),))
    found = told(food("milk", FoodKind.DAIRY), (prove, at("x.prove", -300, 300, "oven", 30)))
    assert found.findings == ()
    assert "no limit was held against" in found.untold[0]


def test_what_goes_frozen_into_hot_holding() -> None:
    hold = hands_off("x.hold", 30, does="Hold", uses=(a_use(StationKind.WARM_DRAWER),))
    frozen = hands_off("x.freeze", 600, does="Freeze")
    found = told(
        food("soup", FoodKind.READY), (frozen, at("x.freeze", -700, 600)), (hold, at("x.hold", -100, 100))
    )
    assert ids(found) == ["reheat"]


# ---------------------------------------------------------------- doneness


def bird(
    core: int, rules: RuleSet, keep: Wait, kind: FoodKind = FoodKind.POULTRY, rest: int | None = None
) -> Report:
    roast = hands_off("x.roast", 60, uses=OVEN, doneness=Doneness(core=core, rest=rest))
    return told(
        food("meat", kind), (roast, at("x.roast", -110, 60, "oven")), rules=rules, keep=Keep(wait=keep)
    )


def test_poultry_at_sixty_degrees_does_not_hold_them_on_the_counter() -> None:
    found = only(bird(60, UK, Wait(Holding.COUNTER)))
    assert (found.rule.id, found.over, found.unit) == ("core", 42 * 60, "s")


def test_a_rest_in_the_fridge_is_none() -> None:
    assert ids(bird(63, HOME, Wait(Holding.COUNTER), FoodKind.WHOLE_CUT)) == []
    assert ids(bird(63, HOME, Wait(Holding.FRIDGE), FoodKind.WHOLE_CUT)) == ["core-cuts"]


def test_a_long_hold_by_a_rest_alone_is_asked_about() -> None:
    found = bird(60, UK, Wait(Holding.COUNTER), rest=45)
    assert found.findings == ()
    (said,) = found.untold
    assert said == (
        "X: Roast: 45 min at 60 °C count only while the middle stays that warm, and a rest off the heat cools it;"
        " hold it so hot, and read a probe at the end."
    )
    assert ids(bird(60, CODE, Wait(Holding.COUNTER), FoodKind.WHOLE_CUT)) == []
    assert "12 min at 60 °C count only" in bird(60, CODE, Wait(Holding.COUNTER), FoodKind.WHOLE_CUT).untold[0]


@pytest.mark.parametrize(("kind", "core", "rules", "said"), [
    (FoodKind.POULTRY, 58, UK, "12 °C below 70 °C (158 °F) for 2 min"),
    (FoodKind.GROUND_MEAT, 60, CODE, "6 °C below 66 °C (150 °F) for 1 min"),
    (FoodKind.WHOLE_CUT, 50, CODE, "15 °C below 65 °C (149 °F) for 2 min"),
    (FoodKind.POULTRY, 70, HOME, "3.9 °C below 73.9 °C (165 °F)"),
])  # fmt: skip
def test_what_is_missing_is_counted_to_what_is_named(
    kind: FoodKind, core: int, rules: RuleSet, said: str
) -> None:
    assert said in only(bird(core, rules, Wait(Holding.COUNTER), kind)).sentence


def test_eggs_of_a_feast_are_not_cooked_to_order() -> None:
    """Food Code 3-401.11(A)(2): eggs not broken to order 68 °C (155 °F) for 17 s; R."""
    assert CODE.rule("core-eggs").values.least.celsius == 68  # type: ignore[union-attr]
    assert "3-401.11(A)(2)" in CODE.rule("core-eggs").source.section
    assert ids(bird(66, CODE, Wait(Holding.HOT), FoodKind.EGGS, rest=0)) == ["core-eggs"]
    rows = [each.id for each in CODE.by_measure[Measure.CORE] if each.names(FoodKind.EGGS)]
    assert rows == ["core-eggs"]


def pie(filling: Ingredient, flour: str = "400 g") -> Report:
    bake = hands_off("x.bake", 40, uses=OVEN)
    lines = filling, food("flour", FoodKind.KEEPS, flour)
    plan = plan_of(replace(dish("x", filling, bake), ingredients=lines))
    return report(plan, at("x.bake", -340, 40, "oven"))


def test_a_pie_of_meat_is_no_bread() -> None:
    found = pie(food("minced pork", FoodKind.GROUND_MEAT, "400 g"))
    assert ids(found) == ["two-hours"]
    assert any("say the core temperature" in each for each in found.untold)
    assert ids(pie(food("cooked ham", FoodKind.READY, "400 g"))) == ["two-hours"]


def test_the_eggs_of_a_flan_count_though_they_are_told_in_pieces() -> None:
    assert ids(pie(food("eggs", FoodKind.EGGS, "4"), "200 g")) == []  # a cake
    assert ids(pie(food("eggs", FoodKind.EGGS, "9"), "200 g")) == ["two-hours"]


# ---------------------------------------------------------------- frozen, thawed, chilled


FROZEN = food("duck", FoodKind.POULTRY, "5 lb", arrives=Arrival.FROZEN)
ROAST = hands_off("x.roast", 60, uses=OVEN, doneness=Doneness(core=80)), at("x.roast", -60, 60, "oven")


def test_frozen_food_that_lay_in_the_fridge_is_frozen_no_more() -> None:
    store = (
        hands_off("x.store", 10, does="Store", uses=FRIDGE),
        at("x.store", -2 * DAY, 2 * DAY - 260, "fridge/0"),
    )
    found = told(FROZEN, store, (hands_off("x.cut", 200), at("x.cut", -260, 200)), ROAST)
    assert [(each.rule.id, each.over) for each in found.findings] == [("two-hours", 80)]


def test_frozen_food_that_lies_in_the_fridge_too_short_to_thaw_is_asked_about() -> None:
    for hours, asked in ((5, 1), (24, 0)):
        store = hands_off("x.store", 10, does="Store", uses=FRIDGE)
        found = told(FROZEN, (store, at("x.store", -60 - hours * 60, hours * 60, "fridge/0")), ROAST)
        assert found.findings == ()
        assert sum("say which step thaws it" in each for each in found.untold) == asked


def test_thawing_in_a_cool_box_that_is_too_warm() -> None:
    thaw = hands_off("x.thaw", 10, does="Thaw", uses=(a_use(StationKind.COLD_COUNTER),))
    found = told(FROZEN, (thaw, at("x.thaw", -60 - DAY, DAY, "box")), ROAST)
    assert ids(found) == ["cold-hold"]


def test_hot_food_straight_into_the_freezer_cools_too() -> None:
    for depth, missed in ((150, ["cool"]), (10, [])):
        freeze = hands_off(
            "x.freeze", 600, does="Freeze", food=FoodCare(Effect.FREEZE, depth, Container.TRAY)
        )
        found = told(RICE, BOIL, (freeze, at("x.freeze", -400, 1200)), served=False)
        assert ids(found) == missed
    asked = told(
        RICE, BOIL, (hands_off("x.freeze", 600, does="Freeze"), at("x.freeze", -400, 1200)), served=False
    )
    assert asked.untold == ("X: Freeze: say how deep the food lies, so that its cooling can be judged.",)


def test_cut_melon_has_a_date_mark() -> None:
    """Food Code 3-501.17; R."""
    melon = food("melon", FoodKind.CUT_PRODUCE)
    for days, missed in ((6, []), (8, ["date-mark"])):
        keep = (
            hands_off("x.keep", 10, does="Store", uses=FRIDGE),
            at("x.keep", -days * DAY, days * DAY, "fridge/1"),
        )
        assert ids(told(melon, keep, rules=CODE)) == missed


def test_stew_meat_keeps_two_days() -> None:
    """USDA FSIS, cold storage: hamburger and stew meats 1 to 2 days; M."""
    for minutes, missed in ((2 * DAY, []), (2 * DAY + 1, ["raw-1-2-days"])):
        keep = (
            hands_off("x.keep", 10, does="Store", uses=FRIDGE),
            at("x.keep", -60 - minutes, minutes, "fridge/0"),
        )
        assert ids(told(food("stewing beef", FoodKind.CUBED_MEAT), keep, ROAST, keep=HOT)) == missed


def test_the_hour_in_the_heat_is_asked_about_where_the_room_is_not_told() -> None:
    def out(minutes: int, room: int | None) -> Report:
        plan: Plan = plan_of(dish("x", food("cream", FoodKind.DAIRY), hands_off("x.whip", 10)))
        plan = replace(plan, kitchen=replace(plan.kitchen, room=room))
        return report(plan, at("x.whip", -minutes, minutes))

    assert [len(out(minutes, None).untold) for minutes in (60, 61)] == [0, 1]
    assert "32 °C (90 °F)" in out(61, None).untold[0]
    assert out(61, 21).untold == ()


def test_raw_eggs_for_a_guest_at_risk() -> None:
    plan = plan_of(dish("x", food("egg yolks", None, "4"), hands_off("x.whisk", 10)))
    plan = replace(plan, menu=replace(plan.menu, guests=(Guest("Orla", at_risk="pregnant"),)))
    assert only(report(plan, at("x.whisk", -20, 10))).rule.id == "at-risk-raw"


def test_a_rare_burger() -> None:
    assert only(bird(60, HOME, Wait(Holding.COUNTER), FoodKind.GROUND_MEAT)).level.name == "OVER"


def test_the_uk_s_63_degrees_are_no_less_in_fahrenheit() -> None:
    """63 °C are 145.4 °F: whoever reads a probe in °F needs 146."""
    for rules in (HOME, CODE, UK):
        for rule in rules.rules:
            for least in (rule.values.least, *(hold.at for hold in rule.values.holds)):
                if (
                    least is not None and "FDA" not in rule.source.publisher
                ):  # the code prints both scales itself
                    assert least.fahrenheit >= least.celsius * 9 / 5 + 32 - 1 / 5


# ---------------------------------------------------------------- counts, ways and more cautions


def test_a_short_warming_of_cooked_food_begins_no_new_count() -> None:
    flash = hands_off("x.flash", 2, does="Warm through", uses=RING)
    for minutes, missed in ((60, []), (61, ["two-hours"])):
        steps = (
            (hands_off("x.slice", 60), at("x.slice", -62 - minutes, 60)),
            (flash, at("x.flash", -2 - minutes, 2, "burner-1")),
        )
        assert ids(told(food("cooked beef", FoodKind.READY), *steps)) == missed
    hot = replace(flash, doneness=Doneness(core=75))
    steps = (hands_off("x.slice", 60), at("x.slice", -172, 60)), (hot, at("x.flash", -112, 2, "burner-1"))
    assert ids(told(food("cooked beef", FoodKind.READY), *steps)) == []


def test_raw_food_that_comes_warm_is_asked_about() -> None:
    for arrives, asked in ((Arrival.ROOM, 1), (Arrival.FRIDGE, 0), (None, 0)):
        found = told(food("chicken", FoodKind.POULTRY, arrives=arrives), ROAST, keep=HOT)
        assert sum("comes at room temperature" in each for each in found.untold) == asked
    assert told(food("flour", FoodKind.KEEPS, arrives=Arrival.ROOM), ROAST, keep=HOT).untold == ()


def test_a_food_with_more_ways_than_are_followed_is_told() -> None:
    def forks(count: int) -> Report:
        steps, links = [hands_off("x.s0", 1)], []
        for n in range(count):
            ends = [hands_off(f"x.{side}{n}", 1) for side in "ab"]
            steps += [*ends, hands_off(f"x.s{n + 1}", 1)]
            for end in ends:
                links += [a_link(f"x.s{n}", end.id), a_link(end.id, f"x.s{n + 1}")]
        placed = [at(each.id, -100 + number, 1) for number, each in enumerate(steps)]
        return report(plan_of(dish("x", RICE, *steps), links=tuple(links)), *placed)

    assert forks(5).untold == ()
    assert forks(6).untold == (
        "Rice (X) goes more than 32 ways through the menu: only the first 32 were looked at.",
    )


def test_raw_and_ready_food_in_a_cold_box_without_shelves_is_asked_about() -> None:
    cold = (a_use(StationKind.COLD_COUNTER),)
    for start, asked in ((-100, 1), (-30, 0)):
        raw = dish("x", CHICKEN, hands_off("x.store", 60, does="Store", uses=cold), ROAST[0], keep=HOT)
        milk = dish("m", food("milk", FoodKind.DAIRY), hands_off("m.store", 60, does="Store", uses=cold))
        plan = plan_of(raw, milk, links=(a_link("x.store", "x.roast"),))
        placed = at("x.store", start, 40, "box"), ROAST[1], at("m.store", -120, 60, "box")
        found = report(plan, *placed)
        assert sum("in one cold place without shelves" in each for each in found.untold) == asked


def test_what_a_longer_time_out_asks_for_is_in_the_notes_of_its_set() -> None:
    """Food Code 3-501.19(A): written procedures, prepared beforehand, and marks; R. FSA: one period, once; R2."""
    assert "3-501.19" in CODE.note
    assert "written" in CODE.note
    assert "once" in UK.note
