"""What is written about a dish apart from its steps."""

from __future__ import annotations

from typing import Any

from PySide6.QtWidgets import QVBoxLayout, QWidget

from app.bridge import OpenPlan
from app.fields import Form, Page, Spec, Ticked, Written, tried
from app.fields.typed_places import keep_of
from app.fields.typed_text import COUNT, LIST, SENTENCE, WORDS
from app.fields.typed_times import from_plating, offset_of
from app.look.words import day_text
from app.places.menu.scale_edits import for_servings
from app.timeline.codes import dish_codes
from core.plan.edits import ChangeDish, Edit, RenameDish
from core.plan.ids import DishId
from core.plan.menu import Dish


class DishLeaf(QWidget):
    """Edits a dish's name, letters, servings, serving time, keeping and notes."""

    def __init__(self, opened: OpenPlan, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._opened = opened
        self._dish: DishId | None = None
        self.form = Form(self._specs(), self._take, least=210)
        column = QVBoxLayout(self)
        column.setContentsMargins(6, 0, 0, 0)
        column.addWidget(Page(self.form, widest=1000))

    def refresh(self, dish: Dish) -> None:
        """Show a dish."""
        afresh = dish.id != self._dish
        self._dish = dish.id
        values = {key: getattr(dish, key) for key in self.form.cells}
        self.form.show_values(values, afresh)
        self.form.field("code").setPlaceholderText(dish_codes(self._opened.plan)[dish.id])  # type: ignore[union-attr]  # it is a line

    def _specs(self) -> list[Spec]:
        opened = self._opened
        course = offset_of(lambda: opened.plan)
        return [
            Spec("name", self.tr("Name"), SENTENCE, grows=3),
            Spec("code", self.tr("Letters"), WORDS, self.tr("One to three letters that mark it everywhere"), grows=1),
            Spec("written_for", self.tr("Servings it is written for"), COUNT),
            Spec("wanted", self.tr("Servings wanted"), COUNT, hint=self._factor),
            Spec(
                "course",
                self.tr("On the table at"),
                course,
                self.tr("A clock time such as 19:27, or minutes from plating such as -30 min or +75"),
                hint=self._course,
            ),
            Spec("served", self.tr("Served by itself"), Ticked(), self.tr("Not ticked: other dishes use it up")),
            Spec(
                "keep",
                self.tr("How long it may wait when done, and how"),
                keep_of(lambda: opened.plan.kitchen),
                self.tr("Such as: up to 20 min, on the counter; any time"),
                grows=2,
            ),
            Spec("allergens", self.tr("Allergens"), LIST, self.tr("With commas between them"), "milk, gluten", grows=2),
            Spec("plating", self.tr("On the plate"), Written(), self.tr("How it is dished up and garnished"), grows=4),
            Spec("note", self.tr("Note"), Written(), grows=4),
        ]

    def _course(self, offset: int) -> str:
        plan = self._opened.plan
        at = plan.wall(offset)
        day = "" if at.date() == plan.wall(0).date() else f"{day_text(at)}, "
        return day + from_plating(offset)

    def _factor(self, wanted: int) -> str:
        dish = self._opened.plan.dishes.get(self._dish) if self._dish is not None else None
        if dish is None or not dish.written_for:
            return ""
        if dish.scale is not None:
            scaled = self.tr("{factor} times the recipe is made, as said at its ingredients; a number here goes before")
            return scaled.format(factor=f"{float(dish.scale):.3g}")
        if dish.written_for == wanted:
            return ""
        return self.tr("{factor} times the recipe").format(factor=f"{wanted / dish.written_for:.3g}")

    def _take(self, key: str, value: Any) -> str:
        if self._dish is None:
            return ""
        dish = self._opened.plan.dishes[self._dish]
        if key == "wanted":
            edit: Edit = for_servings(dish, value)
        elif key == "name":
            edit = RenameDish(dish.id, value)
        else:
            edit = ChangeDish.of(dish.id, **{key: value})
        return tried(self._opened, edit, "menu")
