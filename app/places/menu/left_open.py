"""What must come from elsewhere now: said where a dish or step went whose by-product others use, or one is short."""

from __future__ import annotations

from PySide6.QtCore import QObject, Qt, Signal
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLabel, QWidget

from app.bridge import OpenPlan
from app.fields import a_button
from core.desk import Change
from core.plan.by_products import left_open_between, to_buy_words
from core.plan.plan import Plan


class Left(QObject):
    """Follows the plan from its opening, whether somebody looks or not. `changed`: there is more to say, or less.

    `words` is "" where nothing is left open; `by_last`: the last change of the plan left something open.
    """

    changed = Signal()

    def __init__(self, opened: OpenPlan, parent: QObject) -> None:
        super().__init__(parent)
        self._before: Plan | None = None
        self.words = ""
        self.by_last = False
        opened.changed.connect(self._changed)

    def forget(self) -> None:
        """Say no more of it."""
        self._before = None
        self.words, self.by_last = "", False
        self.changed.emit()

    def _changed(self, change: Change) -> None:
        if not change.plan_changed:
            return
        new = left_open_between(change.before, change.after)
        if new and self._before is None:
            self._before = change.before
        if self._before is None:
            return
        # Judged against the plan before it all began: what was undone, or is no longer wanted, is not said.
        left = left_open_between(self._before, change.after)
        if not left:
            self.forget()
            return
        self.words, self.by_last = "\n".join(to_buy_words(change.after, each) for each in left), bool(new)
        self.changed.emit()


class LeftOpen(QFrame):
    """Stays until it is read, or until nothing is left open any more. `undone`: the cook takes it back."""

    undone = Signal()

    def __init__(self, left: Left, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("leftOpen")
        self._left = left
        self.words = QLabel()
        self.words.setTextFormat(Qt.TextFormat.PlainText)
        self.words.setWordWrap(True)
        self.words.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
        self.undo = a_button(self.tr("Undo"), "undo")
        self.read = a_button(self.tr("Understood"))
        self.undo.clicked.connect(self.undone)
        self.read.clicked.connect(left.forget)
        row = QHBoxLayout(self)
        row.setContentsMargins(18, 6, 10, 6)
        row.addWidget(self.words, 1)
        row.addWidget(self.undo)
        row.addWidget(self.read)
        self.hide()
        left.changed.connect(self.refresh)

    def refresh(self) -> None:
        """Show what is left open."""
        left = self._left
        self.words.setText(left.words)
        self.undo.setVisible(left.by_last)
        self.setVisible(bool(left.words))
