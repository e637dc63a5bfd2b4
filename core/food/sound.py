"""Which amounts the food sums take: known units, not less than nothing. Refusals name the thing."""

from __future__ import annotations

from fractions import Fraction

from core.measures.number import show_decimal
from core.measures.quantity import Quantity, convert
from core.measures.refusal import Refusal
from core.measures.unit_names import known
from core.plan.check_words import short


def sound(quantity: Quantity, what: str) -> Quantity:
    """Return a quantity as it is; refuse one below 0 and a unit that is not known."""
    if quantity.to_taste:
        return quantity
    if quantity.amount < 0:
        raise Refusal(f"{short(what)}: an amount cannot be less than 0; leave the minus out.")
    try:
        known(quantity.unit)
    except Refusal as unknown:
        raise Refusal(f"{short(what)}: {unknown.text}") from None
    return quantity


def some(quantity: Quantity, what: str) -> Quantity:
    """Return a quantity as it is; refuse what is not sound, nothing at all and "to taste"."""
    if quantity.to_taste:
        raise Refusal(f"{short(what)}: write an amount; to taste is none.")
    if sound(quantity, what).amount == 0:
        raise Refusal(f"{short(what)}: write an amount greater than 0.")
    return quantity


def in_unit(quantity: Quantity, unit: str, what: str) -> Fraction:
    """Return how many of a unit a quantity is, exact; the refusal of mixed kinds names the thing."""
    try:
        return convert(quantity, unit).amount
    except Refusal as mixed:
        raise Refusal(f"{short(what)}: {mixed.text}") from None


def above_zero(value: Fraction | int, what: str, such_as: str) -> Fraction:
    """Return a number as a fraction; refuse 0 and less, with an example of what to write."""
    if value <= 0:
        raise Refusal(f"{what} is {show_decimal(Fraction(value))}; write more than 0, such as {such_as}.")
    return Fraction(value)


def same_kind(one: Quantity, other: Quantity) -> bool:
    """Tell whether two amounts can be added: both weights, volumes or lengths, or counts in one unit."""
    first, second = known(one.unit), known(other.unit)
    return first.name == second.name or (first.kind == second.kind != "count")
