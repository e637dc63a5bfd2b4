"""A weight drawn along a slider, with a word for what it comes to."""

from __future__ import annotations

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtGui import QWheelEvent
from PySide6.QtWidgets import QHBoxLayout, QLabel, QSlider, QWidget

from app.fields.marking import mark
from app.fields.spec import Take, Weighed


class Weight(QWidget):
    """Hands over the weight while it is drawn; `let_go` tells when the drawing ends."""

    complained = Signal(str)
    let_go = Signal()

    def __init__(self, how: Weighed, take: Take, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._how = how
        self._take = take
        self.wrong = ""
        self.slider = _Calm(Qt.Orientation.Horizontal)
        self.slider.setRange(0, how.most)
        self.slider.setPageStep(2)
        self.slider.setMinimumHeight(26)
        self.words = QLabel()
        self.words.setObjectName("soft")
        widest = max((how.words(weight) for weight in range(how.most + 1)), key=len)
        self.words.setMinimumWidth(self.words.fontMetrics().horizontalAdvance(widest) + 8)
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.addWidget(self.slider, 1)
        row.addWidget(self.words)
        self.setFocusProxy(self.slider)
        self.slider.valueChanged.connect(self._drawn)
        self.slider.sliderReleased.connect(self.let_go)

    @property
    def value(self) -> int:
        """Return the weight."""
        return self.slider.value()

    def setAccessibleName(self, name: str) -> None:
        """Name the slider itself, which has the focus."""
        super().setAccessibleName(name)
        self.slider.setAccessibleName(name)

    def show_value(self, value: int, afresh: bool = False) -> None:  # noqa: ARG002  nothing is kept to mend
        """Show a weight."""
        self.slider.blockSignals(True)
        self.slider.setValue(value)
        self.slider.blockSignals(False)
        self.words.setText(self._how.words(value))

    def commit(self) -> bool:
        """Tell whether nothing is wrong."""
        return not self.wrong

    def refuse(self, sentence: str) -> None:
        """Say why the weight was not taken."""
        self.wrong = sentence
        mark(self.slider, sentence)
        self.complained.emit(sentence)

    def _drawn(self, value: int) -> None:
        self.words.setText(self._how.words(value))
        self.refuse(self._take(value))


class _Calm(QSlider):
    """A slider that leaves the wheel to the page."""

    def wheelEvent(self, event: QWheelEvent) -> None:
        """Do nothing."""
        event.ignore()

    def sizeHint(self) -> QSize:
        """Ask for room enough to draw."""
        return QSize(150, 26)
