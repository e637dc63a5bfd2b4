"""A line that says what was done, with a button to take it back, or why it was not done; it never blocks."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLabel, QWidget

from app.fields import a_button


class Note(QFrame):
    """Stays until it is read or something else is said."""

    def __init__(self, name: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName(name)
        self._undo: Callable[[], object] | None = None
        self.words = QLabel()
        self.words.setTextFormat(Qt.TextFormat.PlainText)
        self.words.setWordWrap(True)
        self.words.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
        self.undo = a_button(self.tr("Undo"), "undo")
        self.read = a_button(self.tr("Understood"))
        self.undo.clicked.connect(lambda _checked=False: self._take_back())
        self.read.clicked.connect(lambda _checked=False: self.forget())
        self.row = QHBoxLayout(self)
        self.row.setContentsMargins(14, 6, 10, 6)
        self.row.setSpacing(8)
        self.row.addWidget(self.words, 1)
        self.row.addWidget(self.undo)
        self.row.addWidget(self.read)
        self.hide()

    @property
    def has_undo(self) -> bool:
        """Tell whether what is said can be taken back."""
        return self._undo is not None

    def say(self, sentence: str, undo: Callable[[], object] | None = None) -> None:
        """Say what was done; `undo` takes it back."""
        self._show(sentence, "news", undo)

    def refuse(self, sentence: str) -> None:
        """Say why something was not done."""
        self._show(sentence, "refusal", None)

    def forget(self) -> None:
        """Say no more of it."""
        self._undo = None
        self.hide()

    def _take_back(self) -> None:
        undo = self._undo
        self.forget()
        if undo is not None:
            undo()

    def _show(self, sentence: str, mood: str, undo: Callable[[], object] | None) -> None:
        self._undo = undo
        self.words.setText(sentence)
        self.undo.setVisible(undo is not None)
        self.setProperty("mood", mood)
        self.style().unpolish(self)
        self.style().polish(self)
        self.show()
