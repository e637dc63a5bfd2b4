"""What is told of the food in a step: limits beside the cook's target, a length proposed, what the step does to it."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLabel, QVBoxLayout

from app.bridge import OpenPlan
from app.fields import Form, Picked, Spec, a_button, tried
from app.places.menu.food_length import FoodLength
from app.places.menu.food_limits import asked_of, beside_target, sentence
from app.places.menu.food_words import MM_IF_ANY, containers_offered, effect_said, tr
from core.plan.edits import TellCare
from core.plan.food import Effect, FoodCare
from core.plan.ids import StepId
from core.plan.kitchen import HEATED
from core.plan.step import Step
from core.safety.effects import done_by


class FoodOfStep(QFrame):
    """Stands under the other details of a step; length and care are folded away until they are wanted.

    `short` says what the cook's target misses; it stands above all details.
    """

    def __init__(self, opened: OpenPlan) -> None:
        super().__init__()
        self.setObjectName("foodOfStep")
        self._opened = opened
        self._step: StepId | None = None
        self.asks = _words("foodSaid")
        self.short = _words("wrong")
        by = tr("From cut, weight, oven and target, by published charts or a sum")
        does = tr("Say what the step does to its food, where its words do not tell")
        self.length_button = a_button(tr("Propose a length"), tip=by)
        self.care_button = a_button(tr("Food care"), tip=does)
        self.length = FoodLength(opened)
        self.care = Form(self._specs(), self._take, least=170)
        row = QHBoxLayout()
        row.setSpacing(8)
        for button, folded in ((self.length_button, self.length), (self.care_button, self.care)):
            button.setCheckable(True)
            button.toggled.connect(folded.setVisible)
            row.addWidget(button)
            folded.hide()
        self.told = _words("soft")
        row.addWidget(self.told, 1)
        row.addStretch(0)
        self.length_button.toggled.connect(lambda _open: self._fill())
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 4, 0, 0)
        column.setSpacing(6)
        column.addWidget(self.asks)
        column.addLayout(row)
        column.addWidget(self.length)
        column.addWidget(self.care)

    def refresh(self, step: Step | None) -> None:
        """Show a step, or nothing."""
        other = (None if step is None else step.id) != self._step
        self._step = None if step is None else step.id
        self.setVisible(step is not None)
        if step is None:
            self.short.hide()
            return
        plan = self._opened.plan
        asked = asked_of(plan, step)
        short = [sentence(each, step) for each in asked if each.short]
        self.short.setText("\n".join(short))
        self.short.setVisible(bool(short))
        rest = [sentence(each, step) for each in asked if not each.short]
        self.asks.setText("\n".join(rest))
        self.asks.setVisible(bool(rest))
        roasts = any(use.kind in HEATED for use in step.uses)
        self.length_button.setVisible(roasts)
        if other or not roasts:
            self.length_button.setChecked(False)
        if other:
            self.care_button.setChecked(False)
        care = step.food or FoodCare()
        self.care.show_values(
            {"effect": care.effect, "depth": care.depth, "container": care.container}, afresh=other
        )
        self.told.setText(_said(care))
        self.told.setVisible(care != FoodCare())
        self._fill()

    def beside(self, _core: int | None) -> str:
        """Return in short what stands under the cook's own target."""
        step = self._opened.plan.steps.get(self._step) if self._step is not None else None
        return "" if step is None else beside_target(asked_of(self._opened.plan, step))

    def _fill(self) -> None:
        step = self._opened.plan.steps.get(self._step) if self._step is not None else None
        if step is not None and self.length_button.isChecked():
            self.length.show_step(step)

    def _effects(self) -> list[tuple[Effect | None, str]]:
        step = self._opened.plan.steps.get(self._step) if self._step is not None else None
        if step is None:
            return [(None, tr("as its words say"))]
        own = done_by(self._opened.plan, replace(step, food=None), None).effect
        words = tr("as its words and place tell: {what}").format(what=effect_said(own))
        return [(None, words), *((each, effect_said(each)) for each in Effect)]

    def _specs(self) -> list[Spec]:
        deep = tr("The food's depth in its container while it cools: 5 cm; or its thickness where that is less")
        return [
            Spec("effect", tr("What it does to the food"), Picked(self._effects), grows=2),
            Spec("depth", tr("Lies deep, as it cools"), MM_IF_ANY, deep, tr("not told")),
            Spec("container", tr("In what it cools"), Picked(containers_offered)),
        ]

    def _take(self, key: str, value: Any) -> str:
        if self._step is None:
            return ""
        care = replace(self._opened.plan.steps[self._step].food or FoodCare(), **{key: value})
        return tried(self._opened, TellCare(self._step, None if care == FoodCare() else care), "menu")


def _said(care: FoodCare) -> str:
    """Return in short what is told, to be read while it is folded away."""
    parts = [effect_said(care.effect) if care.effect is not None else ""]
    parts.append(tr("{deep} mm deep").format(deep=care.depth) if care.depth else "")
    return tr("told: {what}").format(what=", ".join(filter(None, parts))) if any(parts) else tr("told: its container")


def _words(name: str) -> QLabel:
    label = QLabel()
    label.setObjectName(name)
    label.setWordWrap(True)
    label.setTextFormat(Qt.TextFormat.PlainText)
    label.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
    return label
