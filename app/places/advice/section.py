"""One part of the advice: a heading, a line for what is being worked on, and what was found."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QLabel, QPushButton, QSizePolicy, QVBoxLayout, QWidget

from app.fields import a_button, dress_inside
from app.look.colours import palette_under
from app.places.folding import Folding
from app.places.gist import Gist


def words_of(name: str, text: str = "") -> QLabel:
    """Return a label for plain words that wrap; `name` is its name in the style sheet."""
    label = QLabel(text)
    label.setObjectName(name)
    label.setWordWrap(True)
    label.setTextFormat(Qt.TextFormat.PlainText)
    label.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Minimum)
    return label


def take_button(words: str, tip: str = "") -> QPushButton:
    """Return the button that does what is advised."""
    button = a_button(words, tip=tip)
    button.setObjectName("takeButton")
    return button


class Section(QWidget):
    """Waiting, failed and empty states are said in words. `again`: the cook wants what failed to be asked again."""

    again = Signal()

    def __init__(self, heading: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.heading = words_of("adviceHeading", heading)
        self.state = words_of("soft")
        self.retry = a_button(self.tr("Ask again"))
        self.retry.clicked.connect(lambda _checked=False: self.again.emit())
        self.body = QVBoxLayout()
        self.body.setSpacing(4)
        self.column = column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 6)
        column.setSpacing(4)
        column.addWidget(self.heading)
        column.addWidget(self.state)
        column.addLayout(self.body)
        column.addWidget(self.retry, 0, Qt.AlignmentFlag.AlignLeft)
        self.say("")

    def say(self, words: str, retry: bool = False) -> None:
        """Say how it stands: waited for, failed, nothing found; "": what was found speaks for itself."""
        self.state.setText(words)
        self.state.setVisible(bool(words))
        self.retry.setVisible(retry)

    def wait(self) -> None:
        """Say that it is being worked out."""
        self.clear()
        self.say(self.tr("Working it out…"))

    def fail(self) -> None:
        """Say that it broke off."""
        self.clear()
        self.say(self.tr("This broke off; nothing has changed."), retry=True)

    def clear(self) -> None:
        """Take away what was found."""
        while (item := self.body.takeAt(0)) is not None:
            widget = item.widget()
            if widget is not None:
                widget.hide()
                widget.deleteLater()

    def add(self, widget: QWidget, at: int = -1) -> None:
        """Add something found, at the end or at a place."""
        self.body.insertWidget(at, widget)
        dress_inside(widget, palette_under(self.palette()))

    def line(self, words: str, name: str = "plain") -> QLabel:
        """Add words, and return them."""
        label = words_of(name, words)
        self.add(label)
        return label

    def folding(self, gist: Gist) -> Folding:
        """Add words whose rest is folded away, and return them."""
        words = Folding(bold=bool(gist.rest))
        words.show_gist(gist)
        self.add(words)
        return words

    def button(self, words: str, run: Callable[[], object]) -> QPushButton:
        """Add a button that does what is advised, and return it."""
        button = take_button(words)
        button.clicked.connect(lambda _checked=False: run())
        self.body.addWidget(button, 0, Qt.AlignmentFlag.AlignLeft)
        return button
