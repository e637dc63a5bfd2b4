"""Paints the picture of moves: old places as pale outlines, thin arrows to the new ones, new bars ringed."""

from __future__ import annotations

from math import atan2, cos, pi, sin

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPolygonF

from app.timeline.bars import Bar
from app.timeline.geometry import Box
from app.timeline.kit import Kit, pen
from app.timeline.moves import MOST_ARROWS, Ghost, arrow
from app.timeline.scene import Scene

_HEAD = 6.5
"""Points of an arrow's head."""


def moves(painter: QPainter, scene: Scene, kit: Kit, area: QRectF) -> None:
    """Paint what of the moves touches an area, above the bars; nothing where nothing is compared."""
    if scene.compared is None:
        return
    seen = _seen(scene, area)
    arrows = []
    for ghost, old, new in seen:
        way = None if old is None or new is None else arrow(old, new)
        if way is not None:
            arrows.append(way)
        if old is not None and (way is not None or new is None):  # what hardly moved is told by the list
            _outline(painter, kit, ghost, old)
    arrows.sort(key=lambda way: -abs(way[2] - way[0]) - abs(way[3] - way[1]))
    painter.setRenderHint(QPainter.RenderHint.Antialiasing, True)
    for way in arrows[:MOST_ARROWS]:
        _arrow(painter, kit, way)
    for ghost, old, new in seen:
        if ghost.bar is None and new is not None:
            _ring(painter, kit, new)
        elif ghost.to is None and old is not None:
            _crossed(painter, kit, old)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing, False)


def _seen(scene: Scene, area: QRectF) -> list[tuple[Ghost, Box | None, Box | None]]:
    found = []
    assert scene.compared is not None
    for ghost in scene.compared.ghosts(scene):
        old, new = _box(scene, ghost.lane, ghost.bar), _box(scene, ghost.to_lane, ghost.to)
        there = [each for each in (old, new) if each is not None]
        left, right = min(each.x for each in there), max(each.right for each in there)
        top, bottom = min(each.y for each in there), max(each.bottom for each in there)
        if right >= area.left() and left <= area.right() and bottom >= area.top() and top <= area.bottom():
            found.append((ghost, old, new))
    return found


def _box(scene: Scene, lane: int, bar: Bar | None) -> Box | None:
    return None if bar is None or not 0 <= lane < len(scene.lanes) else scene.box(lane, bar)


def _outline(painter: QPainter, kit: Kit, ghost: Ghost, box: Box) -> None:
    tone = kit.tone(ghost.bar.tone if ghost.bar is not None else 0)
    where = QRectF(box.x + 0.5, box.y + 1.5, max(2.0, box.w - 1), max(2.0, box.h - 3))
    edge = QColor(tone.edge)
    edge.setAlphaF(0.8)
    painter.setPen(pen(edge, 1.2, Qt.PenStyle.DashLine))
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.drawRect(where)


def _arrow(painter: QPainter, kit: Kit, way: tuple[float, float, float, float]) -> None:
    x, y, to_x, to_y = way
    start, end = QPointF(x, y), QPointF(to_x, to_y)
    turn = atan2(to_y - y, to_x - x)
    sides = [end - QPointF(_HEAD * cos(turn + each), _HEAD * sin(turn + each)) for each in (-pi / 7, pi / 7)]
    for colour, width in ((kit.lane, 3.4), (kit.ink, 1.2)):  # a rim first, so that it is seen on every bar
        painter.setPen(pen(colour, width))
        painter.setBrush(colour)
        painter.drawLine(start, end)
        painter.drawPolygon(QPolygonF([end, *sides]))
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(kit.ink)
    painter.drawEllipse(start, 2.0, 2.0)


def _ring(painter: QPainter, kit: Kit, box: Box) -> None:
    painter.setPen(kit.accent_pen)
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.drawRoundedRect(QRectF(box.x - 1.5, box.y - 1.5, box.w + 3, box.h + 3), 3, 3)


def _crossed(painter: QPainter, kit: Kit, box: Box) -> None:
    """Strike out the place of what is gone."""
    painter.setPen(pen(kit.faint, 1.2))
    painter.drawLine(QPointF(box.x, box.bottom - 2), QPointF(box.right, box.y + 2))
