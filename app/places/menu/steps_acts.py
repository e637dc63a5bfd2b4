"""What is done with the chosen step as a whole: copy, move among the others, remove."""

from __future__ import annotations

from typing import TYPE_CHECKING

from app.bridge import OpenPlan
from app.fields import tried
from core.plan.edits import CopyStep, MoveStepInDish, RemoveStep

if TYPE_CHECKING:
    from app.places.menu.steps_leaf import StepsLeaf


class StepActs:
    """Acts on the step that is chosen in a leaf; why something is not taken is said at its row."""

    def __init__(self, opened: OpenPlan, leaf: StepsLeaf) -> None:
        self._opened = opened
        self._leaf = leaf

    def copy(self) -> None:
        """Copy the chosen step."""
        if self._leaf.step is not None:
            edit = CopyStep(self._leaf.step)
            new = edit.new_id(self._opened.plan)
            if self._done(tried(self._opened, edit, "menu")):
                self._leaf.go_to(new)

    def shift(self, by: int) -> None:
        """Move the chosen step among the steps of its dish."""
        step, keys = self._leaf.step, self._leaf.rows.keys
        if step is not None and step in keys:
            to = keys.index(step) + by
            if 0 <= to < len(keys):
                self._done(tried(self._opened, MoveStepInDish(step, to), "menu"))

    def remove(self) -> None:
        """Take the chosen step out; what followed it follows what it followed."""
        step, keys = self._leaf.step, self._leaf.rows.keys
        if step is None or step not in keys:
            return
        at = keys.index(step)
        if self._done(tried(self._opened, RemoveStep(step, joined=True), "menu")):
            left = self._leaf.rows.keys
            if left:
                self._leaf.go_to(left[min(at, len(left) - 1)])
            else:
                self._leaf.write_first()

    def _done(self, sentence: str) -> bool:
        """Say at the chosen step why something was not taken; tell whether it was."""
        row = self._leaf.rows.at(self._leaf.step)
        if row is not None:
            row.refuse(sentence)
        return not sentence
