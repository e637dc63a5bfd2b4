"""One thing of the order list: what to buy, for what, what of it is there, how the shop sells it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import Any

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLabel, QLineEdit, QSizePolicy, QVBoxLayout, QWidget

from app.fields import Row, Spec, Ticked, a_button
from app.places.lists.words import AISLE, KEEPS, PACKS, STORE, USABLE, said_keeps, tr
from core.food.shopping import Purchase
from core.plan.menu import Stock


class OrderRow(Row):
    """Shows a purchase and takes what the house knows of its item; `more` shows what is seldom wanted."""

    def __init__(self, item: str, take: Callable[[str, str, Any], str], aisles: Callable[[], list[str]]) -> None:
        """Make the row of an item; `take` is handed the item's key, the field's key and its value."""
        what, what_for = _label("listWhat"), _label("listFor")
        said = _one_below_the_other(what, what_for)
        more = a_button(tr("More"), tip=tr("How long it keeps, what trimming leaves, where the shop has it"))
        more.setCheckable(True)
        aisle = replace(AISLE, offers=aisles)
        rest = [QLabel(words) for words in (tr("keeps"), tr("after trimming is left"), tr("the shop has it at"))]
        keeps, left, stands = rest
        super().__init__(
            [
                [
                    Spec("on_hand", tr("on hand"), Ticked(), tr("It is there: it need not be bought"), grows=0),
                    said,
                    tr("there is"),
                    Spec("in_store", tr("How much is there"), STORE, "", tr("none"), 84, 0),
                    tr("sold by"),
                    Spec("pack", tr("What one pack holds"), PACKS, _PACK_TIP, tr("any amount"), 118, 0),
                    more,
                ],
                [
                    keeps,
                    Spec("keeps", tr("How many days it keeps once bought"), KEEPS, "", "", 110, 0),
                    left,
                    Spec("usable", tr("Share that is left after trimming"), USABLE, "", "", 64, 0),
                    stands,
                    Spec("aisle", tr("Where the shop has it"), aisle, "", "", 150, 1),
                ],
            ],
            lambda key, value: take(item, key, value),
        )
        self.setObjectName("listRow")
        self.item, self.what, self.what_for, self.more = item, what, what_for, more
        self._rest = rest
        more.toggled.connect(self._show_more)
        self._show_more(False)

    def show_purchase(self, each: Purchase, stock: Stock, what: str, what_for: str) -> None:
        """Show what is to be bought and what is known of the item."""
        line = each.line
        self.what.setText(what)
        self.what_for.setText(what_for)
        if self.what_for.isHidden() is bool(what_for):  # to show what is shown lays out the whole page
            self.what_for.setVisible(bool(what_for))
        self.show_values(
            {
                "on_hand": all(need.at_home for need in line.needs),
                "in_store": stock.in_store,
                "pack": (stock.pack, stock.sold_as),
                "keeps": stock.keeps,
                "usable": stock.usable,
                "aisle": stock.aisle,
            }
        )
        made = all(need.made is not None for need in line.needs) and not line.buy.amount
        self.fields["on_hand"].setEnabled(not made)
        self._hint("keeps", said_keeps(each.keeps))
        self._hint("aisle", line.aisle or tr("anywhere"))

    def _hint(self, key: str, words: str) -> None:
        field = self.fields[key]
        if isinstance(field, QLineEdit):
            field.setPlaceholderText(words)

    def _show_more(self, shown: bool) -> None:
        for widget in (*self._rest, *(self.fields[key] for key in ("keeps", "usable", "aisle"))):
            widget.setVisible(shown)


_PACK_TIP = "500 g; pot of 300 ml; net of 1 kg; 6"


def _label(name: str) -> QLabel:
    label = QLabel()
    label.setObjectName(name)
    label.setWordWrap(True)
    label.setTextFormat(Qt.TextFormat.PlainText)
    label.setAlignment(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignAbsolute | Qt.AlignmentFlag.AlignVCenter)
    label.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Preferred)
    return label


def _one_below_the_other(*labels: QLabel) -> QWidget:
    both = QWidget()
    both.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Preferred)
    column = QVBoxLayout(both)
    column.setContentsMargins(8, 4, 8, 0)
    column.setSpacing(1)
    for label in labels:
        column.addWidget(label)
    return both
