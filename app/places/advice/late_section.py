"""If the guests are late: from a moment on, how long the menu can stand, and what a delay then does to it."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QWidget

from app.bridge import OpenPlan
from app.fields import Form, Spec, Typed
from app.fields.typed_times import offset_of
from app.places.advice.section import Section
from app.places.gist import gist_of, titled
from core.measures.minutes import parse_minutes, show_minutes
from core.measures.refusal import Refusal
from core.plan.plan import Plan

if TYPE_CHECKING:  # numpy comes in only with an answer
    from core.arrange.late_guests import LateGuests, Patience

_MOST = 3
_DAY = 24 * 60
BEFORE = -30
"""Offset at which the guests are heard of, unless the day is under way."""


class LateSection(Section):
    """`asked`: another moment or delay was written."""

    asked = Signal()

    def __init__(self, opened: OpenPlan, parent: QWidget | None = None) -> None:
        super().__init__(self.tr("If the guests are late"), parent)
        self.at, self.minutes = BEFORE, 15
        self.written = False
        self.form = Form(
            [
                Spec("at", self.tr("Heard of at"), offset_of(lambda: opened.plan), width=90),
                Spec("minutes", self.tr("They come later by"), Typed(_read_delay, show_minutes), width=90),
            ],
            self._take,
            least=140,
        )
        self.column.insertWidget(1, self.form)

    def wait(self) -> None:
        """Say that it is being worked out."""
        self.form.show_values({"at": self.at, "minutes": self.minutes})
        if self.body.count() == 0:
            self.say(self.tr("Working it out…"))

    def show_late(self, plan: Plan, patience: Patience, late: LateGuests | None) -> None:
        """Show how long the menu can stand, and what the delay does."""
        from core.arrange.speak.late import say_allowance, say_late, say_patience

        self.clear()
        self.say("")
        self.folding(titled(say_patience(plan, patience)))
        others = [each for each in patience.dishes[1 : _MOST + 1] if each.minutes is not None]
        if others:
            self.line(self.tr("After it:"), "soft")
        for each in others:
            self.folding(titled(say_allowance(plan, each)))
        if late is not None:
            head, *lines = say_late(plan, late).split("\n")
            self.line(head, "adviceHeading")
            for said in lines:
                self.folding(gist_of(said))

    def _take(self, key: str, value: Any) -> str:
        if getattr(self, key) != value:
            setattr(self, key, value)
            self.written = self.written or key == "at"
            self.asked.emit()
        return ""


def _read_delay(text: str) -> int:
    minutes = parse_minutes(text)
    if not 1 <= minutes <= _DAY:
        raise Refusal("Write how many minutes later they come, from 1 min to 24 h.")
    return minutes
