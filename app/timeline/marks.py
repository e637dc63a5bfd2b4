"""Small signs drawn as lines: the clash mark and its hatching, the pin, the plate, the drop, folds."""

from __future__ import annotations

from functools import lru_cache

from PySide6.QtCore import QLineF, QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPolygonF

from app.timeline.kit import Kit, pen


def clash_disc(painter: QPainter, kit: Kit, x: float, y: float, radius: float = 7.5) -> None:
    """Draw the clash mark: two arrowheads that run into each other on a disc."""
    painter.setPen(pen(kit.lane, 1.2))
    painter.setBrush(kit.clash)
    painter.drawEllipse(QPointF(x, y), radius, radius)
    painter.setPen(pen(kit.on_clash, 1.6))
    painter.setBrush(Qt.BrushStyle.NoBrush)
    r = radius * 0.5
    painter.drawPolyline(QPolygonF([QPointF(x - r - 1, y - r), QPointF(x - 1, y), QPointF(x - r - 1, y + r)]))
    painter.drawPolyline(QPolygonF([QPointF(x + r + 1, y - r), QPointF(x + 1, y), QPointF(x + r + 1, y + r)]))


def hatch(painter: QPainter, kit: Kit, where: QRectF) -> None:
    """Hatch a box with slanting lines in the clash colour, cut off at its sides."""
    height = where.height()
    if where.width() < 1 or height < 1:
        return
    if kit.ratio:
        kit.hatch(painter, where)
        return
    lines = []
    x = where.left() - height - where.left() % 7
    while x < where.right():
        low, high = max(x, where.left()), min(x + height, where.right())
        if high > low:
            lines.append(QLineF(low, where.bottom() - (low - x), high, where.bottom() - (high - x)))
        x += 7
    smooth = painter.testRenderHint(QPainter.RenderHint.Antialiasing)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing, True)
    painter.setPen(kit.hatch_pen)
    painter.drawLines(lines)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing, smooth)


def pin(painter: QPainter, colour: QColor, ground: QColor, x: float, y: float) -> None:
    """Draw a drawing pin whose point is at x, y."""
    painter.setPen(pen(colour, 1.5))
    painter.drawLine(QPointF(x, y), QPointF(x, y - 5))
    painter.setPen(pen(ground, 1))
    painter.setBrush(colour)
    painter.drawEllipse(QPointF(x, y - 7.5), 3.8, 3.8)


def place(painter: QPainter, colour: QColor, ground: QColor, x: float, y: float) -> None:
    """Draw a drawing pin with a hollow head: kept at its place or with its cook, not at its time."""
    painter.setPen(pen(colour, 1.5))
    painter.drawLine(QPointF(x, y), QPointF(x, y - 5))
    painter.setPen(pen(colour, 1.5))
    painter.setBrush(ground)
    painter.drawEllipse(QPointF(x, y - 7.5), 3.1, 3.1)


def fork(painter: QPainter, colour: QColor, x: float, y: float) -> None:
    """Draw the sign of a chosen way around a point: a path that parts, one arm of it thick."""
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.setPen(pen(colour, 1.0))
    painter.drawPolyline(QPolygonF([QPointF(x, y + 4.5), QPointF(x, y), QPointF(x + 4, y - 4.5)]))
    painter.setPen(pen(colour, 2.2))
    painter.drawPolyline(QPolygonF([QPointF(x, y + 4.5), QPointF(x, y), QPointF(x - 4, y - 4.5)]))


def gauge(painter: QPainter, colour: QColor, x: float, y: float) -> None:
    """Draw the sign of a length of its own around a point: a measure between two stops."""
    painter.setPen(pen(colour, 1.5))
    painter.drawLines(
        [
            QLineF(x - 4.5, y - 4, x - 4.5, y + 4),
            QLineF(x + 4.5, y - 4, x + 4.5, y + 4),
            QLineF(x - 4.5, y, x + 4.5, y),
        ]
    )


def turn(painter: QPainter, colour: QColor, x: float, y: float) -> None:
    """Draw the sign of an order around a point: one block, and an arrow on to the next."""
    painter.fillRect(QRectF(x - 5, y - 3, 4, 6), colour)
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.setPen(pen(colour, 1.5))
    painter.drawPolyline(QPolygonF([QPointF(x + 1, y - 3.5), QPointF(x + 4.5, y), QPointF(x + 1, y + 3.5)]))


def plate(painter: QPainter, kit: Kit, x: float, y: float, radius: float = 9.0) -> None:
    """Draw a plate of enamel: white with a blue rim."""
    painter.setPen(pen(kit.accent, 2.2))
    painter.setBrush(kit.lane)
    painter.drawEllipse(QPointF(x, y), radius, radius)
    painter.setPen(pen(kit.accent, 1.2))
    painter.drawEllipse(QPointF(x, y), radius * 0.58, radius * 0.58)


def drop(painter: QPainter, kit: Kit, x: float, y: float) -> None:
    """Draw a drop of water around a point, for washing up."""
    outline = [(0, -6), (2.6, -1), (3.4, 1.6), (2.4, 4), (0, 5), (-2.4, 4), (-3.4, 1.6), (-2.6, -1)]
    painter.setRenderHint(QPainter.RenderHint.Antialiasing, True)
    painter.setPen(pen(kit.ink, 1.1))
    painter.setBrush(kit.lane)
    painter.drawPolygon(QPolygonF([QPointF(x + across, y + down) for across, down in outline]))
    painter.setRenderHint(QPainter.RenderHint.Antialiasing, False)


def crease(painter: QPainter, kit: Kit, x: float, top: float, bottom: float) -> None:
    """Draw the crease of a folded stretch from top to bottom."""
    points = []
    y, side = top, 1.0
    while y < bottom + 6:
        points.append(QPointF(x + 2.0 * side, y))
        side = -side
        y += 6
    painter.setPen(pen(kit.line, 1.2))
    painter.drawPolyline(QPolygonF(points))


def tape(box: QRectF) -> QPolygonF:
    """Return the outline of a strip of kitchen tape: square at the left, cut with a saw edge at the right."""
    return _tape(box.width(), box.height()).translated(box.left(), box.top())


@lru_cache(maxsize=2048)
def _tape(width: float, height: float) -> QPolygonF:
    count = max(2, round(height / 6))
    tooth = height / count
    points = [QPointF(0, height), QPointF(0, 0)]
    for number in range(count):
        points.append(QPointF(width, number * tooth))
        points.append(QPointF(width - 3, (number + 0.5) * tooth))
    points.append(QPointF(width, height))
    return QPolygonF(points)
