"""A text of several lines that stands for a value."""

from __future__ import annotations

from PySide6.QtCore import QSize, Signal
from PySide6.QtGui import QFocusEvent, QKeyEvent, Qt
from PySide6.QtWidgets import QPlainTextEdit, QWidget

from app.fields.marking import mark
from app.fields.spec import Take

_LINES = 2


class Notes(QPlainTextEdit):
    """Hands its text over when it is left. Tab moves on."""

    complained = Signal(str)

    def __init__(self, take: Take, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._take = take
        self._value = ""
        self.wrong = ""
        self.setProperty("field", "notes")
        self.setTabChangesFocus(True)
        self.document().setDocumentMargin(3)

    @property
    def value(self) -> str:
        """Return the text last shown or taken."""
        return self._value

    def sizeHint(self) -> QSize:
        """Ask for two lines."""
        return QSize(240, self.fontMetrics().lineSpacing() * _LINES + 14)

    def minimumSizeHint(self) -> QSize:
        """Ask for two lines."""
        return QSize(120, self.sizeHint().height())

    def show_value(self, value: str, afresh: bool = False) -> None:
        """Show a text, unless the cook is writing here; `afresh`: even then."""
        self._value = value
        if afresh or not (self.document().isModified() or self.wrong):
            if value != self.toPlainText():
                self.setPlainText(value)
            self.document().setModified(False)
            self._say("")

    def commit(self) -> bool:
        """Hand the text over; tell whether it was taken."""
        if not self.document().isModified():
            return not self.wrong
        text = self.toPlainText().strip()
        if sentence := self._take(text):
            self._say(sentence)
            return False
        self.document().setModified(False)
        self._say("")
        self.show_value(text)
        return True

    def refuse(self, sentence: str) -> None:
        """Mark the text as not taken."""
        self._say(sentence)

    def focusOutEvent(self, event: QFocusEvent) -> None:
        """Hand the text over."""
        super().focusOutEvent(event)
        self.commit()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Let Escape bring back the plan's text."""
        if event.key() == Qt.Key.Key_Escape:
            self.show_value(self._value, afresh=True)
            return
        super().keyPressEvent(event)

    def _say(self, sentence: str) -> None:
        if sentence != self.wrong:
            self.wrong = sentence
            mark(self, sentence)
            self.complained.emit(sentence)
