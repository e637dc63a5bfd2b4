"""Brines and dry brines, by weight."""

from fractions import Fraction

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from core.food.brine import dry_brine, equilibrium_brine, gradient_brine, said_brine, strength_of
from core.measures import Quantity, Refusal, parse_quantity

weights = st.fractions(min_value=Fraction(1, 10), max_value=20, max_denominator=20)


def test_equilibrium():
    found = equilibrium_brine(parse_quantity("2 kg"), parse_quantity("3 kg"), Fraction("0.015"))
    assert (found.salt, found.ends) == (75, Fraction("0.015"))
    assert found.formulas[0] == "salt = 1.5% of (2000 g meat + 3000 g water) = 75 g"
    assert said_brine(found)[0] == "75 g of salt, a brine of 2.44%."


@given(
    weights, weights, st.fractions(min_value=Fraction(1, 200), max_value=Fraction(1, 50), max_denominator=400)
)
def test_what_a_gradient_brine_could_come_to_is_the_equilibrium_of_its_salt(meat, water, share):
    meat, water = Quantity(meat, "kg"), Quantity(water, "kg")
    assume((meat.amount + water.amount) * share < water.amount / 4)  # else more salt than the water holds
    still = equilibrium_brine(meat, water, share)
    assert gradient_brine(meat, water, Quantity(still.salt, "g")).ends == share


def test_gradient():
    found = gradient_brine(parse_quantity("2 kg"), parse_quantity("4 kg"), parse_quantity("240 g"))
    assert found.hours == (2, 5)
    assert found.ends == Fraction("0.04")
    assert "time = 2000 g / 453.59 g a pound × 1 h, at most 8 h = 5 h" in found.formulas
    assert gradient_brine(parse_quantity("9 kg"), parse_quantity("9 kg"), parse_quantity("500 g")).hours == (
        4,
        8,
    )


def test_dry():
    found = dry_brine(parse_quantity("6 kg"), Fraction("0.01"))
    assert (found.salt, found.hours) == (60, (12, 48))
    assert said_brine(found)[0] == "60 g of salt, rubbed on dry."
    assert dry_brine(parse_quantity("300 g"), Fraction("0.01"), whole=False).hours == (1, 24)


@pytest.mark.parametrize("share", ["0.004", "0.021"])
def test_dry_brine_has_its_limits(share):
    assert dry_brine(parse_quantity("1 kg"), Fraction("0.005")).salt == 5
    assert dry_brine(parse_quantity("1 kg"), Fraction("0.02")).salt == 20
    with pytest.raises(Refusal, match="no dry brine"):
        dry_brine(parse_quantity("1 kg"), Fraction(share))


@pytest.mark.parametrize(
    ("salt", "water", "words"),
    [
        ("2 tbsp", "1 kg", "The salt is “2 tbsp”: weigh it"),
        ("50 g", "1 l", "The water is “1 l”: weigh it"),
        ("400 g", "1 kg", "water holds no more"),
        ("0 g", "1 kg", "greater than 0"),
    ],
)
def test_what_is_refused(salt, water, words):
    with pytest.raises(Refusal, match=words):
        strength_of(parse_quantity(salt), parse_quantity(water))


def test_a_share_of_two_for_two_per_cent_is_refused():
    with pytest.raises(Refusal, match=r'"200%" is a hundredfold slip.*If you mean 2%'):
        equilibrium_brine(parse_quantity("1 kg"), parse_quantity("1 kg"), Fraction(2))


def test_every_brine_says_cold_and_defers():
    for brine in (
        equilibrium_brine(parse_quantity("1 kg"), parse_quantity("1 kg"), Fraction("0.02")),
        gradient_brine(parse_quantity("1 kg"), parse_quantity("1 kg"), parse_quantity("60 g")),
    ):
        said = " ".join(said_brine(brine))
        assert "4 °C (40 °F)" in said
        assert "local food code" in said
