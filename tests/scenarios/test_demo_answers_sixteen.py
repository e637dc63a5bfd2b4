"""The demo's expected answers 8 and 9: the butter taken off the menu, and sixteen guests instead of twelve.

Where the plan as written adapts a number of the design: a load of fritters takes whole minutes (5, by hand
4.5), so three loads take 19 min, not 17.5, and the first is 14 min old, not 13. Racks, shelves and tins do not
grow with the servings by themselves; where an answer asks for that, the test writes it into the plan.
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest

import demo_data
from core.arrange.outcome import Fit
from core.arrange.possible import possible
from core.arrange.speak.why import say_reason
from core.arrange.why.answer import why_not
from core.arrange.why.reason import ReasonKind
from core.food.loads import frying_load, in_loads
from core.food.needs import needs_of
from core.food.order_list import order_list
from core.food.scaling import scaled_dish
from core.food.speak_order import said_line
from core.food.tins import area_wanted, baking_time, tin, tins_for
from core.intake.text_plan import read_text
from core.measures.quantity import Quantity, parse_quantity
from core.plan import meaning
from core.plan.by_products import by_products_to_buy, left_open_by, to_buy_words
from core.plan.check import problems
from core.plan.edits import ChangeDish, ChangeStep, RemoveDish
from core.plan.ids import DishId, StepId
from core.plan.step import Heat, Loads
from core.timetable.load import area_curve, peak
from tests.core.timetable.laid import at
from tests.support.hand_made import hand_made

MORE = Fraction(16, 12)


@pytest.fixture(scope="module")
def supper():
    return read_text(demo_data.text_of("harvest_supper.toml"))


def for_sixteen(plan, *dishes):
    """Return the plan with some dishes for sixteen, or with all (meat for fifteen: one guest eats none)."""
    for dish in plan.menu.dishes:
        if not dishes or dish.id in dishes:
            plan = ChangeDish.of(dish.id, wanted=dish.written_for + 4).change(plan)
    assert problems(plan) == ()
    return plan


def chains(plan):
    """Return what cannot be: how many minutes of how many, by the steps that take part."""
    answer = why_not(plan)
    assert (answer.fit, answer.proven) == (Fit.IMPOSSIBLE, True)
    assert {each.kind for each in answer.reasons} == {ReasonKind.CHAIN}
    assert all(each.minimal for each in answer.reasons)
    return answer.reasons


# ---- 8: the butter taken off the menu


def test_8_450_ml_of_buttermilk_must_be_bought(supper):
    (lack,) = left_open_by(supper, DishId("butter"))
    assert (lack.item, lack.quantity, lack.step) == ("buttermilk", parse_quantity("450 ml"), None)
    assert dict(lack.by) == {
        "panna-cotta.pour": parse_quantity("300 ml"),
        "fritters.batter": parse_quantity("150 ml"),
    }
    without = RemoveDish(DishId("butter")).change(supper)
    assert to_buy_words(without, lack) == (
        "Buttermilk: 450 ml must come from elsewhere now: 300 ml for Buttermilk panna cotta, blackberries;"
        " 150 ml for Cauliflower fritters, caper mayonnaise."
    )
    assert problems(without) == ()
    assert possible(without).fit is Fit.MEETS


def test_8_the_order_list_has_it_from_the_butter_and_without_it_to_buy(supper):
    # the demo ticks its buttermilk as on hand; here the link alone says where it comes from
    dishes = tuple(
        replace(
            dish,
            ingredients=tuple(
                replace(line, on_hand=False) if line.item == "buttermilk" else line
                for line in dish.ingredients
            ),
        )
        for dish in supper.menu.dishes
    )
    plan = replace(supper, menu=replace(supper.menu, dishes=dishes))
    without = RemoveDish(DishId("butter")).change(plan)
    (had,), (bought,) = (
        [line for line in order_list(needs_of(each)) if line.item == "buttermilk"] for each in (plan, without)
    )
    assert (had.ready, had.at_home, had.buy.amount) == (parse_quantity("450 ml"), parse_quantity("450 ml"), 0)
    assert (bought.ready, bought.at_home.amount, bought.buy) == (had.ready, 0, parse_quantity("450 ml"))
    # wanted for the panna cotta: 20:45 - 8 of topping - 8 h of setting - 10 of pouring
    assert said_line(bought, lambda minute: f"{without.wall(minute):%H:%M}") == (
        "buttermilk: 450 ml; buy 450 ml; for Cauliflower fritters, caper mayonnaise and Buttermilk panna cotta,"
        " blackberries, by 12:27"
    )


# ---- 9: twelve to sixteen


def test_9_not_possible_as_it_stands(supper):
    plan = for_sixteen(supper)
    assert {dish.factor for dish in plan.menu.dishes} == {MORE, Fraction(15, 11)}
    assert possible(plan).fit is Fit.IMPOSSIBLE
    assert {"fritters", "leeks"} <= {step.split(".")[0] for each in chains(plan) for step in steps_of(each)}


def steps_of(reason):
    return {step for demand in reason.demands for step in (demand.step, demand.after) if step is not None}


def test_9_the_gratin_wants_1167_cm2_and_a_dish_of_40_by_30_has_1200(supper):
    dish = tin(35, 25)
    assert dish.area == 875
    assert area_wanted(dish, MORE) == Fraction(3500, 3)  # 1,166.67
    found = tins_for(dish, MORE, (dish, tin(40, 30)))
    assert (found.count, found.tin, found.tin.area) == (1, tin(40, 30), 1200)
    assert found.as_deep  # 1,167 in 1,200: 3 % shallower
    low, high = baking_time(75, found.depth)
    assert low <= 75 * 0.98
    assert high <= 75
    assert tins_for(dish, MORE).tin == tin(40, 30)  # of all usual tins
    # and it still stands on its one rack: for sixteen the gratin alone can be met
    assert possible(for_sixteen(supper, "gratin")).fit is Fit.MEETS


def test_9_fritters_three_loads_by_weight():
    # 2 x 620 = 1,240 g; x 4/3 = 1,653 g, in two loads 827: over the 720 that 3 l of oil take
    food = Quantity(Fraction(1240) * MORE, "g")
    assert round(food.amount / 2) == 827
    assert parse_quantity("720 g").amount < 827
    # 4.5 min a load and 2 to recover, in half minutes
    work = in_loads(food, parse_quantity("720 g"), 9, 4)
    assert (work.loads, Fraction(work.minutes, 2), Fraction(work.oldest, 2)) == (3, Fraction("17.5"), 13)
    assert in_loads(Quantity(Fraction(1240), "g"), parse_quantity("720 g"), 9, 4).loads == 2
    # in whole minutes, as the plan has it, and by the trade's rule for the oil (750 g)
    assert (in_loads(food, frying_load(parse_quantity("3 l")), 5, 2)) == in_loads(
        food, parse_quantity("720 g"), 5, 2
    )
    whole = in_loads(food, parse_quantity("720 g"), 5, 2)
    assert (whole.loads, whole.minutes, whole.oldest) == (3, 19, 14)


def test_9_the_first_fritters_are_14_min_old_and_keep_8(supper):
    plan = for_sixteen(supper, "fritters")
    assert meaning.load_count(plan.dishes[DishId("fritters")], plan.steps[StepId("fritters.fry")]) == 3
    old = [each for each in chains(plan) if (each.need, each.have) == (14, 8)]
    assert [(each.over, steps_of(each)) for each in old] == [(6, {"fritters.fry"})]
    assert say_reason(plan, old[0]).endswith("That is 6 min too much; give one of them 6 min more room.")
    # the oil, too, would wait longer than it may, 14 of 12 until the third load; nothing else is told
    assert sorted((each.need, each.have) for each in chains(plan)) == [(14, 8), (14, 12)]


def test_9_leeks_four_loads_50_min_and_64_with_the_peppers(supper):
    plan = for_sixteen(supper, "leeks")
    dish, leeks, peppers = (
        plan.dishes[DishId("leeks")],
        plan.steps[StepId("leeks.leeks")],
        plan.steps["leeks.peppers"],
    )
    assert [line.whole or line.exact.amount for line in scaled_dish(dish) if line.item == "slim leeks"] == [
        32
    ]
    work = in_loads(parse_quantity("32"), parse_quantity("8"), leeks.length.likely, leeks.loads.change_over)
    assert (work.loads, work.minutes) == (4, 50) == (meaning.load_count(dish, leeks), 4 * 11 + 3 * 2)
    assert work.minutes + 2 + peppers.length.likely == 64
    # the coals are good for 60: the peppers begin 52 min after they are ready, and may by 48
    spent = [each for each in chains(plan) if (each.need, each.have) == (52, 48)]
    assert [each.over for each in spent] == [64 - 60]
    assert steps_of(spent[0]) == {"leeks.coals", "leeks.peppers"}
    assert "begins its four loads 39 min apart" in say_reason(plan, spent[0])


def squash_in_rounds(supper, setting=None):
    """Two tins as pieces, two racks a load, good for 20 min from the oven."""
    roast = replace(supper.steps[StepId("squash.roast")], loads=Loads(2, 2))
    if setting is not None:
        heat = Heat(setting, setting, setting)
        roast = replace(roast, uses=tuple(replace(use, heat=heat) for use in roast.uses))
    links = tuple(
        replace(link, most=20) if link.key[:2] == ("squash.roast", "squash.honey") else link
        for link in supper.menu.links
    )
    return ChangeStep(roast.id, roast).change(replace(supper, menu=replace(supper.menu, links=links)))


def test_9_squash_wants_three_tins_on_two_racks(supper):
    # 2.4 kg cut x 4/3 = 3.2 kg; two tins of 40 x 30 at one depth become 3,200 cm2, three tins (8/9 as deep)
    assert Fraction("2.4") * MORE == Fraction("3.2")
    assert area_wanted(tin(40, 30), 2 * MORE) == 3200
    found = tins_for(tin(40, 30), 2 * MORE, (tin(40, 30),))
    assert (found.count, found.depth) == (3, Fraction(8, 9))
    plan = squash_in_rounds(supper)
    assert possible(plan).fit is Fit.MEETS  # for twelve it is one round
    plan = for_sixteen(plan, "squash")
    assert meaning.load_count(plan.dishes[DishId("squash")], plan.steps[StepId("squash.roast")]) == 2
    assert possible(plan).fit is Fit.IMPOSSIBLE


@pytest.mark.parametrize(("setting", "minutes"), [(210, 35), (None, 30)])
def test_9_a_round_of_squash_waits_35_min_for_the_other_at_210_and_30_at_the_top_of_its_range(
    supper, setting, minutes
):
    # 35 min at 210; 1 % a degree less, 30 at 225
    (reason,) = chains(for_sixteen(squash_in_rounds(supper, setting), "squash"))
    assert (reason.need, reason.have, reason.over) == (minutes, 20, minutes - 20)
    assert steps_of(reason) == {"squash.roast", "squash.honey"}


def test_9_panna_cotta_wants_a_second_tray_of_400_cm2(supper):
    assert area_wanted(tin(40, 30), MORE) - tin(40, 30).area == 400
    tray = next(use.area for use in supper.steps[StepId("panna-cotta.set")].uses)
    assert tray == 1200
    # on Friday at 21:00 there is room for it by sum: 5,212 + 400 of three shelves of 2,000
    night = [
        level
        for level in area_curve(supper, hand_made(supper), "fridge")
        if level.start <= at("21:00") - 24 * 60 < level.end
    ]
    assert peak(night).amount + 400 == 5212 + 400 <= 6000
    # both trays on one shelf for all the time that it sets and waits
    use = supper.steps[StepId("panna-cotta.set")].uses[0]
    wide = replace(supper.steps[StepId("panna-cotta.set")], uses=(replace(use, area=1600),))
    plan = ChangeStep(wide.id, wide).change(supper)
    links = tuple(
        replace(link, wait=replace(link.wait, use=replace(link.wait.use, area=1600)))
        if link.before == "panna-cotta.set"
        else link
        for link in plan.menu.links
    )
    plan = replace(plan, menu=replace(plan.menu, links=links))
    assert problems(plan) == ()
    assert possible(plan).fit is Fit.MEETS


def test_9_for_sixteen_all_by_products_still_suffice(supper):
    # buttermilk 600 of 600 ml; stock (900 + 600) x 15/11 = 2,045 of 3,733 ml
    plan = for_sixteen(supper)
    assert by_products_to_buy(plan) == ()
    (lack,) = left_open_by(plan, DishId("butter"))
    assert lack.quantity == parse_quantity("600 ml")
    less = ChangeDish.of(DishId("butter"), wanted=12).change(plan)
    assert [each.quantity for each in by_products_to_buy(less)] == [parse_quantity("150 ml")]
