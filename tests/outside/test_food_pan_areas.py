"""Pan areas: plain geometry, and sheet pans of the United States in a home oven.

Sheet pans by their nominal sizes in inches: full 26 x 18, half 18 x 13, quarter 13 x 9. A full one does not fit a home
oven, a half one does; about 2 in stay clear on each side (common practice). The oven's inside, 24 x 18 in, is a usual
home oven of 30 in outside (from memory).
"""

from fractions import Fraction
from math import isclose, pi

import pytest

from core.food.pans import area_ratio, goes_into, parse_pan

INSIDE_CM = (61, 46)
SQUARE_INCH = Fraction(254, 100) ** 2


@pytest.mark.parametrize("across", [15, 18, 20, 23, 26, 28, 30])
def test_a_round_pan_by_pi(across):
    assert isclose(float(parse_pan(f"round {across} cm").area), pi * across**2 / 4, rel_tol=1e-6)


@pytest.mark.parametrize(
    ("pan", "square_inches"), [("9x13 in", 117), ("8x8 in", 64), ("13x18 in", 234), ("9x9 in", 81), ("11x7 in", 77)]
)
def test_a_rectangular_pan_in_inches(pan, square_inches):
    assert parse_pan(pan).area == square_inches * SQUARE_INCH


def test_two_round_pans_of_8_in_are_nearly_one_of_9_by_13():
    """2 x 50.27 = 100.5 and 9 x 13 = 117 square inches: seven eighths, not the same (geometry)."""
    assert isclose(area_ratio(parse_pan("9x13 in"), parse_pan("2 of round 8 in")), 0.8593, abs_tol=1e-4)


def test_a_square_pan_is_four_over_pi_times_the_round_one_of_its_width():
    assert isclose(area_ratio(parse_pan("round 20 cm"), parse_pan("square 20 cm")), 4 / pi, rel_tol=1e-6)


@pytest.mark.parametrize(("sheet", "fits"), [("26x18 in", False), ("18x13 in", True), ("13x9 in", True)])
def test_a_full_sheet_does_not_go_into_a_home_oven_and_a_half_one_does(sheet, fits):
    assert goes_into(parse_pan(sheet), *INSIDE_CM) is fits
