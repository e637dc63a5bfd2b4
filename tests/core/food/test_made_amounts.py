"""What a dish takes of each ingredient as it is made."""

from __future__ import annotations

from fractions import Fraction

import pytest

from core.food.made_amounts import made_amounts, main_item
from core.food.scale_by import by_weight
from core.measures.quantity import Quantity, parse_quantity
from core.measures.refusal import Refusal
from core.plan.menu import Ingredient
from tests.support.builders import a_dish


def line(item, amount="", **fields):
    return Ingredient(item, parse_quantity(amount) if amount else None, **fields)


def test_lines_of_one_item_are_added_for_the_factor():
    dish = a_dish("x", ingredients=(line("butter", "200 g"), line("Butter", "0.1 kg"), line("salt")), wanted=6)
    assert made_amounts(dish) == {"butter": Quantity(Fraction(450), "g")}


def test_what_is_counted_by_the_kilogram_follows():
    dish = a_dish("x", ingredients=(line("beef", "2 kg"), line("salt", "12 g", per_kg_of="beef")), scale=Fraction(3))
    assert made_amounts(dish)["salt"] == Quantity(Fraction(72), "g")


def test_the_heaviest_item_leads_else_the_first():
    dish = a_dish("x", ingredients=(line("lemons", "3"), line("flour", "500 g"), line("plums", "1.2 kg")))
    assert main_item(made_amounts(dish)) == "plums"
    assert main_item(made_amounts(a_dish("x", ingredients=(line("lemons", "3"), line("limes", "2"))))) == "lemons"
    assert main_item({}) == ""


def test_what_does_not_compare_stays_the_first_lines():
    dish = a_dish("x", ingredients=(line("kale", "300 g"), line("kale", "2")))
    assert made_amounts(dish) == {"kale": Quantity(Fraction(300), "g")}


def test_scaling_by_the_amount_shown_changes_nothing():
    dish = a_dish("x", ingredients=(line("butter", "200 g"), line("butter", "1 cup")), scale=Fraction(5, 2))
    amount = made_amounts(dish)["butter"]
    assert by_weight(dish, "butter", amount).factor == dish.factor


def test_a_rule_by_the_kilogram_of_nothing_is_refused():
    dish = a_dish("x", ingredients=(line("salt", "12 g", per_kg_of="beef"),))
    with pytest.raises(Refusal, match="beef"):
        made_amounts(dish)
