"""The clashes and the food limits missed as a list beside the timeline: choosing one goes there."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QCoreApplication, QSize, Qt, Signal
from PySide6.QtGui import QIcon, QResizeEvent, QShowEvent
from PySide6.QtWidgets import QLabel, QListWidget, QListWidgetItem, QSizePolicy, QVBoxLayout, QWidget

from app.look import icons
from app.look.colours import palette_under
from app.look.words import clock_text, day_text
from app.places.food.words import food_words, same, sentence_of
from app.timeline.paint_food import food_icon
from core.plan.plan import Plan
from core.timetable.clash import Clash

if TYPE_CHECKING:
    from core.safety import Finding

_MANY = 8  # more clashes than anybody mends by hand
_BESIDE = 22  # pixels that the list takes beside icon and words
_BETWEEN = 10  # and between two lines


def clashes_words(count: int) -> str:
    """Return the number of clashes in words."""
    if count == 1:
        return QCoreApplication.translate("clashes", "1 clash")
    return QCoreApplication.translate("clashes", "{count} clashes").format(count=count)


class ClashList(QWidget):
    """One line for each clash and food limit: when and what, by how much.

    `chosen` carries the clash, `food_chosen` the limit.
    """

    chosen = Signal(object)
    food_chosen = Signal(object)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        self.heading = QLabel()
        self.heading.setObjectName("heading")
        self.list = QListWidget()
        self.list.setWordWrap(True)
        self.list.setUniformItemSizes(False)
        self.list.setTextElideMode(Qt.TextElideMode.ElideNone)
        self.list.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.list.setIconSize(QSize(20, 20))
        self.list.setSpacing(3)
        self.list.setAccessibleName(self.tr("Clashes"))
        self.empty = QLabel(
            self.tr("Nothing collides: every step has its place, its hands and its time.")
        )
        self.empty.setWordWrap(True)
        self.empty.setObjectName("soft")
        self.hint = QLabel(self.tr("This day is not arranged yet. Arrange the day: it mends all that can be mended."))
        self.hint.setWordWrap(True)
        self.hint.hide()
        column.addWidget(self.heading)
        column.addWidget(self.hint)
        column.addWidget(self.empty)
        column.addWidget(self.list, 1)
        column.addStretch(0)
        self._clashes: tuple[Clash, ...] = ()
        self._food: tuple[Finding, ...] = ()
        self._lines: list[Clash | Finding] = []
        self._plan: Plan | None = None
        self._few = False
        self.list.itemActivated.connect(self._activated)
        self.list.itemClicked.connect(self._activated)

    def show_clashes(self, plan: Plan, clashes: tuple[Clash, ...]) -> None:
        """List the clashes of what is seen."""
        self._plan, self._clashes = plan, clashes
        self._show()

    def show_food(self, plan: Plan, findings: tuple[Finding, ...]) -> None:
        """List the food limits that what is seen misses, among the clashes by their time."""
        if plan is not self._plan or findings != self._food:
            self._plan, self._food = plan, findings
            self._show()

    def choose_food(self, finding: Finding | None) -> None:
        """Mark the line of a food limit; None: no line of one."""
        for row, line in enumerate(self._lines):
            if not isinstance(line, Clash) and finding is not None and same(line, finding):
                self.list.setCurrentRow(row)

    def _show(self) -> None:
        plan, chosen = self._plan, self.list.currentRow()
        if plan is None:
            return
        was = self._lines[chosen] if 0 <= chosen < len(self._lines) else None
        self._lines = sorted((*self._clashes, *self._food), key=lambda each: each.start)
        words = clashes_words(len(self._clashes)) if self._clashes else self.tr("Everything meets")
        self.heading.setText(", ".join(filter(None, (words, food_words(self._food)))))
        self.heading.setWordWrap(True)
        self.heading.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Fixed)
        self.list.setVisible(bool(self._lines))
        self.list.clear()
        palette = palette_under(self.palette())
        mark = icons.icon("clash", palette.clash)
        mark.addPixmap(icons.pixmap("clash", palette.on_accent, 24), QIcon.Mode.Selected)
        signs = {over: food_icon(palette, over) for over in (True, False)}
        for line in self._lines:
            at = plan.wall(line.start)
            when = f"{day_text(at)}, {clock_text(at)}"
            if isinstance(line, Clash):
                item = QListWidgetItem(mark, f"{when}\n{line.sentence}")
                item.setToolTip(line.sentence)
            else:
                over = line.level.name == "OVER"
                level = self.tr("food limit") if over else self.tr("food caution")
                item = QListWidgetItem(signs[over], f"{when}, {level}\n{sentence_of(line)}")
                item.setToolTip(line.sentence)
            self.list.addItem(item)
        if isinstance(was, Clash) and was in self._lines:
            self.list.setCurrentRow(self._lines.index(was))
        elif was is not None and not isinstance(was, Clash):
            self.choose_food(was)
        self._leave_room()
        self._fit_lines()

    def show_few(self, few: bool) -> None:
        """Leave room for what is said beside the list: less is explained, and it is no higher than it needs to be."""
        self._few = few
        self._leave_room()

    def _leave_room(self) -> None:
        there = bool(self._lines)
        self.empty.setVisible(not there and not self._few)
        self.hint.setVisible(len(self._clashes) > _MANY and not self._few)
        policy = QSizePolicy.Policy.Maximum if self._few and not there else QSizePolicy.Policy.Preferred
        self.setSizePolicy(QSizePolicy.Policy.Preferred, policy)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Give every line the height that its words need at this width."""
        super().resizeEvent(event)
        self._fit_lines()

    def showEvent(self, event: QShowEvent) -> None:
        """Measure again once the list has its real width."""
        super().showEvent(event)
        self._fit_lines()

    def _fit_lines(self) -> None:
        width = self.list.viewport().width() - self.list.iconSize().width() - _BESIDE
        metrics = self.list.fontMetrics()
        for row in range(self.list.count()):
            item = self.list.item(row)
            flags = Qt.TextFlag.TextWordWrap
            box = metrics.boundingRect(0, 0, max(60, width), 10_000, flags, item.text())
            item.setSizeHint(QSize(max(60, width), box.height() + _BETWEEN))

    def _activated(self, item: QListWidgetItem) -> None:
        row = self.list.row(item)
        if 0 <= row < len(self._lines):
            line = self._lines[row]
            (self.chosen if isinstance(line, Clash) else self.food_chosen).emit(line)
