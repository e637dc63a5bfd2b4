"""One line of text that stands for a value."""

from __future__ import annotations

from PySide6.QtCore import QEvent, Signal
from PySide6.QtGui import QAction, QFocusEvent, QHelpEvent, QIcon, QKeyEvent
from PySide6.QtWidgets import QLineEdit, QToolTip, QWidget

from app.fields.reading import Reading
from app.fields.spec import Take, Typed


class Line(Reading, QLineEdit):
    """For what is short: minutes, numbers, names."""

    complained = Signal(str)
    taken = Signal()

    def __init__(self, how: Typed, take: Take, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.begin(how, take)
        self.setProperty("field", "line")
        self.textEdited.connect(self.typed)
        self.editingFinished.connect(self.commit)
        self._offers: QAction | None = None
        if how.offers is not None:
            self._offers = self.addAction(QIcon(), QLineEdit.ActionPosition.TrailingPosition)
            self._offers.setToolTip(self.tr("Choose (arrow down)"))
            self._offers.triggered.connect(self.offer)

    def dress(self, chevron: QIcon) -> None:
        """Give the mark that opens the list its colours."""
        if self._offers is not None:
            self._offers.setIcon(chevron)

    def shown_text(self) -> str:
        """Return the text."""
        return self.text()

    def put_text(self, text: str) -> None:
        """Put another text, seen from its beginning."""
        self.setText(text)
        self.setCursorPosition(0)

    def touched(self) -> bool:
        """Tell whether the cook has typed here."""
        return self.isModified()

    def set_touched(self, touched: bool) -> None:
        """Say whether the cook has typed here."""
        self.setModified(touched)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Take Escape and the arrow down."""
        if not self.is_own_key(event):
            super().keyPressEvent(event)

    def event(self, event: QEvent) -> bool:
        """Leave undo to the plan while nothing was typed here; show under the pointer what does not fit."""
        if self.leaves_to_plan(event):
            event.ignore()
            return False
        cut_off = self.fontMetrics().horizontalAdvance(self.text()) > self.width() - 12
        if cut_off and event.type() is QEvent.Type.ToolTip and isinstance(event, QHelpEvent):
            QToolTip.showText(event.globalPos(), self.text(), self)
            return True
        return super().event(event)

    def focusOutEvent(self, event: QFocusEvent) -> None:
        """Remember how the field was left, before the text is read."""
        self.left_by = event.reason()
        super().focusOutEvent(event)
