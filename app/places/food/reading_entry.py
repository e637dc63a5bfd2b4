"""A temperature that was read is typed here: when and how many °C; kept while the plan is open, and said to be."""

from __future__ import annotations

import re
from collections.abc import Sequence

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QHBoxLayout, QLabel, QLineEdit, QVBoxLayout, QWidget

from app.fields import a_button
from app.look.words import day_text
from app.places.advice.section import words_of
from app.places.food.readings import Reading, read_celsius
from core.measures.clock import at_clock, days_before, parse_clock
from core.measures.refusal import Refusal, quoted
from core.plan.plan import Plan

_DAY = re.compile(r"(?P<day>[^\W\d]{2,9})\.?,?\s+(?P<time>.+)")
_BEYOND = 24 * 60
"""Minutes before and after the story in which a reading may lie."""


class ReadingEntry(QWidget):
    """`put` carries a Reading, `drop_wanted` says that the chosen one should go."""

    put = Signal(object)
    drop_wanted = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._plan: Plan | None = None
        self._span = (-60, 0)
        self._near: int | None = None
        self.when, self.celsius = self._line(self.tr("Sat 18:00")), self._line(self.tr("62.5 C"))
        self.when.setAccessibleName(self.tr("When it was read: day and time"))
        self.celsius.setAccessibleName(self.tr("What the probe showed"))
        self.keep = a_button(self.tr("Add the reading"), tip=self.tr("Draw it into the plot (Enter)"))
        self.drop = a_button(self.tr("Take it away"), tip=self.tr("Take away the reading chosen in the table"))
        self.drop.setEnabled(False)
        self.wrong = words_of("wrong")
        self.wrong.hide()
        heading = QLabel(self.tr("A probe read"))
        heading.setObjectName("adviceHeading")
        row = QHBoxLayout()
        row.setSpacing(8)
        row.addWidget(self.when, 3)
        row.addWidget(self.celsius, 2)
        row.addWidget(self.keep)
        row.addWidget(self.drop)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(4)
        column.addWidget(heading)
        column.addLayout(row)
        column.addWidget(self.wrong)
        column.addWidget(
            words_of("soft", self.tr("Readings are kept while the plan is open; the plan file has no place for them."))
        )
        self.keep.clicked.connect(lambda _checked=False: self._put())
        self.drop.clicked.connect(lambda _checked=False: self.drop_wanted.emit())
        self.when.returnPressed.connect(lambda: self.celsius.setFocus(Qt.FocusReason.OtherFocusReason))
        self.celsius.returnPressed.connect(self._put)

    def _line(self, empty: str) -> QLineEdit:
        line = QLineEdit()
        line.setPlaceholderText(empty)
        line.setProperty("field", "line")
        line.setMinimumHeight(30)
        line.setMinimumWidth(84)
        return line

    def set_days(self, plan: Plan, span: tuple[int, int], near: int | None) -> None:
        """Say which days are meant: a time without a day is the one nearest to `near`, else to the story's end."""
        self._plan, self._span, self._near = plan, span, near

    def _put(self) -> None:
        plan = self._plan
        if plan is None:
            return
        try:
            at = read_when(self.when.text(), plan, self._span, self._near)
            reading = Reading(at, read_celsius(self.celsius.text()))
        except Refusal as refusal:
            self.wrong.setText(str(refusal))
            self.wrong.show()
            return
        self.wrong.hide()
        self.celsius.clear()
        self.when.clear()
        self.when.setFocus(Qt.FocusReason.OtherFocusReason)
        self.put.emit(reading)


def read_when(text: str, plan: Plan, span: tuple[int, int], near: int | None) -> int:
    """Return the minute of "Sat 18:00" or "18:00" within a day of a story; refuse what is none or no day of it."""
    found = _DAY.fullmatch(text.strip())
    day, clock = (found["day"].casefold(), found["time"]) if found else ("", text)
    if not clock.strip():
        raise Refusal("No time is written; write when it was read, such as Sat 18:00.")
    minute = parse_clock(clock)
    days = range(days_before(plan.plating, span[1]) - 1, days_before(plan.plating, span[0]) + 2)
    there = [at_clock(plan.plating, each, minute) for each in days]
    there = [at for at in there if span[0] - _BEYOND <= at <= span[1] + _BEYOND]
    if day:
        named: Sequence[int] = [at for at in there if day_text(plan.wall(at), long=True).casefold().startswith(day)]
        if not named:
            raise Refusal(f"{quoted(text)}: no such day lies near this food's; write one of them, such as Sat 18:00.")
        there = list(named)
    goal = span[1] if near is None else near
    return min(there, key=lambda at: abs(at - goal))
