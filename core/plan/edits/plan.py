"""Edits of the plan as a whole: its name, its plating, its transfer minutes, its beginning."""

from __future__ import annotations

from dataclasses import dataclass, replace

from core.measures.clock import Moment
from core.measures.minutes import show_minutes
from core.plan.edits.edit import Edit
from core.plan.edits.said import Said
from core.plan.plan import Plan


@dataclass(frozen=True, slots=True)
class RenamePlan(Edit):
    """Give the plan another name."""

    name: str

    def said(self, words: Said) -> str:
        """Return what is done."""
        return f"Rename the plan to {words.name(self.name)}"

    def change(self, plan: Plan) -> Plan:
        """Return the plan with the name."""
        return replace(plan, name=self.name)


@dataclass(frozen=True, slots=True)
class SetPlating(Edit):
    """Plate at another moment; everything keeps its distance from plating."""

    plating: Moment

    def said(self, words: Said) -> str:
        """Return what is done."""
        return f"Plate on {words.moment(self.plating)}"

    def change(self, plan: Plan) -> Plan:
        """Return the plan with the moment."""
        return replace(plan, plating=self.plating)


@dataclass(frozen=True, slots=True)
class SetTransfer(Edit):
    """Choose how many minutes of a cook putting in and taking out need each."""

    minutes: int

    def said(self, words: Said) -> str:  # noqa: ARG002  it is about no one thing
        """Return what is done."""
        return f"Take {show_minutes(self.minutes)} for putting in and taking out"

    def change(self, plan: Plan) -> Plan:
        """Return the plan with the minutes."""
        return replace(plan, transfer=self.minutes)


@dataclass(frozen=True, slots=True)
class SetOpens(Edit):
    """Choose the offset before which nothing may be placed; None: worked out."""

    opens: int | None

    def said(self, words: Said) -> str:
        """Return what is done."""
        return (
            "Begin whenever it takes"
            if self.opens is None
            else f"Begin at {words.clock(self.opens)} at the soonest"
        )

    def change(self, plan: Plan) -> Plan:
        """Return the plan with the beginning."""
        return replace(plan, opens=self.opens)
