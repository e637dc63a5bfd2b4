"""One thing that is handed out as a file: what it is, a few choices, where it goes."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import Any

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QFrame, QGridLayout, QHBoxLayout, QLabel, QSizePolicy, QVBoxLayout, QWidget

from app.fields import Pick, Picked, a_button
from app.places.files.making import State

Options = Callable[[], Sequence[tuple[str, str]]]


class FileCard(QFrame):
    """Its choices are short words by key. `chosen` carries key and word; the rest are wishes.

    Those made of it say how its file is called (`file`, `ending`), what it is in a sentence (`what`), and make it.
    """

    chosen = Signal(str, str)
    keep_wanted = Signal()
    open_wanted = Signal()

    def __init__(self, title: str, about: str, keep: str, parent: QWidget | None = None) -> None:
        """Take what it is called, what it is, and the words on the button that keeps it."""
        super().__init__(parent)
        self.setObjectName("card")
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Preferred)
        self.fields: dict[str, Pick] = {}
        self._options: dict[str, Options] = {}
        self.title = QLabel(title)
        self.title.setObjectName("listWhat")
        self.about = QLabel(about)
        self.about.setObjectName("soft")
        self.about.setWordWrap(True)
        self.state = QLabel()
        self.state.setObjectName("soft")
        self.state.setWordWrap(True)
        self._grid = QGridLayout()
        self._grid.setColumnStretch(1, 1)
        self._grid.setVerticalSpacing(2)
        self.keep = a_button(keep, "save")
        self.open = a_button(self.tr("Open outside"), tip=self.tr("Show it in the system's own program"))
        self.keep.clicked.connect(lambda _checked=False: self.keep_wanted.emit())
        self.open.clicked.connect(lambda _checked=False: self.open_wanted.emit())
        row = QHBoxLayout()
        row.setSpacing(8)
        row.addWidget(self.keep)
        row.addWidget(self.open)
        row.addStretch(1)
        column = QVBoxLayout(self)
        column.setContentsMargins(16, 12, 16, 14)
        column.setSpacing(6)
        column.addWidget(self.title)
        column.addWidget(self.about)
        column.addLayout(self._grid)
        column.addWidget(self.state)
        column.addStretch(1)
        column.addLayout(row)

    @property
    def what(self) -> str:
        """Return what it is called in a sentence: "The calendar"."""
        raise NotImplementedError

    @property
    def file(self) -> str:
        """Return what the end of its file's name says, before the ending."""
        raise NotImplementedError

    @property
    def ending(self) -> str:
        """Return the ending of its file's name, with its dot."""
        raise NotImplementedError

    def made(self, state: State) -> bytes:
        """Return the file of a plan and its timetable. Raise Refusal or OSError where it cannot be made."""
        raise NotImplementedError

    def look(self, state: State | None) -> None:
        """Say what the file holds as things stand; None: there is no timetable."""

    def add(self, key: str, words: str, options: Options) -> None:
        """Add a choice between short words, each with what is read of it."""
        label = QLabel(words)
        label.setObjectName("fieldLabel")
        field = Pick(Picked(options), lambda value: self._take(key, value))
        field.setAccessibleName(f"{self.title.text()}: {words}")
        label.setBuddy(field)
        self.fields[key], self._options[key] = field, options
        row = self._grid.rowCount()
        self._grid.addWidget(label, row, 0)
        self._grid.addWidget(field, row, 1)

    def value(self, key: str) -> str:
        """Return what is chosen."""
        return str(self.fields[key].value)

    def show_choices(self, told: Mapping[str, Any]) -> None:
        """Show choices; one that is not told, or that there is not now, is the first."""
        for key, field in self.fields.items():
            there = [value for value, _words in self._options[key]()]
            field.show_value(told[key] if told.get(key) in there else there[0], afresh=True)

    def allow(self, there: bool) -> None:
        """Let it be kept and opened, or not yet."""
        for each in (self.keep, self.open, *self.fields.values()):
            each.setEnabled(there)

    def _take(self, key: str, value: str) -> str:
        self.chosen.emit(key, value)
        return ""
