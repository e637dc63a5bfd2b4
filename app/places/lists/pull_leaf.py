"""The pull list: what has to stand ready, with the most of it in use at once and when; what is short comes first."""

from __future__ import annotations

from collections.abc import Hashable
from typing import Any

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QShowEvent
from PySide6.QtWidgets import QLabel, QVBoxLayout, QWidget

from app.bridge import OpenPlan
from app.fields import Entered, Page, Rows
from app.places.lists.as_text import TextBar
from app.places.lists.missing import Missing
from app.places.lists.pull_row import PullRow, TellingRow
from app.places.lists.words import tr
from core.food.pull_list import PullLine, PullList, pull_list
from core.food.speak_lists import brief
from core.measures.words import plural
from core.plan.check_words import short
from core.sheets.list_text import clock_of, pull_text


class PullLeaf(Entered):
    """Shows the pull list of the timetable that is seen."""

    told = Signal(str)
    refused = Signal(str)

    def __init__(self, opened: OpenPlan, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._opened = opened
        self.bar = TextBar(lambda: f"{opened.plan.name} - pull list", self.text, self)
        self.empty = Missing()
        self.rows: Rows[QWidget] = Rows(self._made)
        self.page = Page(self.rows)
        self.page.setObjectName("listPage")
        self.page.setFocusPolicy(Qt.FocusPolicy.TabFocus)  # nothing else is in it: there the keys scroll
        self.page.setAccessibleName(self.tr("Pull list"))
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        column.addWidget(self.bar)
        column.addWidget(self.empty, 1)
        column.addWidget(self.page, 1)
        self.bar.told.connect(self.told)
        self.bar.refused.connect(self.refused)
        self._stale = True
        opened.changed.connect(self._changed)

    def text(self) -> str:
        """Return the list as text; "" without a timetable."""
        pulled = self._pulled()
        return "" if pulled is None else pull_text(self._opened.plan, pulled)

    def showEvent(self, event: QShowEvent) -> None:
        """Work it out only when somebody looks."""
        super().showEvent(event)
        if self._stale:
            self.refresh()

    def _changed(self, _change: object) -> None:
        self._stale = True
        if self.isVisible():
            self.refresh()

    def _pulled(self) -> PullList | None:
        timetable = self._opened.timetable
        there = timetable is not None and bool(timetable.placed)
        return pull_list(self._opened.plan, timetable) if there and timetable is not None else None

    def refresh(self) -> None:
        """Work the list out anew and show it."""
        self._stale = False
        pulled = self._pulled()
        self.empty.setVisible(pulled is None)
        self.page.setVisible(pulled is not None)
        self.enter_at(self.page if pulled is not None else self.empty.button)
        if pulled is None:
            self.empty.show_untimed(self._opened.plan)
            self.bar.show_state("", there=False)
            return
        shown = self._shown(pulled)
        self.rows.show_keys([key for key, _value in shown])
        for (_key, value), widget in zip(shown, self.rows, strict=True):
            self._show(value, widget)
        self.bar.show_state(_says(pulled), there=True)

    def _shown(self, pulled: PullList) -> list[tuple[Hashable, Any]]:
        """Return keys and values of headings and rows in order: vessels, tins of recipes, the table."""
        clock = clock_of(self._opened.plan)
        found: list[tuple[Hashable, Any]] = []
        lines = sorted(pulled.vessels, key=lambda each: each.short_by == 0)
        if lines:
            found.append((("heading", "vessels"), tr("Vessels and tools")))
        found += [(("vessel", each.vessel.id), each) for each in lines]
        if pulled.pans:
            found.append((("heading", "pans"), tr("Tins and pans of the recipes")))
        found += [(("tell", "pan", at), (short(pan), brief(dish))) for at, (dish, pan) in enumerate(pulled.pans)]
        if pulled.table:
            words = tr("For the table: a dish to serve from and what to serve with")
            found.append((("heading", "table"), words))
        for at, (dish, course, words) in enumerate(pulled.table):
            found.append((("tell", "table", at), (f"{brief(dish)}, {clock(course)}", " ".join(words.split()))))
        return found

    def _made(self, key: tuple[Any, ...]) -> QWidget:
        if key[0] == "vessel":
            return PullRow()
        if key[0] == "tell":
            return TellingRow()
        label = QLabel()
        label.setObjectName("listDay")
        label.setWordWrap(True)
        return label

    def _show(self, value: Any, widget: QWidget) -> None:
        if isinstance(widget, QLabel):
            widget.setText(value)
        elif isinstance(widget, PullRow):
            line: PullLine = value
            widget.show_line(line, clock_of(self._opened.plan))
        elif isinstance(widget, TellingRow):
            widget.show_words(*value)


def _says(pulled: PullList) -> str:
    if not pulled.vessels:
        return tr("No step says yet what it is done in: write it into the step's line, such as “in the large pot”.")
    wanting = [each for each in pulled.vessels if each.short_by]
    kinds = tr("{kinds} of vessels and tools.").format(kinds=plural(len(pulled.vessels), "kind"))
    if not wanting:
        return tr("{kinds} There are enough of all.").format(kinds=kinds)
    names = ", ".join(short(each.vessel.name) for each in wanting)
    return tr("{kinds} Too few at some time: {names}.").format(kinds=kinds, names=names)
