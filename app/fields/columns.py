"""Cards side by side in columns, each put where there is most room."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QSize
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget


class Columns(QWidget):
    """Lays widgets out in as many columns as there is room for, in order, the next into the shortest column."""

    def __init__(self, least: int = 360, spacing: int = 12, parent: QWidget | None = None) -> None:
        """Take the least width of a column in pixels."""
        super().__init__(parent)
        self._least = least
        self._spacing = spacing
        self._widgets: list[QWidget] = []
        self._count = 0
        self._row = QHBoxLayout(self)
        self._row.setContentsMargins(0, 0, 0, 0)
        self._row.setSpacing(spacing)
        self._columns: list[QVBoxLayout] = []

    def show_widgets(self, widgets: Sequence[QWidget]) -> None:
        """Show these widgets, in this order."""
        if list(widgets) != self._widgets:
            self._widgets = list(widgets)
            for widget in widgets:
                widget.setParent(self)
                widget.show()
            self._fill()

    def minimumSizeHint(self) -> QSize:
        """Be content with one column."""
        return QSize(self._least, super().minimumSizeHint().height())

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Use as many columns as there is room for."""
        super().resizeEvent(event)
        count = max(1, (event.size().width() + self._spacing) // (self._least + self._spacing))
        if count != self._count:
            self._count = count
            self._fill()

    def _fill(self) -> None:
        count = max(1, self._count)
        while len(self._columns) < count:
            column = QVBoxLayout()
            column.setSpacing(self._spacing)
            self._row.addLayout(column, 1)
            self._columns.append(column)
        for at, column in enumerate(self._columns):
            while column.count():
                column.takeAt(0)
            self._row.setStretch(at, 1 if at < count else 0)
        heights = [0] * count
        for widget in self._widgets:
            at = heights.index(min(heights))
            self._columns[at].addWidget(widget)
            heights[at] += widget.sizeHint().height() + self._spacing
        for column in self._columns[:count]:
            column.addStretch(1)
