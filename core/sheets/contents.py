"""What is in a dish that somebody may have to avoid: its own, and what comes with food from other dishes."""

from __future__ import annotations

from core.food.allergens import groups_of, likely_allergens
from core.plan.ids import DishId
from core.plan.menu import Dish, LinkKind
from core.plan.plan import Plan
from core.sheets.words import plain


def allergens_of(dish: Dish) -> tuple[str, ...]:
    """Return the allergens noted for a dish and for its ingredients, each once."""
    noted = [*dish.allergens, *(each for item in dish.ingredients for each in item.allergens)]
    return tuple(dict.fromkeys(filter(None, map(plain, noted))))


def allergens_in(plan: Plan, dish: Dish) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Return the allergens noted of a dish and of all dishes that food comes from, and those likely beside them."""
    parts = (dish, *_sources(plan, dish))
    noted = tuple(dict.fromkeys(each for part in parts for each in allergens_of(part)))
    known = {group.name for each in noted for group in groups_of(each)}
    likely = dict.fromkeys(
        each for part in parts for item in part.ingredients for each in likely_allergens(item.item) if each not in known
    )
    return noted, tuple(likely)


def _sources(plan: Plan, dish: Dish) -> tuple[Dish, ...]:
    """Return the dishes from which food comes over links, however far."""
    found: dict[DishId, Dish] = {}
    waiting = [dish]
    while waiting:
        own = {step.id for step in waiting.pop().steps}
        for link in plan.menu.links:
            giver = plan.dish_of[link.before]
            if link.kind is LinkKind.END_TO_START and link.after in own and giver.id not in (*found, dish.id):
                found[giver.id] = giver
                waiting.append(giver)
    return tuple(found.values())
