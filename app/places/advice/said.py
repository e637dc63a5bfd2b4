"""A sentence that can be chosen: its gist in bold, the rest under "more"; it takes the focus and is spoken whole."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QColor, QFocusEvent, QFont, QKeyEvent, QMouseEvent, QPainter, QPaintEvent
from PySide6.QtWidgets import QPushButton, QScrollArea, QSizePolicy, QWidget

from app.fields import bring_into_view
from app.fields.wrapping import wrapped
from app.look.colours import Palette, palette_under
from app.places.gist import Gist, gist_of

_LEFT, _RIGHT, _ABOVE = 12, 8, 5
_BETWEEN = 3
_BAR = 4


class Said(QPushButton):
    """Shows `words`, and under them fainter what comes of it. A click, Space or Enter chooses it; arrows go on.

    What is long shows its gist, and all of it once it is chosen, "more" is clicked or the right arrow pressed.
    `entered`: Enter was pressed (after `clicked`); `focused`: whether the keyboard came here or left. `whole`: the
    widget it belongs to, which is to be seen with it.
    """

    entered = Signal()
    focused = Signal(bool)

    def __init__(self, words: str, effect: str = "", gist: Gist | None = None, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.words, self.effect = words, effect
        self.gist = gist_of(words) if gist is None else gist
        self.unfolded = False
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
        head, rest, effect = self._lines(width)
        between = _BETWEEN * (bool(rest) + bool(effect))
        return 2 * _ABOVE + between + (len(head) + len(rest) + len(effect)) * self.fontMetrics().lineSpacing()

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
        elif event.key() in (Qt.Key.Key_Right, Qt.Key.Key_Left) and self.gist.rest:
            self.unfold(event.key() == Qt.Key.Key_Right)
        else:
            super().keyPressEvent(event)

    def focusInEvent(self, event: QFocusEvent) -> None:
        """Come into view with the focus."""
        super().focusInEvent(event)
        self.come_into_view()
        if event.reason() in _BY_KEYS:
            self.focused.emit(True)

    def focusOutEvent(self, event: QFocusEvent) -> None:
        """Tell that the keyboard goes on."""
        super().focusOutEvent(event)
        if event.reason() in _BY_KEYS or event.reason() == Qt.FocusReason.MouseFocusReason:
            self.focused.emit(False)

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        """Unfold where "more" is clicked, else take it as a click on the sentence."""
        if self.gist.rest and not self.isChecked() and self._more_box().contains(event.position()):
            self.setDown(False)
            self.unfold(not self.unfolded)
            event.accept()
            return
        super().mouseReleaseEvent(event)

    def nextCheckState(self) -> None:
        """Take the room for all the words where it is chosen."""
        super().nextCheckState()
        self.updateGeometry()

    def unfold(self, there: bool) -> None:
        """Show all the words, or the gist again."""
        if self.unfolded is not there:
            self.unfolded = there
            self.updateGeometry()
            self.update()

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
        head, rest, effect = self._lines(self.width())
        metrics, y = self.fontMetrics(), float(_ABOVE)
        for lines, colour in ((head, colours.ink), (rest, colours.ink), (effect, colours.faint)):
            painter.setPen(QColor(colour))
            painter.setFont(_bold(self.font()) if lines is head and self._bold else self.font())
            for line in lines:
                painter.drawText(QPointF(_LEFT, y + metrics.ascent()), line)
                y += metrics.lineSpacing()
            y += _BETWEEN if lines else 0
        if self.gist.rest and not self.isChecked():
            self._paint_more(painter, colours)
        painter.end()

    def _paint_more(self, painter: QPainter, colours: Palette) -> None:
        box = self._more_box()
        painter.setFont(self.font())
        painter.setPen(QColor(colours.accent))
        painter.drawText(box, Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter, self._more_words())

    def _more_words(self) -> str:
        return self.tr("less") if self.unfolded else self.tr("more")

    def _more_box(self) -> QRectF:
        """Return where "more" stands: at the right of the first line."""
        width = self.fontMetrics().horizontalAdvance(self._more_words()) + 12
        return QRectF(self.width() - width - _RIGHT, 0, width, self.fontMetrics().lineSpacing() + 2 * _ABOVE)

    @property
    def _bold(self) -> bool:
        return bool(self.gist.rest or self.effect)

    def _lines(self, width: int) -> tuple[list[str], list[str], list[str]]:
        """Return the lines of the head, of the rest where it is unfolded, and of what comes of it."""
        room, face = width - _LEFT - _RIGHT, self.font()
        more = self._more_box().width() if self.gist.rest else 0.0
        head = wrapped(self.gist.head, _bold(face) if self._bold else face, room - more)
        rest: list[str] = []
        if self.unfolded or self.isChecked():
            many = len(self.gist.rest) > 1
            for each in self.gist.rest:
                rest += wrapped(f"–  {each}" if many else each, face, room)
        return head, rest, wrapped(self.effect, face, room) if self.effect else []

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


_BY_KEYS = (
    Qt.FocusReason.TabFocusReason,
    Qt.FocusReason.BacktabFocusReason,
    Qt.FocusReason.ShortcutFocusReason,
)


def _bold(face: QFont) -> QFont:
    bold = QFont(face)
    bold.setBold(True)
    return bold
