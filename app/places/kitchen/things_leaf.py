"""A list of things of the kitchen in rows: vessels, cooks. What differs between them is declared."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from typing import Any, Protocol

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QLabel, QVBoxLayout, QWidget

from app.bridge import OpenPlan
from app.fields import Draft, Page, Part, Row, Rows, Spec, a_button, dress_inside, tried, values_of, with_key
from app.fields.spec import TakeKey
from app.look.colours import palette_under
from core.plan.edits import Edit
from core.plan.kitchen import Kitchen
from core.plan.plan import Plan

_LARGE = 22  # px of a line of type from which on a row takes more lines


class Beside(Protocol):
    """What stands in a thing's row besides its fields."""

    @property
    def inline(self) -> QWidget | None:
        """Return what stands in the first line, if anything."""
        ...

    @property
    def below(self) -> QWidget:
        """Return what stands under all lines."""
        ...

    def show_thing(self, thing: Any, plan: Plan) -> None:
        """Show a thing as it is in a plan."""
        ...


@dataclass(frozen=True, slots=True)
class Things:
    """What a list of things is made of.

    `lines` name the parts in a row, with words between them; `large` does so where the type is large. `added` makes
    the edit that adds one by name, `changed` puts another in its place, `copied` adds one like it, `removed` takes
    it out. `beside` makes what else stands in a row; it gets what takes the value of an attribute by its name.
    """

    of: Callable[[Kitchen], Sequence[Any]]
    parts: dict[str, Part]
    lines: Sequence[Sequence[str]]
    large: Sequence[Sequence[str]]
    added: Callable[[Kitchen, str], Edit]
    changed: Callable[[Any], Edit]
    copied: Callable[[Kitchen, Any], Edit]
    removed: Callable[[Any], Edit]
    new: str
    empty: str
    teaching: str
    beside: Callable[[TakeKey], Beside]


class ThingsLeaf(QWidget):
    """Adds, copies, edits and removes things in rows. `remade`: rows came or went."""

    remade = Signal()

    def __init__(self, opened: OpenPlan, things: Things, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._opened = opened
        self._things = things
        self.rows: Rows[Row] = Rows(self._made)
        self.beside: dict[str, Beside] = {}
        self.draft = Draft(things.new, things.empty, self.add, a_button(things.new, "plus", only_icon=True))
        self.draft.added.connect(self._added)
        self.teaching = QLabel(things.teaching)
        self.teaching.setObjectName("teaching")
        self.teaching.setWordWrap(True)
        self.page = Page(self.teaching, self.rows, self.draft)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.addWidget(self.page)

    def refresh(self) -> None:
        """Show the things as they are."""
        things = self._things.of(self._opened.plan.kitchen)
        changed = self.rows.show_keys([each.id for each in things])
        for each in things:
            row = self.rows.at(each.id)
            if row is not None:
                row.show_values(values_of(self._things.parts, each), each.id)
                self.beside[each.id].show_thing(each, self._opened.plan)
        if changed:
            self.remade.emit()

    def add(self, name: str) -> str:
        """Add a thing by its name; return why not, or ""."""
        return tried(self._opened, self._things.added(self._opened.plan.kitchen, name), "kitchen")

    def _made(self, key: str) -> Row:
        copy = a_button(self.tr("Copy"), tip=self.tr("Add another one like it"))
        remove = a_button(self.tr("Take it out (undo brings it back)"), "bin", only_icon=True)
        parts = self._things.parts
        named = self._things.large if self.fontMetrics().height() > _LARGE else self._things.lines
        lines: list[list[Spec | str | QWidget]] = [
            [parts[each].spec if each in parts else each for each in line] for line in named
        ]
        beside = self._things.beside(lambda name, value: self._put(key, name, value))
        self.beside[key] = beside
        lines[0] += [*([beside.inline] if beside.inline is not None else []), copy, remove]
        lines.append([beside.below])
        row = Row(lines, lambda part, value: self._take(key, part, value))
        with_key(copy, "Ctrl+D", row, lambda: self._do(key, self._copied))
        with_key(remove, "Alt+Del", row, lambda: self._do(key, self._things.removed))
        row.finished.connect(self.draft.enter)
        dress_inside(row, palette_under(self.palette()))
        return row

    def _thing(self, key: str) -> Any:
        return next(each for each in self._things.of(self._opened.plan.kitchen) if each.id == key)

    def _take(self, key: str, part: str, value: Any) -> str:
        new = self._things.parts[part].put(self._thing(key), value)
        return tried(self._opened, self._things.changed(new), "kitchen")

    def _put(self, key: str, name: str, value: Any) -> str:
        new = replace(self._thing(key), **{name: value})
        return tried(self._opened, self._things.changed(new), "kitchen")

    def _copied(self, thing: Any) -> Edit:
        return self._things.copied(self._opened.plan.kitchen, thing)

    def _do(self, key: str, edit: Callable[[Any], Edit]) -> None:
        row = self.rows.at(key)
        sentence = tried(self._opened, edit(self._thing(key)), "kitchen")
        if row is not None:
            row.refuse(sentence)

    def _added(self, goes_on: bool) -> None:
        last = self.rows.at(self.rows.keys[-1]) if self.rows.keys else None
        if goes_on and last is not None:
            keys = list(last.fields)
            last.enter(keys[1])
