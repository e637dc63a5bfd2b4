"""Gastronorm, EN 631: outer sizes in mm as makers print them; the parts make up the whole."""

from fractions import Fraction

import pytest

from core.food.pans import DEPTHS, area_ratio, parse_pan
from core.food.tins import GASTRONORM, tins_for

PRINTED = {
    "GN 1/1": (530, 325),
    "GN 2/3": (354, 325),
    "GN 1/2": (325, 265),
    "GN 1/3": (325, 176),
    "GN 1/4": (265, 162),
    "GN 2/1": (650, 530),
    "GN 2/4": (530, 162),
    "GN 1/6": (176, 162),
    "GN 1/9": (176, 108),
    "GN 2/8": (325, 132),
}


@pytest.mark.parametrize("name", PRINTED)
def test_sizes_as_printed(name):
    assert (GASTRONORM[name].width * 10, GASTRONORM[name].length * 10) == PRINTED[name]
    assert set(GASTRONORM) == set(PRINTED)


def test_two_halves_make_a_whole():
    assert GASTRONORM["GN 1/2"].area * 2 == GASTRONORM["GN 1/1"].area
    found = tins_for(GASTRONORM["GN 1/2"], 2, tuple(GASTRONORM.values()))
    assert (found.count, found.tin, found.depth) == (1, GASTRONORM["GN 1/1"], 1)


@pytest.mark.parametrize(("name", "share"), [("GN 2/3", "2/3"), ("GN 1/3", "1/3"), ("GN 1/4", "1/4")])
def test_the_other_parts_are_theirs_to_within_one_per_cent(name, share):
    whole = GASTRONORM["GN 1/1"].area
    assert abs(GASTRONORM[name].area / (whole * Fraction(share)) - 1) < Fraction(1, 100)


def test_the_depths_as_printed():
    assert DEPTHS == (20, 40, 65, 100, 150, 200)


@pytest.mark.parametrize(
    ("pan", "litres"),
    [
        ("GN 1/1-20", "1.9"),
        ("GN 1/1-40", "4.5"),
        ("GN 1/1-65", "7.4"),
        ("GN 1/1-100", "12.6"),
        ("GN 1/1-150", "18"),
        ("GN 1/1-200", "25"),
        ("GN 1/2-65", "3.5"),
        ("GN 1/2-100", "5.5"),
        ("GN 1/3-65", "2.25"),
        ("GN 1/3-100", "3.5"),
        ("GN 1/4-65", "1.5"),
        ("GN 1/4-100", "2.5"),
        ("GN 1/6-65", "1"),
        ("GN 1/6-100", "1.5"),
    ],
)
def test_one_makers_litres_lie_below_the_box_around_the_pan(pan, litres):
    """Walls slope and the rim counts in the outer sizes: a maker's litres are half to nine tenths of the box."""
    box = parse_pan(pan).holds / 1000
    assert box / 2 < Fraction(litres) < box * Fraction(9, 10)


def test_the_box_of_a_whole_one_of_65():
    assert round(float(parse_pan("GN 1/1-65").holds) / 1000, 2) == 11.20


def test_two_halves_hold_what_a_whole_one_holds_at_the_same_depth():
    assert area_ratio(parse_pan("GN 1/1-65"), parse_pan("2 of GN 1/2-65")) == 1
    assert parse_pan("2 of GN 1/2-65").holds == parse_pan("GN 1/1-65").holds
