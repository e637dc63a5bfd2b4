"""Which steps make bread or biscuit: what is baked with much flour spoils no more (common practice, from memory)."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable
from fractions import Fraction

from core.plan.food import FoodKind
from core.plan.ids import StepId
from core.safety.foods import Food

_EGG = 50
"""g of a large egg without its shell: USDA SR, from memory."""
_NO_BREAD = frozenset({FoodKind.READY})


def floury(foods: Iterable[tuple[Food, Iterable[StepId]]]) -> frozenset[StepId]:
    """Return the steps in which a third or more is flour: of all that is weighed, and of flour and what spoils alone.

    `foods`: each with the steps that it goes through. None in which meat, fish, shellfish or cooked food is.
    """
    flour: dict[StepId, Fraction] = defaultdict(Fraction)
    weighed: dict[StepId, Fraction] = defaultdict(Fraction)
    spoils: dict[StepId, Fraction] = defaultdict(Fraction)
    never: set[StepId] = set()
    for food, steps in foods:
        grams, is_flour = food.grams or Fraction(0), "flour" in food.item.casefold().split()
        for step in steps:
            weighed[step] += grams
            if is_flour:
                flour[step] += grams
            elif food.kind is not FoodKind.KEEPS:
                spoils[step] += grams or _eggs(food)
            if food.kind in _NO_BREAD or (food.raw_animal and food.kind is not FoodKind.EGGS):
                never.add(step)
    return frozenset(
        step
        for step, grams in flour.items()
        if step not in never and 3 * grams >= max(weighed[step], grams + spoils[step]) > 0
    )


def _eggs(food: Food) -> Fraction:
    """Return g of eggs that are told in pieces."""
    if food.kind is not FoodKind.EGGS or food.piece is None:
        return Fraction(0)
    return food.piece.amount * _EGG
