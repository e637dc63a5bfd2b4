"""A row made from declared fields, read like a sentence: words and fields by turns, on one line or several."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import partial
from typing import Any

from PySide6.QtCore import QEvent, QObject, Qt, Signal
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLabel, QVBoxLayout, QWidget

from app.fields.making import Field, made
from app.fields.pick import Pick
from app.fields.reading import Reading
from app.fields.spec import Spec, TakeKey


class Row(QFrame):
    """One thing of a list, edited in place.

    `entered`: a field of it has got the focus; `finished`: Enter was pressed in its last field.
    """

    entered = Signal()
    finished = Signal()

    def __init__(
        self,
        lines: Sequence[Sequence[Spec | str | QWidget]],
        take: TakeKey,
        lead: QWidget | None = None,
        parent: QWidget | None = None,
    ) -> None:
        """Make the fields of each line; texts and other widgets stand between them, `lead` before all lines."""
        super().__init__(parent)
        self.setObjectName("row")
        self.fields: dict[str, Field] = {}
        self.identity: object = None
        self._lead = lead
        self._wrongs: dict[str, str] = {}
        self.wrong = QLabel()
        self.wrong.setObjectName("wrong")
        self.wrong.setWordWrap(True)
        self.wrong.setTextFormat(Qt.TextFormat.PlainText)
        self.wrong.hide()
        outer = QHBoxLayout(self)
        outer.setContentsMargins(10, 5, 8, 6)
        outer.setSpacing(10)
        if lead is not None:
            outer.addWidget(lead, 0, Qt.AlignmentFlag.AlignTop)
        column = QVBoxLayout()
        column.setSpacing(3)
        outer.addLayout(column, 1)
        for line in lines:
            column.addLayout(self._line(line, take))
        column.addWidget(self.wrong)

    def _line(self, line: Sequence[Spec | str | QWidget], take: TakeKey) -> QHBoxLayout:
        box = QHBoxLayout()
        box.setSpacing(6)
        for part in line:
            if isinstance(part, Spec):
                field = made(part, partial(take, part.key))
                self._know(part.key, field)
                box.addWidget(field, part.grows, Qt.AlignmentFlag.AlignTop)
            elif isinstance(part, str):
                words = QLabel(part)
                words.setObjectName("rowWords")
                words.setMinimumHeight(28)
                box.addWidget(words, 0, Qt.AlignmentFlag.AlignTop)
            else:
                box.addWidget(part, 0, Qt.AlignmentFlag.AlignTop)
        return box

    def _know(self, key: str, field: Field) -> None:
        self.fields[key] = field
        field.complained.connect(lambda sentence, key=key: self._complained(key, sentence))
        field.installEventFilter(self)
        if isinstance(field, Reading):
            field.returnPressed.connect(lambda key=key: self._next(key))
        elif isinstance(field, Pick):
            field.returned.connect(lambda key=key: self._next(key))

    def show_values(self, values: Mapping[str, Any], identity: object = None) -> None:
        """Show values by key. Another `identity` than before: what stood here to be mended goes."""
        afresh = identity != self.identity
        self.identity = identity
        if afresh:
            self.refuse("")
        for key, value in values.items():
            self.fields[key].show_value(value, afresh)

    def refuse(self, sentence: str) -> None:
        """Say what is wrong with the row as a whole, such as why it may not go."""
        self._complained("", sentence)

    def set_chosen(self, chosen: bool) -> None:
        """Mark the row as the one that is being worked on."""
        if self.property("chosen") == chosen:
            return
        for widget in (self, self._lead):
            if widget is not None:
                widget.setProperty("chosen", chosen)
                widget.style().unpolish(widget)
                widget.style().polish(widget)

    def enter(self, key: str = "") -> None:
        """Put the cursor into a field, the first unless another is named, its text ready to be typed over."""
        field = self.fields[key] if key else next(iter(self.fields.values()))
        field.setFocus(Qt.FocusReason.TabFocusReason)
        if isinstance(field, Reading):
            field.selectAll()

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Tell when a field gets the focus."""
        if event.type() == QEvent.Type.FocusIn:
            self.entered.emit()
        return super().eventFilter(watched, event)

    def _next(self, key: str) -> None:
        """Go on to the field after this one, or say that the row is finished."""
        if not self.fields[key].commit():
            return
        keys = [each for each, field in self.fields.items() if field.isEnabled()]
        at = keys.index(key) + 1
        if at < len(keys):
            self.enter(keys[at])
        else:
            self.finished.emit()

    def _complained(self, key: str, sentence: str) -> None:
        if sentence:
            self._wrongs[key] = sentence
        else:
            self._wrongs.pop(key, None)
        self.wrong.setText("\n".join(self._wrongs.values()))
        self.wrong.setVisible(bool(self._wrongs))
