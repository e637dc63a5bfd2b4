"""Leaves of one page, turned by named buttons with how much is on each."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtWidgets import QButtonGroup, QHBoxLayout, QPushButton, QStackedWidget, QVBoxLayout, QWidget


class Leaves(QWidget):
    """Shows one leaf at a time; `turned` carries the name of the leaf shown."""

    turned = Signal(str)

    def __init__(self, leaves: Sequence[tuple[str, str, QWidget]], parent: QWidget | None = None) -> None:
        """Take (name, words, widget) of each leaf."""
        super().__init__(parent)
        self.stack = QStackedWidget()
        self.buttons: dict[str, QPushButton] = {}
        self._words: dict[str, str] = {}
        self._group = QButtonGroup(self)
        bar = QHBoxLayout()
        bar.setContentsMargins(0, 0, 0, 0)
        bar.setSpacing(4)
        for name, words, widget in leaves:
            button = _Tab(words)
            button.setObjectName("leaf")
            button.setCheckable(True)
            button.setMinimumHeight(34)
            button.clicked.connect(lambda _checked=False, name=name: self.turn(name))
            self._group.addButton(button)
            bar.addWidget(button)
            self.buttons[name] = button
            self._words[name] = words
            self.stack.addWidget(widget)
        bar.addStretch(1)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        column.addLayout(bar)
        column.addWidget(self.stack, 1)
        self.turn(leaves[0][0])

    @property
    def name(self) -> str:
        """Return the name of the leaf shown."""
        return list(self.buttons)[self.stack.currentIndex()]

    def turn(self, name: str) -> None:
        """Show a leaf."""
        self.buttons[name].setChecked(True)
        self.stack.setCurrentIndex(list(self.buttons).index(name))
        self.turned.emit(name)

    def count(self, name: str, number: int) -> None:
        """Say how much is on a leaf."""
        self.buttons[name].setText(f"{self._words[name]}  {number}" if number else self._words[name])
        self.buttons[name].updateGeometry()


class _Tab(QPushButton):
    """A button as wide as its words in bold, so that it keeps its width when it is chosen."""

    def sizeHint(self) -> QSize:
        font = self.font()
        font.setBold(True)
        from PySide6.QtGui import QFontMetrics

        metrics = QFontMetrics(font)
        size = metrics.size(Qt.TextFlag.TextShowMnemonic, self.text())
        return QSize(size.width() + 30, max(34, size.height() + 14))

    def minimumSizeHint(self) -> QSize:
        return self.sizeHint()
