"""The line above the timeline while a day is only looked at: what it is, and the way to take it or go back."""

from __future__ import annotations

from PySide6.QtCore import QEvent, Qt, Signal
from PySide6.QtWidgets import QFrame, QHBoxLayout, QWidget

from app.fields import a_button
from app.fields.dress import fields_sheet
from app.look.colours import palette_under
from app.places.advice.dress import advice_sheet, look_sheet
from app.places.advice.look import Look
from app.places.advice.section import take_button, words_of


class LookLine(QFrame):
    """`taken` carries the Look; `left`: back to the day as it stands."""

    taken = Signal(object)
    left = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("lookLine")
        self.look: Look | None = None
        self._dressed = ""
        self.words = words_of("plain")
        self.take = take_button(self.tr("Take it"))
        self.back = a_button(self.tr("Back to your day"), tip=self.tr("Nothing is changed (Escape)"))
        row = QHBoxLayout(self)
        row.setContentsMargins(14, 6, 14, 6)
        row.setSpacing(10)
        row.addWidget(self.words, 1)
        for button in (self.take, self.back):
            row.addWidget(button, 0, Qt.AlignmentFlag.AlignVCenter)
        self.take.clicked.connect(lambda _checked=False: self.taken.emit(self.look))
        self.back.clicked.connect(lambda _checked=False: self.left.emit())
        self.dress()
        self.hide()

    def show_look(self, look: Look | None) -> None:
        """Say what is looked at; None: nothing."""
        self.look = look
        if look is not None:
            self.words.setText(self.tr("Only a look: {words}").format(words=look.words))
        self.setVisible(look is not None)

    def dress(self) -> None:
        """Take on the colours of the moment."""
        palette = palette_under(self.palette())
        if palette.name != self._dressed:
            self._dressed = palette.name
            self.setStyleSheet(fields_sheet(palette) + advice_sheet(palette) + look_sheet(palette))

    def changeEvent(self, event: QEvent) -> None:
        """Follow the change between light and dark."""
        super().changeEvent(event)
        if event.type() in (QEvent.Type.PaletteChange, QEvent.Type.ApplicationPaletteChange) and self._dressed:
            self.dress()
