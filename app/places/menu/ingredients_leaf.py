"""The ingredients of a dish: what, how much, how prepared, from where."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QLabel, QVBoxLayout, QWidget

from app.bridge import OpenPlan
from app.fields import (
    Draft,
    Page,
    Row,
    Rows,
    Spec,
    Ticked,
    a_button,
    bring_into_view,
    dress_inside,
    tried,
    with_key,
)
from app.fields.short_form import read_short
from app.fields.typed_text import AMOUNT_IN_PIECES, PHRASE, SENTENCE, WORDS, without_pieces
from app.look.colours import palette_under
from app.places.menu.allergen_parts import AllergenParts
from app.places.menu.food_parts import FoodParts
from app.places.menu.scale_beside import Beside, beside_words
from app.places.menu.scale_panel import ScalePanel
from core.plan.edits import ChangeDish
from core.plan.ids import DishId
from core.plan.menu import Dish, Ingredient


class IngredientsLeaf(QWidget):
    """Edits the ingredients. `remade`: rows came or went."""

    remade = Signal()

    def __init__(self, opened: OpenPlan, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._opened = opened
        self._dish: DishId | None = None
        self.rows: Rows[Row] = Rows(self._made)
        self.allergens = AllergenParts(self._take, self._change, self._ingredients)
        self.food = FoodParts(opened, lambda: self._dish)
        add = a_button(self.tr("Add the ingredient"), "plus", only_icon=True)
        self.draft = Draft(
            self.tr("A new ingredient"),
            self.tr("New ingredient, such as: potatoes: 1 1/2 kg, peeled"),
            self.add,
            add,
            self._read,
        )
        self.draft.added.connect(self._added)
        self.teaching = QLabel(
            self.tr(
                "No ingredients yet. Write one to a line: what, a colon, how much, a comma, how it is prepared. The "
                "order list and the prep list are made from these."
            )
        )
        self.teaching.setObjectName("teaching")
        self.teaching.setWordWrap(True)
        self.scale = ScalePanel(opened)
        self.scale.remade.connect(self.remade)
        below = (self.draft, self.food.offer, self.scale.notes)
        self.page = Page(self.scale, self.teaching, self.allergens.offer, self.rows, *below)
        self.scale.notes_wanted.connect(lambda: bring_into_view(self.page, self.scale.notes))
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.addWidget(self.page)

    def refresh(self, dish: Dish | None) -> None:
        """Show the ingredients of a dish."""
        other = (dish.id if dish else None) != self._dish
        self._dish = dish.id if dish is not None else None
        if other:
            self.draft.drop()
        ingredients = dish.ingredients if dish is not None else ()
        changed = self.rows.show_keys(range(len(ingredients)))
        for row, each in zip(self.rows, ingredients, strict=True):
            row.show_values(
                {
                    "item": each.item,
                    "amount": (each.quantity, each.per_kg_of, each.pieces),
                    "preparation": each.preparation,
                    "aisle": each.aisle,
                    "on_hand": each.on_hand,
                },
                (self._dish, each.item),
            )
        self._show_beside(dish)
        self.allergens.show(ingredients)
        self.food.show(ingredients)
        self.teaching.setVisible(not ingredients)
        if changed:
            self.remade.emit()

    def _show_beside(self, dish: Dish | None) -> None:
        """Show beside each amount what is taken of it where more or less than the recipe is made."""
        scaling = self.scale.refresh(dish)
        lines = [] if dish is None or scaling is None else beside_words(dish, scaling.lines)
        shown = any(take for take, _exact in lines)
        for at, row in enumerate(self.rows):
            beside = row.findChild(Beside)
            if beside is not None:
                beside.setVisible(shown)
                beside.show_words(*(lines[at] if shown else ("", "")))

    def add(self, ingredient: Ingredient) -> str:
        """Add an ingredient last; return why not, or ""."""
        return self._change((*self._ingredients(), ingredient))

    def _read(self, text: str) -> Ingredient:
        from core.intake.text.dishes import IngredientText

        plain, pieces = without_pieces(text)
        found: Ingredient = read_short(IngredientText, plain).ingredient(self._dish or DishId("x"))
        return replace(found, pieces=pieces)

    def _made(self, at: int) -> Row:
        remove = a_button(self.tr("Take the ingredient out (undo brings it back)"), "bin", only_icon=True)
        aisle = replace(WORDS, offers=self._aisles)
        allergens, food = self.allergens.part(at), self.food.part(at)
        row = Row(
            [
                [
                    Spec("item", self.tr("What"), SENTENCE, width=140, grows=5),
                    Spec(
                        "amount",
                        self.tr("How much"),
                        AMOUNT_IN_PIECES,
                        self.tr(
                            "1 1/2 cups, 700 ml, 3, to taste, 8 g per kg of another ingredient, or what is cooked "
                            "whole: 2.4 kg in 1 piece"
                        ),
                        width=110,
                        grows=3,
                    ),
                    Beside(),
                    Spec("preparation", self.tr("How prepared"), PHRASE, "", self.tr("as it is"), 120, 4),
                    self.tr("from"),
                    Spec("aisle", self.tr("Where the shop has it"), aisle, "", self.tr("anywhere"), 110, 2),
                    Spec("on_hand", self.tr("on hand"), Ticked(), self.tr("It need not be bought")),
                    allergens.button,
                    food.button,
                    remove,
                ],
                [allergens],
                [food],
            ],
            lambda key, value: self._take(at, key, value),
        )
        with_key(remove, "Alt+Del", row, lambda: self._remove(at))
        row.finished.connect(self.draft.enter)
        dress_inside(row, palette_under(self.palette()))
        return row

    def _aisles(self) -> list[str]:
        dishes = self._opened.plan.menu.dishes
        return sorted({each.aisle for dish in dishes for each in dish.ingredients if each.aisle})

    def _ingredients(self) -> tuple[Ingredient, ...]:
        return self._opened.plan.dishes[self._dish].ingredients if self._dish is not None else ()

    def _take(self, at: int, key: str, value: Any) -> str:
        before = self._ingredients()[at]
        if key == "amount":
            after = replace(before, quantity=value[0], per_kg_of=value[1], pieces=value[2])
        else:
            after = replace(before, **{key: value})
        rest = [self._along(each, before, after) for each in self._ingredients()]
        rest[at] = after
        return self._change(tuple(rest))

    def _along(self, other: Ingredient, before: Ingredient, after: Ingredient) -> Ingredient:
        """Return another ingredient, which counts by the kilogram of this one under its new name."""
        if other.per_kg_of and other.per_kg_of == before.item:
            return replace(other, per_kg_of=after.item)
        return other

    def _remove(self, at: int) -> None:
        left = [each for number, each in enumerate(self._ingredients()) if number != at]
        sentence = self._change(tuple(left))
        row = self.rows.at(at)
        if sentence and row is not None:
            row.refuse(sentence)

    def _change(self, ingredients: tuple[Ingredient, ...]) -> str:
        if self._dish is None:
            return self.tr("There is no dish to put it into; add one first.")
        return tried(self._opened, ChangeDish.of(self._dish, ingredients=ingredients), "menu")

    def _added(self, goes_on: bool) -> None:
        if goes_on:
            self.draft.enter()
        bar = self.page.verticalScrollBar()
        bar.setValue(bar.maximum())
