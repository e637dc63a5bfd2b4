"""Volume to weight: by the row of the very measure, else the nearest; what is unknown is refused with close names."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.food.joining import as_unit, joined
from core.food.order_list import Need
from core.food.portions import FOODS, is_volume
from core.food.weighing import density, find_food, weighed
from core.measures import Quantity, Refusal, convert, parse_quantity


def test_every_name_is_of_one_food_and_every_row_is_found_by_its_own_measure():
    names = [name for food in FOODS for name in food.names]
    assert len(names) == len(set(names))
    for food in FOODS:
        assert find_food(food.name) is food
        for row in food.portions:
            if row.measure != "packet":
                found = weighed(Quantity(Fraction(1), "" if row.measure == "piece" else row.measure), food.name)
                grams = convert(Quantity(Fraction(1), "stick"), "g").amount if row.measure == "stick" else row.grams
                assert found.grams == Quantity(grams, "g")


@given(st.sampled_from(FOODS), st.fractions(Fraction(1, 8), 40, max_denominator=8), st.integers(1, 9))
def test_within_one_measure_twice_as_much_weighs_twice_as_much(food, amount, times):
    row = food.portions[0]
    one = Quantity(amount, "" if row.measure == "piece" else row.measure)
    assert weighed(one.times(times), food.name).grams == weighed(one, food.name).grams.times(times)


def test_between_measures_the_row_nearest_in_size_is_taken():
    assert weighed(parse_quantity("250 ml"), "milk").row.measure == "cup"
    assert weighed(parse_quantity("10 ml"), "milk").row.measure == "tbsp"
    assert weighed(parse_quantity("2 tsp"), "honey").grams == parse_quantity("14 g")


@pytest.mark.parametrize(
    ("amount", "item", "says"),
    [
        ("1 cup", "bread flour", "close to it are plain flour, wholemeal flour and cornflour"),
        ("1 cup", "caster sugar", "close to it are granulated sugar, icing sugar"),
        ("1 tsp", "kosher salt", "hollow flakes (2.8 to 3 g a teaspoon) and rolled flakes (4.8 to 5 g)"),
        ("3", "eggs", "small egg and medium egg"),
        ("1 cup", "quinoa", 'The weight of "quinoa" by volume or piece is not in the table; weigh it once'),
        ("1 cup", "garlic", "only the weight of a clove is known"),
        ("to taste", "salt", "to taste is none"),
    ],
)
def test_what_is_unknown_is_refused(amount, item, says):
    with pytest.raises(Refusal) as refused:
        weighed(parse_quantity(amount), item)
    assert says in refused.value.text


def test_the_row_stands_beside_the_weight():
    assert weighed(parse_quantity("2 cups"), "Plain flour").source == (
        "1 cup of plain flour is 125 g (USDA SR, file WEIGHT, NDB 20081)"
    )
    assert "trade figures" in weighed(parse_quantity("1 tsp"), "kosher salt, rolled flakes").source


@given(st.sampled_from([food for food in FOODS if food.density]), st.fractions(1, 4000, max_denominator=4))
def test_through_the_density_and_back_is_the_same(food, grams):
    there = as_unit(Quantity(grams, "g"), food.name, "ml")
    assert there is not None
    assert as_unit(there, food.name, "g") == Quantity(grams, "g")
    assert density(food.name) is not None


def test_only_what_is_written_in_several_kinds_is_joined():
    needs = [
        Need("plain flour", parse_quantity("2 cups"), "tart"),
        Need("Plain flour", parse_quantity("500 g"), "bread"),
        Need("sugar", parse_quantity("1 cup"), "tart"),
        Need("saffron", parse_quantity("1 g"), "tart"),
        Need("saffron", parse_quantity("1 tsp"), "bread"),
        Need("onion", parse_quantity("2"), "soup"),
        Need("onions", parse_quantity("500 g"), "stew"),
    ]
    assert [str(each.quantity) for each in joined(needs, {})] == [
        *("250 g", "500 g", "1 cup", "1 g", "1 tsp", "220 g", "500 g"),
    ]
    assert all(is_volume(each) for each in ("cup", "tsp"))
