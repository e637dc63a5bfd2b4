"""Opens the page of one food's days over the place that asks, and goes back; the page is made when first asked."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Qt
from PySide6.QtWidgets import QStackedWidget, QWidget

from core.plan.ids import DishId

if TYPE_CHECKING:
    from app.bridge import OpenPlan
    from app.places.food.page import FoodPage
    from app.places.timeline_place import TimelinePlace


class FoodDoor(QObject):
    """Holds the page of one open plan in the stack of the window's places."""

    def __init__(self, place: TimelinePlace, opened: OpenPlan) -> None:
        super().__init__(place)
        self._place, self._opened = place, opened
        self._back: QWidget | None = None
        self.page: FoodPage | None = None

    def open(self, dish: DishId | None = None, item: str = "") -> None:
        """Show a food's days: of this dish and ingredient, else those last seen."""
        stack = self._place.parentWidget()
        if not isinstance(stack, QStackedWidget):
            return
        if self.page is None:
            from app.places.food.page import FoodPage

            self.page = FoodPage(self._opened)
            stack.addWidget(self.page)
            self.page.left.connect(self.leave)
            self.page.step_wanted.connect(self._place.step_opened)
            self._place.destroyed.connect(self.page.deleteLater)
        if stack.currentWidget() is not self.page:
            self._back = stack.currentWidget()
        self.page.show_food(dish, item)
        stack.setCurrentWidget(self.page)
        self.page.plot.setFocus(Qt.FocusReason.OtherFocusReason)

    def leave(self) -> None:
        """Go back to where the page was asked for."""
        stack = self._place.parentWidget()
        if isinstance(stack, QStackedWidget):
            back = self._back or self._place
            stack.setCurrentWidget(back)
            back.setFocus(Qt.FocusReason.OtherFocusReason)
