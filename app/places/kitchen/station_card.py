"""One station as a card: its picture, its fields, and how it heats up. What seldom matters is folded away."""

from __future__ import annotations

from typing import Any

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLabel, QVBoxLayout, QWidget

from app.bridge import OpenPlan
from app.fields import Form, Reading, a_button, tried, values_of, with_key
from app.places.kitchen.heat_up_curve import HeatUpCurve
from app.places.kitchen.station_fields import (
    copied_station,
    kept_apart,
    keys_for,
    rare_keys,
    station_parts,
    units_label,
)
from app.places.kitchen.station_picture import StationPicture
from core.plan.edits import AddStation, ChangeStation, Edit, RemoveStation
from core.plan.ids import StationId
from core.plan.kitchen import Station


class StationCard(QFrame):
    """Shows and edits a station. `copied`: its copy's id; `reshaped`: fields came or went."""

    copied = Signal(str)
    reshaped = Signal()

    def __init__(self, opened: OpenPlan, station: StationId, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("card")
        self._opened = opened
        self._station = station
        self._parts = station_parts(lambda: opened.plan.kitchen, station)
        self._shown: set[str] = set()
        self.form = Form(
            [part.spec for part in self._parts.values()],
            self._take,
            least=round(7.6 * self.fontMetrics().height()),
            shown=(),
        )
        self.picture = StationPicture()
        self.curve = HeatUpCurve()
        self.reading = QLabel()
        self.wrong = QLabel()
        self.more = a_button(
            self.tr("More"), tip=self.tr("What seldom matters: hours, place, rates and the like")
        )
        self.copy = a_button(self.tr("Copy"), tip=self.tr("Add another one like it"))
        self.remove = a_button(self.tr("Remove the station (undo brings it back)"), "bin", only_icon=True)
        self._lay_out()
        self._connect()

    def _lay_out(self) -> None:
        self.reading.setObjectName("soft")
        self.reading.setWordWrap(True)
        self.reading.setFixedWidth(self.picture.sizeHint().width())
        self.wrong.setObjectName("wrong")
        self.wrong.setWordWrap(True)
        self.wrong.hide()
        self.more.setCheckable(True)
        buttons = QHBoxLayout()
        for button in (self.more, self.copy, self.remove):
            buttons.addWidget(button)
        buttons.addStretch(1)
        left = QVBoxLayout()
        left.setSpacing(4)
        for widget in (self.picture, self.curve, self.reading):
            left.addWidget(widget)
        left.addStretch(1)
        left.addLayout(buttons)
        row = QHBoxLayout()
        row.setSpacing(14)
        row.addLayout(left)
        right = QVBoxLayout()
        right.addWidget(self.form)
        right.addStretch(1)
        row.addLayout(right, 1)
        column = QVBoxLayout(self)
        column.setContentsMargins(10, 10, 14, 10)
        column.addLayout(row)
        column.addWidget(self.wrong)

    def _connect(self) -> None:
        self.more.toggled.connect(lambda _open: self._show_fields())
        self.curve.read.connect(self._read_curve)
        self.curve.drawn.connect(lambda points: self._said(self._take("from_cold", points)))
        with_key(self.copy, "Ctrl+D", self, self._copy)
        with_key(self.remove, "Alt+Del", self, self._remove)

    def refresh(self, station: Station) -> None:
        """Show the station as it is."""
        self.picture.show_station(station)
        heater = station.heater
        heats_up = heater is not None and bool(heater.from_cold)
        if heater is not None and heats_up:
            self.curve.show_heater(heater)
        self.curve.setVisible(heats_up)
        self.reading.setVisible(heats_up)
        self._show_fields()
        self.form.show_values(values_of(self._parts, station))
        cell = self.form.cells["units"]
        cell.label.setText(units_label(station.kind))
        cell.field.setAccessibleName(units_label(station.kind))
        self.setAccessibleName(station.name)
        self.more.setAccessibleName(self.tr("More about {station}").format(station=station.name))

    def enter(self) -> None:
        """Put the cursor into the name."""
        name = self.form.field("name")
        name.setFocus(Qt.FocusReason.TabFocusReason)
        if isinstance(name, Reading):
            name.selectAll()

    def _show_fields(self) -> None:
        """Show what belongs to the kind; what seldom matters only when it is asked for or says something."""
        kitchen = self._opened.plan.kitchen
        station = kitchen.station.get(self._station)
        if station is None:
            return
        keys, rare = keys_for(station, kitchen), rare_keys(station, kitchen)
        # what is shown stays while it is worked on, so that no field goes from under the cursor
        staying = self._worked_on() & self._shown
        shown = keys if self.more.isChecked() else keys - (rare - staying)
        self.more.setVisible(bool(rare) or self.more.isChecked())
        if shown != self._shown:
            anew, self._shown = not self._shown, shown
            self.form.show_only(shown)
            if not anew:
                self.reshaped.emit()

    def _worked_on(self) -> set[str]:
        """Return the keys of fields that stay for the moment: the cursor stands there, or they are to be mended."""
        return {key for key, cell in self.form.cells.items() if cell.field.hasFocus() or cell.field.wrong}

    def _read_curve(self) -> None:
        station = self._opened.plan.kitchen.station.get(self._station)
        if station is None or station.heater is None:
            return
        words = self.tr("To {setting} °C: {minutes} min from cold").format(
            setting=self.curve.setting, minutes=self.curve.minutes
        )
        if station.heater.offset:
            dial = self.curve.setting - station.heater.offset
            words += self.tr("; dial at {dial}").format(dial=dial)
        self.reading.setText(words)

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
