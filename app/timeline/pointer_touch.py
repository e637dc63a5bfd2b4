"""A finger or a pen on a timeline: a tap chooses, a swipe scrolls, holding still takes hold of what is under it."""

from __future__ import annotations

from enum import Enum, auto
from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, QObject, QPointF, Qt, QTimer
from PySide6.QtGui import QTabletEvent, QTouchEvent

from app.timeline.pointer_grip import far

if TYPE_CHECKING:
    from app.timeline.timeline import Timeline

HOLD = 350
"""Milliseconds of holding still until what is under the finger is taken hold of."""
_STILL = 10.0
"""Points that a finger may tremble meanwhile."""


class _Finger(Enum):
    """What the finger is doing."""

    AWAY = auto()
    DOWN = auto()
    SWIPES = auto()
    HOLDS = auto()


class Touch(QObject):
    """Follows one finger or the pen on a timeline; two fingers are left to pinching."""

    def __init__(self, timeline: Timeline) -> None:
        super().__init__(timeline)
        self._timeline = timeline
        self._finger = _Finger.AWAY
        self._press = QPointF()
        self._last = QPointF()
        self._held = QTimer(self)
        self._held.setSingleShot(True)
        self._held.setInterval(HOLD)
        self._held.timeout.connect(self._take)

    def begin(self) -> None:
        """Ask for the touches of a screen."""
        self._timeline.viewport().setAttribute(Qt.WidgetAttribute.WA_AcceptTouchEvents)

    def handle(self, event: QEvent) -> bool:
        """Handle an event of the viewport; tell whether it was of a finger or the pen."""
        if isinstance(event, QTouchEvent):
            return self._touch(event)
        if isinstance(event, QTabletEvent):
            return self._pen(event)
        return False

    def leave(self) -> None:
        """Take the finger for lifted."""
        self._finger = _Finger.AWAY
        self._held.stop()

    def _touch(self, event: QTouchEvent) -> bool:
        kind = event.type()
        if kind == QEvent.Type.TouchCancel:
            self._timeline.pointer.let_go()
            return True
        if event.pointCount() != 1:
            if self._finger is not _Finger.AWAY:
                self._timeline.pointer.let_go()
            event.accept()
            return True
        point = event.point(0).position()
        if kind == QEvent.Type.TouchBegin:
            self._down(point)
        elif kind == QEvent.Type.TouchUpdate:
            self._moved(point)
        elif kind == QEvent.Type.TouchEnd:
            self._up(point)
        event.accept()
        return True

    def _pen(self, event: QTabletEvent) -> bool:
        kind, point = event.type(), event.position()
        if kind == QEvent.Type.TabletPress and event.button() == Qt.MouseButton.LeftButton:
            self._down(point)
        elif kind == QEvent.Type.TabletMove and self._finger is not _Finger.AWAY:
            self._moved(point)
        elif kind == QEvent.Type.TabletRelease and self._finger is not _Finger.AWAY:
            self._up(point)
        else:
            return False  # hovering and the pen's other buttons come again as those of a mouse
        event.accept()
        return True

    def _down(self, point: QPointF) -> None:
        self._finger, self._press, self._last = _Finger.DOWN, point, point
        self._held.start()
        self._timeline.pointer.dragging.warm()

    def _moved(self, point: QPointF) -> None:
        timeline = self._timeline
        if self._finger is _Finger.DOWN and _trembled(self._press, point):
            self._finger = _Finger.SWIPES
            self._held.stop()
        if self._finger is _Finger.SWIPES:
            by = point - self._last
            timeline.pointer.pan(by)
        elif self._finger is _Finger.HOLDS:
            timeline.pointer.follow(point)
        self._last = point

    def _up(self, point: QPointF) -> None:
        finger = self._finger
        self.leave()
        if finger is _Finger.DOWN:
            self._timeline.pointer.choice.tap(point)
        elif finger is _Finger.HOLDS:
            self._timeline.pointer.drop()

    def _take(self) -> None:
        """Take hold of what the finger rests on; where there is nothing, begin a band."""
        if self._finger is _Finger.DOWN:
            self._finger = _Finger.HOLDS
            self._timeline.pointer.take(self._press, lift=True)


def _trembled(press: QPointF, point: QPointF) -> bool:
    return far(press, point) and max(abs(point.x() - press.x()), abs(point.y() - press.y())) >= _STILL
