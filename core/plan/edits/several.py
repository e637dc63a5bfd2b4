"""An edit that pins several loads at once, as one undo step."""

from __future__ import annotations

from collections.abc import Hashable
from dataclasses import dataclass

from core.plan.edits.decisions import PinStep
from core.plan.edits.edit import Edit
from core.plan.edits.said import Said
from core.plan.plan import Plan


@dataclass(frozen=True, slots=True)
class PinSteps(Edit):
    """Pin several loads, each to what its pin says."""

    pins: tuple[PinStep, ...]

    def said(self, words: Said) -> str:
        """Return what is done."""
        if len(self.pins) == 1:
            return self.pins[0].said(words)
        return f"Move {len({pin.step for pin in self.pins})} steps"

    def change(self, plan: Plan) -> Plan:
        """Return the plan with the pins."""
        for pin in self.pins:
            plan = pin.change(plan)
        return plan

    @property
    def merge_key(self) -> Hashable | None:
        """Return the loads: nudges of the same ones are one undo step."""
        return ("pins", frozenset((pin.step, pin.load) for pin in self.pins))
