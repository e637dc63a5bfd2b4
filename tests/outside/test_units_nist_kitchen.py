"""NIST Office of Weights and Measures, cooking measurement equivalencies: approximate, as labels print them.

They are rounded, and not by one rule: 4 x 240 is 960, yet the quart is printed as 950; the half gallon
(1950) is 3 % above two printed quarts (1900) and above the legal 1893. Ours are the legal sizes, so the
printed ones must lie near, each within what its rounding explains.
"""

from fractions import Fraction

import pytest

from core.measures import convert, parse_quantity

SPOONS = [
    ("1/4 tsp", "1.25 ml", "0.015"),
    ("1/2 tsp", "2.5 ml", "0.015"),
    ("1 tsp", "5 ml", "0.015"),
    ("1 tbsp", "15 ml", "0.015"),
    ("1 fl oz", "30 ml", "0.015"),
    ("3 fl oz", "90 ml", "0.015"),
    ("5 fl oz", "150 ml", "0.015"),
    ("3/4 cup", "180 ml", "0.015"),
    ("3 cups", "720 ml", "0.015"),
    ("1 oz", "28 g", "0.013"),
]
PRINTED = [
    ("1/4 cup", "60 ml", "0.015"),
    ("1/3 cup", "80 ml", "0.015"),
    ("1/2 cup", "120 ml", "0.015"),
    ("1 cup", "240 ml", "0.015"),
    ("1 pint", "480 ml", "0.015"),
    ("1 quart", "950 ml", "0.005"),
    ("1/2 gallon", "1950 ml", "0.031"),
    ("1 gallon", "3.84 l", "0.015"),
    ("1 lb", "454 g", "0.001"),
    ("1/4 lb", "114 g", "0.006"),
]


@pytest.mark.parametrize(("kitchen", "metric", "within"), PRINTED + SPOONS)
def test_the_printed_equivalent_is_near(kitchen: str, metric: str, within: str) -> None:
    printed = parse_quantity(metric)
    ours = convert(parse_quantity(kitchen), printed.unit)
    assert abs(printed.amount / ours.amount - 1) <= Fraction(within)


@pytest.mark.parametrize(("kitchen", "metric"), [row[:2] for row in PRINTED[:5]])
def test_up_to_the_pint_the_printed_cup_is_the_label_cup(kitchen: str, metric: str) -> None:
    cups = convert(parse_quantity(kitchen), "cup").amount
    assert cups * convert(parse_quantity("1 label cup"), "ml").amount == parse_quantity(metric).amount
