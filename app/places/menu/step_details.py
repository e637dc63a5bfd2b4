"""What does not fit into a step's row: shown for the step that is chosen."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLabel, QScrollArea, QVBoxLayout, QWidget

from app.bridge import OpenPlan
from app.fields import Form, Picked, Spec, a_button, tried, values_of
from app.look.words import clock_text, day_text
from app.places.menu.food_of_step import FoodOfStep
from app.places.menu.step_fields import detail_fields
from core.measures.refusal import Refusal
from core.plan.decisions import Pin
from core.plan.edits import ChangeStep, LiftPin, SetLength
from core.plan.ids import StepId
from core.plan.step import Manner

_MANNER = "manner_of_step"


class StepDetails(QFrame):
    """Edits the chosen step; says where it is pinned and lifts the pin."""

    def __init__(self, opened: OpenPlan, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("aside")
        self._opened = opened
        self._step: StepId | None = None
        self._fields = detail_fields(opened)
        self.food = FoodOfStep(opened)
        specs = [each.spec for each in self._fields.values()]
        specs = [replace(each, hint=self.food.beside) if each.key == "core" else each for each in specs]
        specs.insert(-1, Spec(_MANNER, self.tr("Time kept free"), Picked(self._manners)))
        self.title = QLabel()
        self.title.setObjectName("detailsTitle")
        self.title.setWordWrap(True)
        self.pinned = QLabel()
        self.pinned.setObjectName("soft")
        self.pinned.setWordWrap(True)
        self.lift = a_button(self.tr("Lift the pin"), "pin", self.tr("Let the step be arranged again"))
        self.lift.clicked.connect(self._lift)
        self.form = Form(specs, self._take, least=186)
        inside = QFrame()
        column = QVBoxLayout(inside)
        column.setContentsMargins(18, 10, 18, 12)
        column.setSpacing(8)
        head = QHBoxLayout()
        head.addWidget(self.title, 3)
        head.addWidget(self.pinned, 2)
        head.addWidget(self.lift)
        column.addLayout(head)
        column.addWidget(self.food.short)
        column.addWidget(self.form)
        column.addWidget(self.food)
        column.addStretch(1)
        scroll = QScrollArea()
        scroll.setWidget(inside)
        scroll.setWidgetResizable(True)
        scroll.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        scroll.viewport().setAutoFillBackground(False)
        inside.setObjectName("detailsPaper")
        outer = QVBoxLayout(self)
        outer.setContentsMargins(0, 0, 0, 0)
        outer.addWidget(scroll)

    def refresh(self, step: StepId | None) -> None:
        """Show a step, or that none is chosen."""
        plan = self._opened.plan
        there = step is not None and step in plan.steps
        self.form.setVisible(there)
        if step is None or not there:
            self._step = None
            self.food.refresh(None)
            self.title.setText(self.tr("Choose a step to say more about it."))
            self.pinned.hide()
            self.lift.hide()
            return
        afresh = step != self._step
        self._step = step
        the_step = plan.steps[step]
        number = [each.id for each in plan.dish_of[step].steps].index(step) + 1
        self.title.setText(self.tr("More about step {number}: {does}").format(number=number, does=the_step.does))
        self.food.refresh(the_step)
        self.form.show_values(values_of(self._fields, the_step) | {_MANNER: plan.manners.get(step)}, afresh)
        pins = [pin for pin in plan.decisions.pins if pin.step == step]
        self.pinned.setText("; ".join(self._said(pin) for pin in pins))
        self.pinned.setVisible(bool(pins))
        self.lift.setVisible(bool(pins))

    def _said(self, pin: Pin) -> str:
        plan = self._opened.plan
        parts = []
        if pin.start is not None:
            at = plan.wall(pin.start)
            parts.append(self.tr("at {day}, {time}").format(day=day_text(at), time=clock_text(at)))
        if pin.station is not None:
            station = plan.kitchen.station.get(pin.station)
            parts.append(self.tr("on {station}").format(station=station.name if station else pin.station))
        if pin.cook is not None:
            cook = plan.kitchen.cook.get(pin.cook)
            parts.append(self.tr("for {cook}").format(cook=cook.name if cook else pin.cook))
        load = self.tr(", load {number}").format(number=pin.load + 1) if pin.load else ""
        return self.tr("Pinned {where}{load}").format(where=" ".join(parts), load=load)

    def _manners(self) -> list[tuple[Manner | None, str]]:
        return [
            (None, self.tr("as for all steps")),
            (Manner.SAFE, self.tr("with time to spare where it can wait")),
            (Manner.LIKELY, self.tr("the likely length")),
            (Manner.HIGH, self.tr("the longest length")),
        ]

    def _take(self, key: str, value: Any) -> str:
        if self._step is None:
            return ""
        if key == _MANNER:
            return tried(self._opened, SetLength(self._step, value), "menu")
        try:
            new = self._fields[key].put(self._opened.plan.steps[self._step], value)
        except Refusal as refusal:
            return str(refusal)
        return tried(self._opened, ChangeStep(self._step, new), "menu")

    def _lift(self) -> None:
        if self._step is not None:
            self._opened.apply(LiftPin(self._step), "menu")
