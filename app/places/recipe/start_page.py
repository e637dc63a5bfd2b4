"""How a recipe comes in: its words pasted, a saved page opened, a file or words dropped. Nothing is fetched or run."""

from __future__ import annotations

from PySide6.QtCore import QMimeData, Qt, Signal
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLabel, QPlainTextEdit, QVBoxLayout, QWidget

from app.fields import Pick, Picked, a_button, with_key

MOST_PASTED = 2_000_000
"""Characters; a recipe has some thousand, a whole web page perhaps a million."""


class PasteBox(QPlainTextEdit):
    """Takes words only: what is pasted is never shown as a page. `too_long`: more was pasted than is taken."""

    too_long = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("recipePaste")
        self.setTabChangesFocus(True)
        self.document().setDocumentMargin(10)

    def insertFromMimeData(self, source: QMimeData) -> None:
        """Paste words."""
        text = source.text()
        if len(text) > MOST_PASTED:
            self.too_long.emit()
        else:
            self.insertPlainText(text.replace("\0", ""))


class StartPage(QFrame):
    """`read`: the words are to be read. `file_wanted`, `back_wanted`: open a file, bring back the one put away."""

    read = Signal(str, str)
    file_wanted = Signal()
    back_wanted = Signal()
    refused = Signal(str)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("paper")
        title = QLabel(self.tr("Bring in a recipe"))
        title.setObjectName("title")
        words = QLabel(
            self.tr(
                "Paste its words here, or open a page that you have saved. You see what is read of it beside the text "
                "and put it right; nothing is on the menu before you take it."
            )
        )
        words.setWordWrap(True)
        self.box = PasteBox()
        self.box.setAccessibleName(self.tr("The words of the recipe"))
        self.box.setPlaceholderText(
            self.tr("Paste the recipe here (Ctrl+V), or drop a file or words on the window.")
        )
        self.read_button = a_button(self.tr("Read it"), tip=self.tr("Read what is pasted"))
        self.read_button.setObjectName("takeButton")
        saved = self.tr("A web page, JSON or text that you have saved")
        self.file_button = a_button(self.tr("Open a saved page…"), tip=saved)
        self.back_button = a_button("", "undo")
        self.back_button.hide()
        self._system = "us"
        systems = (
            ("us", self.tr("American cups and spoons")),
            ("uk", self.tr("British cups and pints")),
            ("metric", self.tr("Cups of 250 ml")),
            ("au", self.tr("Australian cups and spoons")),
            ("label", self.tr("Cups of food labels")),
        )
        self.system = Pick(Picked(lambda: systems), self._take_system)
        self.system.setAccessibleName(self.tr("Whose cups and spoons"))
        self.system.show_value(self._system)
        self.system.setMinimumWidth(230)
        self._lay_out(title, words)
        with_key(self.read_button, "Ctrl+Return", self, self._read)
        self.file_button.clicked.connect(lambda _checked=False: self.file_wanted.emit())
        self.back_button.clicked.connect(lambda _checked=False: self.back_wanted.emit())
        too_long = self.tr("What was pasted is longer than any recipe; copy only the recipe's words.")
        self.box.too_long.connect(lambda: self.refused.emit(too_long))

    def _lay_out(self, title: QLabel, words: QLabel) -> None:
        row = QHBoxLayout()
        row.setSpacing(8)
        row.addWidget(self.read_button)
        row.addWidget(self.file_button)
        row.addWidget(self.system)
        row.addStretch(1)
        row.addWidget(self.back_button)
        column = QVBoxLayout(self)
        column.setContentsMargins(28, 20, 28, 18)
        column.setSpacing(10)
        column.addWidget(title)
        column.addWidget(words)
        column.addWidget(self.box, 1)
        column.addLayout(row)

    def show_aside(self, name: str) -> None:
        """Offer to bring back the recipe that was put away last; "": there is none."""
        self.back_button.setVisible(bool(name))
        short = name if len(name) <= 30 else f"{name[:29].rstrip()}…"
        self.back_button.setText(self.tr("Bring back “{name}”").format(name=short))

    @property
    def chosen_system(self) -> str:
        """Return whose measures the recipe means."""
        return self._system

    def _take_system(self, system: str) -> str:
        self._system = system
        return ""

    def _read(self) -> None:
        self.read.emit(self.box.toPlainText(), self.chosen_system)

    def begin(self) -> None:
        """Put the cursor into the box, what was read before out of it."""
        self.box.setFocus(Qt.FocusReason.OtherFocusReason)
