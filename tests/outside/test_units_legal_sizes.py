"""Legal sizes of customary and imperial units, derived here from their definitions by plain arithmetic.

From memory: the international inch (25.4 mm) and pound (453.59237 g) of 1959, the US gallon of 231 cubic
inches (NIST Handbook 44, appendix C, gives it too), and the UK gallon of 4.54609 litres (Weights and
Measures Act 1985; Units of Measurement Regulations 1995).
"""

from fractions import Fraction

import pytest

from core.measures import Quantity, convert

CUBIC_INCH_ML = Fraction("2.54") ** 3
US_GALLON_ML = 231 * CUBIC_INCH_ML
UK_GALLON_ML = Fraction("4546.09")
POUND_G = Fraction("453.59237")

SIZES = [
    ("gallon", "ml", US_GALLON_ML),
    ("quart", "ml", US_GALLON_ML / 4),
    ("pint", "ml", US_GALLON_ML / 8),
    ("cup", "ml", US_GALLON_ML / 16),
    ("fl oz", "ml", US_GALLON_ML / 128),
    ("tbsp", "ml", US_GALLON_ML / 256),
    ("tsp", "ml", US_GALLON_ML / 768),
    ("UK gallon", "ml", UK_GALLON_ML),
    ("UK quart", "ml", UK_GALLON_ML / 4),
    ("UK pint", "ml", UK_GALLON_ML / 8),
    ("UK cup", "ml", UK_GALLON_ML / 16),
    ("UK gill", "ml", UK_GALLON_ML / 32),
    ("UK fl oz", "ml", UK_GALLON_ML / 160),
    ("lb", "g", POUND_G),
    ("oz", "g", POUND_G / 16),
    ("stick", "g", POUND_G / 4),
    ("inch", "mm", Fraction("25.4")),
]

WRITTEN_OUT = [
    ("gallon", "l", "3.785411784"),
    ("cup", "ml", "236.5882365"),
    ("fl oz", "ml", "29.5735295625"),
    ("tbsp", "ml", "14.78676478125"),
    ("tsp", "ml", "4.92892159375"),
    ("oz", "g", "28.349523125"),
    ("UK pint", "ml", "568.26125"),
    ("UK fl oz", "ml", "28.4130625"),
]


@pytest.mark.parametrize(("unit", "metric", "size"), SIZES)
def test_a_unit_has_its_legal_size_exactly(unit: str, metric: str, size: Fraction) -> None:
    assert convert(Quantity(Fraction(1), unit), metric).amount == size


@pytest.mark.parametrize(("unit", "metric", "size"), WRITTEN_OUT)
def test_a_unit_has_the_figure_as_it_is_published(unit: str, metric: str, size: str) -> None:
    assert convert(Quantity(Fraction(1), unit), metric).amount == Fraction(size)


@pytest.mark.parametrize(
    ("unit", "millilitres"), [("metric tsp", 5), ("metric tbsp", 15), ("metric cup", 250), ("AU tbsp", 20)]
)
def test_metric_spoons_have_their_trade_sizes(unit: str, millilitres: int) -> None:
    """Common practice; the Australian tablespoon is four teaspoons of 5 ml."""
    assert convert(Quantity(Fraction(1), unit), "ml").amount == millilitres
