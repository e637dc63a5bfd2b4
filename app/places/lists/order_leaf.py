"""The order list: by day of shopping and by aisle, each thing with what it is for, then what is there already."""

from __future__ import annotations

from collections.abc import Hashable
from typing import Any

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QShowEvent
from PySide6.QtWidgets import QLabel, QVBoxLayout, QWidget

from app.bridge import OpenPlan
from app.fields import Entered, Page, Rows, dress_inside, tab_as_read, tried
from app.look.colours import palette_under
from app.places.lists.as_text import TextBar
from app.places.lists.order_row import OrderRow
from app.places.lists.stock_edits import on_hand_edit, require_alike, stock_edit, stock_of
from app.places.lists.words import tr
from core.food.order_list import key_of
from core.food.shopping import Purchase, Shopping, shopping
from core.food.speak_lists import said_apart, said_at_home, said_parts
from core.measures.refusal import Refusal
from core.measures.words import plural
from core.plan.edits import Edit
from core.sheets.list_text import NOTHING, ON_PAPER, clock_of, day_of, first_starts, order_text

_USUAL = "How long fresh things keep is what is usual; the date on the pack goes before it."


class OrderLeaf(Entered):
    """Shows the order list of the plan, at the times of the timetable that is seen."""

    told = Signal(str)
    refused = Signal(str)

    def __init__(self, opened: OpenPlan, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._opened = opened
        self._shopping: Shopping | None = None
        self._purchases: dict[str, Purchase] = {}
        self.bar = TextBar(lambda: f"{opened.plan.name} - order list", self.text, self)
        self.wrong = QLabel()
        self.wrong.setObjectName("wrong")
        self.wrong.setWordWrap(True)
        self.rows: Rows[QWidget] = Rows(self._made)
        self.page = Page(self.wrong, self.rows)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        column.addWidget(self.bar)
        column.addWidget(self.page, 1)
        self.bar.told.connect(self.told)
        self.bar.refused.connect(self.refused)
        self._stale = True
        opened.changed.connect(self._changed)

    def text(self) -> str:
        """Return the list as text."""
        plan, starts = self._opened.plan, first_starts(self._opened.timetable)
        return order_text(plan, shopping(plan, starts), starts)

    def showEvent(self, event: QShowEvent) -> None:
        """Work it out only when somebody looks."""
        super().showEvent(event)
        if self._stale:
            self.refresh()

    def _changed(self, _change: object) -> None:
        self._stale = True
        if self.isVisible():
            self.refresh()

    def refresh(self) -> None:
        """Work the list out anew and show it; rows that stay keep what is being typed in them."""
        self._stale = False
        plan = self._opened.plan
        starts = first_starts(self._opened.timetable)
        try:
            found = shopping(plan, starts)
        except Refusal as refusal:
            self._show_wrong(str(refusal))
            return
        self._show_wrong("")
        self._shopping = found
        said: dict[Hashable, str] = {}
        self._purchases = {}
        keys = self._keys(found, said)
        changed = self.rows.show_keys(keys)
        for key, widget in zip(keys, self.rows, strict=True):
            self._show(key, widget, said)
        if changed:
            tab_as_read(self)
        first = next((each for each in self.rows if isinstance(each, OrderRow)), None)
        self.enter_at(self.bar.paper if first is None else first.fields["on_hand"])
        self._say(found, on_paper=starts is None)

    def _say(self, found: Shopping, on_paper: bool) -> None:
        things = sum(len(trip.purchases) for trip in found.trips)
        if not things and not found.at_home:
            self.bar.show_state(NOTHING, there=False)
            return
        days = tr(" on {days}").format(days=plural(len(found.trips), "day")) if found.trips else ""
        says = tr("{things} to buy{days}.").format(things=plural(things, "thing"), days=days)
        self.bar.show_state(f"{says} {ON_PAPER}" if on_paper else says, there=True)

    def _show_wrong(self, sentence: str) -> None:
        self.wrong.setText(sentence)
        self.wrong.setVisible(bool(sentence))
        self.rows.setVisible(not sentence)
        if sentence:
            self.bar.show_state("", there=False)

    def _keys(self, found: Shopping, said: dict[Hashable, str]) -> list[Hashable]:
        """Return the keys of headings and rows in order, and put the words of headings into `said`."""
        plan = self._opened.plan
        day = day_of(plan)
        keys: list[Hashable] = []
        count: dict[str, int] = {}

        def heading(key: Hashable, words: str) -> None:
            keys.append(key)
            said[key] = words

        def item(each: Purchase) -> None:
            name = key_of(each.line.item)
            count[name] = count.get(name, 0) + 1
            key = f"{each.line.item}\n{count[name]}"
            self._purchases[key] = each
            keys.append(("item", key))

        for trip in found.trips:
            things = plural(len(trip.purchases), "thing")
            words = tr("Buy on {day}: {things}").format(day=day(trip.days_before), things=things)
            heading(("listDay", trip.days_before), words)
            aisle: str | None = None
            for each in trip.purchases:
                if each.aisle != aisle:
                    aisle = each.aisle
                    heading(("listAisle", trip.days_before, aisle), aisle.capitalize() or tr("Other"))
                item(each)
        if found.at_home:
            heading(("listDay", "home"), tr("In the house already"))
            heading(("listTold", "look"), tr("Look that it is there, and enough."))
        for each in found.at_home:
            item(each)
        for at, part in enumerate(found.apart):
            heading(("listTold", at), said_apart(part, day))
        if any(each.keeps is not None and not each.told for trip in found.trips for each in trip.purchases):
            heading(("listTold", "usual"), tr(_USUAL))
        return keys

    def _made(self, key: tuple[Any, ...]) -> QWidget:
        if key[0] != "item":
            label = QLabel()
            label.setObjectName(key[0])
            label.setWordWrap(True)
            label.setTextFormat(Qt.TextFormat.PlainText)
            return label
        row = OrderRow(key[1], self._take, self._aisles)
        dress_inside(row, palette_under(self.palette()))
        return row

    def _show(self, key: Any, widget: QWidget, said: dict[Hashable, str]) -> None:
        if isinstance(widget, QLabel):
            widget.setText(said[key])
        elif isinstance(widget, OrderRow):
            each = self._purchases[key[1]]
            plan = self._opened.plan
            if self._is_bought(each):
                what, what_for = said_parts(each, clock_of(plan))
            else:
                what, _, what_for = said_at_home(each.line).partition(": ")
            widget.show_purchase(each, stock_of(plan, each.line.item), what, what_for)

    def _is_bought(self, each: Purchase) -> bool:
        return self._shopping is not None and each not in self._shopping.at_home

    def _aisles(self) -> list[str]:
        dishes = self._opened.plan.menu.dishes
        return sorted({each.aisle for dish in dishes for each in dish.ingredients if each.aisle})

    def _take(self, key: str, field: str, value: Any) -> str:
        plan, each = self._opened.plan, self._purchases[key]
        item = each.line.item
        try:
            edit: Edit | None
            if field == "on_hand":
                edit = on_hand_edit(plan, item, value)
            elif field == "pack":
                edit = stock_edit(plan, item, pack=value[0], sold_as=value[1])
            else:
                if field == "in_store":
                    require_alike(value, each.line.needs)
                edit = stock_edit(plan, item, **{field: value})
        except Refusal as refusal:
            return str(refusal)
        if edit is None:
            return ""
        follower = self._follower(key) if field == "on_hand" else None
        sentence = tried(self._opened, edit, "sheets")
        if follower is not None and not sentence:
            follower.enter("on_hand")
        return sentence

    def _follower(self, key: str) -> OrderRow | None:
        """Return the row after one that is about to go to another part of the list, where the cook goes on ticking."""
        rows = [each for each in self.rows if isinstance(each, OrderRow)]
        keys = [each.item for each in rows]
        at = keys.index(key) + 1
        return rows[at] if at < len(rows) else None
