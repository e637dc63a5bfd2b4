"""The stations as cards, each with its picture."""

from __future__ import annotations

from functools import partial

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QLabel, QMenu, QVBoxLayout, QWidget

from app.bridge import OpenPlan
from app.fields import Columns, Page, a_button, bring_into_view, dress_inside
from app.look.colours import palette_under
from app.look.words import kind_word
from app.places.kitchen.station_card import StationCard
from app.places.kitchen.station_fields import usual_station
from core.plan.edits import AddStation
from core.plan.ids import StationId
from core.plan.kitchen import StationKind


class StationsLeaf(QWidget):
    """Adds, copies, edits and removes stations. `remade`: cards, or fields of one, came or went."""

    remade = Signal()

    def __init__(self, opened: OpenPlan, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._opened = opened
        self.cards: dict[StationId, StationCard] = {}
        self.add_button = a_button(self.tr("Add a station"), "plus")
        self.menu = QMenu(self.add_button)
        for kind in StationKind:
            self.menu.addAction(kind_word(kind), partial(self.add, kind))
        self.add_button.setMenu(self.menu)
        self.teaching = QLabel(
            self.tr(
                "No stations yet. A station is a place where something happens or food waits: an oven with its racks, "
                "each burner, the grill, the fridge with its shelves. Add what you have."
            )
        )
        self.teaching.setObjectName("teaching")
        self.teaching.setWordWrap(True)
        self.columns = Columns(least=round(27.8 * self.fontMetrics().height()))
        self.page = Page(self.teaching, self.columns, widest=2400)
        bar = QHBoxLayout()
        bar.setContentsMargins(18, 8, 18, 4)
        bar.addWidget(self.add_button)
        bar.addStretch(1)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.addLayout(bar)
        column.addWidget(self.page, 1)

    def refresh(self) -> None:
        """Show the stations as they are."""
        stations = self._opened.plan.kitchen.stations
        ids = [each.id for each in stations]
        changed = ids != list(self.cards)
        for gone in set(self.cards) - set(ids):
            card = self.cards.pop(gone)
            card.hide()
            card.deleteLater()
        self.cards = {each: self.cards.get(each) or self._made(each) for each in ids}
        for station in stations:
            self.cards[station.id].refresh(station)
        self.columns.show_widgets(list(self.cards.values()))
        self.teaching.setVisible(not stations)
        if changed:
            self.remade.emit()

    def add(self, kind: StationKind) -> None:
        """Add a usual station of a kind and go to it."""
        station = usual_station(kind, self._opened.plan.kitchen)
        if self._opened.apply(AddStation(station), "kitchen"):
            self.go_to(station.id)

    def go_to(self, station: str) -> None:
        """Put the cursor into a station's card and bring it into view."""
        card = self.cards.get(StationId(station))
        if card is not None:
            card.enter()
            bring_into_view(self.page, card)

    def _made(self, station: StationId) -> StationCard:
        card = StationCard(self._opened, station)
        card.copied.connect(self.go_to)
        card.reshaped.connect(self.remade)
        dress_inside(card, palette_under(self.palette()))
        return card
