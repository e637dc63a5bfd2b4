"""The edits of how much is made of a dish, from what is typed; each raises Refusal with the sentence why not."""

from __future__ import annotations

from fractions import Fraction

from core.food.length_offers import Offer, with_estimate, with_recipe_length
from core.food.pans import area_ratio, parse_pan
from core.food.scale_by import by_pan, by_weight
from core.measures.quantity import Quantity
from core.plan.edits import ChangeDish, ChangeStep, Edit, SetDishPans, SetDishScale, StretchStep, Together
from core.plan.menu import Dish
from core.plan.plan import Plan


def for_servings(dish: Dish, servings: int) -> Edit:
    """Return the edit that makes a dish for so many, whatever it was scaled by before."""
    if dish.scale is None:
        return ChangeDish.of(dish.id, wanted=servings)
    return ChangeDish.of(dish.id, wanted=servings, scale=None)


def for_amount(dish: Dish, item: str, amount: Quantity) -> Edit:
    """Return the edit that makes so much that it takes this much of an ingredient."""
    return SetDishScale(dish.id, by_weight(dish, item, amount).factor)


def for_pan(plan: Plan, dish: Dish, wanted: str) -> Edit:
    """Return the edit that makes a dish in other pans, as deep as in its own; "": in its own again."""
    pans = SetDishPans(dish.id, dish.pan, wanted)
    if not wanted:
        return _with_scale(plan, dish, pans, None) if _by_pan(dish) else pans
    return _with_scale(plan, dish, pans, by_pan(dish, wanted).factor)


def of_pan(plan: Plan, dish: Dish, written: str) -> Edit:
    """Return the edit that says the recipe's pan; what was scaled by pans follows."""
    wanted = dish.pan_wanted if written else ""
    pans = SetDishPans(dish.id, written, wanted)
    if not _by_pan(dish):
        return pans
    scale = area_ratio(parse_pan(written), parse_pan(wanted)) if written else None
    return _with_scale(plan, dish, pans, scale)


def as_written(dish: Dish) -> Edit:
    """Return the edit that makes the recipe once, in its own pan."""
    return ChangeDish.of(dish.id, wanted=dish.written_for, scale=None, pan_wanted="")


def for_length(plan: Plan, offer: Offer) -> Edit:
    """Return the edit that gives a step the length offered, or the recipe's where it has that already."""
    step = plan.steps[offer.step]
    taken = offer.taken or offer.estimate is None
    after = with_recipe_length(step) if taken else with_estimate(step, offer)
    label = StretchStep(step.id, after.length.likely).label_in(plan)
    return Together(label, (ChangeStep(step.id, after),))


def _by_pan(dish: Dish) -> bool:
    """Tell whether how much is made was worked out from the pans."""
    if dish.scale is None or not dish.pan or not dish.pan_wanted:
        return False
    return dish.scale == area_ratio(parse_pan(dish.pan), parse_pan(dish.pan_wanted))


def _with_scale(plan: Plan, dish: Dish, pans: SetDishPans, scale: Fraction | None) -> Edit:
    return Together(pans.label_in(plan), (pans, SetDishScale(dish.id, scale)))
