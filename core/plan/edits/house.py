"""Edits of the guests and of what the house knows of items."""

from __future__ import annotations

from dataclasses import dataclass
from typing import NoReturn

from core.measures.refusal import Refusal, quoted
from core.measures.words import plural
from core.plan.edits.edit import Edit
from core.plan.edits.parts import swapped, with_menu
from core.plan.edits.said import Said
from core.plan.menu import Guest, Stock
from core.plan.plan import Plan


@dataclass(frozen=True, slots=True)
class SetStock(Edit):
    """Say what the house knows of an item; `was`: the item it replaces, where that bears another name."""

    stock: Stock
    was: str = ""

    def said(self, words: Said) -> str:
        """Return what is done."""
        return f"Note what is in the house of {words.name(self.stock.item)}"

    def change(self, plan: Plan) -> Plan:
        """Return the plan with what is known, in the former one's place or last; refuse a former one not there."""
        stocks = plan.menu.stocks
        old = self.was or self.stock.item
        if not any(each.item == old for each in stocks):
            return _no_stock(old) if self.was else with_menu(plan, stocks=(*stocks, self.stock))
        return with_menu(plan, stocks=swapped(stocks, lambda each: each.item == old, lambda _each: self.stock))


@dataclass(frozen=True, slots=True)
class RemoveStock(Edit):
    """Forget what the house knows of an item."""

    item: str

    def said(self, words: Said) -> str:
        """Return what is done."""
        return f"Forget what is in the house of {words.name(self.item)}"

    def change(self, plan: Plan) -> Plan:
        """Return the plan without it; refuse an item that is not there."""
        kept = tuple(each for each in plan.menu.stocks if each.item != self.item)
        return _no_stock(self.item) if len(kept) == len(plan.menu.stocks) else with_menu(plan, stocks=kept)


@dataclass(frozen=True, slots=True)
class SetGuest(Edit):
    """Add a guest, or say anew what is known of one; `was`: the guest replaced, where that bears another name."""

    guest: Guest
    was: str = ""

    def said(self, words: Said) -> str:
        """Return what is done."""
        return f"Note guest {words.name(self.guest.name)}"

    def change(self, plan: Plan) -> Plan:
        """Return the plan with the guest, in the former one's place or last; refuse a former one not there."""
        guests = plan.menu.guests
        old = self.was or self.guest.name
        if not any(each.name == old for each in guests):
            return _no_guest(old) if self.was else with_menu(plan, guests=(*guests, self.guest))
        return with_menu(plan, guests=swapped(guests, lambda each: each.name == old, lambda _each: self.guest))


@dataclass(frozen=True, slots=True)
class RemoveGuest(Edit):
    """Take a guest off the list."""

    name: str

    def said(self, words: Said) -> str:
        """Return what is done."""
        return f"Remove guest {words.name(self.name)}"

    def change(self, plan: Plan) -> Plan:
        """Return the plan without the guest; refuse one that is not there."""
        kept = tuple(each for each in plan.menu.guests if each.name != self.name)
        return _no_guest(self.name) if len(kept) == len(plan.menu.guests) else with_menu(plan, guests=kept)


@dataclass(frozen=True, slots=True)
class SetCovers(Edit):
    """Say how many sit down; None: not told."""

    covers: int | None

    def said(self, words: Said) -> str:  # noqa: ARG002  it is about no one thing
        """Return what is done."""
        return "Leave open how many sit down" if self.covers is None else f"Lay for {plural(self.covers, 'guest')}"

    def change(self, plan: Plan) -> Plan:
        """Return the plan with the number."""
        return with_menu(plan, covers=self.covers)


def _no_stock(item: str) -> NoReturn:
    raise Refusal(f"Nothing is noted of {quoted(item)} any more; choose a thing that is there.")


def _no_guest(name: str) -> NoReturn:
    raise Refusal(f"There is no guest {quoted(name)} any more; choose one that is there.")
