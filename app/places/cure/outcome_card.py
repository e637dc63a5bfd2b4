"""Shows one answer of the desk: its headline with a sign where it breaks a limit, how it was reckoned, cautions."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLabel, QVBoxLayout

from app.fields import a_button
from app.look import icons
from app.look.colours import palette_under
from app.places.cure.outcome import Mood, Outcome, tr
from app.places.cure.ppm_ruler import PpmRuler

_SIGNED = (Mood.OVER, Mood.LITTLE)


class OutcomeCard(QFrame):
    """`told` carries what was done, for whoever speaks beside it."""

    told = Signal(str)

    def __init__(self) -> None:
        super().__init__()
        self.setObjectName("cureCard")
        self.outcome = Outcome("", Mood.OPEN)
        self.sign = QLabel()
        self.sign.setObjectName("cureSign")
        self.headline = _words("cureHeadline")
        self.head = QFrame()
        self.head.setObjectName("cureHead")
        self.ruler = PpmRuler()
        self.lines = _words("cureLines")
        self.caution_title = QLabel(tr("Cautions"))
        self.caution_title.setObjectName("cureTitle")
        self.cautions = _words("cureCautions")
        self.copy = a_button(tr("Copy as text"))
        row = QHBoxLayout(self.head)
        row.setContentsMargins(12, 8, 10, 8)
        row.setSpacing(10)
        row.addWidget(self.sign, 0, Qt.AlignmentFlag.AlignTop)
        row.addWidget(self.headline, 1)
        row.addWidget(self.copy, 0, Qt.AlignmentFlag.AlignTop)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(8)
        for widget in (self.head, self.ruler, self.lines, self.caution_title, self.cautions):
            column.addWidget(widget)
        column.addStretch(1)

    def show_outcome(self, outcome: Outcome) -> None:
        """Show an answer."""
        self.outcome = outcome
        self.headline.setText(outcome.headline)
        self.head.setAccessibleName(outcome.headline)
        self.sign.setVisible(outcome.mood in _SIGNED)
        if self.head.property("mood") != outcome.mood.value:
            self.head.setProperty("mood", outcome.mood.value)
            for widget in (self.head, self.headline):
                widget.style().unpolish(widget)
                widget.style().polish(widget)
        self.ruler.show_rule(outcome.rule)
        self.lines.setText("\n\n".join(outcome.lines))
        self.lines.setVisible(bool(outcome.lines))
        self.cautions.setText("\n".join(f"–  {each}" for each in outcome.cautions))
        for widget in (self.caution_title, self.cautions):
            widget.setVisible(bool(outcome.cautions))
        self.copy.setVisible(outcome.reckoned)
        self.dress()

    def dress(self) -> None:
        """Draw the sign in the colours of the moment."""
        p = palette_under(self.window().palette())
        colour = p.on_clash if self.outcome.mood is Mood.OVER else p.clash
        self.sign.setPixmap(icons.pixmap("clash", colour, 26, self.devicePixelRatioF()))
        self.sign.setAccessibleName(tr("Warning"))

    def copy_text(self) -> None:
        """Put the answer on the clipboard."""
        if self.outcome.reckoned:
            QGuiApplication.clipboard().setText(self.outcome.as_text())
            self.told.emit(tr("Copied with its formula, sources and cautions."))


def _words(name: str) -> QLabel:
    label = QLabel()
    label.setObjectName(name)
    label.setWordWrap(True)
    label.setTextFormat(Qt.TextFormat.PlainText)
    label.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
    return label
