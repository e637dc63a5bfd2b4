"""A day that is offered: shown to be looked at, and taken or not."""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtCore import QCoreApplication, Qt, Signal
from PySide6.QtWidgets import QVBoxLayout, QWidget

from app.places.advice.said import Said
from app.places.advice.section import take_button
from core.plan.edits import Edit
from core.plan.plan import Plan
from core.timetable.timetable import Timetable


@dataclass(frozen=True, slots=True)
class Look:
    """What the day would be: `timetable` in `plan`, reached by `edit` (None: only the timetable is another).

    `words` say it; `label` names the step that undo takes back where there is no edit.
    """

    words: str
    plan: Plan
    timetable: Timetable
    edit: Edit | None = None
    label: str = ""


class Offer(QWidget):
    """A sentence with a button under it that takes what it says. `looked` and `taken` carry the Look."""

    looked = Signal(object)
    taken = Signal(object)

    def __init__(self, look: Look, effect: str, take: str = "", parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.look = look
        self.said = Said(look.words, effect)
        self.said.whole = self
        words = take or QCoreApplication.translate("advice", "Take it")
        self.take = take_button(words)
        self.take.setAccessibleName(f"{words}: {look.words}")
        self.take.setToolTip(QCoreApplication.translate("advice", "Change the plan so (Enter on the sentence)"))
        self.said.setToolTip(QCoreApplication.translate("advice", "See the day as it would be (Space)"))
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 4)
        column.setSpacing(2)
        column.addWidget(self.said)
        column.addWidget(self.take, 0, Qt.AlignmentFlag.AlignRight)
        self.said.clicked.connect(self._clicked)
        self.said.entered.connect(lambda: self.taken.emit(self.look))
        self.take.clicked.connect(lambda _checked=False: self.taken.emit(self.look))

    def show_looked_at(self, here: bool) -> None:
        """Mark it as the one that is shown."""
        self.said.setChecked(here)

    def _clicked(self, checked: bool) -> None:
        self.looked.emit(self.look if checked else None)
