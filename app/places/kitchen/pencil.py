"""What the pictures of stations are drawn with: outlines in ink, what holds food in the colour of heat or of enamel."""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPen

from app.look.colours import Palette
from app.look.words import figure

MOST_DRAWN = 12
"""Places that can still be told apart in a small picture; of more, so many are drawn and all are counted."""


@dataclass(frozen=True, slots=True)
class Pencil:
    """A painter and the colours of the moment."""

    painter: QPainter
    colours: Palette

    def pen(self, colour: str, width: float = 2.0) -> None:
        """Draw lines of a colour from now on, with round ends, and fill nothing."""
        pen = QPen(QColor(colour), width)
        pen.setCapStyle(Qt.PenCapStyle.RoundCap)
        self.painter.setPen(pen)
        self.painter.setBrush(Qt.BrushStyle.NoBrush)

    def fill(self, colour: str) -> None:
        """Fill shapes with a colour, with no line around."""
        self.painter.setPen(Qt.PenStyle.NoPen)
        self.painter.setBrush(QColor(colour))

    def body(self, box: QRectF, inside: str = "", round_by: float = 5) -> None:
        """Draw a body with its outline in ink."""
        self.pen(self.colours.ink)
        self.painter.setBrush(QColor(inside or self.colours.panel))
        self.painter.drawRoundedRect(box, round_by, round_by)

    def line(self, x1: float, y1: float, x2: float, y2: float) -> None:
        """Draw a line."""
        self.painter.drawLine(QPointF(x1, y1), QPointF(x2, y2))

    def words(self, box: QRectF, text: str, where: Qt.AlignmentFlag = Qt.AlignmentFlag.AlignCenter) -> None:
        """Write into a box, in ink; too long words are cut with an ellipsis."""
        self.painter.setPen(QColor(self.colours.ink))
        cut = self.painter.fontMetrics().elidedText(text, Qt.TextElideMode.ElideRight, int(box.width()))
        self.painter.drawText(box, where, cut)

    def label(self, box: QRectF, text: str) -> None:
        """Write on a patch of paper in the middle of a box, so that it is read on whatever lies behind."""
        metrics = self.painter.fontMetrics()
        patch = QRectF(0, 0, metrics.horizontalAdvance(text) + 10, metrics.height() + 2)
        patch.moveCenter(box.center())
        self.fill(self.colours.lane)
        self.painter.drawRoundedRect(patch, 3, 3)
        self.words(patch, text)

    @property
    def line_height(self) -> int:
        """Return the height of a line of words in pixels."""
        return self.painter.fontMetrics().height()


def count_words(units: int) -> str:
    """Return how many there are where not all can be drawn, else nothing."""
    return f"× {figure(units)}" if units > MOST_DRAWN else ""
