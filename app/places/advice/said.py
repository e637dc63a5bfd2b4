"""A sentence that can be chosen: it wraps, takes the focus, and is spoken as a button."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QColor, QFocusEvent, QKeyEvent, QPainter, QPaintEvent
from PySide6.QtWidgets import QPushButton, QScrollArea, QSizePolicy, QWidget

from app.fields import bring_into_view
from app.fields.wrapping import wrapped
from app.look.colours import palette_under

_LEFT, _RIGHT, _ABOVE = 12, 8, 5
_BETWEEN = 3
_BAR = 4


class Said(QPushButton):
    """Shows `words`, and under them fainter what comes of it. A click, Space or Enter chooses it; arrows go on.

    `entered`: Enter was pressed (after `clicked`). `whole`: the widget it belongs to, which is to be seen with it.
    """

    entered = Signal()

    def __init__(self, words: str, effect: str = "", parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.words, self.effect = words, effect
        self.whole: QWidget = self
        self.setCheckable(True)
        self.setAccessibleName(words)
        self.setAccessibleDescription(effect)
        self.setCursor(Qt.CursorShape.PointingHandCursor)
        policy = QSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Minimum)
        policy.setHeightForWidth(True)
        self.setSizePolicy(policy)

    def hasHeightForWidth(self) -> bool:
        """Tell that the height follows from the width."""
        return True

    def heightForWidth(self, width: int) -> int:
        """Return the height that all lines take."""
        said, effect = self._lines(width)
        between = _BETWEEN if effect else 0
        return 2 * _ABOVE + between + (len(said) + len(effect)) * self.fontMetrics().lineSpacing()

    def sizeHint(self) -> QSize:
        """Ask for the height at the width of the moment."""
        width = max(self.width(), 160)
        return QSize(160, self.heightForWidth(width))

    def minimumSizeHint(self) -> QSize:
        """Be content with a narrow column."""
        return QSize(120, self.heightForWidth(max(self.width(), 120)))

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Take Enter as a click that is meant; the arrows go to the next sentence."""
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            if not self.isChecked():
                self.click()
            self.entered.emit()
        elif event.key() in (Qt.Key.Key_Down, Qt.Key.Key_Up):
            self._go(event.key() == Qt.Key.Key_Down)
        else:
            super().keyPressEvent(event)

    def focusInEvent(self, event: QFocusEvent) -> None:
        """Come into view with the focus."""
        super().focusInEvent(event)
        self.come_into_view()

    def come_into_view(self) -> None:
        """Scroll the page until it is seen with all that belongs to it."""
        above = self.parentWidget()
        while above is not None and not isinstance(above, QScrollArea):
            above = above.parentWidget()
        if above is not None:
            bring_into_view(above, self.whole)

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Paint the lines, and what is chosen, under the pointer or in focus."""
        colours = palette_under(self.palette())
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        box = QRectF(self.rect())
        if self.isChecked() or self.underMouse():
            painter.fillRect(box, QColor(colours.panel))
        if self.isChecked():
            painter.fillRect(QRectF(0, 0, _BAR, box.height()), QColor(colours.accent))
        if self.hasFocus():
            painter.setPen(QColor(colours.accent))
            painter.drawRoundedRect(box.adjusted(1, 1, -1, -1), 3, 3)
            painter.drawRoundedRect(box.adjusted(2, 2, -2, -2), 2, 2)
        said, effect = self._lines(self.width())
        metrics, y = self.fontMetrics(), float(_ABOVE)
        for lines, colour in ((said, colours.ink), (effect, colours.faint)):
            painter.setPen(QColor(colour))
            for line in lines:
                painter.drawText(QPointF(_LEFT, y + metrics.ascent()), line)
                y += metrics.lineSpacing()
            y += _BETWEEN
        painter.end()

    def _lines(self, width: int) -> tuple[list[str], list[str]]:
        room = width - _LEFT - _RIGHT
        return wrapped(self.words, self.font(), room), wrapped(self.effect, self.font(), room) if self.effect else []

    def _go(self, down: bool) -> None:
        """Put the focus on the next or last sentence of the page."""
        window = self.window()
        page: QWidget = self
        while (above := page.parentWidget()) is not None and above is not window:
            page = above
            if page.objectName() == "advicePage":
                break
        others = [each for each in page.findChildren(Said) if each.isVisible()]
        others.sort(key=lambda each: each.mapTo(page, each.rect().topLeft()).y())
        at = others.index(self) + (1 if down else -1)
        if 0 <= at < len(others):
            others[at].setFocus(Qt.FocusReason.TabFocusReason)
