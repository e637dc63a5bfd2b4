"""Two fingers on a timeline: pinch to zoom, on a trackpad (native gestures) and on a touch screen."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, QPointF, Qt
from PySide6.QtGui import QNativeGestureEvent
from PySide6.QtWidgets import QGestureEvent, QPinchGesture

if TYPE_CHECKING:
    from app.timeline.timeline import Timeline

_SMALLEST = 0.1
"""Factor below which one event of a gesture is a fault of the device."""


class Pinch:
    """Zooms one timeline by gestures; the minute between the fingers stays there, and follows them."""

    def __init__(self, timeline: Timeline) -> None:
        self._timeline = timeline

    def begin(self) -> None:
        """Ask for the pinches of a touch screen."""
        self._timeline.viewport().grabGesture(Qt.GestureType.PinchGesture)

    def handle(self, event: QEvent) -> bool:
        """Handle an event of the viewport; tell whether it was a pinch."""
        if isinstance(event, QNativeGestureEvent):
            return self._native(event)
        if isinstance(event, QGestureEvent):
            return self._touch(event)
        return False

    def _native(self, event: QNativeGestureEvent) -> bool:
        kind = event.gestureType()
        if kind == Qt.NativeGestureType.ZoomNativeGesture:
            self._timeline.sight.zoom(max(_SMALLEST, 1 + event.value()), event.position().x())
            return True
        return kind in (Qt.NativeGestureType.BeginNativeGesture, Qt.NativeGestureType.EndNativeGesture)

    def _touch(self, event: QGestureEvent) -> bool:
        pinch = event.gesture(Qt.GestureType.PinchGesture)
        if not isinstance(pinch, QPinchGesture):
            return False
        if pinch.state() == Qt.GestureState.GestureStarted:
            self._timeline.pointer.let_go()  # the first finger held a bar or the ground
        viewport = self._timeline.viewport()
        here, before = (
            viewport.mapFromGlobal(point.toPoint()) for point in (pinch.centerPoint(), pinch.lastCenterPoint())
        )
        if pinch.changeFlags() & QPinchGesture.ChangeFlag.ScaleFactorChanged and pinch.scaleFactor() > 0:
            self._timeline.sight.zoom(max(_SMALLEST, pinch.scaleFactor()), here.x())
        if pinch.changeFlags() & QPinchGesture.ChangeFlag.CenterPointChanged and not before.isNull():
            by = QPointF(here - before)
            self._timeline.sight.shift(-by.x())
            down = self._timeline.verticalScrollBar()
            down.setValue(round(down.value() - by.y()))
        event.accept(pinch)
        return True
