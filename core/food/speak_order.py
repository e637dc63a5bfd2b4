"""Sentences of the order list: what is wanted, what is in store, what to buy, for which dishes, by when."""

from __future__ import annotations

from fractions import Fraction
from math import ceil, floor

from core.food.order_list import OrderLine
from core.food.speak import Clock
from core.measures.number import show_decimal
from core.measures.quantity import Quantity, convert
from core.measures.quantity_show import show_quantity
from core.measures.unit_names import known, worded
from core.measures.words import join_words, plural_of
from core.plan.check_words import short

_LARGER = {"g": "kg", "ml": "l"}
_KEPT_VOLUMES = frozenset({"ml", "cl", "dl", "l", "tsp", "tbsp", "metric tsp", "metric tbsp"})


def to_order(quantity: Quantity) -> str:
    """Return an amount rounded up as one orders: "1.17 kg", "401 g", 1.5 cups as "355 ml", 4.2 as "5"."""
    there = _sold_in(quantity)
    step = Fraction(1) if known(there.unit).kind == "count" else _step(there)
    return _in_steps(ceil(there.amount / step) * step, there.unit)


def at_most(quantity: Quantity) -> str:
    """Return an amount rounded down as one counts on it: "0.4 kg", 1.5 cups as "354 ml"."""
    there = _sold_in(quantity)
    return _in_steps(floor(there.amount / _step(there)) * _step(there), there.unit)


def _sold_in(quantity: Quantity) -> Quantity:
    """Return cups and pints in ml, for nobody buys by the cup; from 1000 g or ml on kg or l."""
    if known(quantity.unit).kind == "volume" and quantity.unit not in _KEPT_VOLUMES:
        quantity = convert(quantity, "ml")
    if quantity.unit in _LARGER and quantity.amount >= 1000:
        return convert(quantity, _LARGER[quantity.unit])
    return quantity


def _step(quantity: Quantity) -> Fraction:
    """Return to what an amount is rounded: whole g and ml from 100 on, tenths below; hundredths of others."""
    if quantity.unit not in _LARGER:
        return Fraction(1, 100)
    return Fraction(1) if quantity.amount >= 100 else Fraction(1, 10)


def _in_steps(amount: Fraction, unit: str) -> str:
    return f"{show_decimal(amount, 2)} {worded(unit, amount)}".rstrip()


def said_line(line: OrderLine, clock: Clock) -> str:
    """Return a line of the list: what is wanted, at home, to buy, for which dishes and by when."""
    told = [f"{short(line.item)}: {_wanted(line)}"]
    if not line.purchased.to_taste:
        told += [f"{at_most(line.at_home)} at home"] if line.at_home.amount else []
        told.append(_to_buy(line))
    names = join_words([short(dish) for dish in line.dishes])
    told.append(f"for {names}" + ("" if line.by is None else f", by {clock(line.by)}"))
    return "; ".join(told)


def _wanted(line: OrderLine) -> str:
    if line.ready.to_taste:
        return "to taste"
    counted = known(line.ready.unit).kind == "count"
    ready = show_quantity(line.ready) if counted else to_order(line.ready)
    if line.ready == line.purchased:
        return ready
    return f"{to_order(line.purchased)} for {ready} ready to use"


def _to_buy(line: OrderLine) -> str:
    if not line.buy.amount:
        return "buy none"
    if line.pack is None or line.packs is None:
        return f"buy {to_order(line.buy)}"
    name = line.sold_as if line.packs == 1 else plural_of(line.sold_as)
    return f"buy {line.packs} {name} of {at_most(line.pack)} for {to_order(line.buy)}"
