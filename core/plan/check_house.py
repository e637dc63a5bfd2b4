"""Checks of guests and of what the house knows of items."""

from __future__ import annotations

from core.plan.check_problem import (
    MOST_COUNT,
    Family,
    Problems,
    amount_trouble,
    name_trouble,
    out_of,
    problem,
    texts_trouble,
)
from core.plan.check_words import short
from core.plan.menu import Guest, Stock
from core.plan.plan import Plan

_LONGEST_FRESH = 3660  # days


def house_problems(plan: Plan) -> Problems:
    """Find what is wrong with guests, covers and stocks."""
    if out_of(plan.menu.covers, 1, MOST_COUNT):
        yield problem(
            Family.NUMBERS,
            f"{plan.menu.covers} are to sit down; give 1 to {MOST_COUNT}, or leave it open.",
            "its covers",
        )
    for guest in plan.menu.guests:
        yield from _guest(guest)
    for stock in plan.menu.stocks:
        yield from _stock(stock)
    for what, names in (
        ("guest", [each.name for each in plan.menu.guests]),
        ("thing in the house", [each.item for each in plan.menu.stocks]),
    ):
        for twice in dict.fromkeys(name for name in names if names.count(name) > 1):
            yield problem(
                Family.IDS, f"The {what} {short(twice)} is there twice; give one of them another name.", twice
            )


def _guest(guest: Guest) -> Problems:
    name = short(guest.name)
    if trouble := name_trouble(guest.name):
        yield problem(Family.TEXTS, f"The name of a guest {trouble}.", guest.name)
    if any(name_trouble(each) for each in (*guest.allergies, *guest.aversions)):
        yield problem(
            Family.TEXTS,
            f"Something that {name} does not eat is empty or cannot be shown; write it again, or take it out.",
            guest.name,
        )
    if trouble := texts_trouble(guest.at_risk):
        yield problem(Family.TEXTS, f"A text about {name} {trouble}.", guest.name)
    if out_of(guest.count, 1, MOST_COUNT):
        yield problem(
            Family.NUMBERS,
            f"{name} stands for {guest.count} guests; give 1 to {MOST_COUNT}, or take the entry out.",
            guest.name,
        )


def _stock(stock: Stock) -> Problems:
    item = short(stock.item)
    if trouble := name_trouble(stock.item):
        yield problem(Family.TEXTS, f"The name of a thing in the house {trouble}.", stock.item)
    if trouble := texts_trouble(stock.sold_as, stock.aisle):
        yield problem(Family.TEXTS, f"A text about {item} {trouble}.", stock.item)
    for what, quantity in (("What there is", stock.in_store), ("A pack", stock.pack)):
        if quantity is None:
            continue
        if trouble := amount_trouble(quantity):
            yield problem(Family.NUMBERS, f"{what} of {item} {trouble}.", stock.item)
        elif quantity.to_taste:
            yield problem(
                Family.NUMBERS, f"{what} of {item} has no amount; write one, or leave it open.", stock.item
            )
    if stock.pack is not None and not stock.pack.to_taste and stock.pack.amount == 0:
        yield problem(
            Family.NUMBERS, f"A pack of {item} holds nothing; write what it holds, or leave it open.", stock.item
        )
    if not 0 < stock.usable <= 1:
        yield problem(
            Family.NUMBERS,
            f"Of {item}, {float(100 * stock.usable):g} % is left after trimming; give more than 0, up to 100 %.",
            stock.item,
        )
    if out_of(stock.keeps, 0, _LONGEST_FRESH):
        yield problem(
            Family.TIMES,
            f"{item} stays fresh for {stock.keeps} days; give 0 to {_LONGEST_FRESH}, or leave it open.",
            stock.item,
        )
