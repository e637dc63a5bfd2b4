"""What is known as food of all ingredients of a dish: a part for each, and one offer to take all that is proposed."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from PySide6.QtWidgets import QFrame, QHBoxLayout, QLabel

from app.bridge import OpenPlan
from app.fields import a_button, tried
from app.places.menu.food_part import FoodPart
from app.places.menu.food_proposal import proposal_for, with_proposal
from app.places.menu.food_words import tr
from core.plan.edits import ChangeDish, TellFood
from core.plan.food import FoodKind
from core.plan.ids import DishId
from core.plan.menu import Ingredient


class FoodParts:
    """Keeps a part for each place in the list of ingredients of the dish that `dish` names."""

    def __init__(self, opened: OpenPlan, dish: Callable[[], DishId | None]) -> None:
        self._opened, self._dish = opened, dish
        self._parts: dict[int, FoodPart] = {}
        self.offer = FoodOffer()
        self.offer.all.clicked.connect(lambda _checked=False: self._accept_all())

    def part(self, at: int) -> FoodPart:
        """Make the part of a place, for a row just made."""
        self._parts[at] = FoodPart(lambda told: self._tell(at, told))
        return self._parts[at]

    def at(self, at: int) -> FoodPart:
        """Return the part of a place."""
        return self._parts[at]

    def show(self, ingredients: Sequence[Ingredient]) -> None:
        """Show what is told of the ingredients."""
        for at, each in enumerate(ingredients):
            self._parts[at].show_ingredient(each)
        self.offer.show_state(ingredients)

    def _tell(self, at: int, told: Ingredient) -> str:
        dish = self._dish()
        if dish is None:
            return ""
        return tried(self._opened, TellFood(dish, at, told.food, told.arrives, told.thick), "menu")

    def _accept_all(self) -> None:
        dish = self._dish()
        if dish is None:
            return
        lines = self._opened.plan.dishes[dish].ingredients
        told = tuple(with_proposal(each, proposal_for(each)) for each in lines)
        tried(self._opened, ChangeDish.of(dish, ingredients=told), "menu")


class FoodOffer(QFrame):
    """One calm line below the ingredients; there only while names of food that spoils suggest what is not told."""

    def __init__(self) -> None:
        super().__init__()
        self.setObjectName("scalePanel")
        self.words = QLabel()
        self.words.setObjectName("soft")
        self.words.setWordWrap(True)
        self.all = a_button(tr("Take all kinds proposed"))
        self.all.setToolTip(tr("Tell of each ingredient what its words suggest; one undo takes it back"))
        row = QHBoxLayout(self)
        row.setContentsMargins(12, 5, 8, 5)
        row.addWidget(self.words, 1)
        row.addWidget(self.all)
        self.hide()

    def show_state(self, ingredients: Sequence[Ingredient]) -> None:
        """Count what is proposed."""
        kinds = [proposal_for(each).kind for each in ingredients]
        spoils = sum(kind not in (None, FoodKind.KEEPS) for kind in kinds)
        self.words.setText(
            tr(
                "To judge times and temperatures it helps to know what is raw meat, fish, eggs or dairy: {number} "
                "names suggest a kind of food that spoils. Proposals, not known."
            ).format(number=spoils)
        )
        self.setVisible(spoils > 0)
