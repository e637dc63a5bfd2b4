"""The same item by weight, by volume and by the piece: brought into one kind of unit through the portion weights.

Each amount is converted by itself, a volume always by one density, so that the sum of several lists is the list of
them all. What the table has not stays as it is written.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace
from fractions import Fraction

from core.food.order_list import Need, Supply, key_of
from core.food.portions import Weighed
from core.food.sound import sound
from core.food.weighing import find_food, weighed
from core.measures.quantity import Quantity, convert
from core.measures.refusal import Refusal
from core.measures.unit_names import known


def joined(needs: Iterable[Need], supplies: Mapping[str, Supply]) -> tuple[Need, ...]:
    """Return the needs in their order, amounts of items written in several kinds of unit brought into one.

    That is the kind of the pack it is sold in, else ml of what is sold by volume and g of all else. What is in store
    counts as a writing, too. `supplies` by the item's key.
    """
    wanted = list(needs)
    into = {item: _unit_for(group, supplies.get(item)) for item, group in _by_item(wanted).items()}
    found = []
    for need in wanted:
        unit = into[key_of(need.item)]
        amount = need.quantity if unit is None else as_unit(need.quantity, need.item, unit)
        made = need.made if unit is None or need.made is None else as_unit(need.made, need.item, unit)
        found.append(replace(need, quantity=amount or need.quantity, made=made or need.made))
    return tuple(found)


def as_unit(quantity: Quantity, item: str, unit: str) -> Quantity | None:
    """Return an amount of an item in g or ml, or one of their kind; None where the table cannot tell."""
    food = find_food(item)
    if quantity.to_taste:
        return quantity
    kind, wanted = known(quantity.unit).kind, known(unit).kind
    if kind == wanted != "count":
        return convert(quantity, unit)
    grams = None if food is None else _grams(quantity, item, food)
    if grams is None or food is None:
        return None
    if wanted == "weight":
        return convert(Quantity(grams, "g"), unit)
    if wanted == "volume" and food.density is not None:
        return convert(Quantity(grams / food.density, "ml"), unit)
    return None


def _grams(quantity: Quantity, item: str, food: Weighed) -> Fraction | None:
    kind = known(quantity.unit).kind
    if not quantity.amount:
        return Fraction(0)
    if kind == "weight":
        return convert(quantity, "g").amount
    if kind == "volume":
        return None if food.density is None else convert(quantity, "ml").amount * food.density
    try:
        return weighed(quantity, item).grams.amount
    except Refusal:
        return None


def _by_item(needs: Iterable[Need]) -> dict[str, list[Need]]:
    groups: dict[str, list[Need]] = {}
    for need in needs:
        sound(need.quantity, need.item)
        groups.setdefault(key_of(need.item), []).append(need)
    return groups


def _unit_for(needs: list[Need], supply: Supply | None) -> str | None:
    """Return the unit that all amounts of an item are brought into, None where they are in one kind already."""
    food = find_food(needs[0].item)
    pack = None if supply is None else supply.pack
    amounts = [each.quantity for each in needs]
    amounts += [each for each in (pack, None if supply is None else supply.in_store) if each is not None]
    units = {_family(each) for each in amounts if not each.to_taste}
    if food is None or len(units) < 2:
        return None
    if pack is not None and not pack.to_taste and known(pack.unit).kind in {"weight", "volume"}:
        return pack.unit
    return "ml" if food.liquid and units <= {"weight", "volume"} else "g"


def _family(quantity: Quantity) -> str:
    unit = known(quantity.unit)
    return unit.name if unit.kind == "count" else unit.kind
