"""The Kitchen place: stations as cards, vessels and cooks in rows."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from PySide6.QtGui import QShowEvent
from PySide6.QtWidgets import QFrame, QHBoxLayout, QVBoxLayout, QWidget

from app.bridge import OpenPlan
from app.fields import Form, Leaves, Spec, dress_fields, finish_typing, tab_as_read, tried
from app.fields.typed_text import NAME
from app.fields.typed_times import MINUTES
from app.look import Palette
from app.places.dressed import Dressed
from app.places.kitchen.cooks import cooks
from app.places.kitchen.stations_leaf import StationsLeaf
from app.places.kitchen.things_leaf import ThingsLeaf
from app.places.kitchen.vessels import vessels
from core.plan.edits import Edit, RenameKitchen, SetTransfer, SetWalk


class KitchenPlace(QWidget):
    """Where it is written down what there is to cook on, in and with whom."""

    def __init__(self, opened: OpenPlan, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._opened = opened
        self._stale = True
        self.form = Form(
            [
                Spec("kitchen_name", self.tr("The kitchen"), NAME, grows=2),
                Spec(
                    "transfer",
                    self.tr("Putting in or taking out takes"),
                    MINUTES,
                    self.tr("Minutes of a cook at either end of what cooks by itself, where a step says nothing else"),
                ),
                Spec(
                    "walk",
                    self.tr("From one place to another takes"),
                    MINUTES,
                    self.tr("Minutes on foot between stations that stand in different places: kitchen, terrace"),
                ),
            ],
            self._take,
            least=220,
        )
        self.stations = StationsLeaf(opened)
        self.vessels = ThingsLeaf(opened, vessels())
        self.cooks = ThingsLeaf(opened, cooks())
        self.leaves = Leaves(
            [
                ("stations", self.tr("&Stations"), self.stations),
                ("vessels", self.tr("&Vessels"), self.vessels),
                ("cooks", self.tr("Coo&ks"), self.cooks),
            ]
        )
        top = QFrame()
        top.setObjectName("bar")
        row = QHBoxLayout(top)
        row.setContentsMargins(18, 8, 18, 8)
        self.form.setMaximumWidth(1100)
        row.addWidget(self.form, 1000)
        row.addStretch(1)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(4)
        column.addWidget(top)
        column.addWidget(self.leaves, 1)
        opened.changed.connect(self._changed)
        for leaf in (self.stations, self.vessels, self.cooks):
            leaf.remade.connect(self._order_tabs)
        self.setFocusProxy(self.leaves.buttons["stations"])
        Dressed(self, self._dress)

    def refresh(self) -> None:
        """Show the kitchen as it is; what is half typed or refused stays."""
        self._stale = False
        plan = self._opened.plan
        self.form.show_values({"kitchen_name": plan.kitchen.name, "transfer": plan.transfer, "walk": plan.kitchen.walk})
        for leaf in (self.stations, self.vessels, self.cooks):
            leaf.refresh()
        self.leaves.count("stations", len(plan.kitchen.stations))
        self.leaves.count("vessels", len(plan.kitchen.vessels))
        self.leaves.count("cooks", len(plan.kitchen.cooks))

    def finish(self) -> None:
        """Take what is being typed, before the plan is closed, undone or printed."""
        finish_typing(self)

    def _dress(self, palette: Palette) -> None:
        dress_fields(self, palette, f"#teaching {{ color: {palette.faint}; padding: 6px 12px; }}")

    def showEvent(self, event: QShowEvent) -> None:
        """Catch up with what changed while another place was shown."""
        super().showEvent(event)
        if self._stale:
            self.refresh()

    def _changed(self, _change: object) -> None:
        if self.isVisible():
            self.refresh()
        else:
            self._stale = True

    def _order_tabs(self) -> None:
        tab_as_read(self)

    def _take(self, key: str, value: Any) -> str:
        edits: dict[str, Callable[[Any], Edit]] = {
            "kitchen_name": RenameKitchen,
            "transfer": SetTransfer,
            "walk": SetWalk,
        }
        return tried(self._opened, edits[key](value), "kitchen")
