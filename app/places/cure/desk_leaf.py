"""One leaf of the desk: fields at the left, what they come to at the right, anew with every sign that is typed."""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QHBoxLayout, QLabel, QWidget

from app.bridge import OpenPlan
from app.fields import Page, Spec, with_key
from app.places.cure.live_form import LiveForm
from app.places.cure.note_bar import NoteBar
from app.places.cure.outcome import Outcome, refused, to_mend, waiting
from app.places.cure.outcome_card import OutcomeCard
from core.measures.refusal import Refusal

_FIELDS = 400  # px of the fields at a usual size of type
_LINE = 18  # px of a line at that size


@dataclass(frozen=True, slots=True)
class Sums:
    """What a leaf reckons: its fields, first values, the keys needed and shown, the answer, a word to begin with."""

    specs: Sequence[Spec]
    begin: Mapping[str, Any]
    needed: Collection[str]
    outcome: Callable[[Mapping[str, Any]], Outcome]
    teaching: str
    shown: Callable[[Mapping[str, Any]], Collection[str]] | None = None


class DeskLeaf(QWidget):
    """Reckons one sort of thing."""

    def __init__(self, opened: OpenPlan, sums: Sums) -> None:
        super().__init__()
        self._sums = sums
        self.live = LiveForm(sums.specs, sums.begin, sums.needed, sums.shown, least=150)
        self.card = OutcomeCard()
        self.notes = NoteBar(opened)
        self.card.told.connect(self.notes.say)
        teaching = QLabel(sums.teaching)
        teaching.setObjectName("soft")
        teaching.setWordWrap(True)
        left = Page(teaching, self.live)
        left.setFixedWidth(round(_FIELDS * self.fontMetrics().height() / _LINE))
        self.right = Page(self.notes, self.card, widest=900)
        self.right.setFocusPolicy(Qt.FocusPolicy.StrongFocus)  # the arrows scroll it
        self.right.setObjectName("cureRight")
        self.right.setAccessibleName(sums.teaching)
        row = QHBoxLayout(self)
        row.setContentsMargins(6, 0, 0, 0)
        row.setSpacing(0)
        row.addWidget(left)
        row.addWidget(self.right, 1)
        with_key(self.card.copy, "Ctrl+Shift+C", self, self.card.copy_text)
        with_key(self.notes.note, "Ctrl+Return", self, self.notes.put)
        self.live.changed.connect(self.reckon)
        self.reckon()

    def reckon(self) -> None:
        """Say what the fields come to now."""
        outcome = self._outcome()
        if outcome != self.card.outcome:
            self.card.show_outcome(outcome)
            self.notes.refresh(outcome)

    def refresh(self) -> None:
        """Follow the plan: its dishes may be others."""
        self.notes.refresh(self.card.outcome)

    def enter(self) -> None:
        """Put the cursor into the first field."""
        next(iter(self.live.form.cells.values())).field.setFocus(Qt.FocusReason.TabFocusReason)

    def _outcome(self) -> Outcome:
        read = self.live.read()
        if read.wrong:
            return to_mend(read.wrong)
        if read.missing:
            return waiting(read.missing)
        try:
            return self._sums.outcome(read.values)
        except Refusal as refusal:
            return refused(str(refusal))
