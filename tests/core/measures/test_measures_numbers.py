"""Numbers as typed and as shown."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.measures import Refusal
from core.measures.number import exact_text, read_number, round_half_up, show_decimal, show_fraction, tidy

NUMBERS = st.fractions(min_value=0, max_value=10**9)


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("3", Fraction(3)),
        ("1 1/2", Fraction(3, 2)),
        ("1½", Fraction(3, 2)),
        ("⅞", Fraction(7, 8)),
        ("1\u2044 2", None),
        ("2.5", Fraction(5, 2)),
        ("2,5", Fraction(5, 2)),
        ("1,000", Fraction(1000)),
        ("12,345,678.9", Fraction("12345678.9")),
        ("0,500", Fraction(1, 2)),
        ("1,0000", Fraction(1)),
        ("1\u00a0000", Fraction(1000)),
        ("1 000", None),
        ("", None),
        ("-1", None),
        ("1e3", None),
        ("one", None),
    ],
)
def test_numbers_are_read(text: str, value: Fraction | None) -> None:
    assert read_number(text) == value


def test_nothing_is_divided_by_nothing() -> None:
    with pytest.raises(Refusal, match="divided by 0"):
        read_number("1/0")


@given(NUMBERS)
def test_exact_texts_read_back(value: Fraction) -> None:
    assert read_number(exact_text(value)) == value
    assert read_number(show_fraction(value)) == value


@given(NUMBERS, st.integers(0, 6))
def test_decimals_are_within_half_their_last_place(value: Fraction, places: int) -> None:
    shown = show_decimal(value, places)
    assert abs(Fraction(shown) - value) <= Fraction(1, 2 * 10**places)
    assert not ("." in shown and shown.endswith(("0", ".")))


def test_numbers_below_nothing_keep_their_sign() -> None:
    assert [exact_text(Fraction(text)) for text in ("-3", "-1/2", "-4/3", "-1/3")] == [
        "-3",
        "-0.5",
        "-1 1/3",
        "-1/3",
    ]
    assert show_decimal(Fraction(-1, 100), 1) == "0"


@given(st.fractions(), st.fractions(min_value=Fraction(1, 100), max_value=100))
def test_rounding_goes_to_the_nearest_step(value: Fraction, step: Fraction) -> None:
    rounded = round_half_up(value, step)
    assert (rounded / step).denominator == 1
    assert abs(rounded - value) <= step / 2


def test_ties_go_up() -> None:
    assert [round_half_up(Fraction(text)) for text in ("0.5", "1.5", "-0.5", "2.49")] == [1, 2, 0, 2]


def test_tidy_text_has_plain_signs() -> None:
    assert tidy("  1½ –\u00a02 × 3\n") == "1 1/2 - 2 x 3"
