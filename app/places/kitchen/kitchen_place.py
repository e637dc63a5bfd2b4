"""The Kitchen place: stations as cards, vessels and cooks in rows, and other kitchens to cook in."""

from __future__ import annotations

from PySide6.QtGui import QShowEvent
from PySide6.QtWidgets import QVBoxLayout, QWidget

from app.bridge import OpenPlan
from app.fields import Entered, Leaves, dress_fields, finish_typing, tab_as_read
from app.look import Palette
from app.places.dressed import Dressed
from app.places.kitchen.cooks import cooks
from app.places.kitchen.kept_kitchens import Keeping, own_keeping
from app.places.kitchen.kitchen_line import KitchenLine
from app.places.kitchen.stations_leaf import StationsLeaf
from app.places.kitchen.things_leaf import ThingsLeaf
from app.places.kitchen.vessels import vessels


class KitchenPlace(Entered):
    """Where it is written down what there is to cook on, in and with whom."""

    def __init__(self, opened: OpenPlan, keeping: Keeping | None = None, parent: QWidget | None = None) -> None:
        """Show the kitchen of an open plan; `keeping`: where kitchens are kept, the cook's own library by default."""
        super().__init__(parent)
        self._opened = opened
        self._stale = True
        self.line = KitchenLine(opened, keeping or own_keeping())
        self.form = self.line.form
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
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(4)
        column.addWidget(self.line)
        column.addWidget(self.leaves, 1)
        opened.changed.connect(self._changed)
        for leaf in (self.stations, self.vessels, self.cooks):
            leaf.remade.connect(self._order_tabs)
        self.enter_at(self.leaves.buttons["stations"])
        self._dressed: Dressed | None = None

    def refresh(self) -> None:
        """Show the kitchen as it is; what is half typed or refused stays."""
        self._stale = False
        kitchen = self._opened.plan.kitchen
        self.line.refresh()
        for leaf in (self.stations, self.vessels, self.cooks):
            leaf.refresh()
        self.leaves.count("stations", len(kitchen.stations))
        self.leaves.count("vessels", len(kitchen.vessels))
        self.leaves.count("cooks", len(kitchen.cooks))

    def finish(self) -> None:
        """Take what is being typed, before the plan is closed, undone or printed."""
        finish_typing(self)

    def _dress(self, palette: Palette) -> None:
        p = palette
        more = f"""
        #teaching {{ color: {p.faint}; padding: 6px 12px; }}
        #keptName {{ font-weight: bold; }}
        #notice[mood="news"] {{ background: {p.legal}; border-top: 1px solid {p.line}; }}
        #notice[mood="refusal"] {{ background: {p.clash}; color: {p.on_clash}; }}
        #notice[mood="refusal"] QLabel {{ color: {p.on_clash}; background: transparent; }}
        #notice QLabel, #clear {{ background: transparent; }}
        #noticeText, #noticeText > QWidget {{ background: transparent; }}
        #wordButton:checked:focus {{ border: 2px solid {p.accent}; }}
        """
        dress_fields(self, palette, more)

    def setVisible(self, visible: bool) -> None:
        """Dress what is here before it is first shown."""
        if visible and self._dressed is None:
            self._dressed = Dressed(self, self._dress)
        super().setVisible(visible)

    def showEvent(self, event: QShowEvent) -> None:
        """Catch up with what changed while another place was shown."""
        super().showEvent(event)
        self.line.look_again()
        if self._stale:
            self.refresh()

    def _changed(self, _change: object) -> None:
        if self.isVisible():
            self.refresh()
        else:
            self._stale = True

    def _order_tabs(self) -> None:
        tab_as_read(self)
