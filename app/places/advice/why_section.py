"""Why it cannot all meet: each reason a sentence that shows its steps when it is chosen."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QWidget

from app.places.advice.said import Said
from app.places.advice.section import Section
from app.places.gist import gist_of
from core.arrange.outcome import Fit
from core.arrange.speak.why import say_reason, say_repair
from core.arrange.why.reason import Reason, ReasonKind, WhyNot
from core.plan.plan import Plan


class WhySection(Section):
    """`chosen`: a Reason and its sentence, or None, None when it is let go. `arrange`: the day may be arranged."""

    chosen = Signal(object, str)
    arrange = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(self.tr("Why it does not meet"), parent)
        self.reasons: list[Said] = []

    def wait(self) -> None:
        """Say that it is being found out."""
        self.clear()
        self.reasons = []
        self.heading.setText(self.tr("Why it does not meet"))
        self.say(self.tr("Finding out whether all can meet…"))

    def show_answer(self, plan: Plan, answer: WhyNot) -> None:
        """Show the reasons, or that it can be met, or that neither was found."""
        self.clear()
        self.reasons = []
        if answer.fit is Fit.MEETS:
            self.heading.setText(self.tr("It can all meet"))
            self.say(self.tr("Nothing stands against it; the day is only not arranged so yet."))
            self.button(self.tr("Arrange the day"), self.arrange.emit)
            return
        if not answer.reasons:
            self.heading.setText(self.tr("Not found out"))
            self.say(
                self.tr("Neither a day in which all meets nor a reason against it was found in some seconds."),
                retry=True,
            )
            return
        self.heading.setText(self.tr("Why it cannot all meet"))
        if len(answer.reasons) > 1:
            self.say(self.tr("Each of these alone prevents it. Choose one to see its steps."))
        else:
            self.say(self.tr("Choose it to see its steps."))
        for reason in answer.reasons:
            self._add_reason(reason, say_reason(plan, reason))
        if answer.repair is not None:
            self.folding(gist_of(say_repair(plan, answer.repair), lists=True))

    def _add_reason(self, reason: Reason, sentence: str) -> None:
        said = Said(sentence, gist=gist_of(sentence, lists=reason.kind is ReasonKind.CHAIN))
        self.reasons.append(said)
        self.add(said)

        def clicked(checked: bool) -> None:
            for each in self.reasons:
                each.setChecked(each is said and checked)
            self.chosen.emit(reason if checked else None, sentence)

        said.clicked.connect(clicked)

    def let_go(self) -> None:
        """Choose none of them."""
        for each in self.reasons:
            each.setChecked(False)
