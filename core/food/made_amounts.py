"""What a dish takes of each ingredient as it is made, so that one of them can say how much is made of all."""

from __future__ import annotations

from core.food.joining import as_unit
from core.food.order_list import key_of
from core.food.scaling import written_amount
from core.measures.quantity import Quantity
from core.measures.unit_names import known
from core.plan.menu import Dish


def made_amounts(dish: Dish) -> dict[str, Quantity]:
    """Return by item, as it is first written, the exact amount of all its lines for the dish's factor.

    What is added to taste is left out, and so are later lines of an item that do not compare with its first one.
    Raise Refusal for amounts that cannot be.
    """
    names: dict[str, str] = {}
    found: dict[str, Quantity] = {}
    for line in dish.ingredients:
        written = written_amount(dish, line)
        if written is None or written.to_taste or not written.amount:
            continue
        amount = written.times(dish.factor)
        name = names.setdefault(key_of(line.item), line.item)
        before = found.get(name)
        if before is None:
            found[name] = amount
        elif (there := as_unit(amount, line.item, before.unit) or _same(amount, before)) is not None:
            found[name] = Quantity(before.amount + there.amount, before.unit)
    return found


def main_item(amounts: dict[str, Quantity]) -> str:
    """Return the item that weighs most of those with a weight, else the first one, "" where there is none."""
    grams = {item: as_unit(each, item, "g") for item, each in amounts.items() if known(each.unit).kind == "weight"}
    weights = {item: each.amount for item, each in grams.items() if each is not None}
    if weights:
        return max(weights, key=lambda item: weights[item])
    return next(iter(amounts), "")


def _same(amount: Quantity, before: Quantity) -> Quantity | None:
    """Return an amount of single things that is counted in the same unit."""
    return amount if known(amount.unit).name == known(before.unit).name else None
