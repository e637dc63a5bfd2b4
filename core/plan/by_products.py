"""By-products: what steps yield for other dishes, and what must be bought where too little of it is left.

`Step.yields` holds for the servings that the yielding dish is written for, `Link.brings` for those that the
receiving dish is written for; each is multiplied by its own dish's servings wanted over written. A step of which
it is not said what it yields is taken to yield enough.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from fractions import Fraction

from core.measures.quantity import Quantity, add, convert
from core.measures.quantity_show import show_quantity
from core.measures.refusal import Refusal
from core.plan.check_words import Words, short
from core.plan.edits import Edit, RemoveDish, RemoveStep
from core.plan.ids import DishId, StepId
from core.plan.menu import Link
from core.plan.plan import Plan
from core.plan.step import Yield

Want = tuple[StepId, Quantity]
"""A step and how much it takes of a by-product, for the servings wanted."""


@dataclass(frozen=True, slots=True)
class ToBuy:
    """So much of an item has to come from elsewhere.

    `by`: the steps that take of it, those that take most first, each with all that it takes. `step`: the one
    that yields too little of it for them all; None: the step that yielded it is gone.
    """

    item: str
    quantity: Quantity
    by: tuple[Want, ...]
    step: StepId | None = None


def by_products_to_buy(plan: Plan) -> tuple[ToBuy, ...]:
    """Return where the links that leave a step bring more than it yields, in the menu's order.

    Amounts that do not compare (a weight of what is yielded by volume) are the check's business and left out.
    """
    found = (_lack(*_matter(plan, step)) for step in plan.steps)
    return tuple(each for each in found if each is not None)


def left_open_by(plan: Plan, removed: Edit | DishId | StepId) -> tuple[ToBuy, ...]:
    """Return what must be bought, beyond what had to be before, when a dish or step goes or an edit is made.

    An id without a dot is a dish's. Raise Refusal for a dish or step that the plan has not.
    """
    if isinstance(removed, Edit):
        edit = removed
    elif "." in removed:
        edit = RemoveStep(StepId(removed), joined=True)
    else:
        edit = RemoveDish(DishId(removed))
    return left_open_between(plan, edit.change(plan))


def left_open_between(before: Plan, after: Plan) -> tuple[ToBuy, ...]:
    """Return what must be bought in the later of two plans and had not to be (or less of it) in the earlier.

    That is what links brought from steps that are gone, and what steps that are still there yield too little.
    """
    found = []
    for step in before.steps.values():
        if step.id not in after.steps:
            found += _missing(before, after, step.id)
    for step_id in after.steps:
        now, then = _matter(after, step_id), _matter(before, step_id) if step_id in before.steps else None
        if now == then:  # nearly every step, and no unit is reckoned
            continue
        lacks, lacked = _lack(*now), None if then is None else _lack(*then)
        if lacks is not None and (lacked is None or not _as_much(lacked.quantity, lacks.quantity)):
            found.append(lacks)
    return tuple(found)


def to_buy_words(plan: Plan, each: ToBuy) -> str:
    """Return as a sentence what must be bought and for what: names come from a plan that has the takers."""
    words = Words(plan)
    item = short(each.item)
    takers: dict[str, Quantity] = {}
    for step, amount in each.by:
        dish = words.dish(plan.dish_of[step].id)
        takers[dish] = add(takers[dish], amount) if dish in takers else amount
    for_what = "; ".join(f"{show_quantity(amount)} for {dish}" for dish, amount in takers.items())
    said = f"{item[:1].upper()}{item[1:]}: {show_quantity(each.quantity)} must come from elsewhere now"
    if each.step is None:
        return f"{said}: {for_what}."
    giver, made = plan.dish_of[each.step], plan.steps[each.step].yields
    assert made is not None  # only what yields can yield too little
    yielded = show_quantity(made.quantity.times(giver.factor))
    return f"{said}: {words.dish(giver.id)} yields {yielded}, and wanted are {for_what}."


def _matter(plan: Plan, step: StepId) -> tuple[StepId, Yield | None, list[Want]]:
    """Return a step, what it yields and what is taken of it, for the servings wanted."""
    made = plan.steps[step].yields
    if made is not None:
        made = replace(made, quantity=made.quantity.times(plan.dish_of[step].factor))
    return step, made, _wants(plan, plan.links_from[step])


def _lack(step: StepId, made: Yield | None, wants: list[Want]) -> ToBuy | None:
    """Return what is taken of a step beyond what it yields; None where that is enough or not said."""
    if made is None or made.quantity.to_taste:
        return None
    unit = made.quantity.unit
    alike = [want for want in wants if _in(want[1], unit) is not None]
    lacks = _total(alike, unit).amount - made.quantity.amount
    if lacks <= 0:
        return None
    return ToBuy(made.item, Quantity(lacks, unit), _most_first(alike, unit), step)


def _as_much(old: Quantity, new: Quantity) -> bool:
    known = _in(old, new.unit)
    return known is not None and known.amount >= new.amount


def _missing(before: Plan, after: Plan, gone: StepId) -> list[ToBuy]:
    """Return what the links from a step that is gone brought to steps that are still there, by kind of unit."""
    made = before.steps[gone].yields
    # Of a by-product without a name no more is known than the dish it came from.
    item = before.dish_of[gone].name if made is None else made.item
    left = _wants(after, [link for link in before.links_from[gone] if link.after in after.steps])
    found = []
    while left:
        unit = left[0][1].unit
        alike = [want for want in left if _in(want[1], unit) is not None]
        left = [want for want in left if _in(want[1], unit) is None]
        found.append(ToBuy(item, _total(alike, unit), _most_first(alike, unit)))
    return found


def _wants(plan: Plan, links: Iterable[Link]) -> list[Want]:
    """Return what links bring for the servings wanted of the dishes that they lead to."""
    return [
        (link.after, link.brings.times(plan.dish_of[link.after].factor))
        for link in links
        if link.brings is not None and link.brings.amount and not link.brings.to_taste
    ]


def _in(quantity: Quantity, unit: str) -> Quantity | None:
    """Return an amount in another unit; None where the two do not compare."""
    try:
        return convert(quantity, unit)
    except Refusal:
        return None


def _total(wants: list[Want], unit: str) -> Quantity:
    return Quantity(sum((convert(amount, unit).amount for _step, amount in wants), Fraction(0)), unit)


def _most_first(wants: list[Want], unit: str) -> tuple[Want, ...]:
    return tuple(sorted(wants, key=lambda want: -convert(want[1], unit).amount))
