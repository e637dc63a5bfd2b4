"""What a plan's dishes need to be bought: scaled, for which dish, by when, and what of it is made at home."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from core.food.order_list import Need, key_of
from core.food.scaling import scaled, written_amount
from core.food.sound import same_kind
from core.measures.quantity import Quantity, add, convert
from core.plan.by_products import by_products_to_buy
from core.plan.ids import StepId
from core.plan.menu import Dish, Ingredient, Link
from core.plan.network import back_timed
from core.plan.plan import Plan


def needs_of(plan: Plan, starts: Mapping[StepId, int] | None = None) -> tuple[Need, ...]:
    """Return every ingredient of every dish, in the menu's order, for the servings wanted.

    It is wanted when its step starts, or its dish's first one. `starts` are offsets of first starts; None:
    counted back from serving as on paper. What a link brings into its step under its name is made at home, for
    the servings wanted; of what yields too little each taker has its part, and what one line takes no other has.
    """
    begins = _first_starts(plan) if starts is None else starts
    parts = _parts(plan)
    found = []
    for dish in plan.menu.dishes:
        left = _brought(plan, dish, parts)
        for line in dish.ingredients:
            amount = scaled(line.item, written_amount(dish, line), dish.factor).measured
            by = _wanted_at(dish, line, begins)
            made = _made(plan, line, amount, left)
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


def _brought(plan: Plan, dish: Dish, parts: Mapping[StepId, Fraction]) -> dict[Link, Quantity]:
    """Return the links that bring a named by-product into a dish, with what each brings for the servings wanted."""
    own = {step.id for step in dish.steps}
    return {
        link: link.brings.times(dish.factor * parts.get(link.before, Fraction(1)))
        for link in plan.menu.links
        if link.brings is not None and link.after in own and _named(plan, link) is not None
    }


def _named(plan: Plan, link: Link) -> str | None:
    source = plan.steps.get(link.before)
    return None if source is None or source.yields is None else key_of(source.yields.item)


def _made(plan: Plan, line: Ingredient, wanted: Quantity, left: dict[Link, Quantity]) -> Quantity | None:
    """Return what is left of what links bring under a line's name to its step, or to any; None: nothing.

    What the line takes of it is taken off `left`. What does not compare with what the first of them brings is
    left out.
    """
    made: Quantity | None = None
    rest = Fraction(0) if wanted.to_taste or line.on_hand else wanted.amount
    for link, there in left.items():
        if line.step not in {None, link.after} or _named(plan, link) != key_of(line.item):
            continue
        if made is None or made.to_taste:
            made = there
        elif not there.to_taste and same_kind(made, there):
            made = add(made, there)
        if rest and not there.to_taste and same_kind(there, wanted):
            took = min(rest, convert(there, wanted.unit).amount)
            left[link] = Quantity(there.amount - convert(Quantity(took, wanted.unit), there.unit).amount, there.unit)
            rest -= took
    return None if made is None or not (made.amount or made.to_taste) else made
