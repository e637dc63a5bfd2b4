"""A yes or no that stands for a value."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QCheckBox, QWidget

from app.fields.marking import mark
from app.fields.spec import Take
from app.look.colours import palette_under

_BOX = 16  # px


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
        """Be as wide as the words, and high enough to be hit with a finger."""
        words = self.fontMetrics().horizontalAdvance(self.text())
        return QSize(_BOX + 16 + words, max(28, self.fontMetrics().height() + 8))

    def minimumSizeHint(self) -> QSize:
        """Be at least as large as the words."""
        return self.sizeHint()

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Draw the box so that it is seen on light and dark paper alike, and the words."""
        colours = palette_under(self.window().palette())
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        box = QRectF(2, (self.height() - _BOX) / 2, _BOX, _BOX)
        edge = colours.clash if self.wrong else colours.accent if self.hasFocus() else colours.rail
        painter.setPen(QPen(QColor(edge), 2.2 if self.hasFocus() or self.wrong else 1.4))
        painter.setBrush(QColor(colours.lane))
        painter.drawRoundedRect(box, 3, 3)
        if self.isChecked():
            painter.setPen(QPen(QColor(colours.ink), 2.2))
            begin = box.topLeft()
            painter.drawPolyline([begin + QPointF(x, y) for x, y in ((3.5, 8.5), (6.8, 12), (12.8, 4.5))])
        painter.setPen(QColor(colours.ink))
        words = self.rect().adjusted(_BOX + 10, 0, 0, 0)
        painter.drawText(words, Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignLeft, self.text())

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
