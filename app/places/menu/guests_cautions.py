"""What the guests mean for the menu: the dishes that somebody cannot eat, each with the way to it."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLabel, QVBoxLayout, QWidget

from app.fields import Rows, a_button
from app.places.menu.guests_marks import Mark, marks_of, remark
from app.places.menu.guests_words import unknown_words
from core.plan.ids import DishId
from core.plan.plan import Plan


class GuestsCautions(QWidget):
    """Lists cautions; `wanted` carries the dish whose ingredients the cook wants to see."""

    wanted = Signal(str)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.title = QLabel(self.tr("What this means for the menu"))
        self.title.setObjectName("title")
        self.rows: Rows[_Caution] = Rows(self._made)
        self.rest = QLabel()
        self.rest.setWordWrap(True)
        self.rest.setTextFormat(Qt.TextFormat.PlainText)
        self.rest.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
        self.rest.setContentsMargins(12, 6, 12, 6)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 14, 0, 0)
        column.addWidget(self.title)
        column.addWidget(self.rows)
        column.addWidget(self.rest)

    def refresh(self, plan: Plan) -> bool:
        """Show a plan's cautions; tell whether rows came or went."""
        from core.food.allergens import guest_cautions

        marks = marks_of(plan)
        changed = self.rows.show_keys(list(marks))
        for dish, mark in marks.items():
            row = self.rows.at(dish)
            assert row is not None
            row.show_mark(plan.dishes[dish].name, mark)
        told = {sentence for mark in marks.values() for sentence in mark.sentences}
        rest = [each for each in guest_cautions(plan) if each not in told]
        self.rest.setText("\n".join(filter(None, (*rest, unknown_words(plan), remark()))))
        self.setVisible(bool(plan.menu.guests))
        return changed

    def _made(self, dish: DishId) -> _Caution:
        row = _Caution()
        row.open.clicked.connect(lambda _checked=False: self.wanted.emit(dish))
        return row


class _Caution(QFrame):
    def __init__(self) -> None:
        super().__init__()
        self.setObjectName("guestCaution")
        self.words = QLabel()
        self.words.setWordWrap(True)
        self.words.setTextFormat(Qt.TextFormat.PlainText)
        self.words.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
        self.open = a_button(self.tr("Ingredients"))
        row = QHBoxLayout(self)
        row.setContentsMargins(10, 5, 8, 5)
        row.addWidget(self.words, 1)
        row.addWidget(self.open, 0, Qt.AlignmentFlag.AlignTop)

    def show_mark(self, dish: str, mark: Mark) -> None:
        self.words.setText("\n".join(mark.sentences))
        self.open.setAccessibleName(self.tr("Ingredients of {dish}").format(dish=dish))
        self.open.setToolTip(self.open.accessibleName())
        if self.property("grave") != mark.grave:
            self.setProperty("grave", mark.grave)
            self.style().unpolish(self)
            self.style().polish(self)
