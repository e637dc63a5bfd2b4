"""The page of one food: its temperature story over the days as a plot and a table, limits, readings, what is untold."""

from __future__ import annotations

from PySide6.QtCore import QSize, Qt, Signal, Slot
from PySide6.QtGui import QKeySequence, QShortcut, QShowEvent
from PySide6.QtWidgets import (
    QButtonGroup,
    QFrame,
    QHBoxLayout,
    QPushButton,
    QScrollArea,
    QSplitter,
    QVBoxLayout,
    QWidget,
)

from app.bridge import OpenPlan
from app.fields import Pick, Picked, a_button, dress_fields, tab_as_read
from app.look.words import day_text
from app.places.advice.section import words_of
from app.places.dressed import Dressed
from app.places.food.dress import food_sheet
from app.places.food.page_chosen import Chosen
from app.places.food.page_words import said_of
from app.places.food.plot import FoodPlot
from app.places.food.reading_entry import ReadingEntry
from app.places.food.readings import Reading
from app.places.food.table import StoryTable
from app.places.food.watching import watch_of
from app.timeline.scale import days
from core.plan.ids import DishId

_MOST_DAYS = 7


class FoodPage(QFrame):
    """`left`: the cook goes back; `step_wanted` carries a step to be opened in the Menu."""

    left = Signal()
    step_wanted = Signal(str)

    def __init__(self, opened: OpenPlan, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("foodPage")
        self._opened = opened
        self.watch = watch_of(opened)
        self.chosen = Chosen(opened, self.watch)
        self.plot, self.table = FoodPlot(), StoryTable()
        self.entry = ReadingEntry()
        self.tell = a_button(self.tr("Tell more of it in the Menu"), "pot", self.tr("Its dish and first step"))
        self.back = a_button(self.tr("Back"), tip=self.tr("Back to where you came from (Esc)"))
        self.dish = Pick(Picked(self.chosen.dish_options), self._take_dish)
        self.food = Pick(Picked(self.chosen.food_options), self._take_food)
        self.way = Pick(Picked(self.chosen.way_options), self._take_way)
        for pick, name in (
            (self.dish, self.tr("Dish")), (self.food, self.tr("Food")), (self.way, self.tr("Way through the menu"))
        ):  # fmt: skip
            pick.setAccessibleName(name)
            pick.setMinimumHeight(30)
        self.days_row = QHBoxLayout()
        self.days_row.setSpacing(4)
        self.days_group = QButtonGroup(self)
        self.day_buttons: list[QPushButton] = []
        self.met = words_of("plain")
        self.limits = words_of("foodLimit")
        self.untold = words_of("soft")
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        column.addLayout(self._head())
        self.split = QSplitter(Qt.Orientation.Horizontal)
        self.split.addWidget(self._left())
        self.split.addWidget(self._side())
        self.split.setChildrenCollapsible(False)
        self.split.setStretchFactor(0, 1)
        self.split.setStretchFactor(1, 0)
        self.split.setSizes([720, 440])
        column.addWidget(self.split, 1)
        self._connect()
        Dressed(self, lambda palette: dress_fields(self, palette, food_sheet(palette)))

    def _head(self) -> QHBoxLayout:
        row = QHBoxLayout()
        row.setContentsMargins(14, 8, 14, 8)
        row.setSpacing(10)
        title = words_of("foodHead", self.tr("One food over the days"))
        title.setWordWrap(False)
        row.addWidget(self.back)
        row.addWidget(title)
        row.addWidget(self.dish, 3)
        row.addWidget(self.food, 3)
        row.addWidget(self.way, 2)
        return row

    def _left(self) -> QWidget:
        left = QWidget()
        column = QVBoxLayout(left)
        column.setContentsMargins(14, 0, 8, 10)
        column.setSpacing(6)
        self.closer = a_button("+", tip=self.tr("Closer (+)"))
        self.wider = a_button("−", tip=self.tr("Wider (-)"))
        self.closer.setAccessibleName(self.tr("Closer"))
        self.wider.setAccessibleName(self.tr("Wider"))
        row = QHBoxLayout()
        row.setSpacing(4)
        row.addLayout(self.days_row)
        row.addStretch(1)
        row.addWidget(self.wider)
        row.addWidget(self.closer)
        column.addLayout(row)
        column.addWidget(self.plot, 1)
        for words in (self.met, self.limits):
            column.addWidget(words)
        return left

    def _side(self) -> QWidget:
        inside = QWidget()
        inside.setObjectName("advicePage")
        column = QVBoxLayout(inside)
        column.setContentsMargins(12, 8, 12, 10)
        column.setSpacing(10)
        self.table.setMinimumHeight(120)
        column.addWidget(self.table, 1)
        column.addWidget(self.entry)
        column.addWidget(self.untold)
        column.addWidget(self.tell, 0, Qt.AlignmentFlag.AlignLeft)
        column.addStretch(0)
        area = QScrollArea()
        area.setObjectName("foodSide")
        area.setWidget(inside)
        area.setWidgetResizable(True)
        area.setMinimumSize(QSize(400, 200))
        area.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        area.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        return area

    def _connect(self) -> None:
        self.back.clicked.connect(lambda _checked=False: self.left.emit())
        escape = QShortcut(QKeySequence(Qt.Key.Key_Escape), self)
        escape.setContext(Qt.ShortcutContext.WidgetWithChildrenShortcut)
        escape.activated.connect(self.left)
        self.closer.clicked.connect(lambda _checked=False: self.plot.zoom(1.5))
        self.wider.clicked.connect(lambda _checked=False: self.plot.zoom(1 / 1.5))
        self.plot.told.connect(self.met.setText)
        self.plot.met.connect(lambda _at: self._aim_entry())
        self.table.met.connect(self.plot.go)
        self.table.met.connect(lambda _at: self.entry.drop.setEnabled(self.table.reading is not None))
        self.entry.put.connect(self._put_reading)
        self.entry.drop_wanted.connect(self._drop_reading)
        self.tell.clicked.connect(lambda _checked=False: self._tell())
        self.watch.told.connect(self._told)
        self._opened.changed.connect(self._told)

    def show_food(self, dish: DishId | None, item: str) -> None:
        """Show a food's days: of this dish and ingredient, else those last seen, else the first that misses a limit."""
        self.chosen.choose(dish, item)
        self.refresh(afresh=True)

    def showEvent(self, event: QShowEvent) -> None:
        """Catch up with what changed while it was not seen."""
        super().showEvent(event)
        self.refresh()
        tab_as_read(self)

    @Slot(object)
    def _told(self, _told: object) -> None:
        if self.isVisible():
            self.refresh()

    def refresh(self, afresh: bool = False) -> None:
        """Show the food chosen as the plan is now."""
        self.chosen.mend()
        for pick, value in (
            (self.dish, self.chosen.dish), (self.food, self.chosen.line), (self.way, self.chosen.way)
        ):  # fmt: skip
            pick.show_value(value)
        self.way.setVisible(len(self.chosen.stories) > 1)
        view = self.chosen.view()
        if view is None:
            self.met.setText(self.tr("No dish has ingredients yet; write them down in the Menu."))
            self.split.hide()
            return
        self.split.show()
        shown = self.plot.view
        afresh = afresh or shown is None or (shown.span != view.span and self.plot.at is None)
        self.plot.show_view(view, afresh=afresh)
        self.table.show_view(view)
        self.entry.drop.setEnabled(self.table.reading is not None)
        limits, untold = said_of(view, self.watch.last)
        self.limits.setText(limits)
        self.limits.setVisible(bool(limits))
        self.untold.setText(untold)
        if afresh:
            self.met.setText(self.tr("Arrows walk, + and − zoom, 0 shows all days; a click puts the cursor."))
        self._aim_entry()
        self._show_days()

    def _aim_entry(self) -> None:
        view = self.plot.view
        if view is not None:
            self.entry.set_days(view.plan, view.span, self.plot.at)

    def _show_days(self) -> None:
        """Offer all days and each day of the food's by itself."""
        view = self.plot.view
        assert view is not None
        low, high = view.span
        there = [each for each in days(view.plan, low, high) if each.end > low and each.start <= high]
        words = [self.tr("All days"), *(day_text(each.date) for each in there[-_MOST_DAYS:])]
        if words == [each.text() for each in self.day_buttons]:
            return
        for old in self.day_buttons:
            self.days_row.removeWidget(old)
            old.hide()
            old.deleteLater()
        spans = [None, *((each.start, each.end) for each in there[-_MOST_DAYS:])]
        self.day_buttons = []
        for text, span in zip(words, spans, strict=True):
            button = a_button(text, tip=self.tr("Show these days (0: all)"))
            button.clicked.connect(lambda _checked=False, span=span: self.plot.fit(*(span or ())))
            self.days_row.addWidget(button)
            self.day_buttons.append(button)
        tab_as_read(self)

    # ------------------------------------------------------------ what is chosen and typed

    def _take_dish(self, dish: DishId) -> str:
        self.chosen.choose(dish, "")
        self.refresh(afresh=True)
        return ""

    def _take_food(self, line: int) -> str:
        self.chosen.choose_line(line)
        self.refresh(afresh=True)
        return ""

    def _take_way(self, way: int) -> str:
        self.chosen.way = way
        self.refresh(afresh=True)
        return ""

    def _tell(self) -> None:
        food = self.chosen.food
        if food is not None:
            self.step_wanted.emit(food.step)

    @Slot(object)
    def _put_reading(self, reading: Reading) -> None:
        key = self.chosen.key
        if key is not None:
            self.watch.readings.put(key, reading)
            self.refresh()
            self.plot.go(reading.at)

    def _drop_reading(self) -> None:
        key, at = self.chosen.key, self.table.reading
        if key is not None and at is not None:
            self.watch.readings.drop(key, at)
            self.refresh()
            self.table.setFocus(Qt.FocusReason.OtherFocusReason)
