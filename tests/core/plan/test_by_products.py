"""What must be bought where a by-product is short or gone: worked by hand, the harvest supper's butter among it."""

from __future__ import annotations

from fractions import Fraction

import pytest

import demo_data
from core.intake.text_plan import read_text
from core.measures.quantity import TO_TASTE, Quantity, parse_quantity
from core.measures.refusal import Refusal
from core.plan.by_products import ToBuy, by_products_to_buy, left_open_between, left_open_by, to_buy_words
from core.plan.edits import ChangeDish, ChangeStep, RemoveDish, RemoveLink, RemoveStep
from core.plan.ids import DishId, StepId
from core.plan.menu import LinkKind
from core.plan.plan import Plan
from core.plan.step import Yield
from tests.support.builders import a_dish, a_link, a_plan, a_step

CHURN, POUR, BATTER = StepId("butter.churn"), StepId("cream.pour"), StepId("fritters.batter")
BUTTER, CREAM, FRITTERS = DishId("butter"), DishId("cream"), DishId("fritters")


def of(text: str) -> Quantity:
    return parse_quantity(text)


def kitchen_with(
    made: str | None = "450 ml", *brought: str, wanted: tuple[int, int, int] = (4, 4, 4)
) -> Plan:
    """Return butter whose buttermilk goes into a cream and into fritters."""
    cream, fritters = brought or ("300 ml", "150 ml")
    churn = a_step(CHURN, yields=None if made is None else Yield("buttermilk", of(made)))
    return a_plan(
        a_dish(BUTTER, churn, wanted=wanted[0]),
        a_dish(FRITTERS, a_step(BATTER), wanted=wanted[1]),
        a_dish(CREAM, a_step(POUR), wanted=wanted[2]),
        links=(a_link(CHURN, BATTER, brings=of(fritters)), a_link(CHURN, POUR, brings=of(cream))),
    )


def test_enough_leaves_nothing_to_buy() -> None:
    assert by_products_to_buy(kitchen_with("450 ml")) == ()
    assert by_products_to_buy(kitchen_with("0.45 l")) == ()


def test_a_short_yield_is_bought_up_to_what_is_taken() -> None:
    assert by_products_to_buy(kitchen_with("449 ml")) == (
        ToBuy("buttermilk", of("1 ml"), ((POUR, of("300 ml")), (BATTER, of("150 ml"))), CHURN),
    )


def test_what_a_step_yields_is_not_guessed_where_nothing_is_said() -> None:
    assert by_products_to_buy(kitchen_with(None)) == ()


@pytest.mark.parametrize(
    ("wanted", "short_by"),
    [
        ((4, 4, 4), None),
        # 300 ml x 6/4 and 150 ml of 450 ml.
        ((4, 4, 6), "150 ml"),
        # 300 ml and 150 ml of 450 ml x 3/4.
        ((3, 4, 4), "112.5 ml"),
        ((6, 6, 6), None),
        # 300 ml x 8/4 and 150 ml x 8/4 of 450 ml x 6/4.
        ((6, 8, 8), "225 ml"),
    ],
)
def test_each_amount_is_for_its_own_dishs_servings(wanted: tuple[int, int, int], short_by: str | None) -> None:
    found = by_products_to_buy(kitchen_with(wanted=wanted))
    assert [each.quantity for each in found] == ([] if short_by is None else [of(short_by)])


def test_amounts_are_added_across_units() -> None:
    # US customary: one cup is 236.5882365 ml.
    (found,) = by_products_to_buy(kitchen_with("450 ml", "0.3 l", "1 cup"))
    assert found.quantity == Quantity(Fraction("236.5882365") + 300 - 450, "ml")
    assert [step for step, _amount in found.by] == [POUR, BATTER]


def test_one_pair_of_steps_may_be_linked_twice() -> None:
    plan = kitchen_with("450 ml")
    again = a_link(CHURN, POUR, kind=LinkKind.START_TO_START, brings=of("50 ml"))
    twice = a_plan(*plan.menu.dishes, links=(*plan.menu.links, again))
    (found,) = by_products_to_buy(twice)
    assert found.quantity == of("50 ml")
    assert [step for step, _amount in found.by] == [POUR, BATTER, POUR]
    assert to_buy_words(twice, found).endswith("wanted are 350 ml for Cream; 150 ml for Fritters.")


def test_what_does_not_compare_or_is_to_taste_is_left_out() -> None:
    assert by_products_to_buy(kitchen_with("450 ml", "300 g", "451 ml")) == (
        ToBuy("buttermilk", of("1 ml"), ((BATTER, of("451 ml")),), CHURN),
    )
    tasted = a_plan(*kitchen_with().menu.dishes, links=(a_link(CHURN, POUR, brings=TO_TASTE),))
    assert by_products_to_buy(tasted) == ()
    assert left_open_by(tasted, BUTTER) == ()


@pytest.mark.parametrize("removed", [BUTTER, CHURN, RemoveDish(BUTTER), RemoveStep(CHURN, joined=True)])
def test_what_a_dish_or_step_gave_is_bought_when_it_goes(removed: DishId | StepId | RemoveDish) -> None:
    assert left_open_by(kitchen_with(), removed) == (
        ToBuy("buttermilk", of("450 ml"), ((POUR, of("300 ml")), (BATTER, of("150 ml")))),
    )


def test_what_goes_is_for_the_servings_wanted() -> None:
    (found,) = left_open_by(kitchen_with(wanted=(4, 2, 8)), BUTTER)
    assert found.by == ((POUR, of("600 ml")), (BATTER, of("75 ml")))
    assert found.quantity == of("675 ml")


def test_a_by_product_without_a_name_is_called_after_its_dish() -> None:
    (found,) = left_open_by(kitchen_with(None), BUTTER)
    assert (found.item, found.quantity) == ("Butter", of("450 ml"))


def test_amounts_that_do_not_compare_are_bought_apart() -> None:
    found = left_open_by(kitchen_with(None, "300 g", "2 jars"), BUTTER)
    assert [(each.quantity, [step for step, _amount in each.by]) for each in found] == [
        (of("2 jars"), [BATTER]),
        (of("300 g"), [POUR]),
    ]


@pytest.mark.parametrize("removed", [CREAM, FRITTERS, POUR, RemoveLink((CHURN, POUR, LinkKind.END_TO_START))])
def test_nothing_is_bought_when_what_takes_of_it_goes(removed: DishId | StepId | RemoveLink) -> None:
    assert left_open_by(kitchen_with(), removed) == ()


def test_only_what_an_edit_newly_leaves_open_is_told() -> None:
    short = kitchen_with("400 ml")
    assert left_open_by(short, ChangeDish.of(CREAM, note="sweet")) == ()
    assert left_open_by(short, ChangeDish.of(CREAM, wanted=3)) == ()
    (found,) = left_open_by(short, ChangeDish.of(CREAM, wanted=5))
    assert found.quantity == of("125 ml")
    less = ChangeStep(CHURN, a_step(CHURN, yields=Yield("buttermilk", of("0.3 l"))))
    assert [each.quantity for each in left_open_by(short, less)] == [of("0.15 l")]
    assert left_open_between(less(short), short) == ()


def test_a_dish_that_is_not_there_is_refused() -> None:
    with pytest.raises(Refusal, match=r'There is no dish "gone"'):
        left_open_by(kitchen_with(), DishId("gone"))


def test_the_words_name_the_thing_the_amount_and_the_dishes() -> None:
    plan = kitchen_with()
    (gone,) = left_open_by(plan, BUTTER)
    assert to_buy_words(RemoveDish(BUTTER)(plan), gone) == (
        "Buttermilk: 450 ml must come from elsewhere now: 300 ml for Cream; 150 ml for Fritters."
    )
    more = ChangeDish.of(CREAM, wanted=8)
    (short,) = left_open_by(plan, more)
    assert to_buy_words(more(plan), short) == (
        "Buttermilk: 300 ml must come from elsewhere now: Butter yields 450 ml, and wanted are 600 ml for Cream;"
        " 150 ml for Fritters."
    )


@pytest.fixture(scope="module")
def harvest() -> Plan:
    return read_text(demo_data.text_of("harvest_supper.toml"))


def test_the_harvest_supper_buys_nothing_that_it_makes(harvest: Plan) -> None:
    assert by_products_to_buy(harvest) == ()


def test_without_the_butter_the_harvest_supper_buys_its_buttermilk(harvest: Plan) -> None:
    """450 ml: 300 for the panna cotta, 150 for the batter (the feast's own notes)."""
    pour, batter = StepId("panna-cotta.pour"), StepId("fritters.batter")
    assert left_open_by(harvest, BUTTER) == (
        ToBuy("buttermilk", of("450 ml"), ((pour, of("300 ml")), (batter, of("150 ml")))),
    )


def test_without_the_stock_the_harvest_supper_buys_what_cheeks_and_gravy_take(harvest: Plan) -> None:
    (found,) = left_open_by(harvest, DishId("stock"))
    assert (found.item, found.quantity) == ("brown chicken stock", of("1500 ml"))
    assert dict(found.by) == {"cheeks.liquids": of("900 ml"), "pork.gravy": of("600 ml")}
