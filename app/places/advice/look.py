"""A day that is offered: shown to be looked at, and taken or not."""

from __future__ import annotations

from dataclasses import dataclass, field

from PySide6.QtCore import QCoreApplication, QEvent, Qt, Signal
from PySide6.QtGui import QEnterEvent, QHideEvent
from PySide6.QtWidgets import QHBoxLayout, QPushButton, QVBoxLayout, QWidget

from app.fields import a_button
from app.places.advice.said import Said
from app.places.advice.section import take_button
from app.places.gist import Gist
from core.plan.edits import Edit
from core.plan.plan import Plan
from core.timetable.clash import Clash
from core.timetable.timetable import Timetable


@dataclass(frozen=True, slots=True)
class Look:
    """What the day would be: `timetable` in `plan`, reached by `edit` (None: only the timetable is another).

    `words` say it; `label` names the step that undo takes back where there is no edit. `before`: the timetable that it
    is compared with, where that is not the day as it stands; `kept`: the name of the kept day that it is, which may no
    longer fit (`clashes`).
    """

    words: str
    plan: Plan
    timetable: Timetable
    edit: Edit | None = None
    label: str = ""
    before: Timetable | None = field(default=None, compare=False)
    kept: str = ""
    clashes: tuple[Clash, ...] = field(default=(), compare=False)


class Offer(QWidget):
    """A sentence with a button under it that takes what it says. `looked` and `taken` carry the Look.

    `glanced`: the Look while the pointer or the keyboard's focus is on it, None when it leaves. `keep_wanted`: the
    Look, to be kept by name beside the day as it stands; only where `keep` names what the button says.
    """

    looked = Signal(object)
    taken = Signal(object)
    glanced = Signal(object)
    keep_wanted = Signal(object)

    def __init__(
        self,
        look: Look,
        effect: str,
        take: str = "",
        *,
        gist: Gist | None = None,
        keep: str = "",
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self.look = look
        self._under = False
        self.said = Said(look.words, effect, gist)
        self.said.whole = self
        words = take or QCoreApplication.translate("advice", "Take it")
        self.take = take_button(words)
        self.take.setAccessibleName(f"{words}: {look.words}")
        self.take.setToolTip(QCoreApplication.translate("advice", "Change the plan so (Enter on the sentence)"))
        self.said.setToolTip(QCoreApplication.translate("advice", "Keep the day as it would be in sight (Space)"))
        self.keep: QPushButton | None = None
        row = QHBoxLayout()
        row.setSpacing(8)
        row.addStretch(1)
        if keep:
            self.keep = a_button(keep, tip=QCoreApplication.translate("advice", "Keep it by name, to choose later"))
            self.keep.setAccessibleName(f"{keep}: {look.words}")
            self.keep.clicked.connect(lambda _checked=False: self.keep_wanted.emit(self.look))
            row.addWidget(self.keep)
        row.addWidget(self.take)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 4)
        column.setSpacing(2)
        column.addWidget(self.said)
        column.addLayout(row)
        self.said.clicked.connect(self._clicked)
        self.said.entered.connect(lambda: self.taken.emit(self.look))
        self.said.focused.connect(self._focused)
        self.take.clicked.connect(lambda _checked=False: self.taken.emit(self.look))
        self.setAttribute(Qt.WidgetAttribute.WA_Hover)

    def show_looked_at(self, here: bool) -> None:
        """Mark it as the one that is shown."""
        self.said.setChecked(here)

    def enterEvent(self, event: QEnterEvent) -> None:
        """Let the day be seen while the pointer is here, the buttons included."""
        super().enterEvent(event)
        self._glance(True)

    def leaveEvent(self, event: QEvent) -> None:
        """Let it be the day as it stands again."""
        super().leaveEvent(event)
        self._glance(False)

    def hideEvent(self, event: QHideEvent) -> None:
        """End the glance: something taken away under the pointer is not left by it."""
        super().hideEvent(event)
        self._glance(False)

    def _focused(self, there: bool) -> None:
        self._glance(there)

    def _glance(self, there: bool) -> None:
        if there is not self._under:
            self._under = there
            self.glanced.emit(self.look if there else None)

    def _clicked(self, checked: bool) -> None:
        self.looked.emit(self.look if checked else None)
