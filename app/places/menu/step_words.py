"""The usual face of a step in its list: what is done, and below it, calmly, all that is known of it."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QFocusEvent, QKeyEvent, QMouseEvent
from PySide6.QtWidgets import QFrame, QLabel, QSizePolicy, QVBoxLayout, QWidget

_PLAIN = (Qt.KeyboardModifier.NoModifier, Qt.KeyboardModifier.KeypadModifier)


class StepWords(QFrame):
    """Words only. `opened`: the cook wants to write its line; `walked`: to another step; `entered`: chosen."""

    opened = Signal()
    walked = Signal(int)
    entered = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("stepWords")
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setCursor(Qt.CursorShape.IBeamCursor)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Minimum)
        self.setToolTip(self.tr("Click, or press Enter, to write its line; Shift+F2 for its fields"))
        self.does = QLabel()
        self.does.setObjectName("stepDoes")
        self.told = QLabel()
        self.told.setObjectName("stepTold")
        column = QVBoxLayout(self)
        column.setContentsMargins(4, 3, 4, 3)
        column.setSpacing(1)
        for label in (self.does, self.told):
            label.setWordWrap(True)
            label.setTextFormat(Qt.TextFormat.PlainText)
            column.addWidget(label)

    def show_words(self, does: str, told: str) -> None:
        """Show what is done and what is known of it."""
        if (does, told) != (self.does.text(), self.told.text()):
            self.does.setText(does)
            self.told.setText(told)
            self.setAccessibleName(f"{does}: {told}")

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Write its line; at once, since what is above may close and move it."""
        if event.button() == Qt.MouseButton.LeftButton:
            self.opened.emit()
        else:
            super().mousePressEvent(event)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Open by Enter, walk by arrows."""
        key = event.key()
        if event.modifiers() not in _PLAIN:
            super().keyPressEvent(event)
        elif key in (Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Space):
            self.opened.emit()
        elif key in (Qt.Key.Key_Down, Qt.Key.Key_Up):
            self.walked.emit(1 if key == Qt.Key.Key_Down else -1)
        else:
            super().keyPressEvent(event)

    def focusInEvent(self, event: QFocusEvent) -> None:
        """Tell that the step is chosen."""
        super().focusInEvent(event)
        self.entered.emit()
