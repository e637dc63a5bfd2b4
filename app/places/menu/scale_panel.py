"""How much of a dish is made: the factor, and the fields that set it."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLabel, QVBoxLayout, QWidget

from app.bridge import OpenPlan
from app.fields import Form, Leaves, a_button, tried, with_key
from app.places.menu.scale_edits import as_written, for_amount, for_length, for_pan, for_servings, of_pan
from app.places.menu.scale_fields import scale_specs
from app.places.menu.scale_notes import ScaleNotes, notes_of
from app.places.menu.scale_words import in_figures
from core.food.length_offers import Offer, scaling_offered
from core.food.made_amounts import made_amounts, main_item
from core.food.scale_by import Scaling
from core.measures.number import show_decimal
from core.measures.quantity import Quantity
from core.measures.refusal import Refusal
from core.plan.edits import Edit
from core.plan.ids import DishId
from core.plan.menu import Dish


class ScalePanel(QFrame):
    """Stands above the ingredients; its `notes` on what else changes stand below them.

    `remade`: fields or buttons came or went. `notes_wanted`: the cook wants to see the notes.
    """

    remade = Signal()
    notes_wanted = Signal()

    def __init__(self, opened: OpenPlan, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("scalePanel")
        self._opened = opened
        self._dish: DishId | None = None
        self._item = ""
        self._amounts: dict[str, Quantity] = {}
        self.says = QLabel()
        self.says.setObjectName("scaleSays")
        self.says.setWordWrap(True)
        self.wrong = QLabel()
        self.wrong.setObjectName("wrong")
        self.wrong.setWordWrap(True)
        self.wrong.hide()
        self.open = a_button(self.tr("Make more or less"), tip=self.tr("By servings, by an ingredient or by the tin"))
        self.open.setCheckable(True)
        self.back = a_button(self.tr("As the recipe is"), "undo", self.tr("Make the recipe once, in its own tin"))
        self.form = Form(scale_specs(self._items, self._for_servings, self._written), self._take, least=158)
        self.form.hide()
        self.notes = ScaleNotes(self._take_length)
        self.look = a_button("", tip=self.tr("Go to what else changes: loads, room, lengths"))
        self.back.clicked.connect(lambda _checked=False: self._try(as_written))
        self._lay_out()

    def _lay_out(self) -> None:
        head = QHBoxLayout()
        head.setSpacing(8)
        head.addWidget(self.says, 1)
        head.addWidget(self.look, 0, Qt.AlignmentFlag.AlignTop)
        head.addWidget(self.back, 0, Qt.AlignmentFlag.AlignTop)
        head.addWidget(self.open, 0, Qt.AlignmentFlag.AlignTop)
        column = QVBoxLayout(self)
        column.setContentsMargins(10, 6, 8, 6)
        column.setSpacing(6)
        column.addLayout(head)
        column.addWidget(self.form)
        column.addWidget(self.wrong)

    def refresh(self, dish: Dish | None) -> Scaling | None:
        """Show how much is made of a dish; return what it comes to, None where its amounts cannot be."""
        other = (dish.id if dish is not None else None) != self._dish
        self._dish = dish.id if dish is not None else None
        self.setVisible(dish is not None and bool(dish.steps or dish.ingredients))
        if dish is None:
            self.notes.show_notes([])
            return None
        scaling = self._scaling(dish)
        if other or self._item not in self._amounts:
            self._item = main_item(self._amounts)
        self.says.setText(self._factor(dish))
        self.back.setVisible(dish.factor != 1 or bool(dish.pan_wanted))
        self._show_fields(dish, other)
        notes = [] if scaling is None else notes_of(dish, scaling)
        self.look.setText(self.tr("What else changes: {number}").format(number=len(notes)))
        self.look.setAccessibleName(self.look.text())
        self.look.setVisible(bool(notes))
        if self.notes.show_notes(notes):
            self.remade.emit()
        return scaling

    def _scaling(self, dish: Dish) -> Scaling | None:
        try:
            self._amounts = made_amounts(dish)
            scaling = scaling_offered(dish)
        except Refusal as refusal:
            self._say(str(refusal))
            return None
        self._say("")
        return scaling

    def _show_fields(self, dish: Dish, afresh: bool) -> None:
        self.form.show_values(
            {
                "wanted": dish.wanted,
                "item": self._item,
                "amount": self._amounts.get(self._item),
                "pan": dish.pan,
                "pan_wanted": dish.pan_wanted,
            },
            afresh,
        )
        for key in ("item", "amount"):
            self.form.field(key).setEnabled(bool(self._amounts))

    def _say(self, sentence: str) -> None:
        self.wrong.setText(sentence)
        self.wrong.setVisible(bool(sentence))

    def _factor(self, dish: Dish) -> str:
        pan = dish.pan_wanted or dish.pan
        in_pan = self.tr(", in {pan}").format(pan=pan) if pan else ""
        if dish.scale is None:
            in_pan = self.tr(", for {servings}").format(servings=dish.wanted) + in_pan
        if dish.factor == 1:
            return self.tr("Made as the recipe is written") + in_pan
        return self.tr("{factor} times the recipe").format(factor=show_decimal(dish.factor, 2)) + in_pan

    def _items(self) -> list[tuple[str, str]]:
        return [(item, item) for item in self._amounts]

    def _for_servings(self, _wanted: int) -> str:
        dish = self._chosen()
        if dish is None:
            return ""
        if dish.scale is not None:
            about = show_decimal(dish.factor * dish.written_for, 1)
            return self.tr("written for {number}; this makes about {about}").format(
                number=dish.written_for, about=about
            )
        return self.tr("written for {number}").format(number=dish.written_for)

    def _written(self, made: Quantity | None) -> str:
        dish = self._chosen()
        if dish is None or made is None:
            return ""
        return self.tr("{amount} in the recipe").format(amount=in_figures(made.times(1 / dish.factor)))

    def _chosen(self) -> Dish | None:
        return self._opened.plan.dishes.get(self._dish) if self._dish is not None else None

    def _take(self, key: str, value: Any) -> str:
        plan = self._opened.plan
        if key == "item":
            self._item = value
            self.form.show_values({"amount": self._amounts.get(value)}, afresh=True)
            return ""
        makes: dict[str, Callable[[Dish], Edit]] = {
            "wanted": lambda dish: for_servings(dish, value),
            "amount": lambda dish: for_amount(dish, self._item, value),
            "pan": lambda dish: of_pan(plan, dish, value),
            "pan_wanted": lambda dish: for_pan(plan, dish, value),
        }
        return self._try(makes[key])

    def _try(self, make: Callable[[Dish], Edit]) -> str:
        dish = self._chosen()
        if dish is None:
            return ""
        try:
            edit = make(dish)
        except Refusal as refusal:
            return str(refusal)
        return tried(self._opened, edit, "menu")

    def _take_length(self, offer: Offer) -> None:
        self._say(self._try(lambda _dish: for_length(self._opened.plan, offer)))

    def give_keys(self, place: QWidget, leaves: Leaves, own: str) -> None:
        """Let the buttons work, and their keys wherever the focus is in a place whose leaf `own` this is on."""

        def scale() -> None:
            away = leaves.name != own
            leaves.turn(own)
            self.show_fields(away or self.form.isHidden())

        with_key(self.open, "Alt+Q", place, scale)
        with_key(self.look, "Alt+W", place, self.notes_wanted.emit)

    def show_fields(self, shown: bool) -> None:
        """Show the fields and go to the first, or put them away."""
        self.form.setVisible(shown)
        self.open.setChecked(shown)
        if shown:
            self.form.field("wanted").setFocus(Qt.FocusReason.TabFocusReason)
        self.remade.emit()
