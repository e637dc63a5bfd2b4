"""Shares the room of the steps: rows, the flow of their links beside them, and more about the chosen one."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QSplitter, QWidget

_BROAD = 1800  # px from which rows, flow and details stand side by side
_WIDE = 1340  # px from which the details stand beside the rows, over the flow
_FLOW_BESIDE = 1120  # px from which there is room for rows and flow
_HIGH = 560  # px from which there is room for the details below
_SIDE = 470  # px of the details beside the rows
_ROWS = 880  # px in which no row is cut off
_FLOW, _FLOW_MOST = 236, 420  # px of the flow beside the rows
_BELOW = 250  # px of the details below the rows


class StepsRoom(QSplitter):
    """Rows left; the flow right of them, or under the details; the details right or below.

    In a narrow window the flow has its own leaf only, in a low one the details are folded away until asked for.
    `shared`: the room was shared anew.
    """

    shared = Signal()

    def __init__(self, rows: QWidget, flow: QWidget, details: QWidget, parent: QWidget | None = None) -> None:
        super().__init__(Qt.Orientation.Vertical, parent)
        self._flow = flow
        self._details = details
        self._room: tuple[bool, bool, bool, bool] | None = None
        self._upper = QSplitter(Qt.Orientation.Horizontal)
        self._upper.addWidget(rows)
        self._upper.addWidget(flow)
        self._side = QSplitter(Qt.Orientation.Vertical)
        self._side.addWidget(details)
        self.addWidget(self._upper)
        self.addWidget(self._side)
        for split in (self, self._upper, self._side):
            split.setChildrenCollapsible(False)
        self.setStretchFactor(0, 3)
        self.setStretchFactor(1, 2)
        flow.hide()  # until there is room for it: else a small window grows for it first
        self.fold(True)

    @property
    def folded(self) -> bool:
        """Tell whether the details are folded away."""
        return self._details.isHidden()

    def fold(self, away: bool) -> None:
        """Fold the details away, or show them."""
        self._details.setVisible(not away)
        self._side.setVisible(not away or self._flow.parentWidget() is self._side)

    def share(self) -> None:
        """Share the room anew if its kind has changed."""
        width, height = self.width(), self.height()
        room = (width >= _BROAD, width >= _WIDE, width >= _FLOW_BESIDE, height >= _HIGH)
        if room == self._room:
            return
        self._room = room
        broad, wide, beside, high = room
        self.setOrientation(Qt.Orientation.Horizontal if wide else Qt.Orientation.Vertical)
        under = wide and not broad
        (self._side if under else self._upper).addWidget(self._flow)
        self._flow.setVisible(beside)
        self.fold(not (wide or high))
        self.setSizes([width - _SIDE, _SIDE] if wide else [height - _BELOW, _BELOW])
        if under:
            self._side.setSizes([height * 11 // 20, height * 9 // 20])
        else:
            there = width - _SIDE if broad else width
            flow = max(_FLOW, min(_FLOW_MOST, there - _ROWS))
            self._upper.setSizes([there - flow, flow])
        self.shared.emit()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Share the new room."""
        super().resizeEvent(event)
        self.share()
