"""How the sheet that is looked at is printed: which way round, in which type, for whom there are copies."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QGridLayout, QLabel, QWidget

from app.fields import Pick, Picked
from app.places.paper.choice import ALL, Layout


class LayoutFields(QWidget):
    """`changed` carries the name of a field of `Layout` and its new value."""

    changed = Signal(str, object)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._copies: Sequence[tuple[str, str]] = ((ALL, ""),)
        grid = QGridLayout(self)
        grid.setContentsMargins(14, 4, 12, 10)
        grid.setVerticalSpacing(2)
        grid.setColumnStretch(1, 1)
        self.title = QLabel()
        self.title.setObjectName("listWhat")
        self.title.setWordWrap(True)
        grid.addWidget(self.title, 0, 0, 1, 2)
        upright = ((False, self.tr("upright")), (True, self.tr("across")))
        large = ((False, self.tr("large, to read from afar")), (True, self.tr("small, on fewer pages")))
        self.fields: dict[str, Pick] = {}
        self._row(grid, "landscape", self.tr("Turned"), lambda: upright)
        self._row(grid, "dense", self.tr("Type"), lambda: large)
        self._row(grid, "copies", self.tr("Copies"), lambda: self._copies)

    def show_layout(self, title: str, layout: Layout, copies: Sequence[tuple[str, str]]) -> None:
        """Show how a kind is printed; a copy for somebody who is not in this plan shows as one for everybody."""
        self.title.setText(title)
        self._copies = copies
        there = {value for value, _words in copies}
        self.fields["landscape"].show_value(layout.landscape, afresh=True)
        self.fields["dense"].show_value(layout.dense, afresh=True)
        self.fields["copies"].show_value(layout.copies if layout.copies in there else ALL, afresh=True)
        self.fields["copies"].setEnabled(len(copies) > 1)

    def _row(self, grid: QGridLayout, key: str, words: str, options: Callable[[], Sequence[tuple[Any, str]]]) -> None:
        label = QLabel(words)
        label.setObjectName("fieldLabel")
        field = Pick(Picked(options), lambda value: self._take(key, value))
        field.setAccessibleName(words)
        label.setBuddy(field)
        self.fields[key] = field
        row = grid.rowCount()
        grid.addWidget(label, row, 0)
        grid.addWidget(field, row, 1)

    def _take(self, key: str, value: object) -> str:
        self.changed.emit(key, value)
        return ""
