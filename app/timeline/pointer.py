"""The pointer on the timeline: choosing, dragging, panning, tooltips, the menu of a bar."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, QObject, QPoint, QPointF, Qt, QTimer
from PySide6.QtGui import QContextMenuEvent, QHelpEvent, QMouseEvent, QWheelEvent
from PySide6.QtWidgets import QMenu, QToolTip

from app.timeline import spoken
from app.timeline.bars import Bar
from app.timeline.dragging import Dragging
from app.timeline.menu import bar_menu
from app.timeline.pointer_band import Band
from app.timeline.pointer_choice import Choice
from app.timeline.pointer_grip import Grip
from app.timeline.pointer_length import Stretching
from app.timeline.pointer_link import Linking
from app.timeline.pointer_plating import PlatingLine
from app.timeline.pointer_touch import Touch

if TYPE_CHECKING:
    from app.timeline.timeline import Timeline

_FINE = Qt.KeyboardModifier.ShiftModifier | Qt.KeyboardModifier.AltModifier
_MORE = Qt.KeyboardModifier.ShiftModifier | Qt.KeyboardModifier.ControlModifier
_EDGE = 26
"""Points from the border at which a drag begins to scroll."""
_FASTEST = 40
"""Points that one beat of scrolling moves the view at most."""
_BEAT = 16
"""Milliseconds of one beat of scrolling."""


class Pointer(QObject):
    """Handles what the viewport is told by mouse, finger and pen. One gesture at a time has hold of something."""

    def __init__(self, timeline: Timeline) -> None:
        super().__init__(timeline)
        self._timeline = timeline
        self.dragging = Dragging(timeline)
        self.stretching = Stretching(timeline)
        self.plating = PlatingLine(timeline)
        self.linking = Linking(timeline)
        self.band = Band(timeline)
        self.touch = Touch(timeline)
        self.choice = Choice(timeline)
        self.grips: tuple[Grip, ...] = (self.dragging, self.stretching, self.plating, self.linking, self.band)
        self._grip: Grip | None = None
        self._click: Callable[[], None] | None = None
        self._pan: QPointF | None = None
        self._last: tuple[QPointF, bool, bool] = (QPointF(), False, False)
        self._scroller = QTimer(self)
        self._scroller.setInterval(_BEAT)
        self._scroller.timeout.connect(self._scroll_at_edge)

    def handle(self, event: QEvent) -> bool:
        """Handle an event of the viewport; tell whether it was one for the pointer."""
        if self.touch.handle(event):
            return True
        if isinstance(event, QMouseEvent):
            return self._mouse(event)
        if isinstance(event, QWheelEvent):
            return self._timeline.wheel.turn(event)
        if isinstance(event, QContextMenuEvent):
            return self._menu(event.pos(), event.globalPos())
        if isinstance(event, QHelpEvent) and event.type() == QEvent.Type.ToolTip:
            return self._tip(event)
        return False

    @property
    def active(self) -> bool:
        """Tell whether anything is being dragged."""
        return self._grip is not None and self._grip.active

    def let_go(self) -> bool:
        """Let go of whatever is held with nothing changed; tell whether there was anything."""
        self._scroller.stop()
        self._grip, self._click, self._pan = None, None, None
        self.touch.leave()
        gone = [grip.cancel() for grip in self.grips]  # all of them
        return any(gone)

    def take(self, point: QPointF, *, more: bool = False, lift: bool = False) -> None:
        """Take hold of what is under a point; `more`: a click adds it to what is chosen; `lift`: drag it at once."""
        if self._grip is not None:  # its release was lost, as to a menu
            self._grip.cancel()
        self._grip = self._click = None
        if self.linking.at(point):
            self._grip = self.linking
            self.linking.press(point)
            if (under := self.bar_at(point)) is not None:  # a click means the bar on which the link's end lies
                self._click = partial(self._timeline.focus_on, *under, chosen=True, reveal=False, more=more)
        elif self.plating.at(point):
            self._grip = self.plating
            self.plating.press(point)
        elif not more and (end := self.choice.end_at(point)) is not None:
            self._grip = self.stretching
            self._timeline.focus_on(*end, chosen=True, reveal=False)
            self.stretching.press(*end, point)
        elif (found := self.bar_at(point)) is not None:
            self._grip = self.dragging
            also, self._click = self.choice.press(*found, point, more=more)
            self.dragging.press(*found, point, also)
            if lift:
                self.dragging.lift(point)
        elif point.y() < self._timeline.scene.ruler:
            self._grip, self._pan = None, point
        else:
            self._grip = self.band
            self.band.press(point, more=more)
            self._click = None if more else self.choice.nothing

    def follow(self, point: QPointF, fine: bool = False, other: bool = False) -> bool:
        """Let what is held follow the pointer; tell whether anything is dragged."""
        self._last = (point, fine, other)
        if self._grip is None or not self._grip.move(point, fine, other):
            return False
        if not self._scroller.isActive():
            self._scroller.start()
        return True

    def drop(self) -> bool:
        """Drop what is held, or take it as a click; tell whether anything was held."""
        self._scroller.stop()
        grip, click = self._grip, self._click
        self._grip, self._click = None, None
        if grip is None:
            return False
        if not grip.drop() and click is not None:
            click()
        return True

    def pan(self, by: QPointF) -> None:
        """Move the view along with the pointer."""
        self._timeline.sight.moved_by_hand()
        across, down = self._timeline.horizontalScrollBar(), self._timeline.verticalScrollBar()
        across.setValue(round(across.value() - by.x()))
        down.setValue(round(down.value() - by.y()))

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
            self.popup(bar_menu(self._timeline, *here))

    def popup(self, menu: QMenu) -> None:
        """Show a menu beneath the focused bar."""
        self.let_go()
        here, scene = self._timeline.focused, self._timeline.scene
        if here is not None:
            box = scene.box(*here)
            point = QPoint(round(min(max(box.x + 8, scene.gutter), scene.width - 40)), round(box.bottom))
            menu.popup(self._timeline.viewport().mapToGlobal(point))

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
        if not self._timeline.lines.press(point):
            self.take(point, more=bool(event.modifiers() & _MORE))
        return True

    def _move(self, event: QMouseEvent) -> bool:
        point, keys = event.position(), event.modifiers()
        if self._pan is not None:
            by, self._pan = point - self._pan, point
            self.pan(by)
            return True
        if self.follow(point, bool(keys & _FINE), bool(keys & Qt.KeyboardModifier.ControlModifier)):
            return True
        if self._grip is None:
            self._shape(point)
        return False

    def _release(self, event: QMouseEvent) -> bool:
        self._pan = None
        if event.button() != Qt.MouseButton.LeftButton:
            return False
        return self.drop()

    def _shape(self, point: QPointF) -> None:
        """Show by the cursor what a press would take hold of."""
        shape = Qt.CursorShape.ArrowCursor
        if self.linking.at(point):
            shape = Qt.CursorShape.CrossCursor
        elif self.plating.at(point):
            shape = Qt.CursorShape.SplitHCursor
        elif self.choice.end_at(point) is not None:
            shape = Qt.CursorShape.SizeHorCursor
        elif (found := self.bar_at(point)) is not None and found[1].moves:
            shape = Qt.CursorShape.OpenHandCursor
            self.dragging.warm()
        viewport = self._timeline.viewport()
        if viewport.cursor().shape() is not shape:
            viewport.setCursor(shape)

    def _scroll_at_edge(self) -> None:
        """Scroll while something is held at the border, the faster the deeper; it follows."""
        if not self.active or self._grip is None:
            self._scroller.stop()
            return
        point, fine, other = self._last
        scene = self._timeline.scene
        by = QPoint(push(point.x(), scene.gutter, scene.width), push(point.y(), scene.ruler, scene.height))
        if self._grip is self.plating:
            by.setY(0)  # the pointer may stay on the ruler
        if not by.isNull():
            self.pan(QPointF(-by))
            self._grip.move(point, fine, other)

    def _menu(self, point: QPoint, screen: QPoint) -> bool:
        found = self.bar_at(QPointF(point))
        if found is None or found[1].step is None:
            return False
        self.let_go()
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
            QToolTip.showText(event.globalPos(), self._timeline.lines.tip(lane))
            return True
        QToolTip.hideText()
        return True


def push(at: float, low: float, high: float) -> int:
    """Return by how many points to scroll for a pointer near or past a border: the deeper, the faster."""
    if at < low + _EDGE:
        return -min(_FASTEST, max(2, round((low + _EDGE - at) / 2)))
    if at > high - _EDGE:
        return min(_FASTEST, max(2, round((at - high + _EDGE) / 2)))
    return 0
