"""A dish typed in one line ("Gratin, serves 12, 3 min before"), or pasted as a block: its name, then its steps."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace

from PySide6.QtCore import QEvent, QObject, QTimer, Signal
from PySide6.QtGui import QGuiApplication, QKeyEvent, QKeySequence
from PySide6.QtWidgets import QLineEdit

from app.bridge import OpenPlan
from app.fields import Draft, tried
from core.measures.refusal import Refusal
from core.plan.edits import AddDish
from core.plan.menu import Dish
from core.plan.plan import Plan
from core.reading.line_dish import DishRead, read_dish
from core.reading.line_names import Names

_SERVINGS_SAID = re.compile(r",\s*(?:serves|for)\s+\d|\d\s+wanted\b", re.IGNORECASE)


def dish_typed(text: str, plan: Plan, number: int | None) -> Dish:
    """Return the dish of its first line, without steps; raise Refusal where a part of the line is no value.

    `number`: the servings where the line does not say them, None for what the recipe is usually written for.
    """
    read = read_dish(text, Names.of(plan), plan.dishes)
    if read.faults:
        raise Refusal(read.faults[0][1].sentence)
    if read.dish is None or not read.dish.name:
        raise Refusal("Nothing is written here yet; write a name.")
    return _for(read.dish, text, number)


def _for(dish: Dish, first: str, number: int | None) -> Dish:
    if number is None or _SERVINGS_SAID.search(first):
        return dish
    return replace(dish, written_for=number, wanted=number)


class DishBlock(QObject):
    """Takes a block pasted into a line for a dish's name. `left`: its steps, where they cannot be taken as they are.

    A block without faults is one undo. Else the dish is added by its first line, and the other lines go, as they
    are, to the line of its steps.
    """

    took = Signal(str)
    left = Signal(str)

    def __init__(self, opened: OpenPlan, number: Callable[[], int | None], parent: QObject) -> None:
        super().__init__(parent)
        self._opened = opened
        self._number = number
        self._drafts: dict[QLineEdit, Draft] = {}
        self._rest: dict[Draft, str] = {}

    def watch(self, draft: Draft) -> None:
        """Take blocks in a line, too."""
        self._drafts[draft.line] = draft
        draft.line.installEventFilter(self)
        draft.added.connect(lambda _on: self._deliver(draft))

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """See a paste of several lines into an empty line."""
        if isinstance(event, QKeyEvent) and event.type() is QEvent.Type.KeyPress and isinstance(watched, QLineEdit):
            text = QGuiApplication.clipboard().text().strip()
            if event.matches(QKeySequence.StandardKey.Paste) and "\n" in text and not watched.text().strip():
                self._paste(self._drafts[watched], text)
                return True
        return super().eventFilter(watched, event)

    def _paste(self, draft: Draft, text: str) -> None:
        first, _, rest = text.partition("\n")
        plan = self._opened.plan
        read = read_dish(text, Names.of(plan), plan.dishes)
        if _whole(read):
            assert read.dish is not None
            dish = _for(read.dish, first, self._number())
            if not tried(self._opened, AddDish(dish, read.links), "menu"):
                self.took.emit(dish.id)
                return
        self._rest[draft] = rest.strip("\n")
        draft.line.setText(" ".join(first.split()))
        draft.line.setModified(True)
        draft.line.commit()

    def _deliver(self, draft: Draft) -> None:
        """Hand on the steps that were pasted with a name that is taken now."""
        rest = self._rest.pop(draft, "")
        if rest:
            QTimer.singleShot(0, self, lambda: self.left.emit(rest))  # once the dish is shown


def _whole(read: DishRead) -> bool:
    """Tell whether nothing of a block needs the cook: no faults, and no wait for a step that is not there yet."""
    return not read.faults and read.dish is not None and not (read.lines and read.lines[-1].line.wait)

