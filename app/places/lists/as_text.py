"""The bar above a list: what is on it, and the buttons that copy or keep it as text."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QHBoxLayout, QLabel, QWidget

from app.fields import a_button, with_key
from app.places.lists.where import keeping_dialog


class TextBar(QWidget):
    """Copies or keeps what `text` gives. `told` carries good news, `refused` why a file could not be written."""

    told = Signal(str)
    refused = Signal(str)

    def __init__(self, name: Callable[[], str], text: Callable[[], str], where: QWidget) -> None:
        """Take what gives the file's name without its ending, what gives the text, and where the keys work."""
        super().__init__()
        self._name, self._text = name, text
        self.says = QLabel()
        self.says.setObjectName("listTold")
        self.says.setWordWrap(True)
        self.copy = a_button(self.tr("Copy as text"))
        self.keep = a_button(self.tr("Keep as text…"), "save")
        with_key(self.copy, "Ctrl+Shift+C", where, self.copy_text)
        self.keep.clicked.connect(self._ask_where)
        row = QHBoxLayout(self)
        row.setContentsMargins(18, 8, 14, 4)
        row.setSpacing(8)
        row.addWidget(self.says, 1)
        row.addWidget(self.copy)
        row.addWidget(self.keep)

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
        if not path.suffix:
            path = path.with_name(path.name + ".txt")
        try:
            path.write_text(self._text(), encoding="utf-8")
        except OSError as wrong:
            self.refused.emit(self.tr("{name} could not be written: {why}.").format(name=path.name, why=wrong.strerror))
            return
        self.told.emit(self.tr("The list is in {path}.").format(path=path))

    def _ask_where(self) -> None:
        name = f"{self._name()}.txt"
        dialog = keeping_dialog(self, self.tr("Keep the list as text"), name, self.tr("Text (*.txt)"))
        dialog.fileSelected.connect(lambda chosen: self.keep_text(Path(chosen)))
        dialog.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        dialog.open()
