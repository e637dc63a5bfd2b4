"""Paints the small signs of what was decided about a bar: pinned, kept at its place, way, length, order."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QPointF, Qt
from PySide6.QtGui import QColor, QPainter

from app.timeline import marks
from app.timeline.bar_facts import Sign, signs_of
from app.timeline.bars import Bar
from app.timeline.geometry import Box
from app.timeline.kit import Kit
from app.timeline.scene import Scene

PITCH = 14.0
"""Points that one sign takes across at the usual text size; they stand left of the bar's text, on its strip."""
_USUAL_ROW = 27.0
_PINS = frozenset({Sign.PIN, Sign.PLACE})

_DRAWN: dict[Sign, Callable[[QPainter, QColor, float, float], None]] = {
    Sign.WAY: marks.fork,
    Sign.LENGTH: marks.gauge,
    Sign.ORDER: marks.turn,
}


def on_strip(scene: Scene, bar: Bar) -> tuple[Sign, ...]:
    """Return the signs that stand on the strip; pins stick in its upper corner."""
    return tuple(sign for sign in signs_of(scene, bar) if sign not in _PINS)


def share_of(kit: Kit) -> float:
    """Return how much larger than usual signs are drawn, as the text is."""
    return max(1.0, kit.row / _USUAL_ROW)


def room_for(scene: Scene, kit: Kit, bar: Bar, width: float, tab: float) -> float:
    """Return the points that signs take between the tab and the text of a bar that shows so many points."""
    room = len(on_strip(scene, bar)) * PITCH * share_of(kit)
    return room if room and width >= tab + room + 4 else 0.0


def paint_signs(painter: QPainter, scene: Scene, kit: Kit, bar: Bar, box: Box, tab: float) -> None:
    """Paint all signs of a bar; where its strip is too short for them a dot says that something was decided."""
    found = signs_of(scene, bar)
    left, right = max(box.x, scene.gutter), min(box.right, scene.width)
    if not found or right < scene.gutter or left > scene.width:
        return
    painter.setRenderHint(QPainter.RenderHint.Antialiasing, True)
    share, standing = share_of(kit), on_strip(scene, bar)
    if standing and room_for(scene, kit, bar, right - left, tab):
        tone = kit.tone(bar.tone)
        x = max(left, box.x + tab) + PITCH * share / 2 + 2
        for sign in standing:
            _put(painter, share, x, box.y + box.h / 2, _DRAWN[sign], tone.on_full if bar.full else tone.on_soft)
            x += PITCH * share
    elif standing:
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(kit.ink)
        painter.drawEllipse(QPointF(left + 2, box.bottom - 2), 3 * share, 3 * share)
    for sign, draw in ((Sign.PIN, marks.pin), (Sign.PLACE, marks.place)):
        if sign in found:
            _put(painter, share, left + 4 * share, box.y + 8 * share, _on(draw, kit.lane), kit.ink)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing, False)


_Drawing = Callable[[QPainter, QColor, float, float], None]


def _put(painter: QPainter, share: float, x: float, y: float, draw: _Drawing, colour: QColor) -> None:
    """Draw a sign larger by a share around a point."""
    painter.save()
    painter.translate(x, y)
    painter.scale(share, share)
    draw(painter, colour, 0.0, 0.0)
    painter.restore()


def _on(draw: Callable[[QPainter, QColor, QColor, float, float], None], ground: QColor) -> _Drawing:
    return lambda painter, colour, x, y: draw(painter, colour, ground, x, y)
