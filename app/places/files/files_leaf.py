"""Sheets that are files: a page for the phone, a calendar, tables, a picture; each kept or opened from its card."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

from PySide6.QtCore import Signal
from PySide6.QtGui import QResizeEvent, QShowEvent
from PySide6.QtWidgets import QGridLayout, QVBoxLayout, QWidget

from app.bridge import OpenPlan
from app.fields import Page
from app.places.files.cards import CalendarCard, PhoneCard, PictureCard, TablesCard
from app.places.files.file_card import FileCard
from app.places.files.making import State
from app.places.lists.missing import Missing
from app.places.lists.where import Keeper
from app.places.paper.viewer import show_outside

_TWO_COLUMNS = 820  # px at which two cards stand side by side


class FilesLeaf(QWidget):
    """Hands out what a phone, a calendar or a table program reads. `told` and `refused` go to the banner."""

    told = Signal(str)
    refused = Signal(str)

    def __init__(
        self,
        opened: OpenPlan,
        recall: str = "",
        remember: Callable[[str], object] = lambda _text: None,
        parent: QWidget | None = None,
    ) -> None:
        """Take the choices that were remembered as text, and what remembers the next ones."""
        super().__init__(parent)
        self._opened, self._remember = opened, remember
        self._choices = _told(recall)
        self.keeper = Keeper(self)
        self.keeper.told.connect(self.told)
        self.keeper.refused.connect(self.refused)
        self.empty = Missing()
        self.cards: dict[str, FileCard] = {
            "phone": PhoneCard(self._people),
            "calendar": CalendarCard(self._people),
            "tables": TablesCard(),
            "picture": PictureCard(),
        }
        inside = QWidget()
        self._grid = QGridLayout(inside)
        self._grid.setContentsMargins(0, 0, 0, 0)
        self._grid.setSpacing(12)
        self._columns = 0
        self._lay_cards()
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.addWidget(Page(self.empty, inside))
        for name, card in self.cards.items():
            card.chosen.connect(lambda key, value, name=name: self._choose(name, key, value))
            card.keep_wanted.connect(lambda card=card: self._ask_where(card))
            card.open_wanted.connect(lambda card=card: self._open(card))
        self._stale = True
        opened.changed.connect(self._changed)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Put the cards side by side where there is room."""
        self._lay_cards()
        super().resizeEvent(event)

    def showEvent(self, event: QShowEvent) -> None:
        """Work it out only when somebody looks."""
        super().showEvent(event)
        if self._stale:
            self.refresh()

    def refresh(self) -> None:
        """Show the choices of the moment, and whether there is anything to hand out."""
        self._stale = False
        state = self._state()
        self.empty.setVisible(state is None)
        self.setFocusProxy(self.empty.button if state is None else self.cards["phone"].fields["for"])
        if state is None:
            self.empty.show_untimed(self._opened.plan)
        for name, card in self.cards.items():
            card.show_choices(self._choices.get(name, {}))
            card.allow(state is not None)
            card.look(state)

    def keep_file(self, name: str, path: Path) -> None:
        """Write what a card hands out."""
        card = self.cards[name]
        self.keeper.keep(card.what, path, [card.ending], lambda _path: self._made(card))

    def _lay_cards(self) -> None:
        columns = 2 if self.width() >= _TWO_COLUMNS else 1
        if columns == self._columns:
            return
        self._columns = columns
        for number, card in enumerate(self.cards.values()):
            self._grid.addWidget(card, number // columns, number % columns)
        for column in (0, 1):
            self._grid.setColumnStretch(column, 1 if column < columns else 0)

    def _people(self) -> list[str]:
        return [each.name for each in self._opened.plan.kitchen.cooks if each.name.strip()]

    def _state(self) -> State | None:
        plan, timetable = self._opened.plan, self._opened.timetable
        if timetable is None or not timetable.placed:
            return None
        return plan, timetable, self._opened.clashes

    def _changed(self, _change: object) -> None:
        self._stale = True
        if self.isVisible():
            self.refresh()

    def _choose(self, name: str, key: str, value: str) -> None:
        self._choices.setdefault(name, {})[key] = value
        self._remember(json.dumps(self._choices))
        card = self.cards[name]
        card.show_choices({at: field.value for at, field in card.fields.items()} | {key: value})
        card.look(self._state())

    def _made(self, card: FileCard) -> bytes:
        state = self._state()
        return card.made(state) if state is not None else b""

    def _named(self, card: FileCard) -> str:
        return f"{self._opened.plan.name} - {card.file}"

    def _ask_where(self, card: FileCard) -> None:
        name = next(name for name, each in self.cards.items() if each is card)
        kinds = f"{card.ending[1:].upper()} (*{card.ending})"
        title = card.keep.text().rstrip("…")
        self.keeper.ask(title, self._named(card) + card.ending, kinds, lambda path: self.keep_file(name, path))

    def _open(self, card: FileCard) -> None:
        show_outside(self.keeper, self._named(card), card.ending, lambda: self._made(card))


def _told(text: str) -> dict[str, dict[str, Any]]:
    """Return remembered choices; what cannot be read is nothing."""
    try:
        told = json.loads(text)
    except ValueError:
        return {}
    return {name: dict(each) for name, each in told.items() if isinstance(each, dict)} if isinstance(told, dict) else {}
