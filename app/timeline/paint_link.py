"""Paints the links of the chosen step as thin curves with round ends, and a knob from which a new one is drawn."""

from __future__ import annotations

from PySide6.QtCore import QPointF, Qt
from PySide6.QtGui import QPainter, QPainterPath

from app.timeline.drag_link import END, KNOB, curves_of, knob_of
from app.timeline.kit import Kit, pen
from app.timeline.scene import Scene


def links(painter: QPainter, scene: Scene, kit: Kit) -> None:
    """Draw a curve from the chosen step to each that it is linked to, where both are on the picture."""
    if scene.selected is None or scene.selected not in scene.plan.steps:
        return
    painter.setRenderHint(QPainter.RenderHint.Antialiasing, True)
    for each in curves_of(scene):
        painter.setPen(pen(kit.accent, 1.4))
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.drawPath(curve(QPointF(*each.start), QPointF(*each.end)))
        near, far = (each.start, each.end) if each.far_is_after else (each.end, each.start)
        painter.setPen(pen(kit.lane, 1.5))
        painter.setBrush(kit.accent)
        painter.drawEllipse(QPointF(*near), 2.5, 2.5)
        painter.drawEllipse(QPointF(*far), END, END)
    knob = knob_of(scene)
    if knob is not None:
        painter.setPen(pen(kit.accent, 1.6))
        painter.setBrush(kit.lane)
        painter.drawEllipse(QPointF(*knob), KNOB, KNOB)
        painter.drawLine(QPointF(knob[0] - 3, knob[1]), QPointF(knob[0] + 3, knob[1]))
        painter.drawLine(QPointF(knob[0], knob[1] - 3), QPointF(knob[0], knob[1] + 3))
    painter.setRenderHint(QPainter.RenderHint.Antialiasing, False)


def curve(start: QPointF, end: QPointF) -> QPainterPath:
    """Return a curve that leaves to the right and comes in from the left."""
    path = QPainterPath(start)
    bend = max(18.0, min(90.0, abs(end.x() - start.x()) / 2))
    path.cubicTo(start + QPointF(bend, 0), end - QPointF(bend, 0), end)
    return path
