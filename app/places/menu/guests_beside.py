"""Shows the guests in the Menu place, where else the dish chosen stands, and goes back."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLabel

from app.bridge import OpenPlan
from app.fields import with_key
from app.places.menu.guests_marks import marks_of, remark
from app.places.menu.guests_page import GuestsPage
from core.plan.ids import DishId

if TYPE_CHECKING:
    from app.places.menu.menu_place import MenuPlace


class GuestsBeside:
    """Joins the guests' page with the place: the button and its key, the way to a dish, Escape."""

    def __init__(self, place: MenuPlace, opened: OpenPlan) -> None:
        self._place = place
        self.page = GuestsPage(opened)
        place.right.addWidget(self.page)
        place.facts.guests.setToolTip(f"{place.facts.guests.toolTip()}")
        with_key(place.facts.guests, "Ctrl+G", place, self._turn)
        self.page.left.connect(place.leave_mine)
        self.page.wanted.connect(self._go_to)
        place.right.currentChanged.connect(lambda _at: self._tell())

    @property
    def shown(self) -> bool:
        """Tell whether the page stands in the place of the dish."""
        return self._place.right.currentWidget() is self.page

    def _turn(self) -> None:
        if self.shown:
            self._place.leave_mine()
        else:
            self._place.finish()
            self._place.right.setCurrentWidget(self.page)
            self.page.begin()
        self._tell()

    def _tell(self) -> None:
        self._place.facts.guests.setChecked(self.shown)

    def _go_to(self, dish: str) -> None:
        self._place.leave_mine()
        self._place.dishes.choose(DishId(dish))
        self._place.leaves.turn("ingredients")
        self._place.ingredients.allergens.enter()


class DishCaution(QLabel):
    """Says over a dish who cannot eat it and through which ingredient."""

    def __init__(self) -> None:
        super().__init__()
        self.setObjectName("dishCaution")
        self.setTextFormat(Qt.TextFormat.PlainText)
        self.setWordWrap(True)
        self.setContentsMargins(18, 0, 18, 0)
        self.hide()

    def show_dish(self, opened: OpenPlan, dish: DishId | None) -> None:
        """Show what is said of a dish; nothing where nothing speaks against it."""
        mark = marks_of(opened.plan).get(dish) if dish is not None else None
        words = mark.through if mark is not None else ""
        self.setText(f"{words[:1].upper()}{words[1:]}. {remark()}" if words else "")
        self.setToolTip("\n".join(mark.sentences) if mark is not None else "")
        self.setVisible(bool(words))
