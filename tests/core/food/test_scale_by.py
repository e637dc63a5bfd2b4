"""Scaling by servings, by weight and by pan: exact, and lengths only offered."""

from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.food.roasting import CHART, DEPTH, PANOFSKY
from core.food.scale_by import by_factor, by_pan, by_servings, by_weight, scaling_of
from core.food.scale_notes import piece_notes
from core.food.speak_scale import scaling_lines
from core.measures import Quantity, Refusal, parse_quantity
from core.plan.kitchen import StationKind
from core.plan.menu import Ingredient
from core.plan.step import Attention, Doneness, Loads, Span
from tests.support.builders import a_dish, a_step, a_use, at_oven

factors = st.fractions(min_value=Fraction(1, 12), max_value=12, max_denominator=12)


def line(item, amount=None, **fields):
    return Ingredient(item, None if amount is None else parse_quantity(amount), **fields)


def roast(**fields):
    steps = (
        a_step("roast.salt", "Rub with salt", 12),
        a_step(
            "roast.oven",
            "Roast",
            (80, 90, 100),
            attention=Attention.HANDS_OFF,
            uses=(at_oven(163),),
            doneness=Doneness(core=60),
        ),
        a_step("roast.skewer", "Grill the skewers", 10, uses=(a_use(StationKind.GRILL),), loads=Loads(12, 6, 3)),
    )
    lines = (
        line("rack of pork", "2 kg", pieces=1, step="roast.salt"),
        line("salt", "12 g", per_kg_of="rack of pork"),
        line("flour", "2/3 cup"),
        line("eggs", "3"),
        line("bay", None),
    )
    fields = {"written_for": 6, "wanted": 6, "ingredients": lines, "pan": "35x25x6 cm", **fields}
    return a_dish("roast", *steps, name="Roast", **fields)


@given(factors, factors)
def test_scaling_by_one_and_then_by_another_is_scaling_by_their_product(one, other):
    twice, at_once = by_factor(by_factor(roast(), one).dish, other), by_factor(roast(), one * other)
    assert twice == at_once
    assert [each.exact for each in twice.lines[:4]] == [
        each.times(one * other)
        for each in (*map(parse_quantity, ("2 kg", "24 g", "2/3 cup", "3")),)
    ]
    assert [each.pieces for each in twice.loads] == [12 * one * other]


@given(st.integers(1, 60), st.integers(1, 60))
def test_servings_forget_what_was_before(one, other):
    assert by_servings(by_servings(roast(), one).dish, other) == by_servings(roast(), other)
    assert by_servings(roast(), other).factor == Fraction(other, 6)


@given(st.fractions(Fraction(1, 10), 20, max_denominator=20))
def test_by_weight_the_ingredient_comes_to_the_weight_and_all_else_with_it(kilograms):
    found = by_weight(roast(), "Rack of pork", Quantity(kilograms, "kg"))
    assert found.lines[0].exact == Quantity(kilograms, "kg")
    assert found.lines[1].exact == Quantity(12 * kilograms, "g")
    assert found.factor == kilograms / 2


def test_by_weight_of_all_lines_of_that_name_and_through_the_portion_weights():
    lines = (line("plain flour", "1 cup"), line("Plain flour", "2 cups", preparation="for dusting"))
    dish = a_dish("tart", ingredients=lines)
    assert by_weight(dish, "plain flour", parse_quantity("750 g")).factor == 2
    assert by_weight(dish, "plain flour", parse_quantity("6 cups")).factor == 2


@pytest.mark.parametrize(
    ("item", "amount", "says"),
    [
        ("pork rib", "2 kg", "Roast has no pork rib; it has rack of pork."),
        ("bay", "2 g", "bay has no amount in Roast; write one, or choose another ingredient."),
        ("eggs", "200 g", "eggs is written as 3, and 200 g does not compare"),
        ("flour", "0 g", "flour: write an amount greater than 0."),
        ("flour", "9999 kg", "would be made"),
    ],
)
def test_a_weight_that_cannot_be_is_refused(item, amount, says):
    with pytest.raises(Refusal) as refused:
        by_weight(roast(), item, parse_quantity(amount))
    assert says in refused.value.text


@given(st.sampled_from(("35x25 cm", "round 26 cm", "GN 1/2-65", "2 of GN 1/2-65", "9x13 in")))
def test_by_pan_the_food_stands_as_deep(pan):
    found = by_pan(roast(), pan)
    assert (found.dish.pan_wanted, found.depths) == (pan, ())
    assert scaling_of(found.dish) == found


def test_by_pan_without_a_pan_is_refused():
    with pytest.raises(Refusal, match="Roast does not say its pan; write the pan of the recipe first"):
        by_pan(roast(pan=""), "round 26 cm")
    with pytest.raises(Refusal, match="Roast for 0: write 1 serving or more"):
        by_servings(roast(), 0)


def test_twice_as_much_in_the_same_pan_is_twice_as_deep_and_takes_two_to_four_times_as_long():
    (note,) = by_factor(roast(), 2).depths
    assert (note.depth, note.step.does) == (2, "Roast")
    assert (note.estimate.low, note.estimate.high, note.estimate.source) == (160, 400, DEPTH)
    assert note.estimate.low < note.estimate.likely < note.estimate.high
    (less,) = by_factor(roast(), Fraction(1, 2)).depths
    assert (less.estimate.low, less.estimate.high) == (20, 50)


def test_a_little_deeper_is_the_same():
    assert by_factor(roast(), Fraction(105, 100)).depths == ()
    assert by_factor(roast(), Fraction(106, 100)).depths != ()


def test_one_roast_may_get_heavier_or_become_two():
    heavier, two = by_factor(roast(), 2).pieces
    assert (heavier.count, heavier.each, heavier.was) == (1, parse_quantity("4 kg"), parse_quantity("2 kg"))
    # 2 to the power of 2/3 is 1.5874
    assert heavier.estimate.span == Span(127, 143, 159)
    assert heavier.estimate.source == PANOFSKY
    assert (two.count, two.each, two.estimate, two.as_heavy) == (2, parse_quantity("2 kg"), None, True)


def test_many_pieces_stay_as_heavy_or_as_near_as_whole_pieces_come():
    dish = roast(ingredients=(line("chicken legs", "2.4 kg", pieces=8),))
    (same,) = by_factor(dish, Fraction(3, 2)).pieces
    assert (same.count, same.as_heavy) == (12, True)
    (near,) = by_factor(dish, Fraction(11, 10)).pieces
    assert (near.count, near.each) == (9, parse_quantity("2.4 kg").times(Fraction(11, 90)))
    assert near.estimate is not None


def test_where_a_row_of_the_chart_fits_it_is_the_estimate():
    dish = roast(ingredients=(line("whole turkey", "10 lb", pieces=1),))
    (bigger,) = [each for each in by_factor(dish, Fraction(3, 2)).pieces if each.count == 1]
    assert (bigger.estimate.span, bigger.estimate.source) == (Span(225, 240, 255), CHART)
    hot = replace(dish, steps=(replace(dish.steps[1], uses=(at_oven(220),)),))
    assert {each.estimate.source for each in by_factor(hot, Fraction(3, 2)).pieces} == {PANOFSKY}


def test_as_written_nothing_is_offered_and_what_is_no_piece_neither():
    assert scaling_of(roast()).pieces == scaling_of(roast()).depths == scaling_of(roast()).space == ()
    assert piece_notes(roast(ingredients=(line("mince", "2 kg"),)), Fraction(2)) == ()


def test_the_lengths_of_the_dish_never_change():
    found = by_factor(roast(), 3)
    assert found.dish.steps == roast().steps


def test_all_that_is_said():
    by_core = "go by 60 °C in the middle, not by the clock"
    heavier = f"“Roast” stays 1 h 30 min; it may take about 1 h 58 min, 1 h 45 min to 2 h 11 min; {by_core}"
    lighter = f"“Roast” stays 1 h 30 min; it may take about 1 h 14 min, 1 h 6 min to 1 h 23 min; {by_core}"
    deeper = f"“Roast” stays 1 h 30 min; it may take about 2 h 45 min, 2 h to 3 h 45 min; {by_core}"
    assert scaling_lines(by_servings(roast(), 9)) == (
        "Roast: 1.5 times the recipe, for 9, in 35x25x6 cm",
        "rack of pork: 3 kg",
        "salt: 36 g",
        "flour: 1 cup",
        "eggs: 5 (4.5 in proportion)",
        "bay: to taste",
        "Grill the skewers: 18 in all, 6 a load: 3 loads, 36 min (2 loads as written)",
        "“Roast” keeps the room as written: see that 1.5 times as much fits, or write its loads",
        f"rack of pork: 1 of 3 kg (written for 2 kg each): {heavier}",
        f"rack of pork: 2 of 1.5 kg (written for 2 kg each): {lighter}",
        f"In 35x25x6 cm it stands 50 % deeper: {deeper}. As deep as written: 2 of 25 cm square",
        "Work by hand keeps its length as well: “Rub with salt” 12 min; give it more time if you need it",
        f"Estimated: {PANOFSKY}.",
        f"Estimated: {DEPTH}.",
    )


def test_more_pans_want_more_room():
    lines = scaling_lines(by_pan(roast(), "2 of 35x25 cm"))
    assert "2 pans instead of 1: “Roast” keeps the room as written; write more if wanted" in lines
