"""The line above the timeline while a day is only looked at: what it is, and the way to take it or go back."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLabel, QWidget

from app.fields import a_button
from app.fields.dress import fields_sheet
from app.look import Palette
from app.places.advice.dress import advice_sheet, look_sheet
from app.places.advice.look import Look
from app.places.advice.section import take_button
from app.places.dressed import Dressed
from app.places.one_line import OneLine


class LookLine(QFrame):
    """`taken` carries the Look; `left`: back to the day as it stands.

    It stands where the kept days stand, so that nothing moves under the pointer when it comes and goes.
    """

    taken = Signal(object)
    left = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("lookLine")
        self.look: Look | None = None
        self.words = OneLine()
        self.moves = QLabel()
        self.moves.setObjectName("soft")
        self.take = take_button(self.tr("Take it"))
        self.back = a_button(self.tr("Back to your day"), tip=self.tr("Nothing is changed (Escape)"))
        row = QHBoxLayout(self)
        row.setContentsMargins(14, 3, 14, 3)
        row.setSpacing(10)
        row.addWidget(self.words, 1)
        for widget in (self.moves, self.take, self.back):
            row.addWidget(widget)
        self.take.clicked.connect(lambda _checked=False: self.taken.emit(self.look))
        self.back.clicked.connect(lambda _checked=False: self.left.emit())
        Dressed(self, self._dress)

    def show_look(self, look: Look | None) -> None:
        """Say what is looked at; None: nothing."""
        self.look = look
        if look is not None:
            self.words.setText(self.tr("Only a look: {words}").format(words=look.words))
            self.take.setText(self.tr("Go to it") if look.kept else self.tr("Take it"))

    def show_moves(self, words: str) -> None:
        """Say how much it moves."""
        self.moves.setText(words)

    def _dress(self, palette: Palette) -> None:
        self.setStyleSheet(fields_sheet(palette) + advice_sheet(palette) + look_sheet(palette))
