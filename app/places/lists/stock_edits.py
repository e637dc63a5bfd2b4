"""The edits that the order list makes: what is on hand, what is in store, how the shop sells an item."""

from __future__ import annotations

from dataclasses import replace

from app.places.lists.words import tr
from core.food.joining import as_unit
from core.food.order_list import Need, key_of
from core.food.sound import same_kind
from core.measures.quantity import Quantity
from core.measures.refusal import Refusal
from core.plan.check_words import short
from core.plan.edits import ChangeDish, Edit, RemoveStock, SetStock, Together
from core.plan.menu import Stock
from core.plan.plan import Plan


def stock_of(plan: Plan, item: str) -> Stock:
    """Return what the house knows of an item: the last that is noted of it, else nothing."""
    found = [each for each in plan.menu.stocks if key_of(each.item) == key_of(item)]
    return found[-1] if found else Stock(item)


def stock_edit(plan: Plan, item: str, **changed: object) -> Edit | None:
    """Return the edit that notes something of an item; what says nothing any more is forgotten; None: nothing new."""
    before = stock_of(plan, item)
    after = replace(before, **changed)  # type: ignore[arg-type]  # the caller's fields are Stock's
    if after == before:
        return None
    there = before in plan.menu.stocks
    if there and after == Stock(before.item):
        return RemoveStock(before.item)
    return SetStock(after, before.item if there else "")


def on_hand_edit(plan: Plan, item: str, on_hand: bool) -> Edit:
    """Return the edit that ticks or clears an item in every dish that wants it."""
    edits = []
    for dish in plan.menu.dishes:
        lines = tuple(
            replace(each, on_hand=on_hand) if key_of(each.item) == key_of(item) else each for each in dish.ingredients
        )
        if lines != dish.ingredients:
            edits.append(ChangeDish.of(dish.id, ingredients=lines))
    label = tr("Tick {item} as on hand") if on_hand else tr("Put {item} on the order list")
    return Together(label.format(item=short(item)), tuple(edits))


def require_alike(amount: Quantity | None, needs: tuple[Need, ...]) -> None:
    """Refuse an amount in store that cannot be counted against what the dishes want."""
    wanted = [each for each in needs if not each.quantity.to_taste]
    if amount is None or amount.to_taste or not wanted:
        return
    for need in wanted:
        if same_kind(amount, need.quantity) or as_unit(amount, need.item, need.quantity.unit) is not None:
            return
    raise Refusal(
        tr("{amount} does not compare with the {wanted} wanted; write what is there in the same kind of unit.").format(
            amount=amount, wanted=wanted[0].quantity
        )
    )
