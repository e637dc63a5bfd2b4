"""The line on which the next thing is written; once it is taken, the line is empty again."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLabel, QPushButton, QVBoxLayout, QWidget

from app.fields.line import Line
from app.fields.spec import Take, Typed
from core.measures.refusal import Refusal


class Draft(QFrame):
    """Takes a new thing by its text. `added`: it was taken, True when the cook goes on by the keyboard."""

    added = Signal(bool)

    def __init__(
        self,
        name: str,
        empty: str,
        take: Take,
        button: QPushButton,
        read: Callable[[str], Any] | None = None,
        parent: QWidget | None = None,
    ) -> None:
        """Make a line called `name` for assistive technology, `empty` greyed in it, and a button that takes it."""
        super().__init__(parent)
        self.setObjectName("draft")
        self.line = Line(Typed(read or _words, _nothing), take)
        self.line.setObjectName("draftLine")
        self.line.setAccessibleName(name)
        self.line.setPlaceholderText(empty)
        self.line.setMinimumHeight(30)
        self.button = button
        self.wrong = QLabel()
        self.wrong.setObjectName("wrong")
        self.wrong.setWordWrap(True)
        self.wrong.hide()
        column = QVBoxLayout(self)
        column.setContentsMargins(10, 5, 8, 6)
        column.setSpacing(3)
        row = QHBoxLayout()
        row.setSpacing(6)
        row.addWidget(self.line, 1)
        row.addWidget(button)
        column.addLayout(row)
        column.addWidget(self.wrong)
        self._entering = False
        self.line.returnPressed.connect(self._entered)
        self.line.taken.connect(self._taken)
        self.line.complained.connect(self._complained)
        self.line.textEdited.connect(self._typed)
        button.clicked.connect(self._clicked)

    def enter(self) -> None:
        """Put the cursor here."""
        self.line.setFocus(Qt.FocusReason.TabFocusReason)

    def drop(self) -> None:
        """Forget what was typed."""
        self.line.show_value("", afresh=True)

    def _entered(self) -> None:
        self._entering = True
        self.line.commit()
        self._entering = False

    def _typed(self, text: str) -> None:
        """Forget a line that was emptied again: nothing is wrong with it."""
        if not text.strip():
            self.drop()

    def _clicked(self) -> None:
        """Take what stands here; an empty line shows where to type."""
        self.line.commit()
        self.enter()

    def _taken(self) -> None:
        goes_on = self._entering or self.line.left_by is Qt.FocusReason.TabFocusReason
        self.line.left_by = Qt.FocusReason.OtherFocusReason
        self.added.emit(goes_on)

    def _complained(self, sentence: str) -> None:
        self.wrong.setText(sentence)
        self.wrong.setVisible(bool(sentence))


def _words(text: str) -> str:
    words = " ".join(text.split())
    if not words:
        raise Refusal("Nothing is written here yet; write a name.")
    return words


def _nothing(_value: Any) -> str:
    """Show nothing: a thing that was taken stands elsewhere from now on."""
    return ""
