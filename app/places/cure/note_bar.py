"""Chooses the dish on which an answer is noted, and notes it."""

from __future__ import annotations

from typing import Any

from PySide6.QtWidgets import QFrame, QHBoxLayout, QLabel, QVBoxLayout

from app.bridge import OpenPlan
from app.fields import Form, Picked, Spec, Ticked, a_button, tried
from app.places.cure.noting import noted_on
from app.places.cure.outcome import Mood, Noting, Outcome, tr
from core.plan.ids import DishId


class NoteBar(QFrame):
    """Stands under an answer; says why where it cannot be noted."""

    def __init__(self, opened: OpenPlan) -> None:
        super().__init__()
        self.setObjectName("cureNote")
        self._opened = opened
        self._noting: Noting | None = None
        self._dish: DishId | None = None
        self._weighed = True
        specs = [
            Spec("dish", tr("For the dish"), Picked(self._dishes)),
            Spec("weighed", tr("with its ingredients"), Ticked(), tr("Cure and salt as lines of the dish")),
        ]
        self.form = Form(specs, self._take, least=150)
        self.note = a_button(tr("Note it on the dish"), tip=tr("As a note on the dish; noted before, it is replaced"))
        self.says = QLabel()
        self.says.setObjectName("soft")
        self.says.setWordWrap(True)
        row = QHBoxLayout()
        row.setSpacing(12)
        row.addWidget(self.form, 1)
        row.addWidget(self.note)
        column = QVBoxLayout(self)
        column.setContentsMargins(12, 6, 10, 8)
        column.setSpacing(4)
        column.addLayout(row)
        column.addWidget(self.says)
        self.hide()

    def aim(self, dish: DishId | None) -> None:
        """Have a dish chosen."""
        self._dish = dish

    def refresh(self, outcome: Outcome) -> None:
        """Show what may be noted of an answer."""
        plan = self._opened.plan
        self._noting = outcome.noting
        if self._dish not in plan.dishes:
            self._dish = plan.menu.dishes[0].id if plan.menu.dishes else None
        self.setVisible(outcome.reckoned)
        self.form.show_values({"dish": self._dish, "weighed": self._weighed}, afresh=True)
        there = outcome.noting is not None and self._dish is not None
        self.form.setVisible(there)
        self.note.setVisible(there)
        self.form.cells["weighed"].setVisible(outcome.noting is not None and bool(outcome.noting.weighed))
        if outcome.mood is Mood.OVER:
            self.say(tr("Over a limit: it is not noted on a dish."))
        elif self._dish is None:
            self.say(tr("There is no dish on the menu to note it on; add one first."))
        else:
            self.say("")

    def say(self, sentence: str) -> None:
        """Say what was done, or why not."""
        self.says.setText(sentence)
        self.says.setVisible(bool(sentence))

    def _dishes(self) -> list[tuple[DishId, str]]:
        return [(each.id, each.name) for each in self._opened.plan.menu.dishes]

    def _take(self, key: str, value: Any) -> str:
        if key == "dish":
            self._dish = value
        else:
            self._weighed = value
        return ""

    def put(self) -> None:
        """Note the answer on the dish, where it may be noted."""
        if self._noting is None or self._dish is None or self.note.isHidden():
            return
        dish = self._opened.plan.dishes[self._dish]
        wrong = tried(self._opened, noted_on(dish, self._noting, self._weighed), "menu")
        self.say(wrong or tr("Noted on “{dish}”. Undo takes it back (Ctrl+Z).").format(dish=dish.name))
