"""A dish of the cook's own to look at before it is taken in: times, steps, ingredients, where it came from."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFrame, QGridLayout, QLabel, QScrollArea, QSizePolicy, QVBoxLayout, QWidget

from app.places.library.words import equipment_words, ingredient_words, origin_words, step_words, times_words

if TYPE_CHECKING:
    from core.store.library_values import OwnDish


class Preview(QScrollArea):
    """Shows one dish, or nothing."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("ownPreview")
        self.setAccessibleName(self.tr("The dish as it is kept"))
        self.setWidgetResizable(True)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.key: tuple[str, int] | None = None
        self.show_dish(None)

    def show_dish(self, own: OwnDish | None) -> None:
        """Show a dish; the same one stays as it is scrolled."""
        key = None if own is None else (own.key, own.revision)
        if key == self.key and self.widget() is not None:
            return
        self.key = key
        paper = QFrame()
        paper.setObjectName("ownPreviewPaper")
        column = QVBoxLayout(paper)
        column.setContentsMargins(18, 14, 18, 14)
        column.setSpacing(6)
        if own is not None:
            self._fill(column, own)
        column.addStretch(1)
        self.setWidget(paper)

    def words(self) -> str:
        """Return all that is shown, line by line."""
        return "\n".join(each.text() for each in self.findChildren(QLabel))

    def _fill(self, column: QVBoxLayout, own: OwnDish) -> None:
        dish = own.copy.dish
        column.addWidget(_words(dish.name, "ownName"))
        column.addWidget(_words(times_words(own)))
        needs = equipment_words(own)
        if needs:
            column.addWidget(_words(self.tr("Needs: {things}").format(things=needs)))
        if dish.allergens:
            column.addWidget(_words(self.tr("Allergens noted: {names}").format(names=", ".join(dish.allergens))))
        if dish.steps:
            column.addSpacing(6)
            column.addWidget(_words(self.tr("Steps"), "ownHeading"))
            column.addLayout(_steps(own))
        if dish.ingredients:
            column.addSpacing(6)
            column.addWidget(_words(self.tr("Ingredients for {number}").format(number=dish.written_for), "ownHeading"))
            column.addWidget(_words("\n".join(ingredient_words(each) for each in dish.ingredients)))
        if dish.note:
            column.addSpacing(6)
            column.addWidget(_words(self.tr("Note"), "ownHeading"))
            column.addWidget(_words(dish.note))
        column.addSpacing(6)
        column.addWidget(_words(origin_words(own), "soft"))


def _steps(own: OwnDish) -> QGridLayout:
    grid = QGridLayout()
    grid.setContentsMargins(0, 0, 0, 0)
    grid.setHorizontalSpacing(10)
    grid.setVerticalSpacing(2)
    grid.setColumnStretch(1, 1)
    for row, step in enumerate(own.copy.dish.steps):
        number = QLabel(str(row + 1))
        number.setObjectName("soft")
        grid.addWidget(number, 2 * row, 0, Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignTop)
        grid.addWidget(_words(step.does), 2 * row, 1)
        grid.addWidget(_words(step_words(step), "soft"), 2 * row + 1, 1)
    return grid


def _words(text: str, name: str = "plain") -> QLabel:
    label = QLabel(text)
    label.setObjectName(name)
    label.setTextFormat(Qt.TextFormat.PlainText)
    label.setWordWrap(True)
    label.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Minimum)
    return label
