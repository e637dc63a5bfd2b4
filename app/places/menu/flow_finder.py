"""Finds the other step of a link, in any dish, by typing a part of its words."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QObject, Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import (
    QFrame,
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QListWidget,
    QListWidgetItem,
    QVBoxLayout,
    QWidget,
)

from app.fields import a_button, with_key
from app.places.menu.flow_words import short_step
from app.places.menu.link_fields import step_options
from core.plan.ids import DishId, StepId
from core.plan.plan import Plan

_ID = Qt.ItemDataRole.UserRole
_MOVES = (Qt.Key.Key_Up, Qt.Key.Key_Down, Qt.Key.Key_PageUp, Qt.Key.Key_PageDown)


class StepFinder(QFrame):
    """A line to type on and the steps that fit. `found`: step before and step after; `shut`: it is not needed."""

    found = Signal(str, str)
    shut = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("flowFinder")
        self._plan: Plan | None = None
        self._step: StepId | None = None
        self._dish: DishId | None = None
        self._forward = True
        self.title = QLabel()
        self.title.setWordWrap(True)
        self.title.setTextFormat(Qt.TextFormat.PlainText)
        self.line = QLineEdit()
        self.line.setPlaceholderText(self.tr("Type a part of the dish or of what is done"))
        self.line.setAccessibleName(self.tr("Step to link"))
        self.line.setMinimumHeight(30)
        self.line.installEventFilter(self)
        self.list = QListWidget()
        self.list.setObjectName("flowFound")
        self.list.setAccessibleName(self.tr("Steps that fit"))
        self.list.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.list.setMinimumHeight(96)
        self.list.setTextElideMode(Qt.TextElideMode.ElideRight)
        self.list.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.turn = a_button(
            self.tr("Turn round"), tip=self.tr("Link to what comes before instead of after, and back")
        )
        self.close_it = a_button(self.tr("Leave it"), tip=self.tr("Make no link (Escape)"))
        row = QHBoxLayout()
        row.setSpacing(4)
        row.addWidget(self.turn)
        row.addWidget(self.close_it)
        row.addStretch(1)
        column = QVBoxLayout(self)
        column.setContentsMargins(10, 8, 10, 8)
        column.setSpacing(5)
        column.addWidget(self.title)
        column.addWidget(self.line)
        column.addWidget(self.list, 1)
        column.addLayout(row)
        self.line.textEdited.connect(lambda _text: self._fill())
        self.line.returnPressed.connect(self._take)
        self.list.itemClicked.connect(lambda _item: self._take())
        with_key(self.turn, "Alt+T", self, self._turn)
        self.close_it.clicked.connect(self.leave)
        self.hide()

    def ask(self, plan: Plan, step: StepId, forward: bool, typed: str = "", dish: DishId | None = None) -> None:
        """Ask which step comes after one (`forward`), or before it; `dish`: that dish's steps only."""
        self._plan, self._step, self._forward, self._dish = plan, step, forward, dish
        self.line.setText(typed)
        self._fill()
        self.show()
        self.line.setFocus(Qt.FocusReason.OtherFocusReason)
        self.line.end(False)

    def leave(self) -> None:
        """Make no link."""
        self.hide()
        self.shut.emit()

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Let keys of the line move in the list, and leave."""
        if watched is self.line and event.type() == QEvent.Type.KeyPress and isinstance(event, QKeyEvent):
            if event.key() in _MOVES:
                self._move(Qt.Key(event.key()))
                return True
            if event.key() == Qt.Key.Key_Escape:
                self.leave()
                return True
        return super().eventFilter(watched, event)

    def _move(self, key: Qt.Key) -> None:
        by = {Qt.Key.Key_Up: -1, Qt.Key.Key_Down: 1, Qt.Key.Key_PageUp: -8}.get(key, 8)
        self.list.setCurrentRow(max(0, min(self.list.count() - 1, self.list.currentRow() + by)))

    def _turn(self) -> None:
        self._forward = not self._forward
        self._fill()
        self.line.setFocus()

    def _fill(self) -> None:
        if self._plan is None or self._step is None:
            return
        self.title.setText(self._question(self._plan, self._step))
        words = self.line.text().casefold().split()
        own = self._plan.dish_of[self._step].id
        self.list.clear()
        for step, said in step_options(self._plan, self._dish or own):
            elsewhere = self._dish is not None and step is not None and self._plan.dish_of[step].id != self._dish
            if step is None or step == self._step or elsewhere or not all(each in said.casefold() for each in words):
                continue
            item = QListWidgetItem(said)
            item.setData(_ID, step)
            item.setToolTip(said)
            self.list.addItem(item)
        self.list.setCurrentRow(0)
        if not self.list.count():
            nothing = QListWidgetItem(self.tr("No step of the menu has these words."))
            nothing.setFlags(Qt.ItemFlag.NoItemFlags)
            self.list.addItem(nothing)

    def _question(self, plan: Plan, step: StepId) -> str:
        where = ""
        if self._dish is not None and self._dish in plan.dishes:
            where = self.tr(" in {dish}").format(dish=plan.dishes[self._dish].name)
        after, before = self.tr("What comes after {step}{where}?"), self.tr("What comes before {step}{where}?")
        asked = after if self._forward else before
        return asked.format(step=short_step(plan, step), where=where)

    def _take(self) -> None:
        item = self.list.currentItem()
        other: StepId | None = item.data(_ID) if self.list.currentRow() >= 0 else None
        if other is None or self._step is None:
            return
        self.hide()
        one, two = (self._step, other) if self._forward else (other, self._step)
        self.found.emit(one, two)
