"""Water against the standard for steam, IAPWS-IF97 (revised release 2007), and the standard atmosphere.

Table 36 of the release, saturation temperatures from pressures (from memory, and the same to 8 figures from
the library iapws 1.5.5). Specific heat: enthalpies from that library, run once. Pressures at heights: ISO 2533
as printed (from memory). Heights and boiling points: a kitchen table from NASA and NOAA as commonly reprinted.
"""

from fractions import Fraction

import pytest

from core.food.altitude import boiling_point, boils_under, pressure_at
from core.food.boiling import KJ_PER_KG_K, boil
from core.measures import fahrenheit_of, parse_quantity


@pytest.mark.parametrize(("mpa", "kelvin"), [(0.1, 372.755919), (1, 453.035632), (10, 584.149488)])
def test_saturation_temperatures_of_the_release(mpa, kelvin):
    assert boils_under(mpa * 1e6) == pytest.approx(kelvin, abs=5e-6)


@pytest.mark.parametrize(
    ("metres", "hectopascals"),
    [(0, "1013.25"), (1000, "898.7"), (2000, "795.0"), (3000, "701.1"), (5000, "540.2")],
)
def test_the_standard_atmosphere(metres, hectopascals):
    assert pressure_at(metres) / 100 == pytest.approx(float(hectopascals), abs=0.1)


@pytest.mark.parametrize(
    ("feet", "metres", "fahrenheit"),
    [
        (0, 0, "212"), (1000, 305, "210.2"), (2000, 610, "208.4"), (5000, 1524, "203"),
        (6000, 1829, "201.1"), (8000, 2438, "197.4"), (10000, 3048, "193.6"), (12000, 3658, "189.8"),
        (14000, 4267, "185.9"), (15000, 4572, "184.1"),
    ],
)  # fmt: skip
def test_the_kitchen_table_of_heights(feet, metres, fahrenheit):
    assert abs(feet * Fraction("0.3048") - metres) < 1
    assert abs(fahrenheit_of(boiling_point(metres)) - Fraction(fahrenheit)) <= Fraction("0.6")


@pytest.mark.parametrize(
    ("start", "kj_per_kg"),
    # from the library: 418.9907 at the boil (99.974 °C), 63.0790 at 15 °C, 230.3386 at 55 °C
    [(15, Fraction("355.912")), (55, Fraction("188.7"))],
)
def test_the_mean_specific_heat_is_that_of_the_steam_tables(start, kj_per_kg):
    ours = boil(parse_quantity("1 l"), start, 1).seconds
    assert ours == KJ_PER_KG_K * (100 - start)
    assert abs(ours / kj_per_kg - 1) < Fraction(2, 1000)


def test_a_pound_by_a_degree_fahrenheit_is_a_british_thermal_unit():
    """One Btu (international table) is 1.05505585 kJ: the calorie of 4.1868 J, within 0.1 % of 4.19."""
    warmed = KJ_PER_KG_K * Fraction("0.45359237") * Fraction(5, 9)
    assert abs(warmed / Fraction("1.05505585") - 1) < Fraction(1, 1000)
