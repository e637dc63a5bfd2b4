"""The hours of a cook, drawn: a strip for the days up to plating, dark where they are there."""

from __future__ import annotations

from typing import Any

from PySide6.QtCore import QCoreApplication, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QFont, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QSizePolicy, QWidget

from app.fields.spec import TakeKey
from app.look.colours import palette_under
from app.look.words import clock_text, day_text
from core.measures.clock import at_clock
from core.measures.minutes import show_minutes
from core.plan.calendar import Stretch, absences, complement
from core.plan.kitchen import Cook
from core.plan.plan import Plan

_DAY = 24 * 60
_MOST_DAYS = 7  # before the day of plating
_AFTER = 6 * 60  # minutes after plating


def tr(words: str) -> str:
    """Return words in the cook's language."""
    return QCoreApplication.translate("CookHours", words)


class CookBeside:
    """What stands in a cook's row besides the fields."""

    def __init__(self, _take: TakeKey) -> None:
        self.inline: QWidget | None = None
        self.below = CookHours()

    def show_thing(self, cook: Any, plan: Plan) -> None:
        """Show the hours of a cook."""
        self.below.show_cook(cook, plan)


class CookHours(QWidget):
    """Draws when a cook is there, from the plan's beginning to some hours after plating."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._cook: Cook | None = None
        self._plan: Plan | None = None
        self.days = 0  # days before the day of plating
        self.span: Stretch = (0, 0)
        self.there: tuple[Stretch, ...] = ()
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)

    def sizeHint(self) -> QSize:
        """Ask for a bar and a line of words."""
        return QSize(300, 16 + self.fontMetrics().height() + 4)

    def show_cook(self, cook: Cook, plan: Plan) -> None:
        """Draw another cook, or the same one anew."""
        self._cook, self._plan = cook, plan
        self.days = _days_shown(cook, plan)
        self.span = (at_clock(plan.plating, self.days, 0), _AFTER)
        self.there = tuple(complement(list(absences(plan, cook, *self.span)), *self.span))
        minutes = sum(min(end, 0) - start for start, end in self.there if start < 0)
        words = tr("{cook} is there for {time} before plating").format(
            cook=cook.name, time=show_minutes(minutes)
        )
        self.setAccessibleName(words)
        self.setToolTip(words)
        self.update()

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Draw the hours that they are there, each day's midnight with its name, and plating."""
        if self._plan is None:
            return
        colours = palette_under(self.palette())
        painter = QPainter(self)
        font = QFont(self.font())
        font.setPointSizeF(max(7.5, font.pointSizeF() * 0.85))
        painter.setFont(font)
        bar = QRectF(4.5, 2.5, self.width() - 9, 13)
        low, high = self.span

        def x(minute: float) -> float:
            return bar.left() + bar.width() * (minute - low) / (high - low)

        painter.fillRect(bar, QColor(colours.night))
        for start, end in self.there:
            painter.fillRect(
                QRectF(x(start), bar.top(), x(end) - x(start), bar.height()), QColor(colours.accent)
            )
        painter.setPen(QPen(QColor(colours.rail), 1))
        painter.drawRect(bar)
        line = painter.fontMetrics().height()
        for start, name in self._days():
            painter.setPen(QPen(QColor(colours.ink), 1.5))
            painter.drawLine(int(x(start)), int(bar.top()), int(x(start)), int(bar.bottom()) + 4)
            painter.drawText(
                QRectF(x(start) + 4, bar.bottom() + 2, 220, line), Qt.AlignmentFlag.AlignLeft, name
            )
        painter.setPen(QPen(QColor(colours.heat), 3))
        painter.drawLine(int(x(0)), int(bar.top()) - 2, int(x(0)), int(bar.bottom()) + 4)

    def _days(self) -> list[tuple[int, str]]:
        """Return where each day begins, with its name; the day of plating says when that is."""
        assert self._plan is not None
        found = []
        plating = self._plan.wall(0)
        for days in range(self.days, -1, -1):
            start = at_clock(self._plan.plating, days, 0)
            words = day_text(self._plan.wall(start))
            if not days:
                words = tr("{day}, plating {clock}").format(day=words, clock=clock_text(plating))
            found.append((start, words))
        return found


def _days_shown(cook: Cook, plan: Plan) -> int:
    """Return from how many days before plating's day on to show: when the plan opens, or the cook first comes."""
    days = max((1, *(each.days_before for each in (*cook.present, *cook.breaks))))
    while plan.opens is not None and days < _MOST_DAYS and at_clock(plan.plating, days, 0) > plan.opens:
        days += 1
    return min(days, _MOST_DAYS)
