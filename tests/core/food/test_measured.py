"""What a cook can measure: the marks lie within the errors that are stated, and nothing else is changed."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.food.measured import (
    OUNCE_WITHIN,
    SMALL_WITHIN,
    VOLUME_WITHIN,
    WEIGHT_WITHIN,
    dosed,
    measured,
    show_measured,
)
from core.food.scaling import scaled
from core.measures import TO_TASTE, Quantity, Refusal, convert, parse_quantity

sizes = st.fractions(min_value=Fraction(1, 100), max_value=20_000, max_denominator=960)
WEIGHTS, OUNCES = ("mg", "g", "kg"), ("oz", "lb", "stick", "label oz")
VOLUMES = (
    *("ml", "cl", "dl", "l", "tsp", "tbsp", "cup", "fl oz", "pint", "quart", "gallon", "pinch", "dash"),
    *("metric tsp", "metric tbsp", "metric cup", "AU tbsp", "UK cup", "UK pint", "label tsp", "label cup"),
)
COUNTS = ("", "clove", "bunch", "slice")


def off(found, written, into):
    there, was = (convert(each, into).amount for each in (found, written))
    return abs(there / was - 1)


@given(sizes, st.sampled_from(WEIGHTS))
def test_from_one_gram_on_a_weight_is_within_five_per_cent(grams, unit):
    written = convert(Quantity(grams, "g"), unit)
    found = measured(written, "flour")
    assert found.unit == unit
    if grams >= 1:
        assert off(found, written, "g") <= WEIGHT_WITHIN
    else:
        assert found == written or convert(found, "g").amount == 1


@given(sizes, st.sampled_from(OUNCES))
def test_from_half_an_ounce_on_it_is_within_a_ninth(grams, unit):
    written = convert(Quantity(grams, "g"), unit)
    found = measured(written, "flour")
    ounces = convert(written, "oz").amount
    if ounces >= Fraction(1, 2):
        assert off(found, written, "g") <= OUNCE_WITHIN
    elif ounces >= Fraction(1, 8):
        assert off(found, written, "g") <= SMALL_WITHIN


@given(sizes, st.sampled_from(VOLUMES))
def test_from_a_teaspoon_on_a_volume_is_within_a_seventh_and_above_an_eighth_within_a_third(size, unit):
    written = convert(Quantity(size, "ml"), unit)
    found = measured(written, "broth")
    if size >= 5:
        assert off(found, written, "ml") <= VOLUME_WITHIN
    elif size >= Fraction(5, 4):
        assert off(found, written, "ml") <= SMALL_WITHIN


def test_the_stated_errors_are_reached_and_so_not_too_wide():
    grams = Quantity(Fraction("10.5"), "g")
    assert off(measured(grams), grams, "g") > WEIGHT_WITHIN * Fraction(9, 10)
    three_sixteenths = Quantity(Fraction(3, 16), "tsp")
    assert off(measured(three_sixteenths), three_sixteenths, "ml") == SMALL_WITHIN
    seven_eighths = Quantity(Fraction(7, 8), "cup")
    assert off(measured(seven_eighths), seven_eighths, "ml") == VOLUME_WITHIN


@given(sizes, st.sampled_from((*WEIGHTS, *OUNCES, *VOLUMES, *COUNTS)))
def test_what_can_be_measured_is_left_as_it_is(size, unit):
    once = measured(Quantity(size, unit), "broth")
    assert measured(once, "broth") == once
    assert once.amount > 0


@given(sizes, sizes, st.sampled_from(("g", "ml", "cup", "tsp", "lb", "")))
def test_more_is_never_measured_as_less(one, other, unit):
    into = {"g": "g", "lb": "g"}.get(unit, "ml")
    found = [measured(Quantity(size, unit), "broth") for size in sorted((one, other))]
    low, high = (each.amount if not unit else convert(each, into).amount for each in found)
    assert low <= high


@pytest.mark.parametrize(
    ("amount", "item", "shown"),
    [
        ("0.32 cup", "flour", "5 tbsp"),
        ("1/3 cup", "flour", "⅓ cup"),
        ("4 tbsp", "oil", "4 tbsp"),
        ("12 tsp", "oil", "¼ cup"),
        ("0.27 tsp", "cumin", "¼ tsp"),
        ("7 g", "salt", "7 g"),
        ("137 g", "butter", "135 g"),
        ("483 g", "butter", "480 g"),
        ("1.237 kg", "flour", "1.225 kg"),
        ("2.4", "eggs", "2"),
        ("0.2", "eggs", "1"),
        ("2.7", "onions", "2½"),
        ("7 1/3", "onions", "7"),
        ("2.53 g", "curing salt", "2.53 g"),
        ("0.3 g", "saffron", "0.3 g"),
        ("1/16 tsp", "cayenne", "0.063 tsp"),
        ("1.1 lb", "beef", "17½ oz"),
    ],
)
def test_as_cooks_measure(amount, item, shown):
    assert show_measured(measured(parse_quantity(amount), item), item) == shown


def test_a_dose_is_never_rounded():
    assert [dosed(each) for each in ("Curing salt no. 1", "pink salt", "cured ham", "pink Himalayan salt")] == [
        True,
        True,
        False,
        False,
    ]
    exact = Quantity(Fraction("2.496"), "g")
    assert measured(exact, "cure no. 1") == exact


def test_to_taste_and_nothing_stay_and_less_than_nothing_is_refused():
    assert measured(TO_TASTE) == TO_TASTE
    assert measured(Quantity(Fraction(0), "g")).amount == 0
    with pytest.raises(Refusal, match="salt: an amount cannot be less than 0"):
        measured(Quantity(Fraction(-1), "g"), "salt")


@given(st.fractions(Fraction(1, 20), 50, max_denominator=24), st.fractions(Fraction(1, 8), 8, max_denominator=8))
def test_eggs_are_whole_and_never_none(eggs, factor):
    each = scaled("eggs", Quantity(eggs), factor)
    assert measured(each.exact, "eggs", each.grows).amount == max(1, each.whole)
