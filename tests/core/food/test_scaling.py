"""Scaling: the straight multiple is exact; what does not grow straight says so."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.food.scaling import Grows, by_the_spoon, scaled, scaled_dish, usual_growth, written_amount
from core.food.speak import said_growth, said_scaled
from core.measures import TO_TASTE, Quantity, Refusal, parse_quantity
from core.plan.menu import Ingredient
from tests.support.builders import a_dish

factors = st.fractions(min_value=Fraction(1, 50), max_value=50, max_denominator=60)
amounts = st.fractions(min_value=0, max_value=10_000, max_denominator=48)
units = st.sampled_from(("", "g", "kg", "ml", "tsp", "cup", "clove"))


def line(item, amount, per_kg_of=""):
    return Ingredient(item, None if amount is None else parse_quantity(amount), per_kg_of=per_kg_of)


@given(amounts, units, factors, factors, st.sampled_from(Grows))
def test_scaling_twice_is_scaling_by_the_product(amount, unit, one, other, grows):
    quantity = Quantity(amount, unit)
    once = scaled("flour", quantity, one, grows).exact
    twice = scaled("flour", once, other, grows)
    assert twice.exact == scaled("flour", quantity, one * other, grows).exact
    assert twice.exact.amount == amount * one * other


@given(amounts, factors)
def test_a_start_is_three_quarters_to_four_fifths_and_only_above_double(amount, factor):
    found = scaled("chilli", Quantity(amount, "tsp"), factor)
    assert (found.start is not None) == (factor > 2)
    if found.start:
        low, high = found.start
        assert low.amount * 4 == found.exact.amount * 3
        assert high.amount * 5 == found.exact.amount * 4


def test_at_double_nothing_is_held_back_and_a_hair_above_it_is():
    assert scaled("chilli", parse_quantity("2 tsp"), 2).start is None
    assert scaled("chilli", parse_quantity("2 tsp"), Fraction(21, 10)).start is not None


@pytest.mark.parametrize(
    ("item", "amount", "grows"),
    [
        ("eggs", "2", Grows.WHOLE),
        ("large egg", "1 egg", Grows.WHOLE),
        ("egg whites", "3 egg white", Grows.WHOLE),
        ("beaten egg", "100 g", Grows.STRAIGHT),
        ("egg noodles", "2 packs", Grows.STRAIGHT),
        ("eggplant", "2", Grows.STRAIGHT),
        ("fine salt", "6 g", Grows.STRAIGHT),
        ("fine salt", "1 tsp", Grows.BY_TASTE),
        ("unsalted butter", "1 cup", Grows.STRAIGHT),
        ("salt cod", "2", Grows.STRAIGHT),
        ("ground cinnamon", "1 tsp", Grows.BY_TASTE),
        ("Chilli flakes, toasted", "2 tsp", Grows.BY_TASTE),
        ("red wine", "200 ml", Grows.BY_TASTE),
        ("red wine vinegar", "20 ml", Grows.STRAIGHT),
        ("baking powder", "2 tsp", Grows.RAISING),
        ("instant yeast", "7 g", Grows.RAISING),
        ("flour", "300 g", Grows.STRAIGHT),
        ("", "1", Grows.STRAIGHT),
    ],
)
def test_how_an_ingredient_usually_grows(item, amount, grows):
    assert usual_growth(item, parse_quantity(amount)) is grows


@pytest.mark.parametrize(
    ("factor", "whole"), [("3", 6), ("5/4", 3), ("1/2", 1), ("9/8", 2), ("1/10", 1), ("6/5", 2)]
)
def test_eggs_are_whole_never_none(factor, whole):
    found = scaled("eggs", parse_quantity("2"), Fraction(factor))
    assert found.whole == whole
    assert found.measured == Quantity(Fraction(whole))
    assert found.exact.amount == 2 * Fraction(factor)


def test_no_eggs_stay_no_eggs():
    assert scaled("eggs", parse_quantity("0"), 3).whole == 0


def test_a_raising_agent_is_unsure_only_above_three_times():
    assert not scaled("yeast", parse_quantity("4 g"), 3).unsure
    beyond = scaled("yeast", parse_quantity("4 g"), 4)
    assert beyond.unsure
    assert beyond.exact == parse_quantity("16 g")
    assert said_scaled(beyond) == "yeast: 16 g (a raising agent at 4 times: ask the baker's own table)"


@pytest.mark.parametrize(
    ("amount", "measured"),
    [("4.8 tsp", "5 tsp"), ("4.5 tsp", "4.5 tsp"), ("1.6 tsp", "1.5 tsp"), ("0.1 tsp", "0.1 tsp"),
     ("123 g", "123 g"), ("33 ml", "33 ml"), ("2.2", "2")],
)  # fmt: skip
def test_a_first_amount_is_measured_by_the_half_spoon(amount, measured):
    assert by_the_spoon(parse_quantity(amount)) == parse_quantity(measured)


@pytest.mark.parametrize(
    ("item", "amount", "factor", "said"),
    [
        ("flour", "300 g", 3, "flour: 900 g"),
        ("eggs", "2", "5/4", "eggs: 3 (2.5 in proportion)"),
        ("nutmeg", None, 3, "nutmeg: to taste"),
        ("red wine", "200 ml", 3, "red wine: start 450 ml to 480 ml, taste (600 ml in proportion)"),
        ("cumin", "1 tsp", 3, "cumin: start 2½ tsp, taste (3 tsp in proportion)"),
    ],
)
def test_what_is_said(item, amount, factor, said):
    quantity = None if amount is None else parse_quantity(amount)
    assert said_scaled(scaled(item, quantity, Fraction(factor))) == said


def test_each_way_of_growing_but_the_straight_one_has_its_reason():
    assert [bool(said_growth(grows)) for grows in Grows] == [False, True, True, True]


@pytest.mark.parametrize(
    ("quantity", "factor", "says"),
    [
        (Quantity(Fraction(1), "g"), 0, "The factor of scaling is 0; write more than 0, such as 2 or 1/2."),
        (Quantity(Fraction(1), "g"), -2, "The factor of scaling is -2; write more than 0"),
        (Quantity(Fraction(-1), "g"), 2, "flour: an amount cannot be less than 0; leave the minus out."),
        (Quantity(Fraction(1), "bushel"), 2, 'flour: "bushel" is not a unit here'),
    ],
)
def test_what_is_refused(quantity, factor, says):
    with pytest.raises(Refusal) as refusal:
        scaled("flour", quantity, factor)
    assert refusal.value.text.startswith(says)


def test_a_rule_by_the_kilogram_follows_all_lines_of_the_other_ingredient():
    dish = a_dish(
        "rack",
        written_for=4,
        wanted=6,
        ingredients=(
            line("pork", "1.5 kg"), line("pork", "500 g"), line("salt", "12 g", "pork"), line("dill", None),
        ),
    )  # fmt: skip
    assert written_amount(dish, dish.ingredients[2]) == Quantity(Fraction(24), "g")
    assert [each.exact for each in scaled_dish(dish)] == [
        parse_quantity("2.25 kg"), parse_quantity("750 g"), parse_quantity("36 g"), TO_TASTE,
    ]  # fmt: skip
    assert scaled_dish(dish, 4)[2].exact == parse_quantity("24 g")


@pytest.mark.parametrize(
    ("lines", "says"),
    [
        ((line("salt", "8 g", "bird"),), "name another ingredient of it."),
        ((line("bird", None), line("salt", "8 g", "bird")), "which has no weight; write one."),
        ((line("bird", "1"), line("salt", "8 g", "bird")), "cannot be turned into kg"),
        ((line("cream", "1 l"), line("salt", "8 g", "cream")), "weigh one l of this food"),
        ((line("a", "1 g", "b"), line("b", "1 g", "a")), "name another ingredient of it."),
    ],
)
def test_a_rule_by_the_kilogram_that_cannot_be_weighed_is_refused(lines, says):
    with pytest.raises(Refusal, match=says):
        scaled_dish(a_dish("roast", ingredients=lines))


def test_rules_by_the_kilogram_may_follow_each_other():
    dish = a_dish(
        "ham", ingredients=(line("ham", "2 kg"), line("salt", "100 g", "ham"), line("sugar", "500 g", "salt"))
    )
    assert [str(each.exact) for each in scaled_dish(dish)] == ["2 kg", "200 g", "100 g"]
