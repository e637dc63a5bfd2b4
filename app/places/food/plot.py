"""The plot of one food's days as a widget: wheel, drag and keys zoom and walk; what the cursor meets is told."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QSize, Qt, Signal
from PySide6.QtGui import (
    QAccessible,
    QAccessibleAnnouncementEvent,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QResizeEvent,
    QWheelEvent,
)
from PySide6.QtWidgets import QWidget

from app.look.colours import palette_under
from app.look.words import clock_text, day_text
from app.places.dressed import Dressed
from app.places.food.plot_paint import GUTTER, Sheet, names_room, paint
from app.places.food.readings import show_celsius
from app.places.food.view import FoodView
from app.places.food.words import place_words, said, warmth_words
from app.timeline.geometry import Axis
from app.timeline.kit import Kit

_IN, _CLOSEST = 1.25, 8.0
"""Factor of one turn of the wheel; points a minute at most."""
_STEP = 5
"""Minutes that the cursor walks with an arrow and Ctrl."""


class FoodPlot(QWidget):
    """`told`: what the cursor meets, in words; `met`: the minute it stands at."""

    told = Signal(str)
    met = Signal(int)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.view: FoodView | None = None
        self.at: int | None = None
        self._kit = Kit(palette_under(self.palette()))
        self._axis = Axis(-60, 0, 1.0)
        self._left = 0.0
        self._fitted: tuple[int, int] | None = None
        self._grip: tuple[QPointF, float] | None = None
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setMinimumSize(QSize(360, 220))
        self.setAccessibleName(self.tr("Temperatures over the days"))
        Dressed(self, lambda _palette: self._dress())

    def _dress(self) -> None:
        self._kit = Kit(palette_under(self.palette()))
        self.update()

    def show_view(self, view: FoodView, *, afresh: bool) -> None:
        """Show a food; `afresh`: all of its days."""
        self.view = view
        self._kit = Kit(palette_under(self.palette()))
        if afresh:
            self.at = None
            self.fit()
        self.update()

    @property
    def shown(self) -> tuple[int, int]:
        """Return the first and last minute in sight."""
        sheet = self.sheet()
        return round(sheet.time(GUTTER)), round(sheet.time(self._right))

    @property
    def _right(self) -> float:
        """Return the right edge of the days: the names of the limits stand beyond it."""
        return self.width() - (names_room(self.view, self._kit) if self.view is not None else 0.0)

    def sheet(self) -> Sheet:
        """Return where all is drawn now."""
        assert self.view is not None
        return Sheet(self.view, self._axis, self._kit, self._left, self.width(), self.height(), self.at)

    def fit(self, start: int | None = None, end: int | None = None) -> None:
        """Show a stretch of time; all of it where none is given."""
        if self.view is None:
            return
        low, high = self.view.span
        room = max(20, (high - low) // 40)
        low, high = (low - room, high + room) if start is None or end is None else (start, end)
        self._fitted = low, high
        field = max(60.0, self._right - GUTTER)
        self._axis = Axis(low, high, field / max(1, high - low))
        self._left = 0.0
        self.update()

    def zoom(self, factor: float, at: float | None = None) -> None:
        """Zoom around a point across."""
        if self.view is None:
            return
        point = (self._right + GUTTER) / 2 if at is None else at
        minute = self.sheet().time(point)
        low, high = self.view.span
        least = (self._right - GUTTER) / max(120, 2 * (high - low))
        ppm = min(_CLOSEST, max(least, self._axis.ppm * factor))
        self._axis = self._axis.zoomed(ppm)
        self._left = self._axis.x(minute) - (point - GUTTER)
        self._fitted = None
        self.update()

    def go(self, minute: int) -> None:
        """Put the cursor on a minute and tell what it meets there."""
        view = self.view
        if view is None:
            return
        low, high = view.span
        self.at = max(low, min(high, minute))
        sheet = self.sheet()
        x = sheet.x(self.at)
        if not GUTTER + 4 <= x <= self._right - 4:
            self._left += x - (self._right + GUTTER) / 2
            self._fitted = None
        words = self.words()
        self.setAccessibleDescription(words)
        if QAccessible.isActive():
            QAccessible.updateAccessibility(QAccessibleAnnouncementEvent(self, words))
        self.told.emit(words)
        self.met.emit(self.at)
        self.update()

    def words(self) -> str:
        """Return what the cursor meets: when, where, from what to what °C, what is missed there, what was read."""
        view = self.view
        if view is None or self.at is None:
            return ""
        at = view.plan.wall(self.at)
        found = [f"{day_text(at)} {clock_text(at)}"]
        stretches = view.story.stretches if view.story is not None else ()
        here = next((each for each in stretches if each.start <= self.at < each.end), None)
        if here is None and stretches and self.at == stretches[-1].end:
            here = stretches[-1]
        if here is not None:
            found.append(f"{place_words(view.plan, here)}, {warmth_words(here)}")
        there = view.near(self.at)
        if there is not None:
            low, high = (show_celsius(round(each, 1)) for each in there)
            found.append(low if low == high else said("{low} to {high} by a sum").format(low=low, high=high))
        found += [
            said("read {celsius}").format(celsius=show_celsius(each.celsius))
            for each in view.readings
            if each.at == self.at
        ]
        found += [each.rule.family.value for each in view.findings if each.start <= self.at <= each.end]
        return "; ".join(found)

    # ------------------------------------------------------------ Qt

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Paint the food's days, and a ring while the keys go here."""
        painter = QPainter(self)
        self._kit.ratio = 0
        if self.view is not None:
            paint(painter, self.sheet())
        if self.hasFocus():
            painter.setPen(self._kit.accent_pen)
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawRect(self.rect().adjusted(1, 1, -1, -1))
        painter.end()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Keep what was fitted fitted."""
        super().resizeEvent(event)
        if self._fitted is not None:
            self.fit(*self._fitted)

    def wheelEvent(self, event: QWheelEvent) -> None:
        """Zoom around the pointer; with Shift, or sideways, scroll."""
        delta = event.angleDelta()
        sideways = delta.x() or (delta.y() if event.modifiers() & Qt.KeyboardModifier.ShiftModifier else 0)
        if sideways:
            self._left -= sideways / 2
            self._fitted = None
            self.update()
        elif delta.y():
            self.zoom(_IN ** (delta.y() / 120), event.position().x())
        event.accept()

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Take hold of the days."""
        if event.button() == Qt.MouseButton.LeftButton:
            self._grip = event.position(), self._left

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        """Draw the days along."""
        if self._grip is not None and abs(event.position().x() - self._grip[0].x()) > 4:
            self._left = self._grip[1] - (event.position().x() - self._grip[0].x())
            self._fitted = None
            self.update()

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        """Put the cursor where it was clicked without a drag."""
        if self._grip is not None and self.view is not None:
            if abs(event.position().x() - self._grip[0].x()) <= 4:
                self.go(round(self.sheet().time(event.position().x())))
            self._grip = None

    def mouseDoubleClickEvent(self, _event: QMouseEvent) -> None:
        """Show all days."""
        self.fit()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Walk and zoom."""
        key, held = event.key(), event.modifiers() & Qt.KeyboardModifier.ControlModifier
        if self.view is None:
            return
        low, high = self.view.span
        if key in (Qt.Key.Key_Left, Qt.Key.Key_Right):
            self._walk(1 if key == Qt.Key.Key_Right else -1, fine=bool(held))
        elif key in (Qt.Key.Key_Home, Qt.Key.Key_End):
            self.go(low if key == Qt.Key.Key_Home else high)
        elif key in (Qt.Key.Key_Plus, Qt.Key.Key_Equal):
            self.zoom(_IN, self._at_cursor())
        elif key == Qt.Key.Key_Minus:
            self.zoom(1 / _IN, self._at_cursor())
        elif key == Qt.Key.Key_0:
            self.fit()
        else:
            super().keyPressEvent(event)

    def _at_cursor(self) -> float | None:
        return None if self.at is None else self.sheet().x(self.at)

    def _walk(self, by: int, *, fine: bool) -> None:
        """Go to the next or last place where something changes, or by some minutes."""
        view = self.view
        assert view is not None
        if self.at is None:
            self.go(view.span[0] if by > 0 else view.span[1])
            return
        if fine:
            self.go(self.at + by * _STEP)
            return
        stops = {each.at for each in view.readings} | {at for each in view.findings for at in (each.start, each.end)}
        if view.story is not None:
            stops |= {at for each in view.story.stretches for at in (each.start, each.end)}
        there = sorted(each for each in stops if (each - self.at) * by > 0)
        if there:
            self.go(there[0] if by > 0 else there[-1])
