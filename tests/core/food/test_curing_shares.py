"""Per cent as it is typed: one share for each way to write it, and hundredfold slips refused."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.food.curing_shares import NITRITE, PUMP, SALT, checked_share, parse_share, said_percent
from core.measures import Refusal
from core.measures.number import show_decimal


@pytest.mark.parametrize(
    "typed",
    ["6.25%", "6.25 %", "6.25", "0.0625", ".0625", "6,25%", "6 1/4 %", "1/16", "6.25 per cent", "6.25 pct"],
)
def test_one_share_written_in_many_ways(typed):
    assert parse_share(typed, NITRITE) == Fraction("0.0625")


@pytest.mark.parametrize(
    ("typed", "words"),
    [
        ("625%", '"625%" is a hundredfold slip.*If you mean 6.25%'),
        ("0.0625%", "is a hundredfold slip.*If you mean 6.25%"),
        ("0.000625", "would be 0.0625%, a hundredfold slip.*If you mean 6.25%"),
        ("0.6", "would be 60%, a hundredfold slip.*If you mean 0.6%"),
        ("1", "may be 1% or 100%"),
        ("100", "may be 1% or 100%"),
        ("20%", "Read the maker's label again. 100% stands for the pure salt"),
        ("0", "write more than 0"),
        ("0%", "it is met from"),
        ("-6.25%", "is no per cent"),
        ("", "is no per cent"),
        ("six", "is no per cent"),
        ("6.25%%", "is no per cent"),
        ("1/0", "divided by 0"),
    ],
)
def test_what_is_refused(typed, words):
    with pytest.raises(Refusal, match=words):
        parse_share(typed, NITRITE)


def test_the_pure_salt_is_written_with_its_sign():
    assert parse_share("100%", NITRITE) == 1
    with pytest.raises(Refusal):
        parse_share("100%", PUMP)


@given(
    st.fractions(min_value=Fraction("0.011"), max_value=Fraction("0.15"), max_denominator=1000),
    st.sampled_from([100, Fraction(1, 100)]),
)
def test_a_share_a_hundredfold_off_is_always_refused(share, slip):
    share = Fraction(show_decimal(share, 4))
    assert checked_share(share, NITRITE) == share
    assert parse_share(said_percent(share), NITRITE) == share
    with pytest.raises(Refusal, match="hundredfold"):
        checked_share(share * slip, NITRITE)


@pytest.mark.parametrize(
    ("share", "met"),
    [("0.003", True), ("0.0029", False), ("0.15", True), ("0.1501", False)],
)
def test_a_hair_to_either_side_of_what_is_met(share, met):
    if met:
        assert checked_share(Fraction(share), NITRITE) == Fraction(share)
    else:
        with pytest.raises(Refusal):
            checked_share(Fraction(share), NITRITE)


@pytest.mark.parametrize(
    ("typed", "share"), [("2", "0.02"), ("2%", "0.02"), ("0.02", "0.02"), ("0.5%", "0.005")]
)
def test_salt(typed, share):
    assert parse_share(typed, SALT) == Fraction(share)
