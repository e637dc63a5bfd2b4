"""What is wrong with a line, in sentences beside it, with a button that writes the mend."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLabel

from app.fields import a_button
from core.reading.line_value import Fault

_MOST = 3


class FaultNote(QFrame):
    """Says up to three faults. `mended`: the first one that has a mend is to be mended."""

    mended = Signal(object)

    def __init__(self) -> None:
        super().__init__()
        self._faults: tuple[Fault, ...] = ()
        self._refusal = ""
        self.words = QLabel()
        self.words.setObjectName("wrong")
        self.words.setWordWrap(True)
        self.words.setTextFormat(Qt.TextFormat.PlainText)
        self.button = a_button("", tip=self.tr("Write this instead (Ctrl+Enter)"))
        self.button.clicked.connect(self.mend)
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.addWidget(self.words, 1)
        row.addWidget(self.button, 0, Qt.AlignmentFlag.AlignTop)
        self.hide()

    def tell(self, faults: Sequence[Fault]) -> None:
        """Say what is wrong with the words."""
        self._faults = tuple(faults)
        self._show()

    def tell_refusal(self, sentence: str) -> None:
        """Say why the plan does not bear the line as a whole."""
        if sentence != self._refusal:
            self._refusal = sentence
            self._show()

    def mend(self) -> None:
        """Have the first mend written."""
        fault = self._mendable()
        if fault is not None:
            self.mended.emit(fault)

    def _mendable(self) -> Fault | None:
        return next((each for each in self._faults if each.instead), None)

    def _show(self) -> None:
        sentences = list(dict.fromkeys(each.sentence for each in self._faults))
        if len(sentences) > _MOST:
            more = self.tr("… and {number} more.").format(number=len(sentences) - _MOST)
            sentences = [*sentences[:_MOST], more]
        if self._refusal:
            sentences.append(self._refusal)
        text = "\n".join(sentences)
        if text != self.words.text():
            self.words.setText(text)
        fault = self._mendable()
        words = "" if fault is None else self.tr("Write “{words}”").format(words=fault.instead)
        if words != self.button.text():
            self.button.setText(words)
            self.button.setAccessibleName(words)
        self.button.setVisible(fault is not None)
        self.setVisible(bool(sentences))
