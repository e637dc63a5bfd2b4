"""The dishes of the menu in order, each with its letters on its colour; add, copy, move, remove."""

from __future__ import annotations

from PySide6.QtCore import QModelIndex, QPersistentModelIndex, QPoint, QRect, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QColor, QFont, QPainter, QPalette
from PySide6.QtWidgets import (
    QApplication,
    QFrame,
    QHBoxLayout,
    QListWidget,
    QListWidgetItem,
    QStyle,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QVBoxLayout,
    QWidget,
)

from app.bridge import OpenPlan
from app.fields import Draft, a_button, tried, with_key
from app.fields.wrapping import wrapped
from app.look.colours import palette_under
from app.look.words import clock_text, day_text
from app.places.menu.guests_marks import Mark, marks_of, remark
from app.places.menu.line_dish_block import DishBlock, dish_typed
from app.timeline.codes import dish_codes
from core.measures.refusal import Refusal
from core.plan.edits import AddDish, CopyDish, MoveDish, RemoveDish
from core.plan.ids import DishId
from core.plan.menu import Dish
from core.plan.plan import Plan

_ID = Qt.ItemDataRole.UserRole
_CODE = Qt.ItemDataRole.UserRole + 1
_UNDER = Qt.ItemDataRole.UserRole + 2
_MARK = Qt.ItemDataRole.UserRole + 3


class DishList(QFrame):
    """Chooses a dish. `chosen` carries its id; `first_step` asks to go on writing its steps."""

    chosen = Signal(str)
    first_step = Signal()

    def __init__(self, opened: OpenPlan, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._opened = opened
        self.list = QListWidget()
        self.list.setObjectName("dishes")
        self.list.setAccessibleName(self.tr("Dishes"))
        self.list.setItemDelegate(_Drawn(self.list))
        self.list.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.list.setVerticalScrollMode(QListWidget.ScrollMode.ScrollPerPixel)
        self.list.setResizeMode(QListWidget.ResizeMode.Adjust)
        self.list.setFrameShape(QFrame.Shape.NoFrame)
        add = a_button(self.tr("Add the dish"), "plus", only_icon=True)
        self.draft = Draft(self.tr("Name of a new dish"), self.tr("New dish…"), self.add, add)
        self.from_mine = a_button(self.tr("From my dishes…"), tip=self.tr("Put a dish on the menu that you have kept"))
        self.copy = a_button(self.tr("Copy"), tip=self.tr("Copy the dish with its steps"))
        self.up = a_button(self.tr("Move the dish up"), "up", only_icon=True)
        self.down = a_button(self.tr("Move the dish down"), "down", only_icon=True)
        self.remove = a_button(self.tr("Remove the dish (undo brings it back)"), "bin", only_icon=True)
        with_key(self.copy, "Ctrl+D", self, self._copy)
        with_key(self.up, "Alt+Up", self, lambda: self._move(-1))
        with_key(self.down, "Alt+Down", self, lambda: self._move(1))
        with_key(self.remove, "Alt+Del", self, self._remove)
        buttons = QHBoxLayout()
        buttons.setContentsMargins(10, 0, 10, 8)
        buttons.setSpacing(4)
        for button in (self.copy, self.up, self.down, self.remove):
            buttons.addWidget(button)
        buttons.insertStretch(3)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 6, 0, 0)
        column.addWidget(self.list, 1)
        column.addWidget(self.draft)
        mine = QHBoxLayout()
        mine.setContentsMargins(10, 0, 10, 2)
        mine.addWidget(self.from_mine)
        column.addLayout(mine)
        column.addLayout(buttons)
        self.list.currentItemChanged.connect(self._changed)
        self.draft.added.connect(self._added)
        self.block = DishBlock(opened, self._servings, self)
        self.block.took.connect(lambda dish: self.choose(DishId(dish)))
        self.block.watch(self.draft)

    @property
    def dish(self) -> DishId | None:
        """Return the dish chosen."""
        row = self.list.currentRow()
        return DishId(self.list.item(row).data(_ID)) if row >= 0 else None

    def refresh(self) -> None:
        """Show the dishes as they are; the one chosen stays so, or the one in its place."""
        plan = self._opened.plan
        before, at = self.dish, self.list.currentRow()
        codes, marks = dish_codes(plan), marks_of(plan)
        self.list.blockSignals(True)
        while self.list.count() > len(plan.menu.dishes):
            self.list.takeItem(self.list.count() - 1)
        while self.list.count() < len(plan.menu.dishes):
            self.list.addItem(QListWidgetItem())
        for row, dish in enumerate(plan.menu.dishes):
            self._show(self.list.item(row), plan, dish, codes[dish.id])
            _show_mark(self.list.item(row), marks.get(dish.id))
        ids = [dish.id for dish in plan.menu.dishes]
        row = ids.index(before) if before in ids else min(max(at, 0), len(ids) - 1)
        self.list.setCurrentRow(row)
        self.list.blockSignals(False)
        self.list.viewport().update()
        self.list.doItemsLayout()
        for button in (self.copy, self.remove):
            button.setEnabled(bool(ids))
        self.up.setEnabled(row > 0)
        self.down.setEnabled(row < len(ids) - 1)
        if self.dish != before:
            self.chosen.emit(self.dish or "")

    def choose(self, dish: DishId) -> None:
        """Choose a dish."""
        for row in range(self.list.count()):
            if self.list.item(row).data(_ID) == dish:
                self.list.setCurrentRow(row)

    def dish_at(self, point: QPoint) -> DishId | None:
        """Return the dish under a point of the screen, None where there is none."""
        view = self.list.viewport()
        inside = view.mapFromGlobal(point)
        item = self.list.itemAt(inside) if view.rect().contains(inside) else None
        return None if item is None else DishId(item.data(_ID))

    def add(self, name: str) -> str:
        """Put a dish on the menu; return why not, or "" and have it chosen."""
        try:
            dish = dish_typed(name, self._opened.plan, self._servings())
        except Refusal as refusal:
            return str(refusal)
        sentence = tried(self._opened, AddDish(dish), "menu")
        if not sentence:
            self.choose(dish.id)
        return sentence

    def _servings(self) -> int | None:
        """Return for how many a new dish is: for as many as sit down, or as all others are; None: not told."""
        menu = self._opened.plan.menu
        servings = {each.wanted for each in menu.dishes} if menu.covers is None else {menu.covers}
        return servings.pop() if len(servings) == 1 else None

    def _show(self, item: QListWidgetItem, plan: Plan, dish: Dish, code: str) -> None:
        under = self._under(plan, dish)
        item.setText(dish.name)
        item.setData(_ID, dish.id)
        item.setData(_CODE, code)
        item.setData(_UNDER, under)
        item.setData(Qt.ItemDataRole.AccessibleTextRole, f"{dish.name}, {under}")
        item.setToolTip(dish.name)

    def _under(self, plan: Plan, dish: Dish) -> str:
        number = len(dish.steps)
        steps = self.tr("{number} steps").format(number=number) if number > 1 else self.tr("1 step")
        if not number:
            steps = self.tr("no steps yet")
        if not dish.served:
            return self.tr("for other dishes, {steps}").format(steps=steps)
        at = plan.wall(dish.course)
        day = "" if at.date() == plan.wall(0).date() else f"{day_text(at)} "
        return self.tr("{time}, for {number}, {steps}").format(
            time=day + clock_text(at), number=dish.wanted, steps=steps
        )

    def _changed(self, item: QListWidgetItem | None) -> None:
        row = self.list.currentRow()
        self.up.setEnabled(row > 0)
        self.down.setEnabled(0 <= row < self.list.count() - 1)
        self.chosen.emit("" if item is None else item.data(_ID))

    def _added(self, goes_on: bool) -> None:
        if goes_on:
            self.first_step.emit()

    def _copy(self) -> None:
        if self.dish is not None:
            edit = CopyDish(self.dish)
            new = edit.new_id(self._opened.plan)
            if self._opened.apply(edit, "menu"):
                self.choose(new)

    def _move(self, by: int) -> None:
        to = self.list.currentRow() + by
        if self.dish is not None and 0 <= to < self.list.count():
            self._opened.apply(MoveDish(self.dish, to), "menu")

    def _remove(self) -> None:
        if self.dish is not None:
            self._opened.apply(RemoveDish(self.dish), "menu")


def _show_mark(item: QListWidgetItem, mark: Mark | None) -> None:
    """Say who cannot eat a dish: in short below it, in full in the tip and to assistive technology."""
    words = mark.words if mark is not None else ""
    item.setData(_MARK, words)
    if mark is not None and words:
        item.setToolTip("\n".join([item.text(), *mark.sentences, remark()]))
        item.setData(
            Qt.ItemDataRole.AccessibleTextRole, f"{item.data(Qt.ItemDataRole.AccessibleTextRole)}, {words}"
        )


class _Drawn(QStyledItemDelegate):
    """Draws a dish: its letters on its colour, its name in full, and below when and for how many."""

    _CHIP = 34
    _EDGE = 10

    def sizeHint(self, option: QStyleOptionViewItem, index: QModelIndex | QPersistentModelIndex) -> QSize:
        """Ask for as many lines as the name takes."""
        width = self._width()
        line = option.fontMetrics.lineSpacing()
        lines = sum(map(len, self._lines(index, option.font, width)))
        return QSize(self._list_width(), max(48, line * lines + 16))

    def paint(
        self, painter: QPainter, option: QStyleOptionViewItem, index: QModelIndex | QPersistentModelIndex
    ) -> None:
        """Draw it."""
        colours = palette_under(self._window_palette())
        tone = colours.tone(index.row())
        rect = option.rect
        state = option.state
        painter.save()
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        if state & QStyle.StateFlag.State_Selected:
            painter.fillRect(rect, QColor(colours.lane))
            painter.fillRect(QRect(rect.left(), rect.top(), 5, rect.height()), QColor(tone.edge))
        if state & QStyle.StateFlag.State_HasFocus:
            painter.setPen(QColor(colours.accent))
            painter.drawRect(rect.adjusted(0, 0, -1, -1))
        chip = QRectF(rect.left() + self._EDGE + 3, rect.top() + 9, self._CHIP, 24)
        painter.setPen(QColor(tone.edge))
        painter.setBrush(QColor(tone.full))
        painter.drawRoundedRect(chip, 4, 4)
        font = QFont(option.font)
        bold = QFont(font)
        bold.setBold(True)
        painter.setFont(bold)
        painter.setPen(QColor(tone.on_full))
        painter.drawText(chip, Qt.AlignmentFlag.AlignCenter, index.data(_CODE))
        self._draw_words(painter, option, index, [colours.ink, colours.faint, colours.clash])
        painter.restore()

    def _draw_words(
        self,
        painter: QPainter,
        option: QStyleOptionViewItem,
        index: QModelIndex | QPersistentModelIndex,
        colours: list[str],
    ) -> None:
        rect = option.rect
        font = option.font
        left = rect.left() + self._EDGE + self._CHIP + 13
        y = rect.top() + 7
        line = option.fontMetrics.lineSpacing()
        painter.setFont(font)
        for colour, lines in zip(colours, self._lines(index, font, self._width()), strict=True):
            painter.setPen(QColor(colour))
            for words in lines:
                painter.drawText(QRect(left, y, self._width(), line), Qt.AlignmentFlag.AlignVCenter, words)
                y += line

    def _lines(
        self, index: QModelIndex | QPersistentModelIndex, font: QFont, width: int
    ) -> tuple[list[str], ...]:
        """Return the lines of the name, of what stands below it, and of who cannot eat it."""
        texts = (index.data(), index.data(_UNDER), index.data(_MARK))
        return tuple(wrapped(text, font, width) if text else [] for text in texts)

    def _window_palette(self) -> QPalette:
        """Return the window's own: the list's is bent by the style sheet."""
        parent = self.parent()
        return parent.window().palette() if isinstance(parent, QWidget) else QApplication.palette()

    def _list_width(self) -> int:
        parent = self.parent()
        return parent.viewport().width() if isinstance(parent, QListWidget) else 220

    def _width(self) -> int:
        return self._list_width() - self._EDGE - self._CHIP - 13 - 8
