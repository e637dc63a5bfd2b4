"""The amount to take, beside the amount that is written."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLabel, QVBoxLayout, QWidget

from app.places.menu.scale_words import made_words
from core.food.scaling import Scaled
from core.plan.menu import Dish

_WIDE = 9.2  # heights of a line


class Beside(QWidget):
    """Two lines of words: what to take, and in small the amount in proportion."""

    def __init__(self) -> None:
        super().__init__()
        self.take = QLabel()
        self.take.setObjectName("scaleTake")
        self.exact = QLabel()
        self.exact.setObjectName("scaleExact")
        column = QVBoxLayout(self)
        column.setContentsMargins(4, 5, 4, 0)
        column.setSpacing(0)
        for label in (self.take, self.exact):
            label.setWordWrap(True)
            label.setTextFormat(Qt.TextFormat.PlainText)
            column.addWidget(label)
        column.addStretch(1)
        self.setFixedWidth(round(_WIDE * self.fontMetrics().height()))

    def show_words(self, take: str, exact: str) -> None:
        """Show both; an empty second line takes no room."""
        self.take.setText(take)
        self.exact.setText(exact)
        self.exact.setVisible(bool(exact))


def beside_words(dish: Dish, lines: Sequence[Scaled]) -> list[tuple[str, str]]:
    """Return both texts for each ingredient, empty where it is taken just as it is written."""
    found = []
    for line, each in zip(dish.ingredients, lines, strict=True):
        same = dish.factor == 1 and not line.per_kg_of
        found.append(("", "") if same else made_words(each))
    return found
