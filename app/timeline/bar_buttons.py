"""A few buttons at the chosen bar: pin, way and length, for a mouse or a finger without the menu."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, QObject, QPointF, QRect, QRectF, QSize, Qt, QTimer
from PySide6.QtGui import QColor, QEnterEvent, QPainter, QPaintEvent
from PySide6.QtWidgets import QAbstractButton, QFrame, QHBoxLayout

from app.timeline import marks, offers
from app.timeline.bar_facts import Sign, decides, pin_on, signs_of
from app.timeline.bar_signs import room_for
from app.timeline.bars import Bar
from app.timeline.geometry import Box
from app.timeline.kit import Kit, pen
from app.timeline.menu import length_menu, way_menu
from app.timeline.paint_bars import tab_width

if TYPE_CHECKING:
    from app.timeline.timeline import Timeline

LEAST = 24
"""Points to either side that a target has at least (WCAG 2.2, target size)."""
_HANDLE = 16.0
"""Points left free at a bar's right end, where it is taken to be stretched or linked."""
_LINK = 26.0
"""Points right of a bar in which its link is taken."""


class SignButton(QAbstractButton):
    """A button with one of the small signs; pressed in while that is decided."""

    def __init__(self, sign: Sign, cluster: BarButtons) -> None:
        super().__init__(cluster)
        self._sign, self._cluster = sign, cluster
        self.setCheckable(True)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)  # the keys P, W and G do the same
        self.setCursor(Qt.CursorShape.PointingHandCursor)

    def sizeHint(self) -> QSize:
        """Return a size that a finger meets, more with larger text."""
        side = max(LEAST, round(self._cluster.kit.row - 4))
        return QSize(side, side)

    def enterEvent(self, event: QEnterEvent) -> None:
        """Show that the pointer is on it."""
        super().enterEvent(event)
        self.update()

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Paint the sign."""
        kit, painter = self._cluster.kit, QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing, True)
        box = QRectF(self.rect()).adjusted(1.5, 1.5, -1.5, -1.5)
        on = self.isChecked()
        painter.setPen(pen(kit.accent if on or self.underMouse() else kit.rail, 1.2))
        painter.setBrush(kit.accent if on else kit.panel if self.underMouse() else kit.lane)
        painter.drawRoundedRect(box, 3, 3)
        share = self.height() / LEAST
        painter.translate(box.center())
        painter.scale(share, share)
        _draw(painter, self._sign, kit.on_accent if on else kit.ink, kit.accent if on else kit.lane)


def _draw(painter: QPainter, sign: Sign, colour: QColor, ground: QColor) -> None:
    if sign is Sign.PIN:
        marks.pin(painter, colour, ground, 0, 6)
    elif sign is Sign.WAY:
        marks.fork(painter, colour, 0, 0)
    else:
        marks.gauge(painter, colour, 0, 0)


class BarButtons(QFrame):
    """The buttons at the chosen bar; they go where the bar goes, and away while it is dragged."""

    def __init__(self, timeline: Timeline) -> None:
        super().__init__(timeline.viewport())
        self.setObjectName("bar buttons")
        self._timeline = timeline
        self._seen: tuple[object, ...] = ()
        self.pin = SignButton(Sign.PIN, self)
        self.way = SignButton(Sign.WAY, self)
        self.length = SignButton(Sign.LENGTH, self)
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(2)
        for button in (self.pin, self.way, self.length):
            row.addWidget(button)
        self.pin.clicked.connect(timeline.keys.deciding.pin)
        self.way.clicked.connect(lambda: self._open(self.way))
        self.length.clicked.connect(lambda: self._open(self.length))
        self._soon = QTimer(self)
        self._soon.setSingleShot(True)
        self._soon.setInterval(0)
        self._soon.timeout.connect(self.follow)
        timeline.viewport().installEventFilter(self)
        self.hide()

    @property
    def kit(self) -> Kit:
        """Return the timeline's pens and faces."""
        return self._timeline.kit

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Follow the bar after each painting in which it stands elsewhere."""
        if watched is self.parent() and event.type() == QEvent.Type.Paint and self._state() != self._seen:
            self._soon.start()
        return super().eventFilter(watched, event)

    def follow(self) -> None:
        """Go to the chosen bar, or away where there is none."""
        self._seen = self._state()
        scene, here = self._timeline.scene, self._timeline.focused
        busy = scene.held is not None or scene.gesture is not None
        if here is None or busy or not decides(scene, here[1]) or scene.lanes[here[0]].line:
            self.hide()
            return
        box = scene.box(*here)
        if box.right < scene.gutter or box.x > scene.width or box.y < scene.ruler - 4 or box.y > scene.height - 12:
            self.hide()
            return
        self._fill(here[1])
        self.adjustSize()
        self.setGeometry(self._place(here[1], box))
        self.show()
        self.raise_()

    def _fill(self, bar: Bar) -> None:
        """Show the buttons that make sense for a bar, pressed in as it was decided."""
        scene = self._timeline.scene
        signs, pin = signs_of(scene, bar), pin_on(scene, bar)
        pinned = pin is not None and pin.start is not None
        self.pin.setChecked(pinned)
        self.way.setVisible(offers.has_ways(scene, bar))
        self.way.setChecked(Sign.WAY in signs)
        self.length.setVisible(offers.has_spread(scene, bar))
        self.length.setChecked(Sign.LENGTH in signs)
        for button, words, key in (
            (self.pin, offers.translated("Lift the pin") if pinned else offers.translated("Pin here"), "P"),
            (self.way, offers.translated("Choose the way to do it"), "W"),
            (self.length, offers.translated("Choose how much time to allow"), "G"),
        ):
            button.setToolTip(f"{words} ({key})")
            button.setAccessibleName(words)
            button.updateGeometry()

    def _place(self, bar: Bar, box: Box) -> QRect:
        """Return where the buttons stand: inside where its text leaves room, else right of it, else left of it."""
        scene, size = self._timeline.scene, self.sizeHint()
        left, right = max(box.x, scene.gutter), min(box.right, scene.width)
        inside, beside = self._written(bar, right - left)
        if inside + size.width() + _HANDLE <= right - left:
            x = right - size.width() - (_HANDLE if right == box.right else 6)
        elif box.right + _LINK + beside + size.width() <= scene.width:
            x = box.right + _LINK + beside
        else:
            x = max(scene.gutter, box.x - size.width() - _HANDLE)
        y = box.y + (min(box.h, scene.layout.row) - size.height()) / 2
        return QRect(QPointF(x, max(scene.ruler, y)).toPoint(), size)

    def _written(self, bar: Bar, width: float) -> tuple[float, float]:
        """Return the points that tab, signs and text take inside a bar so wide, and those of a text beside it."""
        kit = self.kit
        tab = tab_width(kit, bar, width)
        room = room_for(self._timeline.scene, kit, bar, width, tab)
        for text in bar.says:
            wide = tab + room + 12 + kit.width(text, kit.text_face)
            if wide <= width:
                return wide, 0.0
        beside = kit.width(bar.says[-1], kit.small_face) if bar.says else 0.0
        free = self._timeline.scene.width if bar.until is None else self._timeline.scene.x(bar.until)
        return width, beside if self._timeline.scene.x(bar.end) + beside + 10 < free else 0.0

    def _open(self, button: SignButton) -> None:
        """Open what there is to choose from under its button."""
        here = self._timeline.focused
        button.setChecked(not button.isChecked())  # what was decided did not change yet
        if here is None:
            return
        menu = way_menu(self._timeline, here[1]) if button is self.way else length_menu(self._timeline, here[1])
        menu.popup(button.mapToGlobal(button.rect().bottomLeft()))

    def _state(self) -> tuple[object, ...]:
        """Return what the place of the buttons hangs on."""
        scene = self._timeline.scene
        if scene.focus is None:
            return (None,)
        held = scene.held is not None or scene.gesture is not None
        box = scene.box(scene.focus_lane, scene.focus)
        return (id(scene), id(scene.focus), box, held, scene.width, scene.gutter, id(self.kit))
