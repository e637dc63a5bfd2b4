"""What a plan's dishes need to be bought: scaled, for which dish, by when, and what of it is made at home."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from core.food.order_list import Need, key_of
from core.food.scaling import scaled, written_amount
from core.measures.quantity import Quantity, convert
from core.plan.by_products import by_products_to_buy
from core.plan.ids import StepId
from core.plan.menu import Dish, Ingredient
from core.plan.network import back_timed
from core.plan.plan import Plan


def needs_of(plan: Plan, starts: Mapping[StepId, int] | None = None) -> tuple[Need, ...]:
    """Return every ingredient of every dish, in the menu's order, for the servings wanted.

    It is wanted when its step starts, or its dish's first one. `starts` are offsets of first starts; None:
    counted back from serving as on paper. What a link brings into its step under its name is made at home, for
    the servings wanted; of what yields too little each taker has its part.
    """
    begins = _first_starts(plan) if starts is None else starts
    parts = _parts(plan)
    found = []
    for dish in plan.menu.dishes:
        for line in dish.ingredients:
            amount = scaled(line.item, written_amount(dish, line), dish.factor).measured
            by = _wanted_at(dish, line, begins)
            made = _brought(plan, dish, line, parts)
            found.append(Need(line.item, amount, dish.name, by, line.aisle, line.on_hand, made))
    return tuple(found)


def _first_starts(plan: Plan) -> dict[StepId, int]:
    return {step: start for (step, load), start in back_timed(plan).items() if load == 0}


def _wanted_at(dish: Dish, line: Ingredient, begins: Mapping[StepId, int]) -> int | None:
    steps = [line.step] if line.step is not None else [step.id for step in dish.steps]
    return min((begins[step] for step in steps if step in begins), default=None)


def _parts(plan: Plan) -> dict[StepId, Fraction]:
    """Return by step that yields too little which part of what is taken of it there is."""
    found = {}
    for each in by_products_to_buy(plan):
        if each.step is not None:
            wanted = sum((convert(amount, each.quantity.unit).amount for _step, amount in each.by), Fraction(0))
            found[each.step] = 1 - each.quantity.amount / wanted
    return found


def _brought(plan: Plan, dish: Dish, line: Ingredient, parts: Mapping[StepId, Fraction]) -> Quantity | None:
    """Return what by-product links bring of an item to its step, or to any of the dish's; None: nothing."""
    into = {line.step} if line.step is not None else {step.id for step in dish.steps}
    for link in plan.menu.links:
        source = plan.steps.get(link.before)
        if link.brings is None or link.after not in into or source is None or source.yields is None:
            continue
        if key_of(source.yields.item) == key_of(line.item):
            return link.brings.times(dish.factor * parts.get(link.before, Fraction(1)))
    return None
