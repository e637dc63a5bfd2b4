"""The strip along the timeline's foot: all days at a glance, and a window on them that is dragged and stretched."""

from __future__ import annotations

from enum import Enum, auto
from typing import TYPE_CHECKING

from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import (
    QColor,
    QFocusEvent,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QPixmap,
    QWheelEvent,
)
from PySide6.QtWidgets import QWidget

from app.look.words import clock_text, day_text, word
from app.timeline.geometry import Axis
from app.timeline.kit import pen
from app.timeline.overview_picture import dates, height, picture, squeezed
from app.timeline.scale import Label
from app.timeline.scene import Scene
from app.timeline.sight import CLOSEST, STEP

if TYPE_CHECKING:
    from app.timeline.timeline import Timeline

GRIP = 6.0
"""Points to either side of the window's end at which it is taken hold of."""
NARROWEST = 10.0
"""Points that the window's frame is wide at least, so that it is seen and held."""


class Part(Enum):
    """What of the window the pointer is on."""

    LEFT = auto()
    RIGHT = auto()
    INSIDE = auto()
    OUTSIDE = auto()


class Overview(QWidget):
    """Shows all days and what of them is in sight. `pictures` counts how often its picture was painted anew."""

    def __init__(self, timeline: Timeline) -> None:
        super().__init__(timeline)
        self._timeline = timeline
        self._picture: QPixmap | None = None
        self._dates: list[Label] = []
        self._taken_of: tuple[object, ...] = ()
        self._axis: tuple[tuple[object, ...], Axis] | None = None
        self._frame = QRectF()
        self._held: Part | None = None
        self._grip = 0.0
        self.pictures = 0
        self.setObjectName("overview")
        self.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        self.setMouseTracking(True)
        self.setAttribute(Qt.WidgetAttribute.WA_OpaquePaintEvent)
        self.setAccessibleName(word("overview"))
        self.setToolTip(word("overview tip"))
        self.hide()

    # ------------------------------------------------------------ where it stands

    def appear(self) -> None:
        """Be there where anything is placed; else leave the room to the timeline."""
        wanted = bool(self._timeline.scene.timetable.placed)
        foot = height(self._timeline.kit) if wanted else 0
        if self._timeline.viewportMargins().bottom() != foot:
            self._timeline.setViewportMargins(0, 0, 0, foot)
        self.setVisible(wanted)
        self.place()

    def place(self) -> None:
        """Stand right below the lanes, as wide as they are."""
        over = self._timeline.viewport().geometry()
        self.setGeometry(over.x(), over.bottom() + 1, over.width(), height(self._timeline.kit))
        self.follow()

    def follow(self) -> None:
        """Move the window's frame to what is in sight; nothing else is painted again."""
        frame = self.window_frame()
        if frame != self._frame:
            for old in (self._frame, frame):
                self.update(old.adjusted(-4, -2, 4, 2).toAlignedRect())
            self._frame = frame
            if self.hasFocus():
                _say(self, self._timeline.scene)

    # ------------------------------------------------------------ geometry

    @property
    def axis(self) -> Axis:
        """Return the axis of all days in the strip."""
        scene = self._timeline.scene
        key = (scene.axis.low, scene.axis.high, scene.axis.folds, self.width(), scene.gutter)
        if self._axis is None or self._axis[0] != key:
            self._axis = (key, squeezed(scene, self.width()))
        return self._axis[1]

    def across(self, minute: float) -> float:
        """Return the points across the strip of a minute."""
        return self._timeline.scene.gutter + self.axis.x(minute)

    def time(self, x: float) -> float:
        """Return the minute at a point of the strip, not before the first nor after the last."""
        axis = self.axis
        return min(max(axis.time(x - self._timeline.scene.gutter), axis.low), axis.high)

    def window_frame(self) -> QRectF:
        """Return the frame around what is in sight."""
        scene, axis = self._timeline.scene, self.axis
        low, high = scene.seen
        left, right = self.across(max(low, axis.low)), self.across(min(high, axis.high))
        if right - left < NARROWEST:
            middle = (left + right) / 2
            left, right = middle - NARROWEST / 2, middle + NARROWEST / 2
        return QRectF(round(left), 1, round(right) - round(left), self.height() - 2)

    def part_at(self, x: float) -> Part:
        """Return what of the window lies at a point: its ends first, where the frame has room for them."""
        frame = self.window_frame()
        inner = min(GRIP, frame.width() / 4)
        if frame.left() - GRIP <= x <= frame.left() + inner:
            return Part.LEFT
        if frame.right() - inner <= x <= frame.right() + GRIP:
            return Part.RIGHT
        return Part.INSIDE if frame.left() < x < frame.right() else Part.OUTSIDE

    # ------------------------------------------------------------ mouse and wheel

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Take hold of the window or of one of its ends; beside it, bring it there."""
        if event.button() != Qt.MouseButton.LeftButton or event.position().x() < self._timeline.scene.gutter - GRIP:
            return
        x, frame = event.position().x(), self.window_frame()
        self._held = self.part_at(x)
        if self._held is Part.OUTSIDE:
            self._held, self._grip = Part.INSIDE, frame.width() / 2
            self._drag(x)
            return
        self._grip = x - (frame.right() if self._held is Part.RIGHT else frame.left())

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        """Drag what is held; else show by the pointer's shape what could be."""
        if self._held is not None:
            self._drag(event.position().x())
            return
        there = self.part_at(event.position().x())
        shape = _SHAPES[there]
        if event.position().x() < self._timeline.scene.gutter - GRIP:
            shape = Qt.CursorShape.ArrowCursor
        if self.cursor().shape() is not shape:
            self.setCursor(shape)

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        """Let go."""
        if event.button() == Qt.MouseButton.LeftButton:
            self._held = None

    def mouseDoubleClickEvent(self, event: QMouseEvent) -> None:
        """Show all days."""
        if event.button() == Qt.MouseButton.LeftButton:
            self._timeline.fit_all()

    def wheelEvent(self, event: QWheelEvent) -> None:
        """Zoom around the minute under the pointer where it is in sight, else around the middle."""
        scene = self._timeline.scene
        x = scene.x(self.time(event.position().x()))
        inside = scene.gutter <= x <= scene.width
        self._timeline.wheel.zoom(event, x if inside else None)
        event.accept()

    def _drag(self, x: float) -> None:
        sight, (low, high) = self._timeline.sight, self._timeline.scene.seen
        at = x - self._grip
        if self._held is Part.INSIDE:
            sight.moved_by_hand()
            sight.keep(self.axis.time(at - self._timeline.scene.gutter), self._timeline.scene.gutter)
        elif self._held is Part.LEFT:
            sight.span(min(self.time(at), high - CLOSEST), min(high, self.axis.high))
        elif self._held is Part.RIGHT:
            sight.span(max(low, self.axis.low), max(self.time(at), low + CLOSEST))

    # ------------------------------------------------------------ keys and readers

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Move the window by arrows and pages, widen it with down, narrow it with up; else as on the timeline."""
        field, sight = self._timeline.sight.field, self._timeline.sight
        key = Qt.Key(event.key())
        by = {Qt.Key.Key_Left: -0.1, Qt.Key.Key_Right: 0.1, Qt.Key.Key_PageUp: -0.9, Qt.Key.Key_PageDown: 0.9}
        if event.modifiers() & ~Qt.KeyboardModifier.KeypadModifier:
            super().keyPressEvent(event)
        elif key in by:
            sight.shift(by[key] * field)
        elif key in (Qt.Key.Key_Home, Qt.Key.Key_End):
            sight.shift((1 if key is Qt.Key.Key_End else -1) * self._timeline.scene.axis.width)
        elif key in (Qt.Key.Key_Up, Qt.Key.Key_Down):
            sight.zoom(STEP if key is Qt.Key.Key_Up else 1 / STEP)
        else:
            super().keyPressEvent(event)

    def focusInEvent(self, event: QFocusEvent) -> None:
        """Say what is in sight."""
        super().focusInEvent(event)
        _say(self, self._timeline.scene)
        self.update()

    def focusOutEvent(self, event: QFocusEvent) -> None:
        """Paint without the ring."""
        super().focusOutEvent(event)
        self.update()

    # ------------------------------------------------------------ painting

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint from the picture, with the frame above it."""
        painter = QPainter(self)
        part, kit = event.rect(), self._timeline.kit
        picture_now, ratio = self._current(), self.devicePixelRatioF()
        source = QRectF(part.x() * ratio, part.y() * ratio, part.width() * ratio, part.height() * ratio)
        painter.drawPixmap(QRectF(part), picture_now, source)
        self._frame = frame = self.window_frame()
        veil = QColor(kit.ground)
        veil.setAlphaF(0.55)
        gutter = self._timeline.scene.gutter
        painter.fillRect(QRectF(gutter, 1, frame.left() - gutter, frame.height()), veil)
        painter.fillRect(QRectF(frame.right(), 1, self.width() - frame.right(), frame.height()), veil)
        for label in self._dates:  # above the veil, so that they can be read
            where = QRectF(label.x, 1, label.width, kit.metrics(kit.small_face).height())
            kit.write(painter, where, label.text, kit.small_face, kit.faint)
        painter.setPen(pen(kit.accent, 2))
        painter.drawRect(frame.adjusted(1, 1, -1, -1))
        middle = frame.center().y()
        for x in (frame.left() - 1, frame.right() - 3):
            painter.fillRect(QRectF(x, middle - 8, 4, 16), kit.accent)
        if self.hasFocus():
            painter.setPen(pen(kit.ink, 1))
            painter.drawRect(frame.adjusted(3.5, 3.5, -3.5, -3.5))
        painter.end()

    def _current(self) -> QPixmap:
        scene, ratio = self._timeline.scene, self.devicePixelRatioF()
        size = (self.width(), self.height())
        now = (scene.plan, scene.timetable, scene.clashes, self._timeline.kit, self.axis, size, ratio)
        same = len(now) == len(self._taken_of) and all(
            one is other or (isinstance(one, (float, tuple)) and one == other)
            for one, other in zip(now, self._taken_of, strict=True)
        )
        if self._picture is None or not same:
            self._dates = dates(scene, self._timeline.kit, self.axis, self.width())
            self._picture = picture(scene, self._timeline.kit, self.axis, self.width(), self.height(), ratio)
            self._taken_of = now
            self.pictures += 1
        return self._picture


_SHAPES = {
    Part.LEFT: Qt.CursorShape.SizeHorCursor,
    Part.RIGHT: Qt.CursorShape.SizeHorCursor,
    Part.INSIDE: Qt.CursorShape.OpenHandCursor,
    Part.OUTSIDE: Qt.CursorShape.PointingHandCursor,
}


def _say(overview: Overview, scene: Scene) -> None:
    """Say what is in sight."""
    plan, (low, high) = scene.plan, scene.seen
    ends = [plan.wall(round(at)) for at in (max(low, overview.axis.low), min(high, overview.axis.high))]
    first, last = (f"{day_text(each)} {clock_text(each)}" for each in ends)
    overview.setAccessibleDescription(word("in sight").format(first=first, last=last))
