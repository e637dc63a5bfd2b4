"""Words on one line: cut in the middle where there is no room for all, and then whole in the tip."""

from __future__ import annotations

from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QPainter, QPaintEvent
from PySide6.QtWidgets import QLabel, QSizePolicy, QWidget


class OneLine(QLabel):
    """A label of one line; what it says is never wider than it is, and `text` is all of it."""

    def __init__(self, name: str = "plain", parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName(name)
        self.setTextFormat(Qt.TextFormat.PlainText)
        self.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Preferred)

    def setText(self, text: str) -> None:
        """Say something else."""
        super().setText(" ".join(text.split()))
        self.setToolTip(self.text())

    def minimumSizeHint(self) -> QSize:
        """Be content with little width."""
        return QSize(40, super().minimumSizeHint().height())

    @property
    def shown(self) -> str:
        """Return what there is room for: the beginning and the end of it."""
        return self.fontMetrics().elidedText(self.text(), Qt.TextElideMode.ElideMiddle, self.contentsRect().width())

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Paint the line."""
        painter = QPainter(self)
        painter.setPen(self.palette().color(self.foregroundRole()))
        painter.drawText(self.contentsRect(), int(self.alignment() | Qt.AlignmentFlag.AlignVCenter), self.shown)
        painter.end()
