"""A form whose texts are read as they are typed, so that what is said of them never belongs to an older text."""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QVBoxLayout, QWidget

from app.fields import Form, Line, Paragraph, Spec, Typed
from core.measures.refusal import Refusal


@dataclass(frozen=True, slots=True)
class Read:
    """What stands in the fields shown: values by key, labels of empty ones that are needed, of ones to be mended."""

    values: Mapping[str, Any]
    missing: tuple[str, ...]
    wrong: tuple[str, ...]


class LiveForm(QWidget):
    """Keeps values of its own, the plan knows nothing of them. `changed`: another text or choice stands there."""

    changed = Signal()

    def __init__(
        self,
        specs: Sequence[Spec],
        begin: Mapping[str, Any],
        needed: Collection[str] = (),
        shown: Callable[[Mapping[str, Any]], Collection[str]] | None = None,
        least: int = 180,
    ) -> None:
        """Make the fields. `begin`: first values; `needed`: keys that may not be empty; `shown` by the choices made."""
        super().__init__()
        self._needed, self._shown_for = frozenset(needed), shown
        self._chosen: dict[str, Any] = {}
        self._shown: set[str] = {each.key for each in specs}
        self.form = Form(specs, self._take, least=least)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.addWidget(self.form)
        for cell in self.form.cells.values():
            if isinstance(cell.field, Line):
                cell.field.textEdited.connect(self._typed)
            elif isinstance(cell.field, Paragraph):
                cell.field.textChanged.connect(self._typed)
        self.put(begin)

    def put(self, values: Mapping[str, Any]) -> None:
        """Put values into the fields, whatever stands there."""
        for key, value in values.items():
            if not isinstance(self.form.field(key), (Line, Paragraph)):
                self._chosen[key] = value
        self.form.show_values(values, afresh=True)
        self._typed()

    def read(self) -> Read:
        """Read what stands in the fields that are shown."""
        values: dict[str, Any] = dict(self._chosen)
        missing, wrong = [], []
        for key in self.form.cells:
            if key not in self._shown:
                continue
            cell = self.form.cells[key]
            if not isinstance(cell.field, (Line, Paragraph)):
                continue
            assert isinstance(cell.spec.how, Typed)
            text = cell.field.shown_text()
            if not text.strip():
                values[key] = None
                if key in self._needed:
                    missing.append(cell.spec.label)
                continue
            try:
                values[key] = cell.spec.how.read(text)
            except Refusal:
                wrong.append(cell.spec.label)
        return Read(values, tuple(missing), tuple(wrong))

    def _typed(self) -> None:
        if self._shown_for is not None:
            shown = set(self._shown_for(self._chosen))
            if shown != self._shown:
                self._shown = shown
                self.form.show_only(shown)
        values = self.read().values
        for key, cell in self.form.cells.items():
            if cell.spec.hint is not None:
                value = values.get(key)
                said = "" if value is None else cell.spec.hint(value)
                cell.hint.setText(said)
                cell.hint.setVisible(bool(said))
        self.changed.emit()

    def _take(self, key: str, value: Any) -> str:
        if not isinstance(self.form.field(key), (Line, Paragraph)):
            self._chosen[key] = value
        self._typed()
        return ""
