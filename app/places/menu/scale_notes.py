"""What else changes when more or less is made: loads, room, and lengths that may be taken, each with its source."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from PySide6.QtCore import Qt, Slot
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLabel, QPushButton, QVBoxLayout

from app.fields import Rows, a_button, dress_inside
from app.look.colours import palette_under
from app.places.menu.scale_words import tr
from core.food.length_offers import Offer, length_offers
from core.food.scale_by import Scaling
from core.food.speak_scale import said_load, said_piece, said_space
from core.measures.minutes import show_minutes
from core.plan.menu import Dish


class NoteLine(QFrame):
    """One sentence; where a length is offered its source, and the button that takes it or brings the recipe's back."""

    def __init__(self, take: Callable[[Offer], object]) -> None:
        super().__init__()
        self.setObjectName("scaleNote")
        self._offer: Offer | None = None
        self.words = _label("scaleWords")
        self.source = _label("soft")
        self.button: QPushButton = a_button("")
        self._take = take
        self.button.clicked.connect(self._taken)
        column = QVBoxLayout()
        column.setSpacing(1)
        column.addWidget(self.words)
        column.addWidget(self.source)
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 3, 0, 3)
        row.setSpacing(10)
        row.addLayout(column, 1)
        row.addWidget(self.button, 0, Qt.AlignmentFlag.AlignTop)

    @Slot()
    def _taken(self) -> None:
        if self._offer is not None:
            self._take(self._offer)

    def show_note(self, note: str | Offer) -> None:
        """Show a sentence or an offer."""
        offer = note if isinstance(note, Offer) else None
        self._offer = offer
        self.words.setText(note.said if isinstance(note, Offer) else note)
        source = offer.estimate.source if offer is not None and offer.estimate is not None else ""
        self.source.setText(tr("Estimated: {source}.").format(source=source) if source else "")
        self.source.setVisible(bool(source))
        self.button.setVisible(offer is not None)
        if offer is not None:
            words = _button_words(offer)
            self.button.setText(words)
            self.button.setAccessibleName(words)
            self.button.setToolTip(tr("Changes the step's length; the recipe's stays in its note. Undo takes it back"))


class ScaleNotes(QFrame):
    """All notes of a dish under a heading; hidden while there are none."""

    def __init__(self, take: Callable[[Offer], object]) -> None:
        super().__init__()
        self.setObjectName("scalePanel")
        self._take = take
        heading = QLabel(tr("What else changes"))
        heading.setObjectName("scaleSays")
        self.rows: Rows[NoteLine] = Rows(self._made)
        column = QVBoxLayout(self)
        column.setContentsMargins(10, 6, 8, 6)
        column.addWidget(heading)
        column.addWidget(self.rows)

    def show_notes(self, notes: Sequence[str | Offer]) -> bool:
        """Show sentences and offers; tell whether lines came or went."""
        changed = self.rows.show_keys(range(len(notes)))
        for line, note in zip(self.rows, notes, strict=True):
            line.show_note(note)
        self.setVisible(bool(notes))
        return changed

    def _made(self, _at: int) -> NoteLine:
        line = NoteLine(self._take)
        dress_inside(line, palette_under(self.palette()))
        return line


def notes_of(dish: Dish, scaling: Scaling) -> list[str | Offer]:
    """Return the sentences on what changes and the offers of lengths, in the order they are read."""
    found: list[str | Offer] = []
    if scaling.factor != 1:
        found += [said_load(each) for each in scaling.loads if each.loads > 1 or each.loads != each.written]
    found += [said_space(each, scaling.factor) for each in scaling.space]
    found += [said_piece(each) for each in scaling.pieces if each.estimate is None]
    found += length_offers(dish, scaling)
    return found


def _button_words(offer: Offer) -> str:
    if offer.estimate is not None and not offer.taken:
        return tr("Let it take {length}").format(length=show_minutes(offer.estimate.likely))
    likely = offer.written.likely if offer.written is not None else 0
    return tr("Back to the recipe's {length}").format(length=show_minutes(likely))


def _label(name: str) -> QLabel:
    label = QLabel()
    label.setObjectName(name)
    label.setWordWrap(True)
    label.setTextFormat(Qt.TextFormat.PlainText)
    label.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
    return label
