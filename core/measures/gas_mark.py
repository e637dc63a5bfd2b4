"""The gas mark scale of British ovens: F = 25 G + 250 from mark 1 up, F = 275 + 25 log2(G) below.

Common practice: no standards body owns the scale and makers vary.
"""

from fractions import Fraction

from core.measures.number import show_fraction

MARKS = (Fraction(1, 4), Fraction(1, 2), *(Fraction(mark) for mark in range(1, 11)))
"""The marks on a dial."""

_BELOW_ONE = {Fraction(1, 4): 225, Fraction(1, 2): 250}
_NEAR_F = 20  # degrees F outside the scale that still take its last mark


def is_mark(mark: Fraction) -> bool:
    """Say whether a dial can stand there: 1/4, 1/2, and 1 to 10 with what lies between."""
    return mark in _BELOW_ONE or MARKS[2] <= mark <= MARKS[-1]


def fahrenheit_of_gas(mark: Fraction) -> Fraction:
    """Return degrees F of a mark that is_mark accepts, exact."""
    return Fraction(_BELOW_ONE[mark]) if mark in _BELOW_ONE else 25 * mark + 250


def celsius_of_gas(mark: Fraction) -> Fraction:
    """Return degrees C of a mark that is_mark accepts, exact."""
    return (fahrenheit_of_gas(mark) - 32) * 5 / 9


def gas_near(celsius: int) -> str:
    """Return the nearest mark as "gas 5" or "gas ½"; "" where the scale does not reach."""
    fahrenheit = Fraction(celsius) * 9 / 5 + 32
    if not 225 - _NEAR_F <= fahrenheit <= 500 + _NEAR_F:
        return ""
    nearest = min(MARKS, key=lambda mark: abs(fahrenheit_of_gas(mark) - fahrenheit))
    return f"gas {show_fraction(nearest)}"
