"""The edit that swaps the kitchen under a menu ("what if we cook it at the hall?"), and what it does to the menu."""

from __future__ import annotations

from dataclasses import dataclass

from core.plan.edits.edit import Edit
from core.plan.edits.moving import Move
from core.plan.edits.said import Said
from core.plan.kitchen import Kitchen
from core.plan.plan import Plan


@dataclass(frozen=True, slots=True)
class UseKitchen(Edit):
    """Cook the menu in another kitchen: stations that steps name, vessels and cooks are looked for there.

    A named station becomes the one of its id and kind, else any of its kind. A vessel becomes the one of its id,
    else of its name and size. What the kitchen has not, or not enough of, is brought along from the old one, so
    that the plan holds. `notes` says in sentences what is otherwise than it was.
    """

    kitchen: Kitchen

    def said(self, words: Said) -> str:
        """Return what is done."""
        return f"Cook at {words.name(self.kitchen.name)}"

    def change(self, plan: Plan) -> Plan:
        """Return the plan in the kitchen, without pins to what is not there."""
        return Move(plan, self.kitchen).done().plan

    def notes(self, plan: Plan) -> tuple[str, ...]:
        """Return in sentences what could not be mapped, and what is brought along."""
        return Move(plan, self.kitchen).done().notes
