"""The stations as cards, each with its picture."""

from __future__ import annotations

from functools import partial
from typing import Any

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLabel, QMenu, QVBoxLayout, QWidget

from app.bridge import OpenPlan
from app.fields import (
    Columns,
    Form,
    Page,
    Reading,
    a_button,
    bring_into_view,
    dress_inside,
    tried,
    values_of,
    with_key,
)
from app.look.colours import palette_under
from app.look.words import kind_word
from app.places.kitchen.station_fields import (
    copied_station,
    kept_apart,
    keys_for,
    station_parts,
    units_label,
    usual_station,
)
from app.places.kitchen.station_picture import StationPicture
from core.plan.edits import AddStation, ChangeStation, Edit, RemoveStation
from core.plan.ids import StationId
from core.plan.kitchen import Station, StationKind


class StationCard(QFrame):
    """One station. `copied`: its copy's id."""

    copied = Signal(str)

    def __init__(self, opened: OpenPlan, station: StationId, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("card")
        self._opened = opened
        self._station = station
        self._parts = station_parts(lambda: opened.plan.kitchen, station)
        self.form = Form([part.spec for part in self._parts.values()], self._take, least=136)
        self.picture = StationPicture()
        self.wrong = QLabel()
        self.wrong.setObjectName("wrong")
        self.wrong.setWordWrap(True)
        self.wrong.hide()
        self.copy = a_button(self.tr("Copy"), tip=self.tr("Add another one like it"))
        self.remove = a_button(self.tr("Remove the station (undo brings it back)"), "bin", only_icon=True)
        with_key(self.copy, "Ctrl+D", self, self._copy)
        with_key(self.remove, "Alt+Del", self, self._remove)
        buttons = QHBoxLayout()
        buttons.addWidget(self.copy)
        buttons.addWidget(self.remove)
        buttons.addStretch(1)
        left = QVBoxLayout()
        left.addWidget(self.picture)
        left.addLayout(buttons)
        left.addStretch(1)
        row = QHBoxLayout()
        row.setSpacing(14)
        row.addLayout(left)
        row.addWidget(self.form, 1)
        column = QVBoxLayout(self)
        column.setContentsMargins(10, 10, 14, 10)
        column.addLayout(row)
        column.addWidget(self.wrong)

    def refresh(self, station: Station) -> None:
        """Show the station as it is."""
        self.picture.show_station(station)
        self.form.show_only(keys_for(station, self._opened.plan.kitchen))
        self.form.show_values(values_of(self._parts, station))
        cell = self.form.cells["units"]
        cell.label.setText(units_label(station.kind))
        cell.field.setAccessibleName(units_label(station.kind))
        self.setAccessibleName(station.name)

    def enter(self) -> None:
        """Put the cursor into the name."""
        name = self.form.field("name")
        name.setFocus(Qt.FocusReason.TabFocusReason)
        if isinstance(name, Reading):
            name.selectAll()

    def _take(self, key: str, value: Any) -> str:
        kitchen = self._opened.plan.kitchen
        edit: Edit
        if key == "not_with":
            edit = kept_apart(self._station, value, kitchen)
        else:
            edit = ChangeStation(self._station, self._parts[key].put(kitchen.station[self._station], value))
        return tried(self._opened, edit, "kitchen")

    def _copy(self) -> None:
        kitchen = self._opened.plan.kitchen
        new = copied_station(kitchen.station[self._station], kitchen)
        if self._said(tried(self._opened, AddStation(new), "kitchen")):
            self.copied.emit(new.id)

    def _remove(self) -> None:
        self._said(tried(self._opened, RemoveStation(self._station), "kitchen"))

    def _said(self, sentence: str) -> bool:
        self.wrong.setText(sentence)
        self.wrong.setVisible(bool(sentence))
        return not sentence


class StationsLeaf(QWidget):
    """Adds, copies, edits and removes stations. `remade`: cards came or went."""

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
        self.columns = Columns(least=440)
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
        dress_inside(card, palette_under(self.palette()))
        return card
