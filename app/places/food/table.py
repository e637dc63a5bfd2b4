"""One food's days as a table beside the plot: each stretch and reading with its time, place and temperature."""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtCore import Qt, QTimer, Signal
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QAbstractItemView, QHeaderView, QTableWidget, QTableWidgetItem, QWidget

from app.look.words import clock_text, day_text
from app.places.food.readings import show_celsius
from app.places.food.view import FoodView
from app.places.food.words import place_words, said, warmth_words, when_words
from core.safety.story import Stretch


@dataclass(frozen=True, slots=True)
class Line:
    """One row: from when on, its three texts, and the minute of the reading that it is (None: a stretch)."""

    at: int
    when: str
    what: str
    celsius: str
    reading: int | None = None


def lines_of(view: FoodView) -> list[Line]:
    """Return a view's rows in order of time."""
    plan, found = view.plan, []
    for stretch in view.story.stretches if view.story is not None else ():
        when = when_words(plan, stretch.start, stretch.end)
        found.append(Line(stretch.start, when, _what(view, stretch), _span(view, stretch)))
    for each in view.readings:
        at = plan.wall(each.at)
        when = f"{day_text(at)} {clock_text(at)}"
        found.append(Line(each.at, when, said("read with a probe"), show_celsius(each.celsius), each.at))
    return sorted(found, key=lambda line: (line.at, line.reading is not None))


def _what(view: FoodView, stretch: Stretch) -> str:
    does = view.plan.steps[stretch.step].does
    words = said("waits after: {step}").format(step=does) if stretch.waits else does
    return f"{words} ({place_words(view.plan, stretch)}, {warmth_words(stretch)})"


def _span(view: FoodView, stretch: Stretch) -> str:
    there = [each for each in view.band if stretch.start <= each.at <= stretch.end and each.warmth is stretch.warmth]
    if not there:
        return ""
    first, last = there[0], there[-1]

    def shown(low: float, high: float) -> str:
        return f"{round(low)}" if round(low) == round(high) else f"{round(low)}–{round(high)}"

    before, after = shown(first.low, first.high), shown(last.low, last.high)
    return f"{before} °C" if before == after else said("{first} to {last} °C").format(first=before, last=after)


class StoryTable(QTableWidget):
    """`met`: the minute at which the chosen row begins."""

    met = Signal(int)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(0, 3, parent)
        self.lines: list[Line] = []
        self._timer = QTimer(self)
        self._timer.setSingleShot(True)
        self.setAccessibleName(self.tr("Temperatures over the days, as a table"))
        self.setHorizontalHeaderLabels([self.tr("When"), self.tr("What, where"), self.tr("By a sum")])
        self.verticalHeader().hide()
        self.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        self.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        self.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        self.setTabKeyNavigation(False)
        self.setWordWrap(True)
        self.setShowGrid(False)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        header = self.horizontalHeader()
        header.setSectionResizeMode(0, QHeaderView.ResizeMode.ResizeToContents)
        header.setSectionResizeMode(1, QHeaderView.ResizeMode.Stretch)
        header.setSectionResizeMode(2, QHeaderView.ResizeMode.ResizeToContents)
        header.setHighlightSections(False)
        header.sectionResized.connect(lambda *_sizes: self._soon())
        self.currentCellChanged.connect(self._changed)
        self._timer.timeout.connect(self._fit)

    def show_view(self, view: FoodView) -> None:
        """Show a food's days."""
        lines = lines_of(view)
        if lines == self.lines:
            return
        self.lines = lines
        self.blockSignals(True)
        self.setRowCount(len(lines))
        for row, line in enumerate(lines):
            for column, text in enumerate((line.when, line.what, line.celsius)):
                item = QTableWidgetItem(text)
                item.setTextAlignment(Qt.AlignmentFlag.AlignTop | Qt.AlignmentFlag.AlignLeft)
                item.setToolTip(text)
                self.setItem(row, column, item)
        self.blockSignals(False)
        self._soon()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Give the rows the height that their words need."""
        super().resizeEvent(event)
        self._soon()

    def _soon(self) -> None:
        self._timer.start(0)  # once the columns have their widths

    def _fit(self) -> None:
        """Be no higher than the rows are."""
        self.resizeRowsToContents()
        high = self.horizontalHeader().height() + sum(self.rowHeight(row) for row in range(self.rowCount()))
        self.setMaximumHeight(max(self.minimumHeight(), high + 8))

    @property
    def reading(self) -> int | None:
        """Return the minute of the reading that is chosen."""
        row = self.currentRow()
        return self.lines[row].reading if 0 <= row < len(self.lines) else None

    def _changed(self, row: int, _column: int, _row: int, _last: int) -> None:
        if 0 <= row < len(self.lines):
            self.met.emit(self.lines[row].at)
