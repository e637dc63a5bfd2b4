"""The Sheets place: what goes to the kitchen and to the shop, as a run sheet, an order list and a pull list."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QVBoxLayout, QWidget

from app.bridge import OpenPlan
from app.fields import Leaves, dress_fields, finish_typing
from app.places.dressed import Dressed
from app.places.lists import OrderLeaf, PullLeaf, RunLeaf
from app.places.lists.dress import lists_sheet


class SheetsPlace(QWidget):
    """Shows one of the sheets at a time. `told` carries good news for the banner, `refused` why not."""

    told = Signal(str)
    refused = Signal(str)

    def __init__(self, opened: OpenPlan, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.run = RunLeaf(opened)
        self.order = OrderLeaf(opened)
        self.pull = PullLeaf(opened)
        self.leaves = Leaves(
            [
                ("run", self.tr("&Run sheet"), self.run),
                ("order", self.tr("&Order list"), self.order),
                ("pull", self.tr("P&ull list"), self.pull),
            ]
        )
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 8, 0, 0)
        column.addWidget(self.leaves)
        for leaf in (self.run, self.order, self.pull):
            leaf.told.connect(self.told)
            leaf.refused.connect(self.refused)
        Dressed(self, lambda palette: dress_fields(self, palette, lists_sheet(palette)))

    def keep_pdf(self, path: Path) -> None:
        """Write the run sheet as PDF."""
        self.run.keep_pdf(path)

    def finish(self) -> None:
        """Take what is being typed, before the plan is closed, undone or printed."""
        finish_typing(self)
