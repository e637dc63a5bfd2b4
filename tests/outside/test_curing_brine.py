"""Brine for turkey: USDA and extension advice, 3/4 cup of table salt to the US gallon of water. R2.

Salt: 292 g a cup, USDA National Nutrient Database SR, NDB 02047 (R). Water: 3785 g a gallon, near enough 1 kg a litre.
"""

from fractions import Fraction
from math import isclose

from core.food.brine import LONGEST_HOURS, gradient_brine, strength_of
from core.measures import parse_quantity


def test_three_quarters_of_a_cup_to_the_gallon_are_5_5_per_cent():
    salt = parse_quantity("292 g").times(Fraction(3, 4))
    assert isclose(strength_of(salt, parse_quantity("3785 g")), 0.055, abs_tol=0.001)


def test_the_brine_is_left_within_the_two_days_of_usda():
    brine = gradient_brine(parse_quantity("20 lb"), parse_quantity("10 kg"), parse_quantity("550 g"))
    assert brine.hours[1] <= LONGEST_HOURS == 48


def test_saturated_brine_holds_26_4_per_cent():
    """26.4 g in 100 g of brine at room temperature: handbooks of chemistry, from memory."""
    assert isclose(strength_of(parse_quantity("35.8 g"), parse_quantity("100 g")), 0.264, abs_tol=0.001)
