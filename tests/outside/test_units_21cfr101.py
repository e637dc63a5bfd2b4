"""21 CFR 101.9(b)(5)(viii): what spoons, cups and ounces mean on a nutrition label in the United States."""

from fractions import Fraction

import pytest

from core.measures import convert, parse_quantity


@pytest.mark.parametrize(
    ("household", "metric"),
    [
        ("1 tsp", "5 ml"),
        ("1 teaspoon", "5 ml"),
        ("1 tbsp", "15 ml"),
        ("1 cup", "240 ml"),
        ("1 fl oz", "30 ml"),
        ("1 oz", "28 g"),
        ("2 cups", "480 ml"),
    ],
)
def test_a_label_measure_is_exactly_what_the_rule_says(household: str, metric: str) -> None:
    printed = parse_quantity(metric)
    assert convert(parse_quantity(household, "label"), printed.unit) == printed


def test_two_cups_by_the_label_are_more_than_two_customary_cups() -> None:
    label = convert(parse_quantity("2 cups", "label"), "ml").amount
    customary = convert(parse_quantity("2 cups"), "ml").amount
    assert label == 480
    assert abs(customary - Fraction("473.18")) <= Fraction("0.01")
