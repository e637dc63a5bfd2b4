"""Sentences and sums about food keep to the strict side of what is published, and none speaks well of a food."""

from __future__ import annotations

from fractions import Fraction

import pytest

from core.food.brine import dry_brine, said_brine
from core.food.curing import Cure, ingoing
from core.food.curing_rules import METHODS
from core.food.curing_time import cure_time, said_cure_time
from core.food.curing_words import cautions
from core.food.doneness import chart_core, length_estimate
from core.food.keeping import usual_keeps
from core.measures.quantity import parse_quantity

BIRD = parse_quantity("10 lb")


@pytest.mark.parametrize(("target", "below"), [(73, True), (73.8, True), (73.9, False), (74, False)])
def test_a_tenth_of_a_degree_below_the_published_core_is_below_it(target: float, below: bool) -> None:
    """165 °F are 73.9 °C: USDA FSIS, FoodSafety.gov, Safe Minimum Internal Temperature Chart; R2, C."""
    assert ("below the published 73.9 °C" in length_estimate(BIRD, "turkey", 163, target).said) is below


@pytest.mark.parametrize("degrees", [145, 160, 165])
def test_a_core_typed_in_fahrenheit_is_not_below_itself(degrees: int) -> None:
    cut = {145: "leg of lamb", 160: "minced beef", 165: "turkey"}[degrees]
    assert "below the published" not in length_estimate(BIRD, cut, 163, (degrees - 32) * 5 / 9).said


def test_only_cuts_and_fish_are_a_cooks_own_choice() -> None:
    assert "a target of your own" in length_estimate(parse_quantity("6 lb"), "leg of lamb", 163, 57).said
    for cut in ("turkey", "minced beef"):
        said = length_estimate(BIRD, cut, 163, 65).said
        assert "a target of your own" not in said
        assert "poultry and ground meat are cooked to it" in said


@pytest.mark.parametrize("cut", ["beef patties", "pork meatballs", "hamburgers", "lamb kofta"])
def test_ground_meat_by_other_names(cut: str) -> None:
    assert chart_core(cut) == 71.1


def test_longer_in_the_cure_is_not_called_harmless() -> None:
    said = said_cure_time(cure_time(parse_quantity("4 cm")))
    assert "harm" not in said
    assert "no saltier" in said


def test_cured_is_not_cooked() -> None:
    """USDA FSIS: cured meat that is not ready to eat is cooked before it is eaten; M."""
    cure = Cure(METHODS["bacon-dry"], parse_quantity("1 kg"), parse_quantity("2 g"), Fraction("0.0625"))
    assert any("raw" in each and "cook" in each for each in cautions(ingoing(cure)))


def test_a_dry_brined_roast_is_cooked_all_the_same() -> None:
    said = " ".join(said_brine(dry_brine(parse_quantity("2 kg"), Fraction("0.01"))))
    assert "cook it to its core temperature" in said


@pytest.mark.parametrize(("item", "days"), [
    ("cooked chicken", 3), ("stewing beef", 1), ("diced lamb", 1), ("beef patties", 1), ("burgers", 1),
    ("rump steak", 3),
    ("smoked bacon", 5),
])  # fmt: skip
def test_bought_meat_keeps_the_shorter_days(item: str, days: int) -> None:
    """FoodSafety.gov, Cold Food Storage Chart: cooked 3 to 4 d, ground 1 to 2 d, steaks 3 to 5 d, R2; stew (FSIS) M."""
    assert usual_keeps(item, "meat") == days
