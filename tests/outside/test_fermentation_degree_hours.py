"""Fermented sausage: degree-hours to pH 5.3. Canadian rule and the first US row R2, the other US rows from memory."""

from fractions import Fraction
from math import isclose

import pytest

from core.food.ferment import CANADA, TARGET, US, Stage, Stand, ferment, hours_allowed


def test_at_25_c_by_the_canadian_rule():
    """665 C.h above 15.6 C: 70.7 h. R2."""
    assert isclose(hours_allowed(25, CANADA), 70.7, abs_tol=0.1)


def test_at_75_f_by_the_us_rule():
    """1200 F.h above 60 F: 80 h. C."""
    assert hours_allowed(75, US) == 80


@pytest.mark.parametrize(
    ("rule", "degrees", "budget"),
    [
        (CANADA, "32.9", 665), (CANADA, "33", 555), (CANADA, "37", 555), (CANADA, "37.1", 500),
        (US, "89.9", 1200),  # R2
        (US, "90", 1000), (US, "100", 1000), (US, "100.1", 900),  # from memory
    ],
)  # fmt: skip
def test_the_budget_of_the_hottest_temperature(rule, degrees, budget):
    degrees = Fraction(degrees)
    assert hours_allowed(degrees, rule) == budget / (degrees - rule.above)


def test_a_worked_sausage_at_two_temperatures():
    """24 h at 24 C and 30 h at 30 C: 8.4 x 24 + 14.4 x 30 = 633.6 of 665 C.h. C."""
    stages = (Stage(Fraction(24), Fraction(24)), Stage(Fraction(30), Fraction(30), TARGET))
    found = ferment(stages, CANADA)
    assert (found.spent, found.stand) == (Fraction("633.6"), Stand.MET)
