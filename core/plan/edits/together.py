"""Several edits as one."""

from __future__ import annotations

from dataclasses import dataclass, field

from core.plan.edits.edit import Edit
from core.plan.edits.said import Said
from core.plan.plan import Plan


@dataclass(frozen=True, slots=True)
class Together(Edit):
    """Make several edits one after the other as one undo step; only what comes of them all is checked."""

    label: str = field()
    edits: tuple[Edit, ...]

    def said(self, words: Said) -> str:  # noqa: ARG002  the label was given
        """Return the label."""
        return self.label

    def change(self, plan: Plan) -> Plan:
        """Return the plan changed by all."""
        for edit in self.edits:
            plan = edit.change(plan)
        return plan
