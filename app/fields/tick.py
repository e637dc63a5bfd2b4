"""A yes or no that stands for a value."""

from __future__ import annotations

from PySide6.QtCore import QSize, Signal
from PySide6.QtWidgets import QCheckBox, QWidget

from app.fields.marking import mark
from app.fields.spec import Take


class Tick(QCheckBox):
    """Hands over what is ticked; a refused tick goes back, with the sentence beside it."""

    complained = Signal(str)

    def __init__(self, words: str, take: Take, parent: QWidget | None = None) -> None:
        super().__init__(words, parent)
        self._take = take
        self._value = False
        self.wrong = ""
        self.setProperty("field", "tick")
        self.clicked.connect(self._clicked)

    @property
    def value(self) -> bool:
        """Return the value last shown or taken."""
        return self._value

    def show_value(self, value: bool, afresh: bool = False) -> None:
        """Show a value."""
        if afresh or value != self._value:
            self._say("")
        self._value = value
        self.setChecked(value)

    def commit(self) -> bool:
        """Tell whether nothing is wrong."""
        return not self.wrong

    def refuse(self, sentence: str) -> None:
        """Say why the tick was not taken."""
        self._say(sentence)

    def sizeHint(self) -> QSize:
        """Be at least 28 px high, to be hit with a finger."""
        return super().sizeHint().expandedTo(QSize(28, 28))

    def minimumSizeHint(self) -> QSize:
        """Be at least as large as the words."""
        return self.sizeHint()

    def _clicked(self, ticked: bool) -> None:
        sentence = self._take(ticked)
        if sentence:
            self.setChecked(self._value)
        self._say(sentence)

    def _say(self, sentence: str) -> None:
        if sentence != self.wrong:
            self.wrong = sentence
            mark(self, sentence)
            self.complained.emit(sentence)
