"""Each limit one minute, or one tenth of a degree, to either side, on a timetable."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from itertools import pairwise
from typing import Any

import pytest

from core.plan.food import Arrival, Container, Effect, FoodCare, FoodKind
from core.plan.ids import CookId, VesselId
from core.plan.kitchen import StationKind
from core.plan.menu import Guest, Menu
from core.plan.plan import Plan
from core.plan.step import Doneness, Holding, Keep, VesselUse, Wait, Yield
from core.safety.finding import Level, Report, as_clash
from core.safety.rules import Degrees, RuleSet
from core.timetable.clash import ClashKind
from core.timetable.timetable import Placed, Washing
from tests.core.safety.planted import CODE, HOME, UK, at, dish, food, ids, only, plan_of, report, with_room
from tests.support.builders import a_kitchen, a_link, a_use, a_vessel, chained, hands_off

DAY = 24 * 60
FRIDGE = (a_use("fridge", area=100, height=5),)
OVEN = (a_use("oven", heat=180),)
HOT = Keep(wait=Wait(Holding.HOT))
DONE = Doneness(core=80, rest=5)
TENTH = Fraction(1, 10)


def with_values(rules: RuleSet, row: str, **values: Any) -> RuleSet:
    """Return the set with other numbers in one row."""
    changed = tuple(
        replace(each, values=replace(each.values, **values)) if each.id == row else each
        for each in rules.rules
    )
    return replace(rules, rules=changed)


def warm(celsius: Fraction) -> Degrees:
    return Degrees(celsius, celsius * 9 / 5 + 32)


# ---------------------------------------------------------------- between cold and hot


def cream(minutes: int) -> tuple[Plan, Placed]:
    return plan_of(dish("cream", food("cream", FoodKind.DAIRY), hands_off("cream.whip", 10))), at(
        "cream.whip", -minutes, 10
    )


@pytest.mark.parametrize(("minutes", "room", "offered"), [
    (241, 21, True), (360, 21, True), (361, 21, False), (300, 22, False),
])  # fmt: skip
def test_six_hours_are_offered_only_out_of_the_cold_and_never_above_21_degrees(
    minutes: int, room: int, offered: bool
) -> None:
    cold = food("cream", FoodKind.DAIRY, arrives=Arrival.FRIDGE)
    plan = plan_of(dish("cream", cold, hands_off("cream.whip", 10)))
    found = report(with_room(plan, room), at("cream.whip", -minutes, 10), rules=CODE)
    (finding,) = [each for each in found.findings if each.rule.id == "four-hours"]
    said = [way.sentence for way in finding.ways if "3-501.19(C)" in way.sentence]
    assert bool(said) is offered
    assert all("chosen beforehand" in each and "thrown away" in each for each in said)


@pytest.mark.parametrize(("minutes", "room", "missed"), [
    (120, 21, []), (121, 21, ["two-hours"]), (60, 33, []), (61, 33, ["one-hour"]), (61, 32, []),
    (121, 33, ["one-hour", "two-hours"]),
])  # fmt: skip
def test_two_hours_and_one_hour_in_the_heat(minutes: int, room: int, missed: list[str]) -> None:
    plan, placed = cream(minutes)
    found = report(with_room(plan, room), placed)
    assert ids(found) == missed
    assert [each.over for each in found.findings] == [
        minutes - (60 if each == "one-hour" else 120) for each in ids(found)
    ]


@pytest.mark.parametrize(("rules", "minutes", "missed"), [
    (CODE, 240, []), (CODE, 241, ["four-hours"]), (UK, 240, []), (UK, 241, ["four-hours-cold"]),
])  # fmt: skip
def test_four_hours(rules: RuleSet, minutes: int, missed: list[str]) -> None:
    plan, placed = cream(minutes)
    assert ids(report(plan, placed, rules=rules)) == missed


@pytest.mark.parametrize(("minutes", "missed"), [(120, []), (121, ["two-hours-hot"])])
def test_hot_food_in_the_uk_has_two_hours_below_63(minutes: int, missed: list[str]) -> None:
    plan = plan_of(dish("pie", food("potatoes", FoodKind.PRODUCE), hands_off("pie.bake", 60, uses=OVEN)))
    assert ids(report(plan, at("pie.bake", -60 - minutes, 60, "oven"), rules=UK)) == missed


def test_minutes_add_up_over_fridge_waits_and_across_dishes() -> None:
    stock = dish(
        "stock",
        food("cooked bones", FoodKind.READY),
        hands_off("stock.strain", 60, yields=None),
        hands_off("stock.chill", 100, uses=FRIDGE),
        served=False,
    )
    soup = dish("soup", food("salt", FoodKind.KEEPS), hands_off("soup.cut", 30))
    plan = plan_of(
        stock,
        soup,
        links=(
            a_link("stock.strain", "stock.chill"),
            a_link("stock.chill", "soup.cut", wait=Wait(Holding.FRIDGE)),
        ),
    )
    placed = at("stock.strain", -400, 60), at("stock.chill", -340, 100, "fridge/1")
    assert ids(report(plan, *placed, at("soup.cut", -60, 30))) == []
    found = only(report(plan, *placed, at("soup.cut", -61, 30)))
    assert found.over == 1
    assert found.steps == ("stock.strain", "soup.cut")
    assert found.dish == "soup"


def test_cooking_begins_a_new_count_and_reheating_does_not() -> None:
    steps = (
        hands_off("ham.cut", 100),
        hands_off("ham.boil", 60, uses=(a_use(),), doneness=DONE),
        hands_off("ham.cut-up", 70),
        hands_off("ham.chill", 600, uses=FRIDGE, food=FoodCare(depth=10)),
        hands_off("ham.warm", 30, uses=(a_use(),), doneness=DONE),
    )
    links = tuple(a_link(one.id, other.id) for one, other in pairwise(steps))
    links = (*links[:-1], replace(links[-1], wait=Wait(Holding.FRIDGE)))
    plan = plan_of(dish("ham", food("cooked ham", FoodKind.READY), *steps), links=links)
    early = (
        at("ham.cut", -1000, 100),
        at("ham.boil", -900, 60),
        at("ham.cut-up", -840, 70),
        at("ham.chill", -770, 600, "fridge/1"),
    )
    assert ids(report(plan, *early, at("ham.warm", -80, 30))) == []
    found = report(plan, *early, at("ham.warm", -81, 30))
    assert [(each.rule.id, each.over) for each in found.findings] == [("two-hours", 1)]


def test_what_ferments_is_not_counted() -> None:
    for does in ("Culture", "First proof", "Final rise, covered"):
        steps = (hands_off("yoghurt.culture", 600, does=does),)
        plan = plan_of(dish("yoghurt", food("milk", FoodKind.DAIRY), *steps))
        assert ids(report(plan, at("yoghurt.culture", -610, 600))) == []
    steps = (hands_off("yoghurt.culture", 600, does="First stir"),)
    plan = plan_of(dish("yoghurt", food("milk", FoodKind.DAIRY), *steps))
    assert ids(report(plan, at("yoghurt.culture", -610, 600))) == ["two-hours"]


# ---------------------------------------------------------------- marinating and thawing


@pytest.mark.parametrize(
    ("minutes", "missed"), [(2 * DAY, []), (2 * DAY + 1, ["marinate-poultry", "raw-1-2-days"])]
)
def test_poultry_marinates_two_days(minutes: int, missed: list[str]) -> None:
    steps = (
        hands_off("wings.soak", 10, does="Marinate", uses=FRIDGE),
        hands_off("wings.roast", 30, uses=OVEN, doneness=DONE),
    )
    plan = plan_of(
        dish("wings", food("wings", FoodKind.POULTRY), *steps, keep=HOT),
        links=(a_link("wings.soak", "wings.roast"),),
    )
    assert (
        ids(
            report(
                plan, at("wings.soak", -60 - minutes, minutes, "fridge/0"), at("wings.roast", -60, 30, "oven")
            )
        )
        == missed
    )


@pytest.mark.parametrize(("minutes", "missed"), [(0, []), (1, ["marinate-cold"])])
def test_marinating_out_of_the_fridge(minutes: int, missed: list[str]) -> None:
    steps = (
        hands_off("wings.soak", 10, does="Marinate"),
        hands_off("wings.roast", 30, uses=OVEN, doneness=DONE),
    )
    plan = plan_of(
        dish("wings", food("wings", FoodKind.POULTRY), *steps, keep=HOT),
        links=(a_link("wings.soak", "wings.roast"),),
    )
    assert (
        ids(report(plan, at("wings.soak", -60 - minutes, minutes), at("wings.roast", -60, 30, "oven")))
        == missed
    )


def bird(does: str, minutes: int, waits: int = 0, where: str = "", uses: Any = ()) -> Report:
    thaw = hands_off("bird.thaw", 10, does=does, uses=uses)
    steps = thaw, hands_off("bird.roast", 30, uses=OVEN, doneness=DONE)
    plan = plan_of(
        dish("bird", food("duck", FoodKind.POULTRY, "5 lb", arrives=Arrival.FROZEN), *steps, keep=HOT),
        links=(a_link("bird.thaw", "bird.roast"),),
    )
    return report(
        plan, at("bird.thaw", -60 - waits - minutes, minutes, where), at("bird.roast", -60, 30, "oven")
    )


def test_thawing_in_the_fridge_by_weight() -> None:
    assert ids(bird("Thaw", DAY, where="fridge/0", uses=FRIDGE)) == []
    found = only(bird("Thaw", DAY - 1, where="fridge/0", uses=FRIDGE))
    assert (found.rule.id, found.over, found.unit) == ("thaw-fridge", 1, "min")
    assert found.ways[0].edit is not None
    assert found.ways[0].sentence == "Start thawing on Fri 12:30."


def test_thawing_in_water_is_cooked_at_once() -> None:
    assert ids(bird("Thaw in cold water", 150)) == []
    assert ids(bird("Thaw in cold water", 150, waits=1)) == ["thaw-water"]
    assert ids(bird("Thaw in cold water", 149)) == ["thaw-water"]


def test_frozen_food_that_nothing_thaws_and_food_that_goes_frozen_to_the_cooker() -> None:
    frozen = food("duck", FoodKind.POULTRY, "5 lb", arrives=Arrival.FROZEN)
    roast = hands_off("bird.roast", 30, uses=OVEN, doneness=DONE)
    straight = plan_of(dish("bird", frozen, roast, keep=HOT))
    assert ids(report(straight, at("bird.roast", -60, 30, "oven"))) == []
    cut = plan_of(
        dish("bird", frozen, hands_off("bird.cut", 5), roast, keep=HOT),
        links=(a_link("bird.cut", "bird.roast"),),
    )
    found = only(report(cut, at("bird.cut", -65, 5), at("bird.roast", -60, 30, "oven")))
    assert (found.rule.id, found.steps) == ("thaw-cold", ("bird.cut",))


# ---------------------------------------------------------------- cooling, reheating, holding


def stew(depth: int, container: Container = Container.TRAY) -> Report:
    steps = (
        hands_off("stew.boil", 60, uses=(a_use(),), doneness=DONE),
        hands_off("stew.chill", 600, uses=FRIDGE, food=FoodCare(depth=depth, container=container)),
    )
    plan = plan_of(
        dish("stew", food("stew beef", FoodKind.CUBED_MEAT, "300 g"), *steps, served=False),
        links=(a_link("stew.boil", "stew.chill"),),
    )
    return report(plan, at("stew.boil", -900, 60, "burner-1"), at("stew.chill", -840, 900, "fridge/1"))


def test_cooling_depends_on_depth_and_container_and_offers_what_makes_it() -> None:
    deepest = max(depth for depth in range(10, 60) if not stew(depth).findings)
    assert 15 <= deepest <= 45
    found = only(stew(deepest + 1))
    assert (found.rule.id, found.unit) == ("cool", "min")
    assert found.over >= 1
    assert found.ways[0].sentence.startswith("Chill in ")
    assert "reaches 5 °C (41 °F) by " in found.ways[0].sentence
    assert only(stew(60)).over < only(stew(100)).over
    assert only(stew(60)).over > (
        only(stew(60, Container.POT)).over
    )  # a pot as deep loses heat at its side too


def test_cooling_that_is_not_told_is_asked_about() -> None:
    found = stew(0)
    assert found.findings == ()
    assert found.untold == ("Stew: Chill: say how deep the food lies, so that its cooling can be judged.",)


@pytest.mark.parametrize(
    ("least", "missed"), [(73 + TENTH, ["reheat"]), (Fraction(73), []), (73 - TENTH, [])]
)
def test_reheating_a_tenth_of_a_degree_to_either_side(least: Fraction, missed: list[str]) -> None:
    rules = with_values(HOME, "reheat", least=warm(least))
    assert ids(soup(30, rules=rules)) == missed


@pytest.mark.parametrize(("minutes", "missed"), [(120, []), (121, ["reheat"])])
def test_reheating_takes_two_hours_at_most(minutes: int, missed: list[str]) -> None:
    assert ids(soup(minutes, core=74)) == missed


def soup(minutes: int, core: int = 73, rules: RuleSet = HOME) -> Report:
    steps = (
        hands_off("soup.keep", 600, uses=FRIDGE),
        hands_off("soup.warm", 30, uses=(a_use(),), doneness=Doneness(core=core)),
    )
    plan = plan_of(
        dish("soup", food("soup", FoodKind.READY), *steps, keep=HOT),
        links=(a_link("soup.keep", "soup.warm"),),
    )
    placed = at("soup.keep", -900, 600, "fridge/1"), at("soup.warm", -300, minutes, "burner-1")
    return report(plan, *placed, rules=rules)


def test_what_goes_cold_into_hot_holding() -> None:
    hold = hands_off("soup.hold", 30, does="Hold", uses=(a_use(StationKind.WARM_DRAWER),))
    steps = hands_off("soup.keep", 600, uses=FRIDGE), hold
    plan = plan_of(
        dish("soup", food("soup", FoodKind.READY), *steps), links=(a_link("soup.keep", "soup.hold"),)
    )
    assert ids(report(plan, at("soup.keep", -630, 600, "fridge/1"), at("soup.hold", -30, 30, "drawer"))) == [
        "reheat"
    ]


@pytest.mark.parametrize(("setting", "shift", "missed"), [
    (60, Fraction(0), []), (60, TENTH, ["hot-hold"]), (60, -TENTH, []), (59, Fraction(0), ["hot-hold"]),
])  # fmt: skip
def test_holding_hot(setting: int, shift: Fraction, missed: list[str]) -> None:
    rules = with_values(HOME, "hot-hold", least=warm(60 + shift))
    hold = hands_off("pie.hold", 30, does="Hold", uses=(a_use(StationKind.WARM_DRAWER, heat=60),))
    plan = plan_of(
        dish("pie", food("potatoes", FoodKind.PRODUCE), hands_off("pie.bake", 60, uses=OVEN), hold),
        links=(a_link("pie.bake", "pie.hold"),),
    )
    placed = at("pie.bake", -90, 60, "oven"), at("pie.hold", -30, 30, "drawer", setting)
    assert ids(report(plan, *placed, rules=rules)) == missed


@pytest.mark.parametrize(("shift", "missed"), [(Fraction(0), []), (TENTH, []), (-TENTH, ["cold-hold"])])
def test_holding_cold(shift: Fraction, missed: list[str]) -> None:
    rules = with_values(HOME, "cold-hold", most=warm(9 + shift))
    keep = hands_off("milk.keep", 30, does="Store", uses=(a_use(StationKind.COLD_COUNTER),))
    plan = plan_of(dish("milk", food("milk", FoodKind.DAIRY), keep))
    assert ids(report(plan, at("milk.keep", -30, 30, "box"), rules=rules)) == missed


# ---------------------------------------------------------------- storage


@pytest.mark.parametrize(
    ("kind", "days"), [(FoodKind.GROUND_MEAT, 2), (FoodKind.WHOLE_CUT, 5), (FoodKind.FISH, 3)]
)
def test_raw_food_in_the_fridge(kind: FoodKind, days: int) -> None:
    for minutes, missed in ((days * DAY, 0), (days * DAY + 1, 1)):
        steps = (
            hands_off("meat.keep", 10, does="Store", uses=FRIDGE),
            hands_off("meat.fry", 10, uses=(a_use(),), doneness=DONE),
        )
        plan = plan_of(
            dish("meat", food("meat", kind), *steps, keep=HOT), links=(a_link("meat.keep", "meat.fry"),)
        )
        found = report(plan, at("meat.keep", -60 - minutes, minutes, "fridge/0"), at("meat.fry", -60, 10))
        assert [each.family.value for each in found.findings] == ["storage"] * missed
        assert [each.over for each in found.findings] == [1] * missed


def cooked(minutes: int, rules: RuleSet = HOME, frozen: int = 0) -> Report:
    """Return what is found of rice cooked, chilled for so many minutes, of which so many frozen, then served cold."""
    steps = [
        hands_off("rice.boil", 20, uses=(a_use(),)),
        hands_off("rice.chill", 600, uses=FRIDGE, food=FoodCare(depth=10, container=Container.TRAY)),
        hands_off("rice.freeze", 600, does="Freeze"),
    ]
    placed = [at("rice.boil", -20 - minutes, 20), at("rice.chill", -minutes, minutes - frozen, "fridge/1")]
    if frozen:
        placed.append(at("rice.freeze", -frozen, frozen))
    else:
        steps.pop()
    links = tuple(a_link(one.id, other.id) for one, other in pairwise(steps))
    plan = plan_of(dish("rice", food("rice", FoodKind.GRAIN, "200 g"), *steps), links=links)
    return report(plan, *placed, rules=rules)


def test_cooked_food_keeps_four_days_and_the_freezer_stops_the_clock() -> None:
    assert ids(cooked(4 * DAY)) == []
    assert only(cooked(4 * DAY + 1)).over == 1
    assert ids(cooked(9 * DAY, frozen=5 * DAY)) == []
    assert only(cooked(9 * DAY + 1, frozen=5 * DAY)).over == 1


def test_the_date_mark_counts_days_and_the_day_made_is_the_first() -> None:
    since_morning = 19 * 60 + 30  # plating is at 19:30: so many minutes ago the sixth day before began
    assert ids(cooked(6 * DAY + since_morning, CODE)) == []
    found = only(cooked(6 * DAY + since_morning + 1, CODE))
    assert (found.rule.id, found.over, found.unit) == ("date-mark", 1, "days")


# ---------------------------------------------------------------- raw first


def board(first: int, clean: int | None = None, wash: bool = True) -> Report:
    raw = (
        hands_off("lamb.trim", 10, uses=(a_use("room"),)),
        hands_off("lamb.roast", 60, uses=OVEN, doneness=DONE),
    )
    wipe = hands_off("salad.wipe", 5, does="Wash the board" if wash else "Look at the board")
    salad = hands_off("salad.cut", 10, uses=(a_use("room"),)), wipe
    plan = plan_of(
        dish("lamb", food("lamb", FoodKind.WHOLE_CUT), *raw, keep=HOT),
        dish("salad", food("lettuce", FoodKind.CUT_PRODUCE), *salad),
        links=(a_link("lamb.trim", "lamb.roast"),),
    )
    placed = [
        at("lamb.trim", first, 10, "board"),
        at("lamb.roast", -80, 60, "oven"),
        at("salad.cut", -90, 10, "board"),
    ]
    if clean is not None:
        placed.append(at("salad.wipe", clean, 5))
    return report(plan, *placed)


def test_ready_food_after_raw_food_on_a_board() -> None:
    assert only(board(-110)).rule.id == "raw-wash"
    assert ids(board(-110, clean=-95)) == []
    assert ids(board(-110, clean=-94)) == ["raw-wash"]
    assert ids(board(-110, clean=-100)) == []
    assert ids(board(-110, clean=-101)) == ["raw-wash"]
    assert ids(board(-110, clean=-95, wash=False)) == ["raw-wash"]
    assert ids(board(-80)) == []


def test_ready_food_in_a_vessel_that_held_raw_food() -> None:
    tray = (VesselUse(VesselId("tray")),)
    dishes = (
        dish(
            "lamb",
            food("lamb", FoodKind.WHOLE_CUT),
            hands_off("lamb.trim", 10, vessels=tray),
            hands_off("lamb.roast", 60, uses=OVEN, doneness=DONE),
            keep=HOT,
        ),
        dish("salad", food("lettuce", FoodKind.CUT_PRODUCE), hands_off("salad.cut", 10, vessels=tray)),
    )
    placed = at("lamb.trim", -110, 10), at("lamb.roast", -90, 60, "oven"), at("salad.cut", -60, 10)
    for count, washed, missed in ((1, None, 1), (1, -65, 0), (1, -64, 1), (2, None, 0)):
        plan = plan_of(
            *dishes,
            links=(a_link("lamb.trim", "lamb.roast"),),
            kitchen=a_kitchen(vessels=(a_vessel("tray", count),)),
        )
        wash = (
            ()
            if washed is None
            else (Washing(VesselId("tray"), washed, 5, plan.steps["lamb.trim"].id, CookId("ann")),)
        )
        assert ids(report(plan, *placed, washings=wash)) == ["raw-wash"] * missed


@pytest.mark.parametrize(
    ("shelf", "start", "missed"), [(0, -100, 0), (1, -100, 0), (2, -100, 1), (2, -30, 0), (2, -31, 1)]
)
def test_raw_food_above_ready_food(shelf: int, start: int, missed: int) -> None:
    keep = (
        hands_off("lamb.keep", 10, does="Store", uses=FRIDGE),
        hands_off("lamb.roast", 60, uses=OVEN, doneness=DONE),
    )
    plan = plan_of(
        dish("lamb", food("lamb", FoodKind.WHOLE_CUT), *keep, keep=HOT),
        dish("milk", food("milk", FoodKind.DAIRY), hands_off("milk.keep", 10, does="Store", uses=FRIDGE)),
        links=(a_link("lamb.keep", "lamb.roast"),),
    )
    placed = (
        at("lamb.keep", start, 100, f"fridge/{shelf}"),
        at("lamb.roast", start + 100, 60, "oven"),
        at("milk.keep", -100, 70, "fridge/1"),
    )
    assert ids(report(plan, *placed)) == ["raw-below"] * missed


# ---------------------------------------------------------------- doneness and guests


def roast(
    core: int, rest: int | None, kind: FoodKind = FoodKind.WHOLE_CUT, rules: RuleSet = HOME, risk: str = ""
) -> Report:
    steps = (hands_off("meat.roast", 60, uses=OVEN, doneness=Doneness(core=core, rest=rest)),)
    plan = plan_of(dish("meat", food("meat", kind), *steps))
    if risk:
        plan = replace(plan, menu=replace(plan.menu, guests=(Guest("Orla", at_risk=risk),)))
    return report(plan, at("meat.roast", -80, 60, "oven"), rules=rules)


@pytest.mark.parametrize(("shift", "missed"), [(Fraction(0), []), (TENTH, ["core-poultry"]), (-TENTH, [])])
def test_core_temperature_a_tenth_to_either_side(shift: Fraction, missed: list[str]) -> None:
    rules = with_values(HOME, "core-poultry", least=warm(74 + shift))
    assert ids(roast(74, None, FoodKind.POULTRY, rules)) == missed


@pytest.mark.parametrize(
    ("core", "rest", "over"), [(63, 3, None), (63, 2, 1), (62, 3, Fraction(8, 10)), (70, 0, None)]
)
def test_core_and_rest_of_a_cut(core: int, rest: int, over: Fraction | None) -> None:
    assert [each.over for each in roast(core, rest).findings] == ([] if over is None else [over])


def test_a_rest_that_is_not_told_is_what_the_timetable_leaves() -> None:
    assert ids(roast(63, None)) == []  # it waits for 20 min


def test_a_cooks_own_target_is_a_caution_and_for_a_guest_at_risk_over_the_limit() -> None:
    own = only(roast(57, 10))
    assert own.level is Level.CAUTION
    assert "your target is 57 °C, 5.8 °C below 62.8 °C (145 °F)" in own.sentence
    assert own.ways[0].sentence == "Cook it to 63 °C in the thickest part and let it rest 10 min."
    assert only(roast(57, 10, risk="pregnant")).level is Level.OVER
    assert only(roast(57, 10, FoodKind.GROUND_MEAT)).level is Level.OVER


def test_raw_fish_is_a_caution_and_for_a_guest_at_risk_over_the_limit() -> None:
    plan = plan_of(dish("fish", food("trout", FoodKind.FISH), hands_off("fish.slice", 10)))
    found = report(plan, at("fish.slice", -20, 10))
    assert found.findings == ()
    assert "not for the pregnant" in found.cautions[0]
    guests = replace(plan, menu=Menu(plan.menu.dishes, guests=(Guest("Orla", at_risk="pregnant"),)))
    assert only(report(guests, at("fish.slice", -20, 10))).rule.id == "at-risk-raw"


def test_raw_poultry_that_nothing_cooks() -> None:
    plan = plan_of(dish("sauce", food("wings", FoodKind.POULTRY), hands_off("sauce.stir", 10)))
    found = only(report(plan, at("sauce.stir", -20, 10)))
    assert (found.rule.id, found.level) == ("core-poultry", Level.OVER)
    assert "a used marinade is boiled" in found.ways[0].sentence


# ---------------------------------------------------------------- the fridge, names, by-products


@pytest.mark.parametrize(("grams", "missed"), [(2432, []), (2433, ["fridge-load"])])
def test_what_a_fridge_takes_away_within_two_hours(grams: int, missed: list[str]) -> None:
    # 100 W for two hours are 720 kJ; a gram from 85 to 5 °C holds 0.296 kJ: 2432.4 g
    steps = (
        hands_off("rice.boil", 20, uses=(a_use(),), doneness=Doneness(core=85)),
        hands_off("rice.chill", 600, uses=FRIDGE, food=FoodCare(depth=10, container=Container.TRAY)),
    )
    plan = plan_of(
        dish("rice", food("rice", FoodKind.GRAIN, f"{grams} g"), *steps, served=False),
        links=(a_link("rice.boil", "rice.chill"),),
    )
    assert ids(report(plan, at("rice.boil", -900, 20), at("rice.chill", -880, 600, "fridge/1"))) == missed


def test_a_guess_is_said_and_what_cannot_be_guessed_is_not_judged() -> None:
    plan = plan_of(dish("cream", food("double cream", None), hands_off("cream.whip", 10)))
    found = only(report(plan, at("cream.whip", -200, 10)))
    assert found.proposed
    assert found.sentence.endswith("It is taken for milk and cream by its name; say so if it is not.")
    plan = plan_of(dish("x", food("brumble", None), hands_off("x.stir", 10)))
    unknown = report(plan, at("x.stir", -200, 10))
    assert unknown.findings == ()
    assert unknown.untold == ("The kind of food is not told of brumble: no limit was held against them.",)


def test_a_by_product_is_judged_as_what_it_came_from() -> None:
    yields = Yield("stock", food("x", None, "1 kg").quantity)
    bones = dish(
        "bones",
        food("chicken bones", FoodKind.POULTRY),
        hands_off("bones.boil", 90, uses=(a_use(),), yields=yields, doneness=DONE),
        keep=HOT,
    )
    sauce = dish("sauce", food("stock", None, "500 g"), hands_off("sauce.stir", 10))
    link = a_link("bones.boil", "sauce.stir", brings=food("x", None, "500 g").quantity)
    found = only(
        report(plan_of(bones, sauce, links=(link,)), at("bones.boil", -300, 90), at("sauce.stir", -80, 10))
    )
    assert (found.rule.id, found.foods, found.dish) == ("two-hours", ("chicken bones",), "sauce")
    assert found.over == 90


def rolls(flour: int) -> Report:
    """Return what is found of milk baked into a dough with so much flour to 200 g of milk, eaten four hours later."""
    bake = hands_off("rolls.bake", 20, uses=OVEN)
    lines = (food("milk", FoodKind.DAIRY, "200 g"), food("strong flour", FoodKind.KEEPS, f"{flour} g"))
    plan = plan_of(replace(dish("rolls", lines[0], bake), ingredients=lines))
    return report(plan, at("rolls.bake", -260, 20, "oven"))


@pytest.mark.parametrize(("flour", "missed"), [(100, []), (99, ["two-hours"])])
def test_what_is_baked_into_bread_keeps(flour: int, missed: list[str]) -> None:
    assert ids(rolls(flour)) == missed


def test_a_fridge_that_is_no_place_of_the_kitchen_is_cold_all_the_same() -> None:
    steps = hands_off("milk.boil", 10, uses=(a_use(),)), hands_off("milk.serve", 5)
    link = a_link("milk.boil", "milk.serve", wait=Wait(Holding.FRIDGE))
    plan = with_room(plan_of(dish("milk", food("milk", FoodKind.DAIRY), *steps), links=(link,)), 30)
    assert ids(report(plan, at("milk.boil", -900, 10), at("milk.serve", -60, 5))) == []
    freezes = (
        hands_off("milk.boil", 10, uses=(a_use(),)),
        hands_off("milk.chill", 700, food=FoodCare(Effect.CHILL)),
    )
    plan = with_room(
        plan_of(dish("milk", food("milk", FoodKind.DAIRY), *freezes), links=chained(*freezes)), 30
    )
    assert ids(report(plan, at("milk.boil", -720, 10), at("milk.chill", -710, 700))) == []


def test_a_finding_can_stand_among_the_clashes() -> None:
    plan, placed = cream(121)
    clash = as_clash(only(report(plan, placed)))
    assert (clash.kind, clash.start, clash.end, clash.steps, clash.by) == (
        ClashKind.FOOD_SAFETY,
        -121,
        0,
        ("cream.whip",),
        1,
    )


def test_of_a_by_product_a_fridge_gets_as_much_as_its_link_brings() -> None:
    yields = Yield("stock", food("x", None, "9 kg").quantity)
    bones = dish(
        "bones",
        food("chicken bones", FoodKind.POULTRY, "9 kg"),
        hands_off("bones.boil", 90, uses=(a_use(),), yields=yields),
        served=False,
    )
    cold = FoodCare(depth=10, container=Container.TRAY)
    jelly = dish(
        "jelly",
        food("salt", FoodKind.KEEPS, "1 g"),
        hands_off("jelly.boil", 10, uses=(a_use(),), doneness=Doneness(core=85)),
        hands_off("jelly.set", 600, uses=FRIDGE, food=cold),
    )
    for brought, missed in (("2400 ml", []), ("2500 ml", ["fridge-load"])):
        link = a_link("bones.boil", "jelly.boil", brings=food("x", None, brought).quantity)
        plan = plan_of(bones, jelly, links=(link, a_link("jelly.boil", "jelly.set")))
        placed = (
            at("bones.boil", -740, 90),
            at("jelly.boil", -650, 10),
            at("jelly.set", -640, 640, "fridge/1"),
        )
        assert ids(report(plan, *placed)) == missed
