"""How a heater warms up from cold, drawn: its measured points, and how long it takes to any setting.

The curve is read with the arrow keys or the pointer. A point is drawn elsewhere with the mouse; a double click puts
a point on the curve, or takes one off. The line of text beside it holds the same points.
"""

from __future__ import annotations

from fractions import Fraction

from PySide6.QtCore import QEvent, QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QColor, QFocusEvent, QFont, QKeyEvent, QMouseEvent, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QSizePolicy, QWidget

from app.look.colours import Palette, palette_under
from app.places.kitchen.heat_points import Plot, moved_point, with_point, without_point
from core.plan.kitchen import Heater
from core.timetable.warming import heat_up_minutes, minutes_at, points_of

_SIZE = QSize(168, 104)
_NEAR = 9  # px within which a point is taken hold of
_STEP = 5  # °C between the marks of a dial
_DIAL = 180  # °C that is read first


class HeatUpCurve(QWidget):
    """Draws minutes from cold across and °C up. `read`: another setting is read; `drawn`: points were changed."""

    read = Signal()
    drawn = Signal(object)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._heater = Heater()
        self._shown = Heater()  # as it becomes while a point is held
        self._held: int | None = None
        self.setting = _DIAL
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setMouseTracking(True)
        self.setAccessibleName(self.tr("Minutes from cold to each setting"))
        self.setToolTip(
            self.tr(
                "Arrow keys read it; draw a point elsewhere with the mouse; double-click puts or takes a point"
            )
        )

    def sizeHint(self) -> QSize:
        """Ask for room beside the fields."""
        return _SIZE

    @property
    def minutes(self) -> int:
        """Return the minutes from cold to the setting that is read."""
        return heat_up_minutes(self._shown, self.setting)

    def show_heater(self, heater: Heater) -> None:
        """Draw another heater; what is held is let go."""
        self._held = None
        self._heater = self._shown = heater
        self.read_at(self.setting)

    def read_at(self, setting: int) -> None:
        """Read the curve at a setting, the nearest that the heater has."""
        self.setting = max(self._heater.lowest, min(setting, self._heater.highest))
        self.setAccessibleDescription(
            self.tr("{setting} °C in {minutes} min").format(setting=self.setting, minutes=self.minutes)
        )
        self.update()
        self.read.emit()

    @property
    def plot(self) -> Plot:
        """Return where on the widget minutes and degrees lie."""
        metrics = self.fontMetrics()
        box = QRectF(self.rect()).adjusted(8, metrics.height() * 0.5 + 4, -10, -metrics.height() - 1)
        heater = self._heater
        measured = points_of(heater)
        reaches = float(minutes_at(measured, Fraction(heater.highest))) if measured else 0.0
        return Plot(box, max(10.0, reaches * 1.08), heater.cold, max(heater.highest, heater.cold + 10))

    # ------------------------------------------------ keys and mouse

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Read further up and down, by a mark of the dial or, with Shift, by a degree; Escape lets a point go."""
        by = 1 if event.modifiers() & Qt.KeyboardModifier.ShiftModifier else _STEP
        to = {
            Qt.Key.Key_Right: self.setting + by,
            Qt.Key.Key_Up: self.setting + by,
            Qt.Key.Key_Left: self.setting - by,
            Qt.Key.Key_Down: self.setting - by,
            Qt.Key.Key_Home: self._heater.lowest,
            Qt.Key.Key_End: self._heater.highest,
        }.get(Qt.Key(event.key()))
        if to is not None:
            self.read_at(to)
        elif event.key() == Qt.Key.Key_Escape and self._held is not None:
            self.show_heater(self._heater)
        else:
            super().keyPressEvent(event)

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Take hold of a point, or read where the pointer is."""
        if event.button() is Qt.MouseButton.LeftButton:
            self._held = self._point_at(event.position())
            self._look_at(event.position())

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        """Draw the point that is held to the pointer, by marks of a dial or, with Shift, by degrees; else read."""
        if self._held is not None:
            plot = self.plot
            fine = event.modifiers() & Qt.KeyboardModifier.ShiftModifier
            mark = 1 if fine else _STEP
            celsius = round(plot.celsius(event.position().y()) / mark) * mark
            wanted = (celsius, round(plot.minutes(event.position().x())))
            self._shown = moved_point(self._heater, self._held, wanted)
            self.read_at(self._shown.from_cold[self._held][0])
            return
        near = self._point_at(event.position()) is not None
        self.setCursor(Qt.CursorShape.SizeAllCursor if near else Qt.CursorShape.CrossCursor)
        if event.buttons() & Qt.MouseButton.LeftButton or self.hasFocus() or self.underMouse():
            self._look_at(event.position())

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        """Hand the points over where one was drawn elsewhere."""
        if event.button() is Qt.MouseButton.LeftButton and self._held is not None:
            self._held = None
            self._hand_over(self._shown)

    def mouseDoubleClickEvent(self, event: QMouseEvent) -> None:
        """Take the point under the pointer off, or put one on the curve."""
        self._held = None
        at = self._point_at(event.position())
        setting = round(self.plot.celsius(event.position().y()) / _STEP) * _STEP
        self._hand_over(
            without_point(self._heater, at) if at is not None else with_point(self._heater, setting)
        )

    def leaveEvent(self, event: QEvent) -> None:
        """Draw no reading line under a pointer that is gone."""
        super().leaveEvent(event)
        self.update()

    def focusInEvent(self, event: QFocusEvent) -> None:
        """Show that the keys are read here."""
        super().focusInEvent(event)
        self.update()

    def focusOutEvent(self, event: QFocusEvent) -> None:
        """Show that they are not."""
        super().focusOutEvent(event)
        self.update()

    def _hand_over(self, heater: Heater) -> None:
        points, before = heater.from_cold, self._heater.from_cold
        self._shown = self._heater
        if points != before:
            self.drawn.emit(points)
        self.update()

    def _look_at(self, where: QPointF) -> None:
        """Read the curve at the height of the pointer."""
        self.read_at(round(self.plot.celsius(where.y()) / _STEP) * _STEP)

    def _point_at(self, where: QPointF) -> int | None:
        plot = self.plot
        for number, point in enumerate(self._heater.from_cold):
            away = plot.at(point) - where
            if max(abs(away.x()), abs(away.y())) <= _NEAR:
                return number
        return None

    # ------------------------------------------------ drawing

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Draw the two axes, the curve, its points, and the setting that is read."""
        colours = palette_under(self.palette())
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        font = QFont(self.font())
        font.setPointSizeF(max(7.5, font.pointSizeF() * 0.8))
        painter.setFont(font)
        plot = self.plot
        painter.fillRect(plot.box, QColor(colours.panel))
        self._read_lines(painter, colours, plot)
        self._curve(painter, colours, plot)
        edge = colours.accent if self.hasFocus() else colours.rail
        painter.setPen(QPen(QColor(edge), 2 if self.hasFocus() else 1))
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.drawRect(plot.box)
        painter.setPen(QColor(colours.ink))
        below = QRectF(
            plot.box.left(), plot.box.bottom() + 1, plot.box.width(), painter.fontMetrics().height()
        )
        painter.drawText(below, Qt.AlignmentFlag.AlignLeft, self.tr("0 min"))
        painter.drawText(
            below, Qt.AlignmentFlag.AlignRight, self.tr("{count} min").format(count=round(plot.most))
        )
        top = QRectF(
            plot.box.left() + 4, plot.box.top() + 1, plot.box.width() - 8, painter.fontMetrics().height()
        )
        painter.drawText(top, Qt.AlignmentFlag.AlignLeft, f"{plot.hottest} °C")

    def _curve(self, painter: QPainter, colours: Palette, plot: Plot) -> None:
        points = points_of(self._shown)
        if not points:
            return
        pen = QPen(QColor(colours.heat), 2.4)
        painter.setPen(pen)
        painter.drawPolyline([plot.at(point) for point in points])
        if points[-1][0] < plot.hottest:
            pen.setStyle(Qt.PenStyle.DotLine)
            painter.setPen(pen)
            end = QPointF(plot.x(float(minutes_at(points, Fraction(plot.hottest)))), plot.y(plot.hottest))
            painter.drawLine(plot.at(points[-1]), end)
        painter.setPen(QPen(QColor(colours.ink), 1.6))
        painter.setBrush(QColor(colours.lane))
        for point in self._shown.from_cold:
            painter.drawEllipse(plot.at(point), 4.5, 4.5)

    def _read_lines(self, painter: QPainter, colours: Palette, plot: Plot) -> None:
        at = plot.at((self.setting, self.minutes))
        pen = QPen(QColor(colours.ink), 1)
        pen.setStyle(Qt.PenStyle.DashLine)
        painter.setPen(pen)
        painter.drawLine(QPointF(plot.box.left(), at.y()), at)
        painter.drawLine(at, QPointF(at.x(), plot.box.bottom()))
