"""The allergens of all ingredients of a dish: a part for each, and one offer to take all that is proposed."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from typing import Any

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLabel

from app.fields import a_button
from app.places.menu.allergen_part import AllergenPart
from core.plan.menu import Ingredient


class AllergenParts:
    """Keeps a part for each place in the list of ingredients.

    `take(at, "allergens", words)` notes one ingredient's, `change` takes all ingredients anew; both answer ""
    or why not.
    """

    def __init__(
        self,
        take: Callable[[int, str, Any], str],
        change: Callable[[tuple[Ingredient, ...]], str],
        ingredients: Callable[[], tuple[Ingredient, ...]],
    ) -> None:
        self._take, self._change, self._ingredients = take, change, ingredients
        self._parts: dict[int, AllergenPart] = {}
        self._declined: set[tuple[str, str]] = set()
        self._shown = 0
        self.offer = _Offer()
        self.offer.all.clicked.connect(lambda _checked=False: self._accept_all())

    def part(self, at: int) -> AllergenPart:
        """Make the part of a place, for a row just made."""
        part = AllergenPart(lambda words: self._take(at, "allergens", words))
        part.declined = self._declined
        part.answered.connect(lambda: self._go_on(at))
        self._parts[at] = part
        return part

    def at(self, at: int) -> AllergenPart:
        """Return the part of a place."""
        return self._parts[at]

    def show(self, ingredients: Sequence[Ingredient]) -> None:
        """Show what is noted of the ingredients."""
        self._shown = len(ingredients)
        for at, each in enumerate(ingredients):
            self._parts[at].show_words(each.item, each.allergens)
        self._show_offer()

    def enter(self) -> None:
        """Put the cursor on the first question, or on the button of the first ingredient."""
        asking = self._asking()
        if asking:
            self._parts[asking[0]].yes.setFocus(Qt.FocusReason.TabFocusReason)
        elif self._shown:
            self._parts[0].button.setFocus(Qt.FocusReason.TabFocusReason)

    def _asking(self) -> list[int]:
        return [at for at in range(self._shown) if self._parts[at].open_proposals]

    def _show_offer(self) -> None:
        self.offer.show_count(len(self._asking()))

    def _accept_all(self) -> None:
        ingredients = list(self._ingredients())
        for at in self._asking():
            ingredients[at] = replace(ingredients[at], allergens=self._parts[at].noted_with_proposals())
        self.offer.complain(self._change(tuple(ingredients)))

    def _go_on(self, at: int) -> None:
        """Go to the next question, or to the button of the ingredient just answered."""
        self._show_offer()
        asking = self._asking()
        later = [each for each in asking if each >= at] or asking
        target = self._parts[later[0]].yes if later else self._parts[at].button
        target.setFocus(Qt.FocusReason.TabFocusReason)


class _Offer(QFrame):
    """Says how many ingredients' names propose something, where they are more than one."""

    def __init__(self) -> None:
        super().__init__()
        self.setObjectName("allergenOffer")
        self.words = QLabel()
        self.words.setWordWrap(True)
        self.all = a_button(self.tr("Take all proposals"))
        self.all.setToolTip(self.tr("Note for each ingredient what stands under it; one undo takes it back"))
        row = QHBoxLayout(self)
        row.setContentsMargins(12, 5, 8, 5)
        row.addWidget(self.words, 1)
        row.addWidget(self.all)
        self.hide()

    def show_count(self, number: int) -> None:
        self.complain("")
        self.words.setText(
            self.tr(
                "The names of {number} ingredients propose allergens. These are proposals, not known: read the labels."
            ).format(number=number)
        )
        self.setVisible(number > 1)

    def complain(self, sentence: str) -> None:
        if sentence:
            self.words.setText(sentence)
