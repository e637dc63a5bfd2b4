"""Paints what lies beside the steps: heating up, fires being lit and burning, and cooks' chores."""

from __future__ import annotations

from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QPainter

from app.timeline import lane_paint, marks
from app.timeline.bars import Bar, BarKind
from app.timeline.kit import Kit, pen
from app.timeline.scene import Scene

DROP = 9.0
"""Points that the sign for washing takes of a bar."""
KINDS = frozenset(set(BarKind) - {BarKind.STEP, BarKind.HAND, BarKind.STAY, BarKind.VESSEL})
"""The kinds of bars that belong to no dish and so have no tone of one."""


def strip(painter: QPainter, kit: Kit, bar: Bar, box: QRectF) -> None:
    """Paint a bar: dashed while it heats up or is being lit, filled while a fire burns, plain for a chore."""
    painter.setBrush(Qt.BrushStyle.NoBrush)
    if bar.kind in lane_paint.KINDS:
        lane_paint.strip(painter, kit, bar, box)
        return
    if bar.kind is BarKind.CHORE:
        painter.setPen(kit.heat_pen if bar.station is not None else pen(kit.faint, 1))
        painter.setBrush(kit.heat_fill if bar.station is not None else kit.panel)
    elif bar.kind is BarKind.FIRE:
        painter.fillRect(box, kit.heat_fill)
        painter.fillRect(QRectF(box.left(), box.bottom() - 1, box.width(), 2), kit.heat)
        painter.fillRect(QRectF(box.left(), box.top(), 2, box.height()), kit.heat)
        painter.fillRect(QRectF(box.right() - 2, box.top(), 2, box.height()), kit.heat)
        return
    else:
        kit.dashed(painter, box, kit.heat, 3, 2)
        return
    painter.drawRect(box)
    if bar.vessel is not None and box.width() > DROP + 1:
        marks.drop(painter, kit, min(box.center().x(), box.left() + DROP), box.center().y())


def glow(painter: QPainter, scene: Scene, kit: Kit, at: int) -> None:
    """Tint the rows of a lane while a fire burns there, up to the line at which it is out."""
    lane = scene.lanes[at]
    if lane.station is None or not lane.station.is_fire:
        return
    top, bottom = scene.y(scene.layout.row_top(at, 0)), scene.y(scene.layout.row_top(at, lane.rows))
    fires = [bar for bar in lane.bars if bar.kind is BarKind.FIRE]
    for bar in fires:
        left, right = max(scene.x(bar.start), scene.gutter), min(scene.x(bar.end), scene.width)
        if right > left:
            painter.fillRect(QRectF(left, top, right - left, bottom - top), kit.heat_fill)
    for bar in fires:
        out = round(scene.x(bar.end))
        if scene.gutter < out < scene.width:
            painter.fillRect(QRectF(out - 1, top, 1, bottom - top), kit.heat)
