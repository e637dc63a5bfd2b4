"""Wheels and trackpads on a timeline: zoom with Ctrl, across with Shift, in as small steps as the device gives."""

from __future__ import annotations

from math import copysign
from typing import TYPE_CHECKING

from PySide6.QtCore import QPointF, Qt
from PySide6.QtGui import QWheelEvent

from app.timeline.sight import STEP

if TYPE_CHECKING:
    from app.timeline.timeline import Timeline

NOTCH = 120.0
"""Turn of one notch of a wheel in eighths of a degree (Qt: QWheelEvent::angleDelta)."""
POINTS_A_NOTCH = 72.0
"""Points that one notch scrolls."""
PIXELS_A_STEP = 40.0
"""Pixels of a trackpad's stroke that zoom as much as one notch."""


class Wheel:
    """Zooms and scrolls by a wheel's steps or a trackpad's pixels; what is too little for a point is kept."""

    def __init__(self, timeline: Timeline) -> None:
        self._timeline = timeline
        self._left = QPointF()

    def turn(self, event: QWheelEvent) -> bool:
        """Zoom or scroll; always handled."""
        if event.modifiers() & Qt.KeyboardModifier.ControlModifier:
            self.zoom(event, event.position().x())
            return True
        by = self._points(event)
        if event.modifiers() & Qt.KeyboardModifier.ShiftModifier and not by.x():
            by = QPointF(by.y(), 0)
        if event.phase() == Qt.ScrollPhase.ScrollBegin:
            self._left = QPointF()
        self._scroll(by)
        return True

    def zoom(self, event: QWheelEvent, x: float | None) -> None:
        """Zoom by what the event turns; the minute at x stays, by default the middle one."""
        pixels, turn = event.pixelDelta(), event.angleDelta()
        far = (pixels.y() or pixels.x()) / PIXELS_A_STEP
        steps = far or (turn.y() or turn.x()) / NOTCH  # with Alt the platform turns it sideways
        if steps:
            self._timeline.sight.zoom(STEP**steps, x)

    def _points(self, event: QWheelEvent) -> QPointF:
        pixels, turn = event.pixelDelta(), event.angleDelta()
        if not pixels.isNull():
            return QPointF(pixels)
        return QPointF(turn) * (POINTS_A_NOTCH / NOTCH)

    def _scroll(self, by: QPointF) -> None:
        """Scroll whole points and keep the rest for the next time, dropped when the direction turns."""
        across, down = self._timeline.horizontalScrollBar(), self._timeline.verticalScrollBar()
        x, rest_x = _whole(by.x(), self._left.x())
        y, rest_y = _whole(by.y(), self._left.y())
        self._left = QPointF(rest_x, rest_y)
        if x:
            self._timeline.sight.moved_by_hand()
            across.setValue(across.value() - x)
        if y:
            down.setValue(down.value() - y)


def _whole(by: float, kept: float) -> tuple[int, float]:
    """Return the whole points of a movement with what was kept, and what is to be kept now."""
    if by * kept < 0:
        kept = 0.0
    whole = int(by + kept + copysign(1e-6, by))  # so many tenths may be a hair less than a whole
    return whole, by + kept - whole
