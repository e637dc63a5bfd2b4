"""Pans as cooks write them: areas, depths, what fits, and what no pan is."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.food.pans import Pan, area_ratio, depth_ratio, goes_into, parse_pan, said_pan
from core.food.tins import GASTRONORM, tin
from core.measures import Refusal

sides = st.integers(16, 400).map(lambda quarters: Fraction(quarters, 4))
pans = st.one_of(
    st.builds(
        Pan, st.builds(tin, sides, st.one_of(st.none(), sides)), st.one_of(st.none(), sides), st.integers(1, 6)
    ),
    st.builds(
        lambda name, deep, count: Pan(GASTRONORM[name], Fraction(deep, 10), count, f"{name}-{deep}"),
        st.sampled_from(tuple(GASTRONORM)),
        st.sampled_from((20, 40, 65, 100, 150, 200)),
        st.integers(1, 6),
    ),
)


@given(pans)
def test_what_is_said_of_a_pan_reads_back_as_the_same_pan(pan):
    assert parse_pan(said_pan(pan)) == pan


@given(pans, pans, st.fractions(Fraction(1, 4), 4, max_denominator=8))
def test_the_area_keeps_the_depth_and_the_depth_keeps_the_amount(one, other, factor):
    assert depth_ratio(one, other, area_ratio(one, other)) == 1
    assert depth_ratio(one, other, factor) * other.area == factor * one.area


@pytest.mark.parametrize(
    ("text", "said", "area"),
    [
        ("round 26 cm", "round 26 cm", "530.93"),
        ("26 cm round tin", "round 26 cm", "530.93"),
        ("35x25x6 cm", "35x25x6 cm", "875"),
        ("35 cm x 25 cm", "35x25 cm", "875"),
        ("9x13 in", "22.86x33.02 cm", "754.84"),
        ('9" x 13"', "22.86x33.02 cm", "754.84"),
        ("round 9x2 in", "round 22.86x5.08 cm", "410.43"),
        ("GN 1/2-65", "GN 1/2-65", "861.25"),
        ("gn 1/1", "GN 1/1", "1722.5"),
        ("2 of round 20 cm", "2 of round 20 cm", "628.32"),
        ("2 x GN 1/2-65", "2 of GN 1/2-65", "1722.5"),
        ("3 of 35 x 25 cm", "3 of 35x25 cm", "2625"),
        ("square 20 cm", "square 20 cm", "400"),
        ("2 1/2 in x 6 in", "6.35x15.24 cm", "96.77"),
    ],
)
def test_as_cooks_write_them(text, said, area):
    pan = parse_pan(text)
    assert said_pan(pan) == said
    assert abs(pan.area - Fraction(area)) < Fraction(1, 100)


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("", "No pan is written; write one such as"),
        ("26 cm", '"26 cm" is not a pan\'s size; say round or square, or write two sides'),
        ("round 26", "write the sides in one unit, cm or in"),
        ("35x25x6", "write the sides in one unit"),
        ("9 in x 13 cm", "write the sides in one unit"),
        ("GN 1/5", "is no gastronorm size; the sizes are GN 2/1, GN 1/1"),
        ("GN 1/1-60", "gastronorm is 20, 40, 65, 100, 150, 200 mm deep"),
        ("loaf tin", "names no size; write the sides"),
        ("round 300 cm", "no pan has a side of 300 cm"),
        ("2 x 30 cm", "no pan has a side of 2 cm"),
        ("0x20 cm", 'A side of "0x20 cm" is 0; write more than 0'),
        ("99 of round 20 cm", "99 pans are not for a kitchen"),
    ],
)
def test_what_is_no_pan_is_refused_with_the_mend(text, says):
    with pytest.raises(Refusal) as refused:
        parse_pan(text)
    assert says in refused.value.text


@given(pans, st.integers(20, 80), st.integers(20, 80))
def test_a_pan_goes_in_either_way_or_not_at_all(pan, wide, deep):
    assert goes_into(pan, wide, deep) == goes_into(pan, deep, wide)
    if goes_into(pan, wide, deep):
        assert max(pan.sides) + 10 <= max(wide, deep)
        assert pan.sides[0] * pan.sides[1] <= (wide - 10) * (deep - 10)
