"""Proposes how long a piece may take in the oven, from weight, cut, setting and target; taken by a click, or not."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction
from typing import Any

from PySide6.QtCore import Qt, QTimer
from PySide6.QtWidgets import QFrame, QLabel, QVBoxLayout

from app.bridge import OpenPlan
from app.fields import Spec, Typed, a_button, tried
from app.fields.typed_step import CORE_IF_ANY
from app.fields.typed_text import WORDS
from app.places.cure.live_form import LiveForm
from app.places.cure.typed_cure import weight_of
from app.places.menu.food_limits import foods_in
from app.places.menu.food_words import MM_IF_ANY, tr
from core.food.doneness import FRIDGE, LengthEstimate, chart_core, length_estimate
from core.measures.minutes import show_minutes, show_span
from core.measures.quantity import Quantity
from core.measures.refusal import Refusal
from core.plan.check_words import short
from core.plan.edits import ChangeStep
from core.plan.ids import StepId
from core.plan.plan import Plan
from core.plan.step import Step

_PAUSE = 250  # ms of not typing after which it is reckoned
_NOTE = "Length proposed for "
_NEEDED = ("cut", "weight", "setting")


class FoodLength(QFrame):
    """Its fields are filled from the step and the dish; nothing of them is kept."""

    def __init__(self, opened: OpenPlan) -> None:
        super().__init__()
        self._opened = opened
        self._step: StepId | None = None
        self._filled: Mapping[str, Any] = {}
        self.found: LengthEstimate | None = None
        self.live = LiveForm(_specs(), {}, _NEEDED, least=150)
        self.said = QLabel()
        self.said.setObjectName("foodSaid")
        self.said.setWordWrap(True)
        self.said.setTextFormat(Qt.TextFormat.PlainText)
        self.said.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
        self.take = a_button("", tip=tr("Changes the step's length; what it was stays in its note. Undo takes it back"))
        self.take.clicked.connect(lambda _checked=False: self._take())
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 4, 0, 4)
        column.addWidget(self.live)
        column.addWidget(self.take, 0, Qt.AlignmentFlag.AlignLeft)
        column.addWidget(self.said)
        self._pause = QTimer(self)
        self._pause.setSingleShot(True)
        self._pause.setInterval(_PAUSE)
        self._pause.timeout.connect(self.reckon)
        self.live.changed.connect(self._typed)

    def show_step(self, step: Step) -> None:
        """Show a step: the fields are filled anew where it, or what is told of it, is another."""
        filled = filled_from(self._opened.plan, step)
        if step.id != self._step or filled != self._filled:
            self._step, self._filled = step.id, filled
            self.live.put(filled)
        self.reckon()

    def reckon(self) -> None:
        """Say what the fields come to."""
        self._pause.stop()
        self.found = None
        read = self.live.read()
        if read.wrong or read.missing:
            names = "; ".join((*read.wrong, *read.missing))
            self._say(tr("To propose a length, write: {fields}.").format(fields=names))
            return
        values = read.values
        try:
            self.found = length_estimate(
                values["weight"],
                values["cut"],
                values["setting"],
                values["target"],
                FRIDGE if values["start"] is None else values["start"],
                Quantity(Fraction(values["thick"]), "mm") if values["thick"] else None,
            )
        except Refusal as refusal:
            self._say(str(refusal))
            return
        self._say(self.found.said)

    def _typed(self) -> None:
        """Say nothing of a text that is still being typed."""
        self.found = None
        self._say("…")
        self._pause.start()

    def _say(self, sentence: str) -> None:
        self.said.setText(sentence)
        step = self._opened.plan.steps.get(self._step) if self._step is not None else None
        there = self.found is not None and step is not None and self.found.estimate.span != step.length
        self.take.setVisible(there)
        if self.found is not None and there:
            words = tr("Let it take {length}").format(length=show_minutes(self.found.estimate.likely))
            self.take.setText(words)
            self.take.setAccessibleName(words)
        elif self.found is not None:
            self.said.setText(tr("{said} The step takes so long.").format(said=sentence))

    def _take(self) -> None:
        step = self._opened.plan.steps.get(self._step) if self._step is not None else None
        if self.found is None or step is None:
            return
        values = self.live.read().values
        wrong = tried(self._opened, ChangeStep(step.id, with_length(step, self.found, values)), "menu")
        if wrong:
            self._say(wrong)


def filled_from(plan: Plan, step: Step) -> dict[str, Any]:
    """Return what the fields begin with: what the plan tells of the largest raw piece that the step cooks."""
    foods = [each for each in foods_in(plan, step.id) if each.raw_animal and each.piece is not None]
    found = max(foods, key=lambda each: each.grams or 0, default=None)
    heat = next((use.heat for use in step.uses if use.heat is not None), None)
    target = step.doneness.core if step.doneness is not None else None
    return {
        "cut": "" if found is None else short(found.item),
        "weight": None if found is None or found.grams is None else found.piece,
        "setting": None if heat is None else heat.setting,
        "target": target,
        "start": None,
        "thick": 0 if found is None else found.thick,
    }


def with_length(step: Step, found: LengthEstimate, values: Mapping[str, Any]) -> Step:
    """Return a step with a length proposed; its note says for what, and what the length was."""
    was = show_span(step.length.low, step.length.likely, step.length.high)
    lines = step.note.split("\n")
    before = next((line for line in lines if line.startswith(_NOTE) and "; it was " in line), "")
    if before:  # the first length stays to be read, not the last one proposed
        was = before.rpartition("; it was ")[2].rstrip(".")
        lines.remove(before)
    target = values["target"] if values["target"] is not None else chart_core(values["cut"])
    to = f", to {round(target)} °C" if target is not None else ""
    piece = f"{short(values['cut'])}, {values['weight']}, at {values['setting']} °C{to}"
    note = f"{_NOTE}{piece} ({found.basis.value}); it was {was}."
    return replace(step, length=found.estimate.span, note="\n".join([*filter(None, lines), note]))


def _specs() -> list[Spec]:
    cut = tr("As the charts name it: leg of lamb, whole chicken, beef rib")
    charts, cold = tr("as the charts"), tr("5 C, from the fridge")
    thick = Typed(MM_IF_ANY.read, MM_IF_ANY.show)
    return [
        Spec("cut", tr("Cut"), WORDS, cut, "leg of lamb", grows=2),
        Spec("weight", tr("Weight of one piece"), weight_of(tr("The piece")), "", "2.4 kg"),
        Spec("setting", tr("Oven at"), CORE_IF_ANY, tr("The temperature inside"), "160 C"),
        Spec("target", tr("In the middle to"), CORE_IF_ANY, tr("Empty: as the charts cook it"), charts),
        Spec("start", tr("It goes in at"), CORE_IF_ANY, tr("In its middle, when it goes in"), cold),
        Spec("thick", tr("Thickness"), thick, tr("At its thickest"), tr("from the weight")),
    ]
