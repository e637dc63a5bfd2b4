"""Where a dose stands, drawn as a ruler of ppm: the minimum, the limit, and the dose between, below or past them."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QBrush, QColor, QPainter, QPaintEvent, QPen, QPolygonF
from PySide6.QtWidgets import QSizePolicy, QWidget

from app.look.colours import palette_under
from app.places.cure.outcome import Rule, tr
from core.measures.number import show_decimal

_EDGE = 10  # px at either end
_BAR = 12  # px


class PpmRuler(QWidget):
    """Words above and below a bar; past the limit the bar is hatched in the colour of alarm."""

    def __init__(self) -> None:
        super().__init__()
        self._rule: Rule | None = None
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.hide()

    def show_rule(self, rule: Rule | None) -> None:
        """Show a dose; nothing where there is none."""
        self._rule = rule
        self.setVisible(rule is not None)
        if rule is not None:
            self.setAccessibleName(self._said(rule))
            self.setToolTip(self._said(rule))
        self.update()

    def sizeHint(self) -> QSize:
        """Ask for the bar and a line of words on either side."""
        return QSize(300, 2 * self.fontMetrics().height() + _BAR + 22)

    def minimumSizeHint(self) -> QSize:
        """Ask for as much height."""
        return QSize(180, self.sizeHint().height())

    def _said(self, rule: Rule) -> str:
        least = "" if rule.least is None else tr("minimum {least} ppm, ").format(least=show_decimal(rule.least))
        return least + tr("limit {limit} ppm, this dose {ppm} ppm").format(
            limit=show_decimal(rule.limit), ppm=show_decimal(rule.ppm, 2)
        )

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Draw the ruler."""
        rule = self._rule
        if rule is None:
            return
        p = palette_under(self.palette())
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        line = self.fontMetrics().height()
        top = line + 12
        most = max(float(rule.limit) * 1.3, float(rule.ppm) * 1.08)
        room = self.width() - 2 * _EDGE

        def at(ppm: float) -> float:
            return _EDGE + room * ppm / most

        bar = QRectF(_EDGE, top, room, _BAR)
        past = QRectF(at(float(rule.limit)), top, _EDGE + room - at(float(rule.limit)), _BAR)
        painter.setPen(QPen(QColor(p.rail), 1))
        painter.setBrush(QColor(p.panel))
        painter.drawRect(bar)
        painter.setPen(QPen(QColor(p.clash), 1))
        painter.setBrush(QBrush(QColor(p.clash), Qt.BrushStyle.BDiagPattern))
        painter.drawRect(past)
        marks = [(float(rule.limit), tr("limit {ppm}").format(ppm=show_decimal(rule.limit)), p.clash)]
        if rule.least is not None and rule.least < rule.limit:
            marks.insert(0, (float(rule.least), tr("minimum {ppm}").format(ppm=show_decimal(rule.least)), p.faint))
        end = 0.0
        for number, (ppm, words, colour) in enumerate(marks):
            painter.setPen(QPen(QColor(colour), 2))
            painter.drawLine(QPointF(at(ppm), top - 3), QPointF(at(ppm), top + _BAR + 4))
            wide = self.fontMetrics().horizontalAdvance(words)
            last = number == len(marks) - 1
            left = at(ppm) - (4 if last else wide - 4)
            left = max(min(left, self.width() - wide - 2), end + 10 if last else 2)
            end = left + wide
            painter.drawText(QPointF(left, top + _BAR + 4 + self.fontMetrics().ascent()), words)
        self._draw_dose(painter, at(float(rule.ppm)), top, QColor(p.clash if rule.ppm > rule.limit else p.ink))

    def _draw_dose(self, painter: QPainter, at: float, top: float, colour: QColor) -> None:
        assert self._rule is not None
        words = tr("this dose {ppm} ppm").format(ppm=show_decimal(self._rule.ppm, 2))
        painter.setPen(colour)
        painter.setBrush(colour)
        painter.drawPolygon(QPolygonF([QPointF(at, top + 1), QPointF(at - 6, top - 9), QPointF(at + 6, top - 9)]))
        wide = self.fontMetrics().horizontalAdvance(words)
        left = max(2.0, min(at - wide / 2, self.width() - wide - 2))
        painter.drawText(QPointF(left, self.fontMetrics().ascent()), words)
