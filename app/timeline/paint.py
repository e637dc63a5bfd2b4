"""Paints the whole timeline in order, or only what an area shows."""

from __future__ import annotations

from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QPainter

from app.look.words import word
from app.timeline import (
    paint_bars,
    paint_gesture,
    paint_held,
    paint_lanes,
    paint_link,
    paint_moves,
    paint_now,
    paint_ruler,
)
from app.timeline.kit import Kit
from app.timeline.scene import Scene


def paint(painter: QPainter, scene: Scene, kit: Kit, area: QRectF) -> None:
    """Paint what lies inside an area of the widget; a bar that is held floats above it (paint_over)."""
    inside = _lanes_area(scene).intersected(area)
    if not inside.isEmpty():
        painter.setClipRect(inside)
        _field(painter, scene, kit, inside)
        painter.setClipping(False)
    if area.top() < scene.ruler:
        paint_ruler.ruler(painter, scene, kit)
    if area.left() < scene.gutter:
        paint_ruler.gutter(painter, scene, kit, area)
        if area.top() < scene.ruler:
            paint_ruler.corner(painter, scene, kit)


def paint_over(painter: QPainter, scene: Scene, kit: Kit, area: QRectF) -> None:
    """Paint the bar or whatever else is held, and what goes with it, inside an area."""
    if scene.gesture is not None:
        painter.setClipRect(area)
        paint_gesture.gesture(painter, scene, kit)
        painter.setClipping(False)
    if scene.held is None:
        return
    inside = _lanes_area(scene).intersected(area)
    if not inside.isEmpty():
        painter.setClipRect(inside)
        paint_held.legal(painter, scene, kit)
        paint_held.held(painter, scene, kit)
        painter.setClipping(False)
    if area.top() < scene.ruler:
        paint_held.ruler_marks(painter, scene, kit)


def _lanes_area(scene: Scene) -> QRectF:
    return QRectF(scene.gutter, scene.ruler, scene.width - scene.gutter, scene.height - scene.ruler)


def _field(painter: QPainter, scene: Scene, kit: Kit, area: QRectF) -> None:
    paint_lanes.ground(painter, scene, kit, area)
    if not scene.timetable.placed:
        kit.write(painter, area, word("empty"), kit.text_face, kit.faint, centre=True)
        return
    shown = scene.lanes_between(area.top() - 12, area.bottom() + 12)
    paint_lanes.folds(painter, scene, kit)
    for at in shown:
        paint_lanes.furniture(painter, scene, kit, at, area)
        paint_lanes.shade_words(painter, scene, kit, at)
    paint_lanes.plating_lines(painter, scene, kit, area)
    paint_now.line(painter, scene, kit, area)
    for at in shown:
        paint_bars.bars(painter, scene, kit, at, area)
    if scene.held is None:
        paint_link.links(painter, scene, kit)
        paint_moves.moves(painter, scene, kit, area)
    paint_lanes.night_words(painter, scene, kit)
    painter.setBrush(Qt.BrushStyle.NoBrush)
