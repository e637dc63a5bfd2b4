"""Paints the sign of a food limit: a thermometer on a tile, filled where a limit is missed, hollow for a caution."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QIcon, QPainter, QPixmap

from app.look.colours import Palette
from app.timeline.bars import Bar
from app.timeline.food_colours import food_colour, on_food
from app.timeline.geometry import Box
from app.timeline.kit import Kit, pen
from app.timeline.scene import Scene

_TINY = 5.0
_SMALL = 16.0
TICK = 4.0
"""Height in points of what marks a food limit on a lane that shows a profile."""


def over_tile(painter: QPainter, kit: Kit, x: float, y: float, radius: float = 7.5) -> None:
    """Draw the sign of a missed limit around a point."""
    _tile(painter, kit.palette, x, y, radius, over=True)


def caution_tile(painter: QPainter, kit: Kit, x: float, y: float, radius: float = 7.5) -> None:
    """Draw the sign of a caution around a point."""
    _tile(painter, kit.palette, x, y, radius, over=False)


def food_icon(palette: Palette, over: bool, size: int = 20) -> QIcon:
    """Return the sign as an icon of a list or a line."""
    ratio = 2
    picture = QPixmap(size * ratio, size * ratio)
    picture.fill(Qt.GlobalColor.transparent)
    painter = QPainter(picture)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.scale(ratio, ratio)
    _tile(painter, palette, size / 2, size / 2, size / 2 - 1.5, over=over)
    painter.end()
    picture.setDevicePixelRatio(ratio)
    icon = QIcon(picture)
    icon.addPixmap(picture, QIcon.Mode.Selected)  # its own rim keeps it apart from what is chosen
    return icon


def sign(painter: QPainter, scene: Scene, kit: Kit, bar: Bar, box: Box, clashes: bool) -> None:
    """Paint the sign of a bar over its upper right corner, left of the clash's where it clashes too."""
    level = scene.food.level(bar)
    low, high = scene.gutter, scene.width
    if level is None or box.right < low or box.x > high:
        return
    if box.w < _TINY:
        part = min(box.h, 8.0)
        painter.fillRect(QRectF(box.x - 1, box.bottom - part, box.w + 2, part), QColor(food_colour(kit.palette)))
        return
    radius = 7.5 if box.w > _SMALL else 5.0
    aside = 2 * radius + 3 if clashes else 0.0
    centre = min(max(box.right - 2 - aside, low + 10), high - 10 - aside)
    kit.disc(painter, over_tile if level else caution_tile, centre, box.y + 4, radius)


def ticks(painter: QPainter, scene: Scene, kit: Kit, at: int, area: QRectF) -> None:
    """Mark food limits at the foot of a lane that shows a profile."""
    if not scene.food.all:
        return
    bottom = scene.y(scene.layout.row_top(at, scene.lanes[at].rows))
    colour = QColor(food_colour(kit.palette))
    for bar in scene.lanes[at].bars:
        level = scene.food.level(bar)
        if level is None:
            continue
        start = scene.x(bar.start)
        left, right = max(start, area.left()), min(max(scene.x(bar.end), start + 3), area.right())
        if right <= left:
            continue
        box = QRectF(left, bottom - TICK, right - left, TICK)
        if level:
            painter.fillRect(box, colour)
        else:
            painter.setPen(pen(colour, 1))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawRect(box)


def _tile(painter: QPainter, palette: Palette, x: float, y: float, radius: float, *, over: bool) -> None:
    colour, ground = QColor(food_colour(palette)), QColor(palette.lane)
    line = QColor(on_food(palette)) if over else colour
    painter.setPen(pen(ground if over else colour, 1.2 if over else 1.6))
    painter.setBrush(colour if over else ground)
    painter.drawRoundedRect(QRectF(x - radius, y - radius, 2 * radius, 2 * radius), radius * 0.35, radius * 0.35)
    bulb = radius * 0.34
    painter.setPen(pen(line, max(1.2, radius * 0.26)))
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.drawLine(QPointF(x, y - radius * 0.62), QPointF(x, y + radius * 0.2))
    painter.setPen(pen(line, 1))
    painter.setBrush(line if over else ground)
    painter.drawEllipse(QPointF(x, y + radius * 0.36), bulb, bulb)
    painter.setPen(pen(line, max(1.0, radius * 0.16)))
    for high in (0.55, 0.25):
        painter.drawLine(QPointF(x + radius * 0.22, y - radius * high), QPointF(x + radius * 0.5, y - radius * high))
