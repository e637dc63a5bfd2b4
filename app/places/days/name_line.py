"""The line in which a kept day gets its name: Enter takes it, Escape leaves it, what is wrong stands beside it."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QEvent, Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QHBoxLayout, QLineEdit, QWidget

from app.places.one_line import OneLine
from core.measures.refusal import Refusal


class NameLine(QWidget):
    """`named` carries what was written; `left`: nothing is to be named after all."""

    named = Signal(str)
    left = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.line = _Line()
        self.line.setPlaceholderText(self.tr("Its name, such as calm"))
        self.line.setAccessibleName(self.tr("Name of the day"))
        self.line.setFixedWidth(190)
        self.wrong = OneLine("wrong")
        self._check: Callable[[str], object] = str
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(8)
        row.addWidget(self.line)
        row.addWidget(self.wrong, 1)
        self.line.textEdited.connect(lambda text: self._say(text if text.strip() else None))
        self.line.returnPressed.connect(self._take)
        self.line.escaped.connect(self.left)
        self.hide()

    def begin(self, text: str, check: Callable[[str], object]) -> None:
        """Ask for a name; `check` raises Refusal for one that may not be."""
        self._check = check
        self.line.setText(text)
        self._say(None)
        self.show()
        self.line.setFocus(Qt.FocusReason.OtherFocusReason)
        self.line.selectAll()

    def _take(self) -> None:
        if self._say(self.line.text()):
            self.named.emit(self.line.text())

    def _say(self, text: str | None) -> bool:
        """Say what is wrong with a name (None: nothing yet); tell whether it may be."""
        try:
            if text is not None:
                self._check(text)
        except Refusal as refusal:
            self.wrong.setText(str(refusal))
            return False
        self.wrong.setText("")
        return True


class _Line(QLineEdit):
    """A line that Escape leaves."""

    escaped = Signal()

    def event(self, event: QEvent) -> bool:
        """Keep Escape from shortcuts that mean it elsewhere."""
        if (
            event.type() == QEvent.Type.ShortcutOverride
            and isinstance(event, QKeyEvent)
            and event.key() == Qt.Key.Key_Escape
        ):
            event.accept()
            return True
        return super().event(event)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Hear Escape."""
        if event.key() == Qt.Key.Key_Escape:
            self.escaped.emit()
        else:
            super().keyPressEvent(event)
