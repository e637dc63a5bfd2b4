"""Paints the whole timeline in order, or only what an area shows."""

from __future__ import annotations

from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QPainter

from app.look.words import word
from app.timeline import paint_bars, paint_held, paint_lanes, paint_ruler
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
        paint_ruler.gutter(painter, scene, kit)
        paint_ruler.corner(painter, scene, kit)


def paint_over(painter: QPainter, scene: Scene, kit: Kit, area: QRectF) -> None:
    """Paint the bar that is held, and what goes with it, inside an area."""
    if scene.held is None:
        return
    inside = _lanes_area(scene).intersected(area)
    if not inside.isEmpty():
        painter.setClipRect(inside)
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
    clashes = {str(step): found for step, found in scene.marks(scene.clashes).items()}
    shown = []
    for at in range(len(scene.lanes)):
        box = scene.lane_box(at)
        if box.bottom >= area.top() - 12 and box.y <= area.bottom() + 12:
            shown.append(at)
    paint_lanes.folds(painter, scene, kit)
    if scene.held is not None:
        paint_held.legal(painter, scene, kit)
    for at in shown:
        paint_lanes.furniture(painter, scene, kit, at, area)
        paint_lanes.shade_words(painter, scene, kit, at)
    paint_lanes.plating_lines(painter, scene, kit, area)
    for at in shown:
        paint_bars.bars(painter, scene, kit, at, area, clashes)
    if scene.held is None:
        paint_bars.links(painter, scene, kit)
    paint_lanes.night_words(painter, scene, kit)
    painter.setBrush(Qt.BrushStyle.NoBrush)
