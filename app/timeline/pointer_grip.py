"""What every gesture of the pointer can: follow it, drop, let go. And the bookkeeping of what to repaint."""

from __future__ import annotations

from typing import TYPE_CHECKING, Protocol

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QRegion

if TYPE_CHECKING:
    from app.timeline.drag_gesture import Gesture
    from app.timeline.timeline import Timeline

THRESHOLD = 5.0
"""Points that the pointer must travel before a press becomes a gesture."""


class Grip(Protocol):
    """A gesture that has hold of something. `fine`: to the minute; `other`: the key for its other meaning is down."""

    @property
    def active(self) -> bool:
        """Tell whether it goes on."""
        ...

    def move(self, point: QPointF, fine: bool, other: bool = False) -> bool:
        """Follow the pointer; tell whether it goes on."""
        ...

    def drop(self) -> bool:
        """End it here; tell whether it was one, and not a click."""
        ...

    def cancel(self) -> bool:
        """Let go with nothing changed; tell whether there was anything to let go of."""
        ...


class Canvas:
    """Shows a gesture on one timeline, and repaints what it painted before and what it paints now."""

    def __init__(self, timeline: Timeline) -> None:
        self._timeline = timeline
        self._painted = QRectF()

    def show(self, gesture: Gesture, area: QRectF, cursor: Qt.CursorShape) -> None:
        """Show a gesture that paints over an area."""
        viewport, scene = self._timeline.viewport(), self._timeline.scene
        if scene.gesture is None:
            viewport.setCursor(cursor)
        scene.gesture = gesture
        region = QRegion(self._painted.toAlignedRect()) + QRegion(area.toAlignedRect())
        self._painted = area
        viewport.update(region)

    def clear(self) -> None:
        """Show no gesture any more."""
        if self._timeline.scene.gesture is not None:
            self._timeline.scene.gesture = None
            self._timeline.viewport().setCursor(Qt.CursorShape.ArrowCursor)
            self._timeline.viewport().update()
        self._painted = QRectF()


def far(press: QPointF, point: QPointF) -> bool:
    """Tell whether the pointer has travelled far enough to mean it."""
    return max(abs(point.x() - press.x()), abs(point.y() - press.y())) >= THRESHOLD
