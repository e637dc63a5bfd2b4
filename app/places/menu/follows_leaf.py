"""What follows what: the links of a dish, within it and to other dishes, and its flow beside them."""

from __future__ import annotations

from typing import Any

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QLabel, QSplitter, QVBoxLayout, QWidget

from app.bridge import OpenPlan
from app.fields import Page, Row, Rows, a_button, dress_inside, with_key
from app.look.colours import palette_under
from app.places.menu.flow_panel import FlowPanel, tried_link
from app.places.menu.flow_picture import links_of
from app.places.menu.link_fields import end_specs, link_values, link_with, wait_specs
from core.plan.edits import AddLink, ChangeLink, RemoveLink
from core.plan.ids import DishId, StepId
from core.plan.menu import Dish, Link


class FollowsLeaf(QWidget):
    """Edits links. `chosen`: a step was clicked in the flow; `remade`: rows came or went."""

    chosen = Signal(str)
    remade = Signal()

    def __init__(self, opened: OpenPlan, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._opened = opened
        self._dish: DishId | None = None
        self._links: tuple[Link, ...] = ()
        self._ends: dict[str, StepId | None] = {"before": None, "after": None}
        self.flow = FlowPanel(opened)
        self.flow.chosen.connect(self.chosen)
        self.rows: Rows[Row] = Rows(self._made)
        self.new = self._new_row()
        self.teaching = QLabel(
            self.tr(
                "Nothing follows anything here yet. Say which step comes before which, also across dishes, and how "
                "long the food may wait in between. You may also draw from one step's edge to another in the picture."
            )
        )
        self.teaching.setObjectName("teaching")
        self.teaching.setWordWrap(True)
        page = Page(self.teaching, self.rows, self.new)
        split = QSplitter(Qt.Orientation.Horizontal)
        split.addWidget(self.flow)
        split.addWidget(page)
        split.setChildrenCollapsible(False)
        split.setStretchFactor(0, 2)
        split.setStretchFactor(1, 3)
        split.setSizes([320, 620])
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.addWidget(split)

    def refresh(self, dish: Dish | None) -> None:
        """Show the links of a dish."""
        plan = self._opened.plan
        other = (dish.id if dish else None) != self._dish
        self._dish = dish.id if dish is not None else None
        self._links = links_of(plan, dish) if dish is not None else ()
        changed = self.rows.show_keys(range(len(self._links)))
        for row, link in zip(self.rows, self._links, strict=True):
            row.show_values(link_values(link), link.key)
        self.teaching.setVisible(not self._links)
        self.new.setVisible(len(plan.steps) > 1)
        self._show_new(dish, other)
        self.flow.show_flow(plan, dish)
        if changed:
            self.remade.emit()

    def mark(self, step: StepId | None) -> None:
        """Mark the chosen step in the flow."""
        self.flow.mark(step)

    def link(self, before: StepId, after: StepId) -> str:
        """Link two steps; return why not, or ""."""
        return tried_link(self._opened, AddLink(Link(before, after)))

    def _show_new(self, dish: Dish | None, other: bool) -> None:
        steps = self._opened.plan.steps
        for key, ended in self._ends.items():
            if other or ended not in steps:
                own = dish.steps if dish is not None else ()
                at = 0 if key == "before" else -1
                self._ends[key] = own[at].id if own else None
        self.new.show_values(self._ends, self._dish)

    def _made(self, at: int) -> Row:
        before, after = end_specs(self._opened, lambda: self._dish)
        least, most, how, kind = wait_specs(self._opened)
        remove = a_button(self.tr("Take the link out (undo brings it back)"), "bin", only_icon=True)
        row = Row(
            [
                [before, self.tr("then"), after, remove],
                [self.tr("waits at least"), least, self.tr("at most"), most, how, kind],
            ],
            lambda key, value: self._take(at, key, value),
        )
        with_key(remove, "Alt+Del", row, lambda: self._remove(at))
        dress_inside(row, palette_under(self.palette()))
        return row

    def _new_row(self) -> Row:
        self.link_them = a_button(self.tr("Link them"), "plus")
        row = Row(
            [[self.tr("After"), self._end(0), self.tr("comes"), self._end(1), self.link_them]],
            self._choose_end,
        )
        self.link_them.clicked.connect(self._add)
        row.finished.connect(self._add)
        return row

    def _end(self, which: int) -> Any:
        return end_specs(self._opened, lambda: self._dish)[which]

    def _choose_end(self, key: str, value: StepId) -> str:
        self._ends[key] = value
        return ""

    def _add(self) -> None:
        before, after = self._ends["before"], self._ends["after"]
        if before is not None and after is not None:
            self.new.refuse(self.link(before, after))

    def _take(self, at: int, key: str, value: Any) -> str:
        link = self._links[at]
        return tried_link(self._opened, ChangeLink(link.key, link_with(link, key, value)))

    def _remove(self, at: int) -> None:
        if at < len(self._links):
            self._opened.apply(RemoveLink(self._links[at].key), "menu")
