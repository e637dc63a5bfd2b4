"""What is known of an ingredient as food: a word in its line, and unfolded its kind, how it comes, how thick it is."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import Any

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLabel, QPushButton, QVBoxLayout, QWidget

from app.fields import Form, Picked, Spec, a_button, dress_inside
from app.look.colours import palette_under
from app.places.menu.food_proposal import Proposal, proposal_for, with_proposal
from app.places.menu.food_words import MM_IF_ANY, arrivals_offered, kind_said, kind_short, kinds_offered, tr
from core.plan.menu import Ingredient

_WIDE = 70  # px of the button at a usual size of type
_USUAL_HEIGHT = 18
TakeFood = Callable[[Ingredient], str]
"""Takes an ingredient of which something else is told; returns "" or why not."""


class FoodPart(QFrame):
    """Stands under an ingredient; `button` stands in its line."""

    def __init__(self, take: TakeFood, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._take_food = take
        self._ingredient = Ingredient("")
        self.button = _Word()
        self.button.clicked.connect(self._turn)
        self.asks = QLabel()
        self.asks.setObjectName("allergenAsks")
        self.asks.setWordWrap(True)
        self.asks.setTextFormat(Qt.TextFormat.PlainText)
        self.yes = a_button(tr("Take it"), tip=tr("Proposed from the words, not known: you have the last word"))
        self.yes.clicked.connect(lambda _checked=False: self.accept())
        self.form: Form | None = None
        self._column = QVBoxLayout(self)
        self._column.setContentsMargins(0, 2, 0, 4)
        row = QHBoxLayout()
        row.setSpacing(8)
        row.addWidget(self.asks, 1)
        row.addWidget(self.yes, 0, Qt.AlignmentFlag.AlignTop)
        self._column.addLayout(row)
        self.hide()

    @property
    def proposal(self) -> Proposal:
        """Return what the words suggest beyond what is told."""
        return proposal_for(self._ingredient)

    def show_ingredient(self, ingredient: Ingredient) -> None:
        """Show what is told of an ingredient."""
        if ingredient.item != self._ingredient.item:
            self._shut()
        if ingredient == self._ingredient:
            return
        self._ingredient = ingredient
        self.button.show_food(ingredient, self.proposal)
        self._show()

    def accept(self) -> None:
        """Tell what is proposed."""
        self._take_food(with_proposal(self._ingredient, self.proposal))
        if self.form is not None:
            self.form.field("food").setFocus(Qt.FocusReason.TabFocusReason)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Fold away by Escape; press by Enter the button that has the focus."""
        if event.key() == Qt.Key.Key_Escape and self.isVisible():
            self._shut()
            self.button.setFocus(Qt.FocusReason.OtherFocusReason)
        elif event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter) and self.yes.hasFocus():
            self.yes.click()
        else:
            super().keyPressEvent(event)

    def _turn(self) -> None:
        if self.isVisible():
            self._shut()
            return
        form = self._opened_form()
        self.show()
        self.button.setChecked(True)
        self._show()
        target = self.yes if self.proposal else form.field("food")
        target.setFocus(Qt.FocusReason.TabFocusReason)

    def _shut(self) -> None:
        self.button.setChecked(False)
        self.hide()

    def _opened_form(self) -> Form:
        if self.form is None:  # most are never opened
            self.form = Form(_specs(), self._take, least=150)
            self._column.addWidget(self.form)
            dress_inside(self, palette_under(self.palette()))
        return self.form

    def _show(self) -> None:
        proposal = self.proposal
        self.asks.setVisible(bool(proposal))
        self.yes.setVisible(bool(proposal))
        if proposal:
            said = proposal.said()
            self.asks.setText(tr("Its words suggest: {what}. A proposal, not known.").format(what=said))
            self.yes.setAccessibleName(tr("{item}: take {what}").format(item=self._ingredient.item, what=said))
        if self.form is not None:
            each = self._ingredient
            self.form.show_values({"food": each.food, "arrives": each.arrives, "thick": each.thick})

    def _take(self, key: str, value: Any) -> str:
        return self._take_food(replace(self._ingredient, **{key: value}))


class _Word(QPushButton):
    """Says in a word what is told, in italics with a question mark what is only proposed."""

    def __init__(self) -> None:
        super().__init__()
        self.setObjectName("allergenButton")
        self.setCheckable(True)
        self.setMinimumHeight(28)
        self.setFixedWidth(round(_WIDE * self.fontMetrics().height() / _USUAL_HEIGHT))
        self.setProperty("noted", False)

    def show_food(self, each: Ingredient, proposal: Proposal) -> None:
        if each.food is not None:
            said, tip = kind_short(each.food), tr("As food: {kind}. Press to change").format(kind=kind_said(each.food))
        elif proposal.kind is not None:
            kind = kind_said(proposal.kind)
            said = f"{kind_short(proposal.kind)}?"
            tip = tr("As food: not told, perhaps {kind}. Press to say so, and how it comes").format(kind=kind)
        else:
            said, tip = tr("food?"), tr("As food: not told. Press to say what kind it is and how it comes")
        self.setText(self.fontMetrics().elidedText(said, Qt.TextElideMode.ElideRight, self.width() - 12))
        self.setToolTip(tip)
        self.setAccessibleName(f"{each.item}: {tip}")
        told = each.food is not None
        face = self.font()
        face.setItalic(not told)
        self.setFont(face)
        if self.property("noted") != told:
            self.setProperty("noted", told)
            self.style().unpolish(self)
            self.style().polish(self)


def _specs() -> list[Spec]:
    kinds, thick = tr("Published limits tell these kinds apart"), tr("At its thickest: 35 mm, 3.5 cm, 1 1/2 in")
    return [
        Spec("food", tr("As food it is"), Picked(kinds_offered), kinds, grows=2),
        Spec("arrives", tr("It comes"), Picked(arrivals_offered)),
        Spec("thick", tr("Thickness of a piece"), MM_IF_ANY, thick, tr("not told")),
    ]
