"""A form made from declared fields: label above, field, what it comes to, what is wrong; it reflows to the room."""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping, Sequence
from functools import partial
from typing import Any

from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QGridLayout, QLabel, QSizePolicy, QVBoxLayout, QWidget

from app.fields.dress import dress_inside
from app.fields.making import Field, made
from app.fields.spec import Spec, TakeKey, Ticked
from app.look.colours import palette_under


class Cell(QWidget):
    """One field with all that is said about it."""

    def __init__(self, spec: Spec, take: TakeKey, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.spec = spec
        self.field: Field = made(spec, partial(take, spec.key))
        self.label = QLabel("" if isinstance(spec.how, Ticked) else spec.label)
        self.label.setObjectName("fieldLabel")
        self.label.setBuddy(self.field)
        self.hint = _said("soft")
        self.wrong = _said("wrong")
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(2)
        for widget in (self.label, self.field, self.hint, self.wrong):
            column.addWidget(widget)
        column.addStretch(1)
        self.field.complained.connect(self._complained)

    def show_value(self, value: Any, afresh: bool) -> None:
        """Show a value and what it comes to."""
        self.field.show_value(value, afresh)
        if self.spec.hint is not None:
            said = self.spec.hint(value)
            self.hint.setText(said)
            self.hint.setVisible(bool(said))

    def _complained(self, sentence: str) -> None:
        self.wrong.setText(sentence)
        self.wrong.setVisible(bool(sentence))


class _Cells(dict[str, Cell]):
    """The cells made so far; one that is asked for by its key is made."""

    def __init__(self, make: Callable[[str], Cell]) -> None:
        super().__init__()
        self._make = make

    def __missing__(self, key: str) -> Cell:
        self[key] = cell = self._make(key)
        return cell


class Form(QWidget):
    """Fields side by side as the room allows; `grows` of a field is how many columns it may span."""

    def __init__(
        self,
        specs: Sequence[Spec],
        take: TakeKey,
        least: int = 200,
        parent: QWidget | None = None,
        shown: Collection[str] | None = None,
    ) -> None:
        """Make the fields. `least`: least width of a column, px; `shown`: keys of those made now, others when shown."""
        super().__init__(parent)
        self._least = least
        self._take = take
        self._columns = 0
        self._specs = {spec.key: spec for spec in specs}
        self._waiting: dict[str, Any] = {}  # values of fields that are not made yet
        self._shown: tuple[str, ...] = tuple(key for key in self._specs if shown is None or key in shown)
        self.cells: dict[str, Cell] = _Cells(self._made)
        for key in self._shown:
            self.cells[key] = Cell(self._specs[key], take, self)
        self._grid = QGridLayout(self)
        self._grid.setContentsMargins(0, 0, 0, 0)
        self._grid.setHorizontalSpacing(18)
        self._grid.setVerticalSpacing(10)
        self._lay_out(3)

    def field(self, key: str) -> Field:
        """Return a field by its key."""
        return self.cells[key].field

    def show_only(self, keys: Collection[str]) -> None:
        """Show the fields that these keys name, and hide the others."""
        shown = tuple(key for key in self._specs if key in keys)
        if shown != self._shown:
            self._shown = shown
            columns, self._columns = self._columns, 0
            self._lay_out(columns)

    def show_values(self, values: Mapping[str, Any], afresh: bool = False) -> None:
        """Show values by key; fields that are being typed in or mended keep their text unless `afresh`."""
        for key, value in values.items():
            if key in self.cells:
                self.cells[key].show_value(value, afresh)
            else:
                self._waiting[key] = value

    def _made(self, key: str) -> Cell:
        """Make a field that was not shown before, hidden, with its value."""
        cell = Cell(self._specs[key], self._take, self)
        cell.hide()
        dress_inside(cell, palette_under(self.palette()))
        if key in self._waiting:
            cell.show_value(self._waiting.pop(key), afresh=True)
        return cell

    def minimumSizeHint(self) -> QSize:
        """Be content with one column: the others go below."""
        return QSize(self._least, super().minimumSizeHint().height())

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Use as many columns as there is room for."""
        super().resizeEvent(event)
        self._lay_out(max(1, (event.size().width() + 18) // (self._least + 18)))

    def _lay_out(self, columns: int) -> None:
        if columns == self._columns:
            return
        for at in range(self._grid.columnCount()):
            self._grid.setColumnStretch(at, 0)
        self._columns = columns
        row = column = 0
        spans = self._spans(columns)
        for key, cell in self.cells.items():
            self._grid.removeWidget(cell)
            cell.setVisible(key in self._shown)
        for key in self._shown:
            cell, span = self.cells[key], spans[key]
            cell.setVisible(True)
            if column + span > columns:
                row, column = row + 1, 0
            self._grid.addWidget(cell, row, column, 1, span, Qt.AlignmentFlag.AlignTop)
            column += span
        for at in range(columns):
            self._grid.setColumnStretch(at, 1)

    def _spans(self, columns: int) -> dict[str, int]:
        """Return how many columns each field takes: as many as it may, but none breaks a row that all fit in."""
        spans = {key: min(max(1, self._specs[key].grows), columns) for key in self._shown}
        while len(spans) <= columns < sum(spans.values()):
            widest = max(spans, key=lambda key: spans[key])
            spans[widest] -= 1
        return spans


def _said(name: str) -> QLabel:
    label = QLabel()
    label.setObjectName(name)
    label.setWordWrap(True)
    label.setTextFormat(Qt.TextFormat.PlainText)
    label.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Minimum)
    label.hide()
    return label
