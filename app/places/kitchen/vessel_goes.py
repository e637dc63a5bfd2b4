"""Where a vessel goes in: a button that says it in short, and under the row a tick for each station."""

from __future__ import annotations

from functools import partial
from typing import Any

from PySide6.QtCore import QCoreApplication, QMargins, Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QApplication, QLabel, QSizePolicy, QVBoxLayout, QWidget

from app.fields import a_button
from app.fields.row_wrap import RowWrap
from app.fields.spec import TakeKey
from app.fields.tick import Tick
from app.places.kitchen.vessel_fit import fit_words, goes_by_size, size_sentence, stations_now, that_matter
from core.plan.ids import StationId
from core.plan.kitchen import Kitchen, Vessel
from core.plan.plan import Plan


def tr(words: str) -> str:
    """Return words in the cook's language."""
    return QCoreApplication.translate("VesselGoes", words)


class VesselGoes:
    """What stands in a vessel's row besides its fields."""

    def __init__(self, take: TakeKey) -> None:
        self.inline = a_button("", tip=tr("Choose the stations it goes on or into"))
        self.inline.setCheckable(True)
        self.inline.setMinimumWidth(128)
        self.below = StationTicks(take, self.inline.setChecked)
        self.inline.toggled.connect(self._folded)

    def show_thing(self, vessel: Any, plan: Plan) -> None:
        """Show where a vessel goes."""
        words = fit_words(vessel, plan.kitchen)
        self.inline.setText(words)
        self.inline.setAccessibleName(tr("{vessel} {where}").format(vessel=vessel.name, where=words))
        self.below.show_vessel(vessel, plan.kitchen)

    def _folded(self, unfolded: bool) -> None:
        focused = QApplication.focusWidget()
        if not unfolded and focused is not None and self.below.isAncestorOf(focused):
            self.inline.setFocus(Qt.FocusReason.OtherFocusReason)
        self.below.setVisible(unfolded)


class StationTicks(QWidget):
    """A tick for each station, and one for leaving it to the size. Escape folds it."""

    def __init__(self, take: TakeKey, fold: Any, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._take = take
        self._fold = fold
        self._vessel: Vessel | None = None
        self._kitchen = Kitchen()
        self.by_size = Tick(tr("by its size"), self._leave_to_size)
        self.ticks: dict[StationId, Tick] = {}
        self.says = QLabel()
        self.says.setObjectName("soft")
        self.wrong = QLabel()
        self.wrong.setObjectName("wrong")
        for label in (self.says, self.wrong):
            label.setWordWrap(True)
            label.setTextFormat(Qt.TextFormat.PlainText)
        self.wrong.hide()
        self._ticks_box = QWidget()
        self._row = RowWrap(self._ticks_box, QMargins(0, 0, 0, 0), gap=8)
        self._row.addWidget(self.by_size)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 2, 0, 6)
        column.setSpacing(2)
        for widget in (self._ticks_box, self.says, self.wrong):
            column.addWidget(widget)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Preferred)
        self.by_size.complained.connect(self._complained)
        self.hide()

    def show_vessel(self, vessel: Vessel, kitchen: Kitchen) -> None:
        """Show where a vessel goes in a kitchen."""
        self._vessel, self._kitchen = vessel, kitchen
        if [(each, tick.text()) for each, tick in self.ticks.items()] != [
            (s.id, s.name) for s in that_matter(kitchen)
        ]:
            self._make_ticks()
        now = stations_now(vessel, kitchen)
        self.by_size.show_value(not vessel.fits, afresh=True)
        for station, tick in self.ticks.items():
            tick.show_value(station in now, afresh=True)
        self.says.setText(size_sentence(vessel, kitchen) if not vessel.fits else self._against_size(vessel))
        self.says.setVisible(bool(self.says.text()))

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Fold at Escape."""
        if event.key() == Qt.Key.Key_Escape:
            self._fold(False)
        else:
            super().keyPressEvent(event)

    def _make_ticks(self) -> None:
        for tick in self.ticks.values():
            self._row.removeWidget(tick)
            tick.hide()
            tick.deleteLater()
        self.ticks = {}
        for station in that_matter(self._kitchen):
            tick = Tick(station.name, partial(self._choose, station.id))
            tick.setAccessibleName(station.name)
            tick.complained.connect(self._complained)
            self._row.addWidget(tick)
            self.ticks[station.id] = tick
        self._ticks_box.updateGeometry()

    def _choose(self, station: StationId, goes: bool) -> str:
        """Let the vessel go into a station, or not, besides where it goes now."""
        assert self._vessel is not None
        now = set(stations_now(self._vessel, self._kitchen))
        now = now | {station} if goes else now - {station}
        if not now:
            return tr("It must go somewhere: tick another station first, or “by its size”.")
        return self._take("fits", tuple(each.id for each in that_matter(self._kitchen) if each.id in now))

    def _leave_to_size(self, leave: bool) -> str:
        assert self._vessel is not None
        now = stations_now(self._vessel, self._kitchen)
        if not leave and not now:
            return tr("By its size it goes nowhere: tick the stations that it does go into.")
        return self._take("fits", () if leave else now)

    def _against_size(self, vessel: Vessel) -> str:
        """Say where the ticks and the sizes do not agree."""
        small = [
            self._kitchen.station[each].name
            for each in vessel.fits
            if each in self._kitchen.station and goes_by_size(vessel, self._kitchen.station[each]) is False
        ]
        return (
            tr("By its size it is too large for {stations}.").format(stations=", ".join(small))
            if small
            else ""
        )

    def _complained(self, sentence: str) -> None:
        self.wrong.setText(sentence)
        self.wrong.setVisible(bool(sentence))
