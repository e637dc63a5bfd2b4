"""The open plan as Qt sees it: one signal for every change, refusals as words, clashes of what is seen."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QObject, Signal

from core.desk import Change, Desk, KeptDays, KeptEdit
from core.measures.refusal import Refusal
from core.plan.edits import Edit
from core.plan.plan import Plan
from core.timetable.clash import Clash
from core.timetable.clashes import clashes
from core.timetable.timetable import Timetable


class OpenPlan(QObject):
    """Holds the desk of the plan that is open. GUI thread only.

    `changed` carries a core.desk.Change after every edit, undo, redo and arrangement taken; `refused` carries
    the sentence why an edit was not taken (the plan stays as it was).
    """

    changed = Signal(object)
    refused = Signal(str)

    def __init__(self, desk: Desk, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.desk = desk
        self._clashes: tuple[Plan, Timetable | None, tuple[Clash, ...]] | None = None
        self._unlisten = desk.listen(self._pass_on)

    @property
    def plan(self) -> Plan:
        """Return the plan now."""
        return self.desk.plan

    @property
    def timetable(self) -> Timetable | None:
        """Return the timetable that the cook sees."""
        return self.desk.timetable

    @property
    def kept(self) -> KeptDays:
        """Return the days kept by name."""
        return self.desk.kept

    @property
    def clashes(self) -> tuple[Clash, ...]:
        """Return what clashes in the timetable seen; worked out once for each state."""
        plan, timetable = self.plan, self.timetable
        if self._clashes is None or self._clashes[0] is not plan or self._clashes[1] is not timetable:
            found = clashes(plan, timetable) if timetable is not None else ()
            self._clashes = (plan, timetable, found)
        return self._clashes[2]

    def apply(self, edit: Edit, by: str = "", seen: Timetable | None = None) -> bool:
        """Take an edit; tell why not and return False where the plan would not bear it."""
        try:
            self.desk.apply(edit, by, seen)
        except Refusal as refusal:
            self.refused.emit(str(refusal))
            return False
        return True

    def show(self, timetable: Timetable, label: str, by: str = "") -> bool:
        """Take another timetable as one undo step; tell why not and return False where that may not be."""
        try:
            self.desk.show(timetable, label, by)
        except Refusal as refusal:
            self.refused.emit(str(refusal))
            return False
        return True

    def keep(self, edit: KeptEdit, by: str = "") -> bool:
        """Change the days kept by name; tell why not and return False where that may not be."""
        try:
            self.desk.keep(edit, by)
        except Refusal as refusal:
            self.refused.emit(str(refusal))
            return False
        return True

    def undo(self) -> None:
        """Take the last step back."""
        self._try(lambda: self.desk.undo("undo"))

    def redo(self) -> None:
        """Do again what was undone last."""
        self._try(lambda: self.desk.redo("redo"))

    def close(self) -> None:
        """Stop listening to the desk."""
        self._unlisten()

    def _try(self, step: Callable[[], object]) -> None:
        try:
            step()
        except Refusal as refusal:
            self.refused.emit(str(refusal))

    def _pass_on(self, change: Change) -> None:
        self.changed.emit(change)
