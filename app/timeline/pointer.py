"""Mouse and wheel on the timeline: choosing, dragging, panning, zooming, tooltips, the menu of a bar."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, QObject, QPoint, QPointF, QRectF, Qt, QTimer
from PySide6.QtGui import QContextMenuEvent, QHelpEvent, QMouseEvent, QWheelEvent
from PySide6.QtWidgets import QToolTip

from app.timeline import spoken
from app.timeline.bars import Bar
from app.timeline.dragging import Dragging
from app.timeline.menu import bar_menu
from app.timeline.sight import STEP

if TYPE_CHECKING:
    from app.timeline.timeline import Timeline

_FINE = Qt.KeyboardModifier.ShiftModifier | Qt.KeyboardModifier.AltModifier
_EDGE = 26
"""Points from the border at which a drag begins to scroll."""


class Pointer(QObject):
    """Handles what the viewport is told by mouse and wheel."""

    def __init__(self, timeline: Timeline) -> None:
        super().__init__(timeline)
        self._timeline = timeline
        self.dragging = Dragging(timeline)
        self._pan: QPointF | None = None
        self._last: tuple[QPointF, bool] = (QPointF(), False)
        self._scroller = QTimer(self)
        self._scroller.setInterval(30)
        self._scroller.timeout.connect(self._scroll_at_edge)

    def handle(self, event: QEvent) -> bool:
        """Handle an event of the viewport; tell whether it was one for the pointer."""
        if isinstance(event, QMouseEvent):
            return self._mouse(event)
        if isinstance(event, QWheelEvent):
            return self._wheel(event)
        if isinstance(event, QContextMenuEvent):
            return self._menu(event.pos(), event.globalPos())
        if isinstance(event, QHelpEvent) and event.type() == QEvent.Type.ToolTip:
            return self._tip(event)
        return False

    def let_go(self) -> bool:
        """Let go of a drag with nothing changed; tell whether there was one."""
        self._scroller.stop()
        return self.dragging.cancel()

    def nudge(self, by: int) -> None:
        """Ask to move the focused step by some minutes."""
        here = self._timeline.focused
        placed = self._timeline.scene.timetable.at.get(here[1].key) if here and here[1].key else None
        if placed is not None:
            spoken.say_moved(self._timeline, placed.step, placed.start + by)
            self._timeline.step_dropped.emit(placed.step, placed.load, placed.start + by, None)

    def menu_at_focus(self) -> None:
        """Open the menu of the focused bar beneath it."""
        here = self._timeline.focused
        if here is not None and here[1].step is not None:
            box = self._timeline.scene.box(*here)
            point = QPoint(round(box.x + 8), round(box.bottom))
            bar_menu(self._timeline, *here).popup(self._timeline.viewport().mapToGlobal(point))

    def bar_at(self, point: QPointF) -> tuple[int, Bar] | None:
        """Return the lane's number and the bar under a point of the viewport."""
        scene = self._timeline.scene
        if point.x() < scene.gutter or point.y() < scene.ruler:
            return None
        x, y = point.x() + scene.left - scene.gutter, point.y() + scene.top - scene.ruler
        return scene.layout.hit(x, y, scene.axis)

    def _mouse(self, event: QMouseEvent) -> bool:
        kind = event.type()
        if kind == QEvent.Type.MouseButtonPress:
            return self._press(event)
        if kind == QEvent.Type.MouseMove:
            return self._move(event)
        if kind == QEvent.Type.MouseButtonRelease:
            return self._release(event)
        if kind == QEvent.Type.MouseButtonDblClick and event.button() == Qt.MouseButton.LeftButton:
            found = self.bar_at(event.position())
            if found is not None and found[1].step is not None:
                self._timeline.step_opened.emit(found[1].step)
                return True
        return False

    def _press(self, event: QMouseEvent) -> bool:
        point, button = event.position(), event.button()
        if button == Qt.MouseButton.MiddleButton:
            self._pan = point
            return True
        if button != Qt.MouseButton.LeftButton:
            return False
        found = self.bar_at(point)
        if found is None:
            self._pan = point
            return True
        lane, bar = found
        self._timeline.focus_on(lane, bar, chosen=True, reveal=False)
        self._tell_clash(lane, bar, point)
        self.dragging.press(lane, bar, point)
        return True

    def _tell_clash(self, lane: int, bar: Bar, point: QPointF) -> None:
        scene = self._timeline.scene
        wrong = spoken.clashes_on(scene, bar, scene.lanes[lane])
        box = scene.box(lane, bar)
        mark = QRectF(box.right - 12, box.y - 4, 20, 18)
        if wrong and mark.contains(point):
            self._timeline.clash_chosen.emit(wrong[0])

    def _move(self, event: QMouseEvent) -> bool:
        point = event.position()
        if self._pan is not None:
            by = point - self._pan
            self._pan = point
            self._timeline.sight.moved_by_hand()
            self._timeline.horizontalScrollBar().setValue(round(self._timeline.scene.left - by.x()))
            self._timeline.verticalScrollBar().setValue(round(self._timeline.scene.top - by.y()))
            return True
        fine = bool(event.modifiers() & _FINE)
        self._last = (point, fine)
        if self.dragging.move(point, fine):
            if not self._scroller.isActive():
                self._scroller.start()
            return True
        self._shape(point)
        return False

    def _release(self, event: QMouseEvent) -> bool:
        self._pan = None
        self._scroller.stop()
        if event.button() != Qt.MouseButton.LeftButton:
            return False
        return self.dragging.drop()

    def _shape(self, point: QPointF) -> None:
        found = self.bar_at(point)
        shape = Qt.CursorShape.ArrowCursor
        if found is not None and found[1].moves:
            shape = Qt.CursorShape.OpenHandCursor
        viewport = self._timeline.viewport()
        if viewport.cursor().shape() is not shape:
            viewport.setCursor(shape)

    def _scroll_at_edge(self) -> None:
        point, fine = self._last
        scene = self._timeline.scene
        across = self._timeline.horizontalScrollBar()
        down = self._timeline.verticalScrollBar()
        by = QPoint(
            _push(point.x(), scene.gutter, scene.width),
            _push(point.y(), scene.ruler, scene.height),
        )
        if by.isNull() or scene.held is None:
            return
        self._timeline.sight.moved_by_hand()
        across.setValue(across.value() + by.x())
        down.setValue(down.value() + by.y())
        self.dragging.move(point, fine)

    def _wheel(self, event: QWheelEvent) -> bool:
        turn, pixels = event.angleDelta(), event.pixelDelta()
        if event.modifiers() & Qt.KeyboardModifier.ControlModifier:
            steps = (turn.y() or turn.x()) / 120
            if steps:
                self._timeline.sight.zoom(STEP**steps, event.position().x())
            return True
        across = self._timeline.horizontalScrollBar()
        down = self._timeline.verticalScrollBar()
        by_x = pixels.x() if not pixels.isNull() else turn.x() * 0.6
        by_y = pixels.y() if not pixels.isNull() else turn.y() * 0.6
        if event.modifiers() & Qt.KeyboardModifier.ShiftModifier and not by_x:
            by_x, by_y = by_y, 0
        if by_x:
            self._timeline.sight.moved_by_hand()
        across.setValue(round(across.value() - by_x))
        down.setValue(round(down.value() - by_y))
        return True

    def _menu(self, point: QPoint, screen: QPoint) -> bool:
        found = self.bar_at(QPointF(point))
        if found is None or found[1].step is None:
            return False
        self._timeline.focus_on(*found, chosen=True, reveal=False)
        bar_menu(self._timeline, *found).popup(screen)
        return True

    def _tip(self, event: QHelpEvent) -> bool:
        found = self.bar_at(QPointF(event.pos()))
        scene = self._timeline.scene
        if found is not None:
            QToolTip.showText(event.globalPos(), spoken.tip_of(scene, found[1], scene.lanes[found[0]]))
            return True
        lane = scene.layout.lane_at(event.pos().y() - scene.ruler + scene.top)
        if lane is not None and event.pos().x() < scene.gutter and event.pos().y() > scene.ruler:
            QToolTip.showText(event.globalPos(), scene.lanes[lane].name)
            return True
        QToolTip.hideText()
        return True


def _push(at: float, low: float, high: float) -> int:
    """Return by how many points to scroll for a pointer near or past a border."""
    if at < low + _EDGE:
        return -min(30, max(2, round((low + _EDGE - at) / 2)))
    if at > high - _EDGE:
        return min(30, max(2, round((at - high + _EDGE) / 2)))
    return 0
