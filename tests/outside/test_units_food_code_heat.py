"""FDA Food Code 3-401.11(B), whole meat roasts: each temperature is printed in F and in C to a tenth.

Read in state codes that adopt the text. With 41 F, 135 F and 165 F of the same chapter.
"""

from fractions import Fraction

import pytest

from core.measures import celsius_of, fahrenheit_of, parse_heat
from core.measures.number import round_half_up

PRINTED = [
    (130, "54.4"),
    (131, "55.0"),
    (133, "56.1"),
    (135, "57.2"),
    (136, "57.8"),
    (138, "58.9"),
    (140, "60.0"),
    (142, "61.1"),
    (144, "62.2"),
    (145, "62.8"),
    (147, "63.9"),
    (149, "65.0"),
    (151, "66.1"),
    (153, "67.2"),
    (155, "68.3"),
    (157, "69.4"),
    (158, "70.0"),
    (165, "73.9"),
    (41, "5.0"),
]


@pytest.mark.parametrize(("fahrenheit", "celsius"), PRINTED)
def test_degrees_round_to_the_printed_tenth(fahrenheit: int, celsius: str) -> None:
    assert round_half_up(celsius_of(fahrenheit), Fraction(1, 10)) == Fraction(celsius)
    assert fahrenheit_of(celsius_of(fahrenheit)) == fahrenheit


@pytest.mark.parametrize(
    ("fahrenheit", "celsius"),
    [(41, 5), (135, 57), (145, 63), (155, 68), (165, 74), (250, 121), (325, 163), (350, 177)],
)
def test_whole_degrees_are_those_the_chapter_prints(fahrenheit: int, celsius: int) -> None:
    assert parse_heat(f"{fahrenheit}F") == celsius
