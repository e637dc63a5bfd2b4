"""Pictures of what cooks: an oven with its racks, rings, a grate with its places, a smoker."""

from __future__ import annotations

from math import ceil, cos, pi, sin, sqrt

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QPainterPath

from app.places.kitchen.pencil import MOST_DRAWN, Pencil, count_words
from core.plan.kitchen import Station


def draw_oven(pencil: Pencil, box: QRectF, station: Station) -> None:
    """Draw a body with a panel of knobs and, behind the window, the racks; a fan in its back wall."""
    colours, painter = pencil.colours, pencil.painter
    pencil.body(box)
    pencil.fill(colours.ink)
    for at in (0.18, 0.34, 0.5):
        painter.drawEllipse(QPointF(box.left() + at * box.width(), box.top() + 12), 4, 4)
    if words := count_words(station.units):
        pencil.words(
            QRectF(box.center().x(), box.top() + 2, box.width() / 2 - 8, 20),
            words,
            Qt.AlignmentFlag.AlignRight,
        )
    window = box.adjusted(9, 24, -9, -9)
    pencil.body(window, colours.heat_fill if station.heater is not None else colours.lane, 2)
    if station.fan:
        _fan(pencil, window.center(), min(window.height() * 0.34, 26))
    racks(pencil, window, station.units)


def racks(pencil: Pencil, inside: QRectF, units: int) -> None:
    """Draw so many wire racks, each a rail from wall to wall with its wires."""
    drawn = max(1, min(units, MOST_DRAWN))
    step = inside.height() / (drawn + 1)
    for rack in range(1, drawn + 1):
        y = round(inside.top() + step * rack) + 0.5
        pencil.pen(pencil.colours.heat, 3)
        pencil.line(inside.left() + 5, y, inside.right() - 5, y)
        if step > 12:
            pencil.pen(pencil.colours.heat, 1.2)
            for wire in range(1, 12):
                x = inside.left() + inside.width() * wire / 12
                pencil.line(x, y, x, y + 5)


def _fan(pencil: Pencil, middle: QPointF, radius: float) -> None:
    painter, colours = pencil.painter, pencil.colours
    pencil.pen(colours.ink, 1.4)
    painter.drawEllipse(middle, radius, radius)
    pencil.fill(colours.rail)
    for blade in range(4):
        painter.save()
        painter.translate(middle)
        painter.rotate(22 + 90 * blade)
        painter.drawEllipse(QPointF(radius * 0.48, -radius * 0.12), radius * 0.38, radius * 0.17)
        painter.restore()


def draw_rings(pencil: Pencil, box: QRectF, station: Station) -> None:
    """Draw a plate with a ring for each unit, with the arms that carry the pot."""
    pencil.body(box)
    rings = max(1, min(station.units, MOST_DRAWN))
    across = 1 if rings == 1 else 2 if rings <= 4 else 3 if rings <= 6 else 4
    down = ceil(rings / across)
    wide, high = box.width() / across, box.height() / down
    radius = min(wide, high) / 2 - 8
    for ring in range(rings):
        middle = QPointF(box.left() + wide * (ring % across + 0.5), box.top() + high * (ring // across + 0.5))
        _ring(pencil, middle, radius)
    if words := count_words(station.units):
        pencil.label(box, words)


def _ring(pencil: Pencil, middle: QPointF, radius: float) -> None:
    painter, colours = pencil.painter, pencil.colours
    pencil.pen(colours.ink, 1.6)
    painter.drawEllipse(middle, radius, radius)
    for arm in range(4):
        turn = pi / 4 + arm * pi / 2
        near, far = radius * 0.32, radius * 1.08
        pencil.line(
            middle.x() + near * cos(turn), middle.y() + near * sin(turn),
            middle.x() + far * cos(turn), middle.y() + far * sin(turn),
        )  # fmt: skip
    pencil.pen(colours.heat, max(2.5, radius * 0.1))
    painter.drawEllipse(middle, radius * 0.6, radius * 0.6)


def draw_grate(pencil: Pencil, box: QRectF, station: Station) -> None:
    """Draw a round bowl, or a trough where its two sides are told to differ, with bars and a mark for each place."""
    colours, painter = pencil.colours, pencil.painter
    trough = station.wide != station.deep
    bowl = box.adjusted(0, 14, 0, -14) if trough else _square(box)
    path = QPainterPath()
    if trough:
        path.addRoundedRect(bowl, 8, 8)
    else:
        path.addEllipse(bowl)
    pencil.fill(colours.heat_fill)
    painter.drawPath(path)
    painter.save()
    painter.setClipPath(path)
    pencil.pen(colours.rail, 1.2)
    bars = max(8, round(bowl.width() / 12))
    for bar in range(1, bars):
        x = bowl.left() + bowl.width() * bar / bars
        pencil.line(x, bowl.top(), x, bowl.bottom())
    painter.restore()
    pencil.pen(colours.ink, 2.4)
    painter.drawPath(path)
    inner = bowl.adjusted(10, 10, -10, -10) if trough else _shrunk(bowl, 0.76)
    _places(pencil, inner, station.units)
    if words := count_words(station.units):
        pencil.label(bowl, words)


def _places(pencil: Pencil, inner: QRectF, units: int) -> None:
    """Mark so many places, spread over a grate."""
    drawn = max(1, min(units, MOST_DRAWN))
    across = max(1, min(drawn, ceil(sqrt(drawn * inner.width() / inner.height()))))
    down = ceil(drawn / across)
    wide, high = inner.width() / across, inner.height() / down
    mark = QRectF(0, 0, min(wide - 5, 26), min(high - 5, 16))
    pencil.fill(pencil.colours.heat)
    for at in range(drawn):
        row = at // across
        in_row = min(across, drawn - row * across)
        x = inner.center().x() + (at % across - (in_row - 1) / 2) * wide
        mark.moveCenter(QPointF(x, inner.top() + (row + 0.5) * high))
        pencil.painter.drawRoundedRect(mark, 4, 4)


def draw_smoker(pencil: Pencil, box: QRectF, station: Station) -> None:
    """Draw a tall box with a chimney, smoke above it, racks inside and the fire below."""
    colours, painter = pencil.colours, pencil.painter
    tall = QRectF(box.center().x() - 46, box.top() + 20, 92, box.height() - 20)
    pencil.pen(colours.rail, 1.8)
    for at in (0, 12):
        path = QPainterPath(QPointF(tall.right() - 26 + at, tall.top() - 3))
        path.cubicTo(
            QPointF(tall.right() - 34 + at, tall.top() - 8),
            QPointF(tall.right() - 18 + at, tall.top() - 12),
            QPointF(tall.right() - 26 + at, tall.top() - 18),
        )
        painter.drawPath(path)
    pencil.body(tall)
    fire = QRectF(tall.left() + 7, tall.bottom() - 18, tall.width() - 14, 12)
    inside = QRectF(tall.left() + 7, tall.top() + 7, tall.width() - 14, tall.height() - 30)
    pencil.body(inside, colours.heat_fill, 2)
    racks(pencil, inside, station.units)
    pencil.fill(colours.heat)
    for at in range(5):
        painter.drawEllipse(QPointF(fire.left() + fire.width() * (at + 0.5) / 5, fire.center().y()), 5, 4)
    if words := count_words(station.units):
        pencil.label(inside, words)


def _square(box: QRectF) -> QRectF:
    side = min(box.width(), box.height())
    square = QRectF(0, 0, side, side)
    square.moveCenter(box.center())
    return square


def _shrunk(box: QRectF, by: float) -> QRectF:
    inner = QRectF(0, 0, box.width() * by, box.height() * by)
    inner.moveCenter(box.center())
    return inner
