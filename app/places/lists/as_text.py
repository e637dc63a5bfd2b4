"""The bar above a list: what is on it, and the buttons that copy it, keep it as text, or show it as paper."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from PySide6.QtCore import Signal
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QHBoxLayout, QLabel, QWidget

from app.fields import a_button, with_key
from app.places.lists.where import Keeper


class TextBar(QWidget):
    """Copies or keeps what `text` gives. `told` carries good news, `refused` why a file could not be written."""

    told = Signal(str)
    refused = Signal(str)
    paper_wanted = Signal()

    def __init__(self, name: Callable[[], str], text: Callable[[], str], where: QWidget) -> None:
        """Take what gives the file's name without its ending, what gives the text, and where the keys work."""
        super().__init__()
        self._name, self._text = name, text
        self._keeper = Keeper(self)
        self._keeper.told.connect(self.told)
        self._keeper.refused.connect(self.refused)
        self.says = QLabel()
        self.says.setObjectName("listTold")
        self.says.setWordWrap(True)
        self.copy = a_button(self.tr("Copy as text"))
        self.keep = a_button(self.tr("Keep as text…"), "save")
        tip = self.tr("See this list as pages, to print or to keep as PDF")
        self.paper = a_button(self.tr("As paper…"), "print", tip)
        self.paper.clicked.connect(lambda _checked=False: self.paper_wanted.emit())
        with_key(self.copy, "Ctrl+Shift+C", where, self.copy_text)
        self.keep.clicked.connect(self._ask_where)
        row = QHBoxLayout(self)
        row.setContentsMargins(18, 8, 14, 4)
        row.setSpacing(8)
        row.addWidget(self.says, 1)
        row.addWidget(self.copy)
        row.addWidget(self.keep)
        row.addWidget(self.paper)

    def show_state(self, says: str, there: bool) -> None:
        """Say what is on the list; `there`: there is something to copy."""
        self.says.setText(says)
        self.copy.setEnabled(there)
        self.keep.setEnabled(there)

    def copy_text(self) -> None:
        """Put the list on the clipboard."""
        if self.copy.isEnabled():
            QGuiApplication.clipboard().setText(self._text())
            self.told.emit(self.tr("The list is copied; paste it into a message or a note."))

    def keep_text(self, path: Path) -> None:
        """Write the list as a text file."""
        endings = [path.suffix.lower()] if path.suffix else [".txt"]
        self._keeper.keep(self.tr("The list"), path, endings, lambda _path: self._text().encode())

    def _ask_where(self) -> None:
        title, name = self.tr("Keep the list as text"), f"{self._name()}.txt"
        self._keeper.ask(title, name, self.tr("Text (*.txt)"), self.keep_text)
