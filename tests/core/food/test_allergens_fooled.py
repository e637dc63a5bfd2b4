"""Foods and guests' words that named no allergen though they are one: a proposal too many is better than none."""

from __future__ import annotations

from dataclasses import replace

import pytest

from core.food.allergens import Why, conflicts, likely_allergens
from core.plan.menu import Guest, Ingredient
from tests.support.builders import a_dish, a_plan, hands_off


@pytest.mark.parametrize(("item", "groups"), [
    ("penne", {"gluten"}), ("linguine", {"gluten"}), ("tagliatelle", {"gluten"}), ("ravioli", {"gluten", "egg"}),
    ("orzo", {"gluten"}), ("vermicelli", {"gluten"}), ("udon", {"gluten"}), ("croutons", {"gluten"}),
    ("bread rolls", {"gluten"}), ("pizza dough", {"gluten"}), ("beer batter", {"gluten"}), ("roux", {"gluten", "milk"}),
    ("bechamel", {"gluten", "milk"}), ("bearnaise", {"egg", "milk"}), ("mayo", {"egg", "mustard"}), ("dashi", {"fish"}),
    ("bonito flakes", {"fish"}), ("rice vermicelli", set()), ("brioche rolls", {"gluten", "egg", "milk"}),
    ("champagne", {"sulphites"}), ("prosecco", {"sulphites"}), ("kimchi", {"crustaceans", "fish"}),
])  # fmt: skip
def test_more_foods_propose_their_groups(item: str, groups: set[str]) -> None:
    """Common practice and memory; the groups are those of Regulation (EU) No 1169/2011, Annex II."""
    assert set(likely_allergens(item)) == groups


@pytest.mark.parametrize(("what", "item", "noted", "why"), [
    ("nuts", "peanut butter", (), Why.LIKELY), ("nut", "satay", (), Why.LIKELY),
    ("nuts", "sauce", ("peanuts",), Why.LIKELY),
    ("tree nuts", "peanut butter", (), None), ("peanuts", "almonds", (), None), ("nuts", "almonds", (), Why.LIKELY),
])  # fmt: skip
def test_whoever_says_nuts_may_mean_peanuts(
    what: str, item: str, noted: tuple[str, ...], why: Why | None
) -> None:
    dish = replace(a_dish("x", hands_off("x.stir", 5)), ingredients=(Ingredient(item, allergens=noted),))
    plan = a_plan(dish)
    plan = replace(plan, menu=replace(plan.menu, guests=(Guest("Orla", allergies=(what,)),)))
    assert [each.why for each in conflicts(plan)] == ([] if why is None else [why])
