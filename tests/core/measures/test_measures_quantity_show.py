"""Quantities as a cook would measure them: sensible units and numbers, never far off."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.measures import TO_TASTE, Quantity, convert, parse_quantity, show_quantity
from core.measures.unit_names import UNITS


@pytest.mark.parametrize(
    ("text", "metric", "us"),
    [
        ("500 g", "500 g", "17½ oz"),
        ("1 lb", "455 g", "1 lb"),
        ("8 oz", "225 g", "8 oz"),
        ("1225 g", "1.225 kg", "2¾ lb"),
        ("1 cup", "235 ml", "1 cup"),
        ("1 label cup", "240 ml", "1 cup"),
        ("1 1/2 cups", "355 ml", "1½ cups"),
        ("1/3 cup", "79 ml", "⅓ cup"),
        ("0.4 cup", "95 ml", "6½ tbsp"),
        ("6 tsp", "6 tsp", "6 tsp"),
        ("7 tsp", "7 tsp", "7 tsp"),
        ("13 tsp", "64 ml", "4½ tbsp"),
        ("1 1/8 cups", "265 ml", "1⅛ cups"),
        ("16 tbsp", "235 ml", "1 cup"),
        ("1 UK pint", "570 ml", "2⅓ cups"),
        ("1300 ml", "1.3 l", "5½ cups"),
        ("20 cups", "4.73 l", "1¼ gallons"),
        ("1 stick", "115 g", "1 stick"),
        ("1 pint", "475 ml", "1 pint"),
        ("2 pinches", "2 pinches", "2 pinches"),
        ("1 AU tbsp", "1 AU tbsp", "4 tsp"),
        ("2 inches", "5.1 cm", "2 inches"),
        ("5 cm", "5 cm", "2 inches"),
        ("3 cloves", "3 cloves", "3 cloves"),
        ("4 1/2 eggs", "4½ eggs", "4½ eggs"),
        ("7/3", "2⅓", "2⅓"),
        ("0.05 bunch", "0.05 bunch", "0.05 bunch"),
        ("0.4 mg", "0.0004 g", "0.0000141 oz"),
        ("0 g", "0 g", "0 g"),
    ],
)
def test_sensible_units_and_numbers(text: str, metric: str, us: str) -> None:
    quantity = parse_quantity(text)
    assert (show_quantity(quantity), show_quantity(quantity, "us")) == (metric, us)


def test_to_taste_stays_so() -> None:
    assert show_quantity(TO_TASTE) == "to taste"
    assert show_quantity(TO_TASTE, "us") == "to taste"


def test_an_unknown_system_is_our_own_fault() -> None:
    with pytest.raises(ValueError, match="lunar"):
        show_quantity(TO_TASTE, "lunar")


@given(st.integers(1, 20_000), st.sampled_from(["g", "ml"]))
def test_whole_grams_and_millilitres_stay_as_written(number: int, unit: str) -> None:
    quantity = Quantity(Fraction(number), unit)
    assert convert(parse_quantity(show_quantity(quantity)), unit) == quantity


@given(st.integers(1, 99), st.sampled_from(["g", "ml"]))
def test_tenths_below_ten_stay_as_written(tenths: int, unit: str) -> None:
    quantity = Quantity(Fraction(tenths, 10), unit)
    assert convert(parse_quantity(show_quantity(quantity)), unit) == quantity


MEASURED = sorted(name for name, unit in UNITS.items() if unit.kind in ("weight", "volume", "length"))
AMOUNTS = st.fractions(min_value=Fraction(1, 1000), max_value=500)


def off(quantity: Quantity, shown: str) -> Fraction:
    return abs(convert(parse_quantity(shown), quantity.unit).amount / quantity.amount - 1)


@given(
    AMOUNTS,
    st.sampled_from(["g", "kg", "oz", "lb", "ml", "l", "cup", "fl oz", "pint", "UK pint", "cm", "inch"]),
)
def test_metric_figures_stay_within_a_fortieth(amount: Fraction, unit: str) -> None:
    quantity = Quantity(amount, unit)
    assert off(quantity, show_quantity(quantity)) <= Fraction(1, 40)


@given(AMOUNTS, st.sampled_from(["g", "kg", "oz", "lb", "stick", "cm", "inch"]))
def test_us_weights_and_lengths_stay_within_a_twentieth(amount: Fraction, unit: str) -> None:
    quantity = Quantity(amount, unit)
    assert off(quantity, show_quantity(quantity, "us")) <= Fraction(1, 20)


@given(
    AMOUNTS,
    st.sampled_from(["ml", "l", "tsp", "tbsp", "cup", "pint", "quart", "gallon", "UK pint", "AU tbsp"]),
)
def test_us_volumes_stay_within_six_hundredths_or_the_nearest_mark_of_a_teaspoon(
    amount: Fraction, unit: str
) -> None:
    quantity = Quantity(amount, unit)
    shown = show_quantity(quantity, "us")
    teaspoons = convert(quantity, "tsp").amount
    assert off(quantity, shown) <= Fraction(6, 100) or (
        abs(convert(parse_quantity(shown), "tsp").amount - teaspoons) <= Fraction(1, 16)
    )


@given(AMOUNTS, st.sampled_from(MEASURED), st.sampled_from(["metric", "us"]))
def test_something_is_never_shown_as_nothing_and_reads_back(amount: Fraction, unit: str, system: str) -> None:
    quantity = Quantity(amount, unit)
    assert convert(parse_quantity(show_quantity(quantity, system)), unit).amount > 0
