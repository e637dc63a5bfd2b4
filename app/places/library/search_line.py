"""The line in which one's own dishes are searched: arrows choose among what is found, Enter takes it, Escape leaves."""

from __future__ import annotations

from PySide6.QtCore import QEvent, Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QLineEdit, QWidget

_STEPS = {Qt.Key.Key_Up: -1, Qt.Key.Key_Down: 1, Qt.Key.Key_PageUp: -5, Qt.Key.Key_PageDown: 5}


class SearchLine(QLineEdit):
    """`stepped` carries by how many rows; `taken`: Enter; `escaped`: Escape in an empty line (else it empties it)."""

    stepped = Signal(int)
    taken = Signal()
    escaped = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("ownSearch")
        self.setAccessibleName(self.tr("Search my dishes"))
        self.setPlaceholderText(self.tr("A name, ingredient, vessel, place or time: leeks oven under 1 h"))
        self.setMinimumHeight(36)
        self.setClearButtonEnabled(True)

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
        """Pass on what is not for the text."""
        key = Qt.Key(event.key())
        plain = not event.modifiers() & ~Qt.KeyboardModifier.KeypadModifier
        if plain and key in _STEPS:
            self.stepped.emit(_STEPS[key])
        elif plain and key in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.taken.emit()
        elif key == Qt.Key.Key_Escape:
            if self.text():
                self.clear()
            else:
                self.escaped.emit()
        else:
            super().keyPressEvent(event)
