"""A choice between a few values, drawn as a line of the paper with an arrow at its end."""

from __future__ import annotations

from typing import Any

from PySide6.QtCore import QPointF, QRect, QSize, Qt, Signal
from PySide6.QtGui import QColor, QKeyEvent, QPainter, QPaintEvent, QPen, QWheelEvent
from PySide6.QtWidgets import QComboBox, QWidget

from app.fields.marking import mark
from app.fields.spec import Picked, Take
from app.look.colours import palette_under

_ARROW = 22  # px at the end


class Pick(QComboBox):
    """Hands over what is chosen. `returned`: Enter was pressed; `complained` carries what is wrong."""

    complained = Signal(str)
    returned = Signal()

    def __init__(self, how: Picked, take: Take, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._how = how
        self._take = take
        self._values: list[Any] = []
        self._value: Any = None
        self.wrong = ""
        self.setProperty("field", "pick")
        self.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon)
        self.setMinimumContentsLength(6)
        self.setMaxVisibleItems(16)
        self.activated.connect(self._activated)

    @property
    def value(self) -> Any:
        """Return the value last shown or taken."""
        return self._value

    def show_value(self, value: Any, afresh: bool = False) -> None:
        """Show a value among the options of the moment, unless a refused choice stands here to be mended."""
        self._value = value
        if self.wrong and not afresh:
            return
        options = list(self._how.options())
        words = [each for _value, each in options]
        if words != [self.itemText(at) for at in range(self.count())]:
            self.clear()
            self.addItems(words)
            for at, each in enumerate(words):
                self.setItemData(at, each, Qt.ItemDataRole.ToolTipRole)
        self._values = [each for each, _words in options]
        self.setCurrentIndex(self._values.index(value) if value in self._values else -1)
        self.setToolTip(self.currentText())
        self._say("")

    def commit(self) -> bool:
        """Tell whether nothing is wrong: a choice is handed over as soon as it is made."""
        return not self.wrong

    def refuse(self, sentence: str) -> None:
        """Mark the choice as not taken."""
        self._say(sentence)

    def choose(self, value: Any) -> None:
        """Choose a value as if by hand."""
        self.setCurrentIndex(self._values.index(value))
        self._activated(self.currentIndex())

    def sizeHint(self) -> QSize:
        """Be as high as a line."""
        return QSize(super().sizeHint().width(), self.fontMetrics().height() + 12)

    def minimumSizeHint(self) -> QSize:
        """Be as high as a line."""
        return QSize(60, self.sizeHint().height())

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Let Enter move on and Escape bring back the plan's value."""
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.returned.emit()
        elif event.key() == Qt.Key.Key_Escape and self.wrong:
            self.show_value(self._value, afresh=True)
        else:
            super().keyPressEvent(event)

    def wheelEvent(self, event: QWheelEvent) -> None:
        """Leave the wheel to the page."""
        event.ignore()

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Draw the words, cut with an ellipsis where they do not fit, the arrow and the line below."""
        colours = palette_under(self.palette())
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        box = self.rect()
        if self.hasFocus():
            painter.fillRect(box, QColor(colours.lane))
        words = self.fontMetrics().elidedText(
            self.currentText(), Qt.TextElideMode.ElideRight, box.width() - _ARROW - 6
        )
        painter.setPen(QColor(colours.ink))
        room = QRect(box.left() + 4, box.top(), box.width() - _ARROW - 4, box.height() - 2)
        painter.drawText(room, Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignLeft, words)
        middle = QPointF(box.right() - _ARROW / 2, box.center().y() + 1)
        painter.setPen(QPen(QColor(colours.faint), 1.6))
        painter.drawPolyline([middle + QPointF(-4, -2), middle + QPointF(0, 2), middle + QPointF(4, -2)])
        if self.hasFocus():
            painter.setPen(QPen(QColor(colours.accent), 2))
            painter.drawRect(box.adjusted(1, 1, -1, -1))
        else:
            painter.setPen(QPen(QColor(colours.clash if self.wrong else colours.line), 2 if self.wrong else 1))
            painter.drawLine(box.left(), box.bottom(), box.right(), box.bottom())

    def _activated(self, at: int) -> None:
        if not 0 <= at < len(self._values):
            return
        value = self._values[at]
        if sentence := self._take(value):
            self._say(sentence)
            return
        self._say("")
        self.show_value(value)

    def _say(self, sentence: str) -> None:
        if sentence != self.wrong:
            self.wrong = sentence
            mark(self, sentence)
            self.complained.emit(sentence)
