"""Paints lanes folded to a line, the sign that folds them, walks between places, and vessels that stand unwashed."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QPainter, QPolygonF

from app.timeline.bars import Bar, BarKind
from app.timeline.kit import Kit, pen
from app.timeline.scene import Scene, concerns
from core.timetable.clash import Clash

NAME = 18.0
"""Points from the left edge at which a lane's sign or name begins, right of the chevron."""
KINDS = frozenset({BarKind.WALK, BarKind.UNWASHED})
_FOLD = 3.5
"""Half the width of a chevron in points."""
_LEAST = 3.0
"""Points across that a clash takes in a line at least."""
_STEP = 5.0
"""Points from one footfall of a walk to the next."""


def line(painter: QPainter, scene: Scene, kit: Kit, at: int, area: QRectF) -> None:
    """Paint a folded lane: bars as strokes in their dishes' tones, clashes as red marks over the whole height."""
    lane = scene.lanes[at]
    shown = scene.layout.between(at, scene.time(area.left() - 8), scene.time(area.right() + 8))
    strip = scene.lane_box(at)
    for bar in shown:
        box = scene.box(at, bar)
        left, right = max(box.x, scene.gutter), min(box.right, scene.width)
        if right <= left:
            continue
        stroke = QRectF(left, box.y, max(right - left, 1.0), box.h)
        if bar.kind in (BarKind.HEATING, BarKind.LIGHTING, BarKind.FIRE):
            painter.fillRect(stroke, kit.heat_fill if bar.kind is BarKind.HEATING else kit.heat)
        elif bar.kind is BarKind.CHORE or bar.kind in KINDS:
            painter.fillRect(stroke, kit.rail)
        else:
            painter.fillRect(stroke, kit.tone(bar.tone).full)
    for bar in shown:
        for clash in scene.index.near(bar, lane):
            if concerns(clash, bar, lane):
                _red(painter, scene, kit, clash, QRectF(strip.x, strip.y, strip.w, strip.h))
    for bar in shown:
        if bar is scene.focus or (bar.step is not None and bar.step == scene.selected):
            box = scene.box(at, bar)
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.setPen(kit.accent_pen)
            painter.drawRect(QRectF(box.x - 2, strip.y - 1, box.w + 4, strip.h + 2))


def chevron(painter: QPainter, scene: Scene, kit: Kit, at: int) -> None:
    """Paint the sign at the left of a lane's name: it points down at an open lane, right along a line."""
    if scene.still:
        return
    lane, top, height = scene.lanes[at], scene.y(scene.layout.tops[at]), scene.layout.heights[at]
    x, y = 4.0 + _FOLD, top + height / 2 if lane.line else top + min(height, scene.layout.row + 2) / 2 + 1
    r = _FOLD
    if lane.line:
        corners = [QPointF(x - r / 2, y - r), QPointF(x + r / 2, y), QPointF(x - r / 2, y + r)]
    else:
        corners = [QPointF(x - r, y - r / 2), QPointF(x, y + r / 2), QPointF(x + r, y - r / 2)]
    painter.setRenderHint(QPainter.RenderHint.Antialiasing, True)
    painter.setPen(pen(kit.faint, 1.4))
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.drawPolyline(QPolygonF(corners))
    painter.setRenderHint(QPainter.RenderHint.Antialiasing, False)


def title(painter: QPainter, scene: Scene, kit: Kit, at: int) -> None:
    """Write the name of a folded lane small, in one line, with the code of its dish."""
    lane, top, height = scene.lanes[at], scene.y(scene.layout.tops[at]), scene.layout.heights[at]
    tall = kit.metrics(kit.small_face).height()
    where = QRectF(NAME, top + (height - tall) / 2, scene.gutter - NAME - 6, tall)
    says = f"{lane.code} {lane.name}" if lane.code else lane.name
    short = kit.shortened(says, kit.small_face, where.width()) or lane.code
    kit.write(painter, where, short, kit.small_face, kit.faint)


def strip(painter: QPainter, kit: Kit, bar: Bar, box: QRectF) -> None:
    """Paint a walk as footfalls along the middle, an unwashed vessel as an empty box with a dotted edge."""
    if bar.kind is BarKind.UNWASHED:
        dotted = pen(kit.faint, 1)
        dotted.setDashPattern([1, 3])
        painter.setPen(dotted)
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.drawRect(box)
        return
    middle, x, side = box.center().y(), box.left() + 1, -1.0
    while x < box.right():
        painter.fillRect(QRectF(x, round(middle + side * 2) - 1, min(3.0, max(box.right() - x, 1.0)), 2), kit.faint)
        x += _STEP
        side = -side


def _red(painter: QPainter, scene: Scene, kit: Kit, clash: Clash, strip: QRectF) -> None:
    left, right = scene.x(clash.start), scene.x(max(clash.end, clash.start))
    if right - left < _LEAST:
        left, right = (left + right - _LEAST) / 2, (left + right + _LEAST) / 2
    left, right = max(left, scene.gutter), min(right, scene.width)
    if right > left:
        painter.fillRect(QRectF(left, strip.top(), right - left, 2), kit.clash)
        painter.fillRect(QRectF(left, strip.bottom() - 2, right - left, 2), kit.clash)
        painter.fillRect(QRectF(left, strip.top(), 2, strip.height()), kit.clash)
        painter.fillRect(QRectF(right - 2, strip.top(), 2, strip.height()), kit.clash)
