"""The desk's page: a leaf for cures, one for brines, one for fermentation."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLabel, QPushButton, QVBoxLayout

from app.bridge import OpenPlan
from app.fields import Leaves, a_button
from app.places.cure import brine_fields, cure_fields, ferment_fields
from app.places.cure.desk_leaf import DeskLeaf, Sums
from app.places.cure.outcome import tr
from core.plan.ids import DishId


class CureDesk(QFrame):
    """Reckons; the plan changes only where something is noted on a dish. `left`: the cook goes back."""

    left = Signal()

    def __init__(self, opened: OpenPlan) -> None:
        super().__init__()
        self.setObjectName("paper")
        self.cure = DeskLeaf(opened, _cure())
        self.brine = DeskLeaf(opened, _brine())
        self.ferment = DeskLeaf(opened, _ferment())
        self.leaves = Leaves(
            [
                ("cure", tr("C&ure with nitrite"), self.cure),
                ("brine", tr("&Brine"), self.brine),
                ("ferment", tr("Fermen&tation"), self.ferment),
            ]
        )
        title = QLabel(tr("Curing and brining desk"))
        title.setObjectName("title")
        defers = QLabel(tr("Sums only. Your local food code and licensed practice decide."))
        defers.setObjectName("soft")
        defers.setWordWrap(True)
        self.back = a_button(tr("Back to the menu"), tip=tr("Back to the menu (Esc)"))
        self.back.clicked.connect(self.left)
        top = QHBoxLayout()
        top.setContentsMargins(18, 8, 18, 4)
        top.setSpacing(12)
        top.addWidget(title)
        top.addWidget(defers, 1)
        top.addWidget(self.back)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        column.addLayout(top)
        column.addWidget(self.leaves, 1)
        self.leaves.turned.connect(lambda _name: self.leaf.enter())

    @property
    def leaf(self) -> DeskLeaf:
        """Return the leaf that is shown."""
        return {"cure": self.cure, "brine": self.brine, "ferment": self.ferment}[self.leaves.name]

    def begin(self, dish: DishId | None) -> None:
        """Show the desk, a dish chosen for what may be noted."""
        for leaf in (self.cure, self.brine, self.ferment):
            leaf.notes.aim(dish)
            leaf.refresh()
        self.leaf.enter()

    def refresh(self) -> None:
        """Follow the plan; what is typed stays."""
        for leaf in (self.cure, self.brine, self.ferment):
            leaf.refresh()

    def dress(self) -> None:
        """Draw the signs anew in the colours of the moment."""
        for leaf in (self.cure, self.brine, self.ferment):
            leaf.card.dress()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Leave by Escape; press by Enter the button that has the focus."""
        focus = self.window().focusWidget()
        if event.key() == Qt.Key.Key_Escape:
            self.left.emit()
        elif event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter) and isinstance(focus, QPushButton):
            focus.click()
        else:
            super().keyPressEvent(event)


def _cure() -> Sums:
    words = tr("Weigh everything. How much of the cure is nitrite stands on its label: it is asked for, never assumed.")
    specs, shown = cure_fields.cure_specs(), cure_fields.cure_keys
    return Sums(specs, cure_fields.BEGIN, cure_fields.NEEDED, cure_fields.cure_outcome, words, shown)


def _brine() -> Sums:
    words = tr("Salt for taste and juice. No nitrite in it, and it makes nothing keep.")
    specs, shown = brine_fields.brine_specs(), brine_fields.brine_keys
    return Sums(specs, brine_fields.BEGIN, brine_fields.NEEDED, brine_fields.brine_outcome, words, shown)


def _ferment() -> Sums:
    words = tr("Sausage on its way to pH 5.3: the warmer it is, the sooner it must be there.")
    specs = ferment_fields.ferment_specs()
    return Sums(specs, ferment_fields.BEGIN, ferment_fields.NEEDED, ferment_fields.ferment_outcome, words)
