"""Gastronorm, EN 631: outer sizes in mm as makers print them; the parts make up the whole."""

from fractions import Fraction

import pytest

from core.food.tins import GASTRONORM, tins_for

PRINTED = {
    "GN 1/1": (530, 325),
    "GN 2/3": (354, 325),
    "GN 1/2": (325, 265),
    "GN 1/3": (325, 176),
    "GN 1/4": (265, 162),
}


@pytest.mark.parametrize("name", PRINTED)
def test_sizes_as_printed(name):
    assert (GASTRONORM[name].width * 10, GASTRONORM[name].length * 10) == PRINTED[name]


def test_two_halves_make_a_whole():
    assert GASTRONORM["GN 1/2"].area * 2 == GASTRONORM["GN 1/1"].area
    found = tins_for(GASTRONORM["GN 1/2"], 2, tuple(GASTRONORM.values()))
    assert (found.count, found.tin, found.depth) == (1, GASTRONORM["GN 1/1"], 1)


@pytest.mark.parametrize(("name", "share"), [("GN 2/3", "2/3"), ("GN 1/3", "1/3"), ("GN 1/4", "1/4")])
def test_the_other_parts_are_theirs_to_within_one_per_cent(name, share):
    whole = GASTRONORM["GN 1/1"].area
    assert abs(GASTRONORM[name].area / (whole * Fraction(share)) - 1) < Fraction(1, 100)
