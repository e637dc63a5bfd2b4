"""A line under the strip that says why something was not done, or what was; it never blocks."""

from __future__ import annotations

from PySide6.QtCore import Qt, QTimer
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLabel, QToolButton, QWidget


class Banner(QFrame):
    """Shows one message; refusals stay until read, good news leaves by itself."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("banner")
        row = QHBoxLayout(self)
        row.setContentsMargins(18, 6, 10, 6)
        self.words = QLabel()
        self.words.setTextFormat(Qt.TextFormat.PlainText)
        self.words.setWordWrap(True)
        self.words.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
        close = QToolButton()
        close.setText(self.tr("Understood"))
        close.setMinimumHeight(26)
        close.clicked.connect(self.hide)
        row.addWidget(self.words, 1)
        row.addWidget(close)
        self._timer = QTimer(self)
        self._timer.setSingleShot(True)
        self._timer.timeout.connect(self.hide)
        self.hide()

    def refuse(self, sentence: str) -> None:
        """Say why something was not done."""
        self._show(sentence, "refusal")
        self._timer.stop()

    def say(self, sentence: str) -> None:
        """Say that something was done; it leaves after some seconds."""
        self._show(sentence, "news")
        self._timer.start(8000)

    def _show(self, sentence: str, mood: str) -> None:
        self.words.setText(sentence)
        self.setProperty("mood", mood)
        self.style().unpolish(self)
        self.style().polish(self)
        self.show()
