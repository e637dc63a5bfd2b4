"""When what is served together will be ready: a bar from the early days to the late ones, beside what was planned."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QSizePolicy, QWidget

from app.look import type as faces
from app.look.colours import palette_under
from app.look.words import clock_text
from core.plan.plan import Plan

if TYPE_CHECKING:
    from core.arrange.chances import Serving

_GAP = 8
_LEAST = 15  # minutes across: a spread of a minute is not blown up


class Spread(QWidget):
    """One row for each serving: planned time, and from which to which minute 80 of 100 days fall."""

    def __init__(self, plan: Plan, servings: Sequence[Serving], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        from core.arrange.speak.chances import say_serving

        self._plan, self._servings = plan, tuple(servings)
        said = "\n".join(say_serving(plan, each) for each in servings)
        self.setToolTip(said)
        self.setAccessibleName(self.tr("When it is ready"))
        self.setAccessibleDescription(said)
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Fixed)
        self.setFont(faces.face(faces.SMALL))

    def sizeHint(self) -> QSize:
        """Ask for a row for each serving and one for the words."""
        return QSize(200, (len(self._servings) + 1) * self._row + 4)

    @property
    def _row(self) -> int:
        return self.fontMetrics().height() + _GAP

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Paint the rows."""
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        colours, metrics = palette_under(self.palette()), self.fontMetrics()
        gutter = metrics.horizontalAdvance("00:00") + 14
        ends = metrics.horizontalAdvance("+000 min") + 6
        low = min(min(each.p10 - each.course, 0) for each in self._servings)
        high = max(each.p90 - each.course for each in self._servings)
        high = max(high, low + _LEAST)
        scale = max(1.0, self.width() - gutter - ends - 6) / (high - low)

        def x(minutes: float) -> float:
            return gutter + (minutes - low) * scale

        painter.setPen(QColor(colours.faint))
        painter.drawText(QPointF(0, metrics.ascent() + 2), self.tr("Ready in 80 of 100 days; the stroke is as planned"))
        for at, each in enumerate(self._servings, start=1):
            y = at * self._row
            middle = y + self._row / 2
            painter.setPen(QColor(colours.ink))
            painter.drawText(
                QPointF(0, middle + metrics.ascent() / 2 - 2), clock_text(self._plan.wall(each.course))
            )
            late = each.p90 > each.course
            bar = QRectF(x(each.p10 - each.course), middle - 4, max(3.0, (each.p90 - each.p10) * scale), 8)
            painter.setPen(Qt.PenStyle.NoPen)
            painter.setBrush(QColor(colours.heat if late else colours.rail))
            painter.drawRoundedRect(bar, 3, 3)
            painter.setPen(QPen(QColor(colours.ink), 2))
            planned = x(0)
            painter.drawLine(QPointF(planned, y + 2), QPointF(planned, y + self._row - 2))
            said = f"{each.p90 - each.course:+} min" if each.p90 != each.course else ""
            painter.setPen(QColor(colours.faint))
            painter.drawText(QPointF(bar.right() + 6, middle + metrics.ascent() / 2 - 2), said)
        painter.end()
