"""Water to the boil, with and without a kettle, low and high above the sea."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.food.altitude import HIGHEST_M, LOWEST_M, boiling_point
from core.food.boiling import Ring, boil, useful_power, with_kettle
from core.food.speak import said_boil
from core.measures import Quantity, Refusal, parse_quantity
from core.measures.number import round_half_up
from core.plan.step import Span

litres = st.fractions(min_value=Fraction(1, 10), max_value=60, max_denominator=10)
starts = st.integers(0, 90)
powers = st.fractions(min_value=Fraction(1, 10), max_value=10, max_denominator=20)


def clock(at):
    return f"{at // 60:02}:{at % 60:02}"


@given(litres, starts, powers)
def test_twice_the_water_takes_twice_as_long_and_twice_the_power_half(water, start, power):
    one = boil(Quantity(water, "l"), start, power)
    assert boil(Quantity(2 * water, "l"), start, power).seconds == 2 * one.seconds
    assert boil(Quantity(water, "l"), start, 2 * power).seconds * 2 == one.seconds
    assert one.minutes * 60 - 60 < one.seconds <= one.minutes * 60


@given(litres, starts, powers, st.fractions(Fraction(1, 10), Fraction(9, 10), max_denominator=10))
def test_a_kettle_never_makes_it_longer_and_its_heat_adds_up(water, start, power, share):
    pot = boil(Quantity(water, "l"), start, power)
    helped = with_kettle(pot, share)
    assert helped.seconds < pot.seconds
    cold, hot = water * (1 - share), water * share
    assert helped.start * water == cold * start + hot * 95
    assert helped.kettle == share


@given(litres, starts, powers)
def test_the_length_proposed_holds_the_usual_spread(water, start, power):
    pot = boil(Quantity(water, "l"), start, power)
    length = pot.proposed()
    assert 1 <= length.low <= length.likely == pot.minutes <= length.high


def test_a_proposed_length_to_the_minute():
    assert boil(parse_quantity("6 l"), 15, Fraction("1.2")).proposed() == Span(24, 30, 36)


TABLE = {
    # litres: minutes at 0.9, 1.35, 2.25 and 3.0 kW useful from 15 °C, worked by hand to the nearest minute
    1: (7, 4, 3, 2), 2: (13, 9, 5, 4), 4: (26, 18, 11, 8), 6: (40, 26, 16, 12), 8: (53, 35, 21, 16),
    10: (66, 44, 26, 20), 20: (132, 88, 53, 40),
}  # fmt: skip


@pytest.mark.parametrize("water", TABLE)
def test_the_house_table(water):
    found = [
        round_half_up(boil(Quantity(Fraction(water), "l"), 15, Fraction(power)).seconds / 60)
        for power in ("0.9", "1.35", "2.25", "3")
    ]
    assert tuple(found) == TABLE[water]


def test_useful_power_of_a_ring():
    rated = [useful_power(Fraction(2), ring) for ring in (Ring.RADIANT, Ring.INDUCTION, Ring.GAS)]
    assert rated == [Fraction("1.5"), Fraction("1.7"), Fraction("0.8")]
    with pytest.raises(Refusal, match="The ring's power is 0; write more than 0, such as 2 kW"):
        useful_power(0, Ring.GAS)


def test_water_may_be_weighed_or_in_quarts():
    weighed = boil(parse_quantity("6 kg"), 15, 1)
    assert weighed == boil(parse_quantity("6 l"), 15, 1)
    assert boil(parse_quantity("4 quarts"), 15, 1).litres == Fraction("3.785411784")


def test_high_up_it_boils_sooner_and_less_hot():
    assert boiling_point(0) == 100
    at = boiling_point(1524)
    assert boil(parse_quantity("6 l"), 15, 1, at).seconds == 6 * Fraction("4.19") * (at - 15)


@given(st.integers(LOWEST_M, HIGHEST_M - 100))
def test_it_boils_cooler_with_every_hundred_metres(metres):
    fall = boiling_point(metres) - boiling_point(metres + 100)
    assert Fraction(2, 10) <= fall <= Fraction(5, 10)


def test_what_is_said():
    pot = boil(parse_quantity("6 l"), 15, Fraction("1.2"))
    assert said_boil(pot, 18 * 60 + 50, clock) == (
        "6 l of water from 15 °C, 1.2 kW useful, lid on: 30 min to 100 °C; pot on at 18:20 to boil by 18:50."
    )
    assert said_boil(with_kettle(pot), 18 * 60 + 50, clock) == (
        "6 l of water from 55 °C with 3 l of it from a kettle just boiled (5 °C cooler in the pot), 1.2 kW"
        " useful, lid on: 16 min to 100 °C; pot on at 18:34 to boil by 18:50."
    )


@pytest.mark.parametrize(
    ("wrong", "says"),
    [
        (lambda: boil(parse_quantity("0 l"), 15, 1), "The water: write an amount greater than 0."),
        (lambda: boil(Quantity(Fraction(-1), "l"), 15, 1), "The water: an amount cannot be less than 0"),
        (lambda: boil(parse_quantity("3 cloves"), 15, 1), "The water: .*cannot be turned into kg"),
        (lambda: boil(Quantity(Fraction(1), "vat"), 15, 1), 'The water: "vat" is not a unit here'),
        (lambda: boil(parse_quantity("to taste"), 15, 1), "The water: write an amount; to taste is none."),
        (lambda: boil(parse_quantity("1 l"), 15, 0), "The useful power in kW is 0; write more than 0"),
        (lambda: boil(parse_quantity("1 l"), 15, -1), "The useful power in kW is -1; write more than 0"),
        (lambda: boil(parse_quantity("1 l"), -5, 1), "Water of -5 °C is ice; write 0 °C or more."),
        (lambda: boil(parse_quantity("1 l"), 100, 1), "Water of 100 °C boils already, at 100 °C"),
        (lambda: boil(parse_quantity("1 l"), 96, 1, 95), "Water of 96 °C boils already, at 95 °C"),
        (lambda: with_kettle(boil(parse_quantity("1 l"), 5, 1), Fraction(0)), "write one between 0 and 1"),
        (lambda: with_kettle(boil(parse_quantity("1 l"), 5, 1), Fraction(1)), "The kettle's share is 1;"),
        (lambda: boiling_point(9000), "9000 m is no height to cook at here; write -430 to 5500 m."),
        (lambda: boiling_point(-500), "-500 m is no height"),
    ],
)
def test_what_is_refused(wrong, says):
    with pytest.raises(Refusal, match=says):
        wrong()
