"""The bar above the timeline: the days kept by name, how sure the day seen is, and what moved."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QHBoxLayout, QLabel, QPushButton, QWidget

from app.fields import a_button
from app.fields.dress import fields_sheet
from app.places.days.day_chip import DayChip
from app.places.days.dress import days_sheet
from app.places.days.name_line import NameLine
from app.places.dressed import Dressed


class DaysBar(QWidget):
    """`keep_wanted`: what is seen is to be kept under the name it carries; `rename_wanted`: old name and new one.

    `sure_wanted`: the figure was chosen. What the chips tell is passed on by whoever puts them here.
    """

    keep_wanted = Signal(str)
    rename_wanted = Signal(str, str)
    sure_wanted = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("daysBar")
        self.chips: list[DayChip] = []
        self._renaming = ""
        self.title = QLabel(self.tr("Kept days"))
        self.title.setObjectName("soft")
        self.keep = a_button(self.tr("Keep this day…"), tip=self.tr("Keep the day as it is seen, by name (Ctrl+K)"))
        self.name_line = NameLine()
        self.sure = QPushButton()
        self.sure.setObjectName("quietFigure")
        self.sure.setMinimumHeight(28)
        self.sure.setCursor(Qt.CursorShape.PointingHandCursor)
        self.sure.hide()
        self.moved = a_button(
            self.tr("What moved"), tip=self.tr("Show the old places beside the new ones (M; hold it for a glance)")
        )
        self.moved.setCheckable(True)
        self._row = QHBoxLayout(self)
        self._row.setContentsMargins(14, 3, 14, 3)
        self._row.setSpacing(8)
        for widget, share in ((self.title, 0), (self.keep, 0), (self.name_line, 4)):
            self._row.addWidget(widget, share)
        self._row.addStretch(1)
        for widget in (self.sure, self.moved):
            self._row.addWidget(widget)
        self.keep.clicked.connect(lambda _checked=False: self.ask_name())
        self.sure.clicked.connect(lambda _checked=False: self.sure_wanted.emit())
        self.name_line.named.connect(self._named)
        self.name_line.left.connect(self.end_naming)
        self._check: Callable[[str, str], object] = lambda _name, _own: None
        Dressed(self, lambda palette: self.setStyleSheet(fields_sheet(palette) + days_sheet(palette)))

    def check_by(self, check: Callable[[str, str], object]) -> None:
        """Give what raises Refusal for a name that may not be; it is also told the day's own name, "" for a new one."""
        self._check = check

    def show_chips(self, chips: Sequence[DayChip]) -> None:
        """Put other chips in the place of those here, the focus where it was."""
        at = next((at for at, each in enumerate(self.chips) if each.hasFocus()), None)
        for chip in self.chips:
            self._row.removeWidget(chip)
            chip.hide()
            chip.deleteLater()
        self.chips = list(chips)
        for place, chip in enumerate(self.chips, start=1):
            self._row.insertWidget(place, chip)
            chip.show()
        self.title.setVisible(bool(self.chips))
        if at is not None:
            (self.chips[min(at, len(self.chips) - 1)] if self.chips else self.keep).setFocus()

    def ask_name(self, renaming: str = "") -> None:
        """Ask under which name to keep what is seen, or for another name of a day."""
        if not renaming and not self.keep.isEnabled():
            return
        self._renaming = renaming
        self.keep.hide()
        self.name_line.begin(renaming, lambda text: self._check(text, renaming))

    def end_naming(self) -> None:
        """Ask for no name any more."""
        if self.name_line.isHidden():
            return
        had = self.name_line.line.hasFocus()
        self.name_line.hide()
        self.keep.show()
        if had:
            self.keep.setFocus(Qt.FocusReason.OtherFocusReason)

    def show_sure(self, words: str) -> None:
        """Show how often all is in time ("in 97 of 100 days"); "" where it is not known."""
        self.sure.setVisible(bool(words))
        self.sure.setText(self.tr("In time {often}").format(often=words))
        self.sure.setToolTip(self.tr("Nothing is then more than 5 min late. See what threatens it."))

    def _named(self, text: str) -> None:
        renaming = self._renaming
        self.end_naming()
        if renaming:
            self.rename_wanted.emit(renaming, text)
        else:
            self.keep_wanted.emit(text)
