"""Puts an answer of the desk on a dish: a paragraph of its note and, on wish, what is to be weighed as ingredients."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from app.places.cure.outcome import Noting
from core.measures.quantity import Quantity
from core.plan.edits import ChangeDish
from core.plan.food import FoodKind
from core.plan.menu import Dish, Ingredient


def noted_on(dish: Dish, noting: Noting, weighed: bool) -> ChangeDish:
    """Return the edit that notes it. What was noted under the same heading goes, so that no two doses stand there.

    Amounts are of the dish as it is made: where a multiple of the recipe is made, the recipe's line is a part of it.
    """
    paragraphs = [each for each in dish.note.split("\n\n") if each.strip() and each.split("\n")[0] != noting.head]
    note = "\n\n".join((*paragraphs, "\n".join((noting.head, *noting.lines))))
    if not noting.mark:
        return ChangeDish.of(dish.id, note=note)
    kept = tuple(each for each in dish.ingredients if each.preparation != noting.mark)
    lines = (*kept, *(_lines(dish, noting) if weighed else ()))
    return ChangeDish.of(dish.id, note=note, ingredients=lines)


def _lines(dish: Dish, noting: Noting) -> tuple[Ingredient, ...]:
    factor: Fraction = dish.factor
    line = Ingredient("", preparation=noting.mark, food=FoodKind.KEEPS)
    return tuple(
        replace(line, item=name, quantity=Quantity(grams / factor, "g")) for name, grams in noting.weighed
    )
