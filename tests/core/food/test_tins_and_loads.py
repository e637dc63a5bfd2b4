"""Tins keep the depth; work goes load by load."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.food.loads import LoadWork, frying_load, in_loads
from core.food.speak import said_loads, said_tin, said_tins
from core.food.tins import GASTRONORM, USUAL, Tins, area_wanted, baking_time, tin, tins_for
from core.measures import Quantity, Refusal, parse_quantity


def told(tins, of, factor, minutes=40):
    return said_tins(tins, area_wanted(of, factor), baking_time(minutes, tins.depth))


@given(st.sampled_from(USUAL), st.fractions(min_value=Fraction(1, 3), max_value=8, max_denominator=12))
def test_the_depth_is_what_the_food_leaves_and_none_of_the_choices_is_nearer(of, factor):
    found = tins_for(of, factor)
    assert found.count * found.tin.area * found.depth == of.area * factor
    if not found.as_deep:
        nearest = min(
            abs(area_wanted(of, factor) / (count * each.area) - 1) for each in USUAL for count in range(1, 7)
        )
        assert abs(found.depth - 1) == nearest > Fraction(5, 100)


def test_twice_a_round_tin_is_found_by_its_area():
    found = tins_for(tin(18), 2)  # 509 cm2: a 23 cm square has 529, a 26 cm round 531, a 25 cm square 625
    assert (found.count, found.tin) == (1, tin(23, 23))
    assert told(found, tin(18), 2) == (
        "509 cm² at the same depth: a tin of 23 cm square, 4 % shallower; baking time as it was, look a little"
        " sooner."
    )


def test_where_the_cupboard_has_one_tin_the_bake_changes():
    found = tins_for(tin(20, 20), 2, (tin(30, 20),))
    assert found == Tins(1, tin(30, 20), Fraction(4, 3))
    assert told(found, tin(20, 20), 2) == (
        "800 cm² at the same depth: a tin of 30 x 20 cm, 33 % deeper; it takes 53 min to 1 h 12 min now, look"
        " from the first on."
    )


def test_several_equal_tins_where_one_is_too_small():
    found = tins_for(tin(20, 20), 3, (tin(20, 20),))
    assert (found.count, found.depth) == (3, 1)
    assert told(found, tin(20, 20), 3) == (
        "1,200 cm² at the same depth: 3 tins of 20 cm square; baking time unchanged, 40 min."
    )


@given(st.integers(1, 600), st.fractions(min_value=Fraction(1, 4), max_value=4, max_denominator=20))
def test_a_deeper_bake_lies_between_depth_and_depth_squared(minutes, depth):
    low, high = baking_time(minutes, depth)
    ends = sorted((minutes * depth, minutes * depth**2))
    assert low <= ends[0] < low + 1
    assert high - 1 < ends[1] <= high
    assert baking_time(minutes, Fraction(1)) == (minutes, minutes)


def test_how_tins_are_named():
    assert [said_tin(each) for each in (tin(23, 33), tin(20, 20), tin(26), GASTRONORM["GN 1/1"])] == [
        "23 x 33 cm", "20 cm square", "26 cm round", "53 x 32.5 cm",
    ]  # fmt: skip


@pytest.mark.parametrize(
    "wrong",
    [
        lambda: tin(0, 20),
        lambda: tin(20, -1),
        lambda: tins_for(tin(20, 20), 0),
        lambda: tins_for(tin(20, 20), 1, ()),
        lambda: baking_time(0, Fraction(1)),
        lambda: baking_time(40, Fraction(0)),
    ],
)
def test_tins_that_cannot_be_are_refused(wrong):
    with pytest.raises(Refusal, match=r"write more than 0|No tin is at hand"):
        wrong()


def test_f5_three_loads_with_change_over_and_the_age_of_the_first():
    work = in_loads(parse_quantity("24"), parse_quantity("9"), 8, 2)
    assert work == LoadWork(3, 8, 2)
    assert (work.minutes, work.oldest) == (28, 20)
    assert said_loads(work) == "3 loads of 8 min with 2 min between, 28 min"
    twelve = in_loads(parse_quantity("24"), parse_quantity("12"), 8, 2)
    assert (twelve.loads, twelve.minutes, twelve.oldest) == (2, 18, 10)


@given(st.integers(1, 500), st.integers(1, 60), st.integers(1, 30), st.integers(0, 5))
def test_loads_hold_all_and_none_is_idle(pieces, holds, each, change_over):
    work = in_loads(Quantity(Fraction(pieces)), Quantity(Fraction(holds)), each, change_over)
    assert (work.loads - 1) * holds < pieces <= work.loads * holds
    assert work.minutes == sum([each] * work.loads + [change_over] * (work.loads - 1))


def test_units_of_amount_and_pan_may_differ():
    assert in_loads(parse_quantity("1.8 kg"), parse_quantity("600 g"), 8).loads == 3
    assert in_loads(parse_quantity("4 lb"), parse_quantity("1 kg"), 8).loads == 2


def test_frying_takes_a_quarter_of_a_kilogram_to_the_litre():
    assert frying_load(parse_quantity("3 l")) == parse_quantity("750 g")
    assert frying_load(parse_quantity("500 ml")) == parse_quantity("125 g")


@pytest.mark.parametrize(
    ("wrong", "says"),
    [
        (lambda: in_loads(parse_quantity("1 kg"), parse_quantity("0 g"), 8), "What the pan holds: write an"),
        (lambda: in_loads(parse_quantity("0 g"), parse_quantity("1 g"), 8), "What is to be cooked: write an"),
        (lambda: in_loads(parse_quantity("to taste"), parse_quantity("1 g"), 8), "to taste is none"),
        (lambda: in_loads(parse_quantity("1 kg"), parse_quantity("1 l"), 8), "a weight and l a volume"),
        (lambda: in_loads(parse_quantity("1 g"), parse_quantity("1 g"), 0), "A load takes 1 min or more"),
        (lambda: in_loads(parse_quantity("1 g"), parse_quantity("1 g"), 5, -1), "change-over 0 or more"),
        (lambda: frying_load(parse_quantity("1 kg")), "The frying oil: kg is a weight and l a volume"),
    ],
)
def test_loads_that_cannot_be_are_refused(wrong, says):
    with pytest.raises(Refusal, match=says):
        wrong()
