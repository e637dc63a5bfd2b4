"""A scrolled page of widgets one below the other, no wider than is easy to read across."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFrame, QHBoxLayout, QScrollArea, QVBoxLayout, QWidget

_WIDEST = 1240  # px


class Page(QScrollArea):
    """Scrolls up and down only."""

    def __init__(self, *widgets: QWidget, widest: int = _WIDEST, parent: QWidget | None = None) -> None:
        """Put widgets on the page; what is left of the room stays empty at the right and below."""
        super().__init__(parent)
        column_of = QWidget()
        column_of.setMaximumWidth(widest)
        column = QVBoxLayout(column_of)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(4)
        for widget in widgets:
            column.addWidget(widget)
        column.addStretch(1)
        paper = QFrame()
        paper.setObjectName("paper")
        row = QHBoxLayout(paper)
        row.setContentsMargins(12, 8, 12, 14)
        row.addWidget(column_of, 1000)
        row.addStretch(1)
        self.setWidget(paper)
        self.setWidgetResizable(True)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
