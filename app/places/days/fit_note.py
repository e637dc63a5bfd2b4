"""A line that says what of a kept day no longer fits the plan, and mends it with little movement."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QFrame, QHBoxLayout, QWidget

from app.fields import a_button
from app.fields.dress import fields_sheet
from app.places.advice.section import take_button
from app.places.days.dress import days_sheet
from app.places.dressed import Dressed
from app.places.folding import Folding
from app.places.gist import Gist


class FitNote(QFrame):
    """`mend`: what clashes is to be mended with little movement."""

    mend = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("fitNote")
        self.words = Folding()
        tip = self.tr("Give what is new a place and mend the clashes")
        self.mend_it = take_button(self.tr("Mend, move little"), tip)
        self.understood = a_button(self.tr("Understood"))
        row = QHBoxLayout(self)
        row.setContentsMargins(14, 4, 14, 4)
        row.setSpacing(10)
        row.addWidget(self.words, 1)
        for button in (self.mend_it, self.understood):
            row.addWidget(button, 0, Qt.AlignmentFlag.AlignTop)
        self.mend_it.clicked.connect(lambda _checked=False: self._mend())
        self.understood.clicked.connect(lambda _checked=False: self.hide())
        Dressed(self, lambda palette: self.setStyleSheet(fields_sheet(palette) + days_sheet(palette)))
        self.hide()

    def say(self, gist: Gist, mends: bool) -> None:
        """Say what no longer fits; `mends`: there is something that arranging can mend."""
        self.words.show_gist(gist)
        self.words.more.setChecked(True)
        self.mend_it.setVisible(mends)
        self.show()

    def _mend(self) -> None:
        self.hide()
        self.mend.emit()
