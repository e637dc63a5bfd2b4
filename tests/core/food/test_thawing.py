"""Thawing in the fridge and in cold water."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.food.speak import said_thaw
from core.food.thawing import Place, Thaw, in_cold_water, in_fridge, thaw_offers
from core.measures import Quantity, Refusal, parse_quantity
from core.plan.step import Span

weights = st.fractions(min_value=Fraction(1, 10), max_value=15, max_denominator=20)


def clock(at):
    return f"{at // 60 % 24:02}:{at % 60:02}"


def test_the_fridge_takes_a_day_for_each_1_8_to_2_3_kg():
    assert in_fridge(parse_quantity("1.8 kg")).high == 24 * 60
    assert in_fridge(parse_quantity("2.3 kg")).low == 24 * 60
    assert in_fridge(parse_quantity("4 lb")).high == in_fridge(parse_quantity("5 lb")).low == 24 * 60


def test_cold_water_is_counted_in_whole_changes():
    thaw = in_cold_water(parse_quantity("2 lb"))
    assert thaw == Thaw(Place.WATER, 60, 60, (2, 2))
    assert thaw.cook_at_once
    assert not in_fridge(parse_quantity("2 lb")).cook_at_once


@given(weights, st.sampled_from(("kg", "lb")))
def test_water_is_quicker_than_the_fridge_and_more_never_takes_less(weight, unit):
    cold, water = in_fridge(Quantity(weight, unit)), in_cold_water(Quantity(weight, unit))
    more = Quantity(weight * 2, unit)
    assert water.low <= water.high
    assert cold.low <= cold.high
    assert water.high <= cold.high
    assert in_fridge(more).high >= 2 * cold.high - 1
    assert water.high == water.changes[1] * 30
    assert water.low == water.changes[0] * 30


def test_the_length_proposed_is_the_longer_one():
    assert in_fridge(parse_quantity("1.8 kg")).proposed() == Span(1127, 1440, 1440)


def test_what_is_said_of_a_way_in_time_and_of_one_too_late():
    fridge, water = thaw_offers(parse_quantity("1.8 kg"), 0, 12 * 60)
    assert (fridge.late, water.late) == (12 * 60, 0)
    assert said_thaw(fridge, clock) == (
        "Thaw in the fridge, 18 h 47 min to 24 h: begun now it is thawed by 00:00, 12 h too late."
    )
    assert said_thaw(water, clock) == (
        "Thaw in cold water, 2 h, leak-proof bag, 4 changes of water, one each 30 min: begin by 10:00; begun"
        " now it is thawed by 02:00. USDA: what thawed in cold water is cooked at once, not kept."
    )


@pytest.mark.parametrize("thaw", [in_fridge, in_cold_water])
@pytest.mark.parametrize(
    ("weight", "says"),
    [
        (Quantity(Fraction(0), "kg"), "What thaws: write an amount greater than 0."),
        (Quantity(Fraction(-1), "kg"), "What thaws: an amount cannot be less than 0"),
        (Quantity(Fraction(1), "l"), "What thaws: .* is a weight and l a volume"),
        (Quantity(Fraction(1)), "What thaws: .*cannot be turned into"),
        (Quantity(Fraction(1), "st"), 'What thaws: "st" is not a unit here'),
    ],
)
def test_what_is_no_weight_is_refused(thaw, weight, says):
    with pytest.raises(Refusal, match=says):
        thaw(weight)
