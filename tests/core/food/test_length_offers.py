"""Lengths that scaling offers: taken with one step, never estimated from again, and the recipe's comes back."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest

from core.food.length_offers import (
    as_the_recipe,
    length_offers,
    recipe_length,
    scaling_offered,
    with_estimate,
    with_recipe_length,
)
from core.food.roasting import PANOFSKY
from core.measures.quantity import parse_quantity
from core.plan.menu import Ingredient
from core.plan.step import Attention, Span
from tests.support.builders import a_dish, a_step, at_oven


def roast(scale=None, **fields):
    step = a_step("roast.roast", "Roast", (80, 90, 100), attention=Attention.HANDS_OFF, uses=(at_oven(200),))
    line = Ingredient("shoulder of veal", parse_quantity("2 kg"), pieces=1)
    return a_dish("roast", step, ingredients=(line,), scale=scale, **fields)


def tart(scale=None, **fields):
    step = a_step("tart.bake", "Bake", 40, attention=Attention.HANDS_OFF, uses=(at_oven(180),))
    return a_dish("tart", step, scale=scale, pan="round 26 cm", **fields)


def offers_of(dish):
    return length_offers(dish, scaling_offered(dish))


def taken(dish, offer):
    steps = tuple(with_estimate(each, offer) if each.id == offer.step else each for each in dish.steps)
    return replace(dish, steps=steps)


def test_a_heavier_piece_may_take_longer_by_the_power_of_two_thirds():
    """3 kg over 2 kg: 1.5 to the power of 2/3 is 1.3104; Panofsky's rule as core.food.roasting has it."""
    offer = offers_of(roast(Fraction(3, 2)))[0]
    assert offer.estimate is not None
    assert offer.estimate.source == PANOFSKY
    assert offer.estimate.span == Span(round(80 * 1.3104), round(90 * 1.3104), round(100 * 1.3104))
    assert not offer.taken
    assert "3 kg" in offer.said
    assert "2 kg" in offer.said


def test_a_length_taken_says_what_the_recipe_says_and_is_not_estimated_from_again():
    dish = roast(Fraction(3, 2))
    first = offers_of(dish)[0]
    after = taken(dish, first)
    step = after.steps[0]
    assert step.length == first.estimate.span
    assert step.note == (
        "Length estimated for shoulder of veal, 3 kg each; the recipe says 1 h 20 min / 1 h 30 min / 1 h 40 min "
        "for 2 kg each."
    )
    assert recipe_length(step) == Span(80, 90, 100)
    again = offers_of(after)[0]
    assert again.taken
    assert again.estimate == first.estimate, "worked out from the recipe's length, not from the estimate"
    assert "takes 1 h 58 min" in again.said
    assert with_recipe_length(step) == dish.steps[0]
    assert as_the_recipe(after) == dish


def test_taking_another_estimate_keeps_the_recipes_length():
    dish = roast(Fraction(3, 2))
    after = replace(taken(dish, offers_of(dish)[0]), scale=Fraction(2))
    offer = offers_of(after)[0]
    assert not offer.taken
    assert offer.estimate == offers_of(roast(Fraction(2)))[0].estimate
    twice = taken(after, offer).steps[0]
    assert recipe_length(twice) == Span(80, 90, 100)
    assert twice.note.count("Length estimated") == 1


def test_made_as_written_again_the_length_taken_is_told():
    dish = roast(Fraction(3, 2))
    after = replace(taken(dish, offers_of(dish)[0]), scale=None)
    (left,) = offers_of(after)
    assert left.estimate is None
    assert left.written == Span(80, 90, 100)
    assert left.said.endswith("It is made otherwise now.")
    assert offers_of(replace(dish, scale=None)) == ()


def test_other_notes_of_the_step_stay():
    dish = roast(Fraction(3, 2))
    noted = replace(dish.steps[0], note="Baste it.\nTurn the tin.")
    with_note = with_estimate(noted, offers_of(dish)[0])
    assert with_note.note.startswith("Baste it.\nTurn the tin.\nLength estimated")
    assert with_recipe_length(with_note) == noted


def test_deeper_food_is_offered_and_taken_too():
    dish = tart(Fraction(3, 2))
    offer = offers_of(dish)[0]
    assert offer.now == "food 50 % deeper"
    after = taken(dish, offer)
    assert after.steps[0].note == "Length estimated for food 50 % deeper; the recipe says 40 min."
    assert offers_of(after)[0].taken
    assert recipe_length(after.steps[0]) == Span.of(40)


def test_a_single_piece_is_as_thick_as_its_mass_says_whatever_its_pan():
    offers = offers_of(roast(Fraction(3, 2), pan="35x25x6 cm"))
    assert offers
    assert not [each for each in offers if "deeper" in each.now]


@pytest.mark.parametrize(
    "note",
    ["", "Length estimated for something", "The recipe says 40 min.", "Length estimated for x; the recipe says y."],
)
def test_a_note_of_the_cook_is_no_length(note):
    step = a_step("a.b", note=note)
    assert recipe_length(step) is None
    assert with_recipe_length(step) == step


