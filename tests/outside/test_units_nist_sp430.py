"""NIST SP 430, Household Weights and Measures, table 1: equivalents of the common capacity units of the kitchen.

Each value is printed to its last figure, so ours must round to it. Read in NIST's own page of the table.
"""

from fractions import Fraction

import pytest

from core.measures import Quantity, convert, parse_quantity
from core.measures.number import round_half_up

PRINTED_ML = [
    ("1 tsp", "4.9"),
    ("1 tbsp", "15"),
    ("1 fl oz", "30"),
    ("1/4 cup", "59"),
    ("1/2 cup", "118"),
    ("1 cup", "237"),
    ("1 pint", "473"),
    ("1 quart", "946"),
]
PRINTED_EXACT = [
    ("1 tbsp", "3 tsp"),
    ("1 fl oz", "2 tbsp"),
    ("1/4 cup", "4 tbsp"),
    ("1 cup", "16 tbsp"),
    ("1 cup", "48 tsp"),
    ("1 pint", "2 cups"),
    ("1 quart", "2 pints"),
    ("1 quart", "192 tsp"),
]
PRINTED_PER_LITRE = [
    ("tsp", "203"),
    ("tbsp", "67.6"),
    ("fl oz", "33.8"),
    ("cup", "4.23"),
    ("pint", "2.11"),
    ("quart", "1.06"),
]


def last_place(printed: str) -> Fraction:
    return Fraction(1, 10 ** len(printed.partition(".")[2]))


@pytest.mark.parametrize(("kitchen", "millilitres"), PRINTED_ML)
def test_millilitres_round_to_the_printed_figure(kitchen: str, millilitres: str) -> None:
    ours = convert(parse_quantity(kitchen), "ml").amount
    assert round_half_up(ours, last_place(millilitres)) == Fraction(millilitres)


@pytest.mark.parametrize(("one", "other"), PRINTED_EXACT)
def test_ratios_printed_as_exact_are_exact(one: str, other: str) -> None:
    assert convert(parse_quantity(one), parse_quantity(other).unit) == parse_quantity(other)


@pytest.mark.parametrize(("unit", "number"), PRINTED_PER_LITRE)
def test_a_litre_holds_the_printed_number(unit: str, number: str) -> None:
    ours = convert(Quantity(Fraction(1), "l"), unit).amount
    assert round_half_up(ours, last_place(number)) == Fraction(number)
