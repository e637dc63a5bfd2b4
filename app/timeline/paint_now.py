"""Paints the present moment: a dashed line through the lanes, with the time of the clock on the ruler."""

from __future__ import annotations

from PySide6.QtCore import QRectF
from PySide6.QtGui import QPainter

from app.look.words import clock_text
from app.timeline.kit import Kit
from app.timeline.scene import Scene

DASH, GAP = 6, 4
"""Points of a dash of the line and between two."""


def across(scene: Scene, minute: int) -> tuple[int, int]:
    """Return from where to where across the widget the line of a minute paints."""
    x = round(scene.x(minute))
    return x - 2, x + 2


def line(painter: QPainter, scene: Scene, kit: Kit, area: QRectF) -> None:
    """Paint the line through what is in sight of the lanes; dashes keep their places when lanes scroll."""
    if scene.now is None:
        return
    left, right = across(scene, scene.now)
    if right < area.left() or left > area.right():
        return
    x = (left + right) // 2
    top, bottom = area.top(), min(area.bottom(), scene.y(scene.layout.height) + 6)
    y = scene.y(0) + ((top - scene.y(0)) // (DASH + GAP)) * (DASH + GAP)
    while y < bottom:
        first, last = max(y, top), min(y + DASH, bottom)
        if last > first:
            painter.fillRect(QRectF(x - 1, first, 2, last - first), kit.ink)
        y += DASH + GAP


def chip_box(scene: Scene, kit: Kit) -> QRectF | None:
    """Return where the time stands on the ruler's row of the clock; None where the moment is out of sight."""
    if scene.now is None:
        return None
    x = round(scene.x(scene.now))
    if not scene.gutter <= x <= scene.width:
        return None
    width = kit.width(clock_text(scene.plan.wall(scene.now)), kit.small_bold) + 10
    row = scene.ruler / 3
    left = max(scene.gutter + 1, min(x - width / 2, scene.width - width - 1))
    return QRectF(round(left), round(row) + 1, width, round(row) - 2)


def chip(painter: QPainter, scene: Scene, kit: Kit) -> None:
    """Write the time of the clock where the line meets the ruler."""
    box = chip_box(scene, kit)
    if box is None or scene.now is None:
        return
    x = round(scene.x(scene.now))
    painter.fillRect(QRectF(x - 1, box.bottom(), 2, scene.ruler - box.bottom()), kit.ink)
    painter.fillRect(box, kit.ink)
    text = clock_text(scene.plan.wall(scene.now))
    kit.write(painter, box, text, kit.small_bold, kit.lane, centre=True)
