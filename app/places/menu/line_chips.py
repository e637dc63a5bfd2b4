"""What was understood of a line, as chips below it: each with a sign, a colour and its words, to click or to walk."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QEvent, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QColor, QEnterEvent, QFocusEvent, QKeyEvent, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QAbstractButton, QWidget

from app.fields.row_wrap import RowWrap
from app.look.colours import palette_under
from app.places.menu.line_kinds import draw_sign, tone_of
from app.places.menu.line_words import tr
from core.reading.line_value import Chip

_SIGN = 15  # px
_BESIDE = 9
_HIGH = 27
_MOST = 360  # px of a chip; longer words are cut, the tip has them


class ChipButton(QAbstractButton):
    """One phrase. `walked`: by so many chips; `left`: back to the line; `removed`: take the phrase out."""

    walked = Signal(int)
    left = Signal()
    removed = Signal()
    lit = Signal(bool)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.chip: Chip | None = None
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setCursor(Qt.CursorShape.PointingHandCursor)
        self.setAttribute(Qt.WidgetAttribute.WA_Hover)

    def show_chip(self, chip: Chip, words: str) -> None:
        """Show a phrase in words."""
        if self.chip == chip and self.text() == words:
            return
        self.chip = chip
        self.setText(words)
        kind = tr(chip.kind.value)
        self.setAccessibleName(f"{kind}: {words}")
        tip = tr("follows from what is done; click to say otherwise") if chip.implied else tr("click to correct it")
        self.setToolTip(f"{kind}: {words}\n{tip}")
        self.updateGeometry()
        self.update()

    def sizeHint(self) -> QSize:
        """Ask for room for sign and words."""
        wide = self.fontMetrics().horizontalAdvance(self.text()) + _SIGN + 6 + 2 * _BESIDE
        return QSize(min(_MOST, wide), max(_HIGH, self.fontMetrics().height() + 9))

    def minimumSizeHint(self) -> QSize:
        """Ask for the sign."""
        return QSize(60, self.sizeHint().height())

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Draw it; what follows from the verb has a broken edge."""
        if self.chip is None:
            return
        colours = palette_under(self.palette())
        tone = tone_of(self.chip.kind, colours)
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        box = QRectF(self.rect()).adjusted(1, 1, -1, -1)
        pen = QPen(QColor(tone.edge), 1.2)
        if self.chip.implied:
            pen.setStyle(Qt.PenStyle.DashLine)
        if self.hasFocus():
            pen = QPen(QColor(colours.accent), 2.4)
        elif self.underMouse():
            pen.setWidthF(2)
        painter.setPen(pen)
        painter.setBrush(QColor(colours.ground if self.chip.implied else tone.soft))
        painter.drawRoundedRect(box, box.height() / 2, box.height() / 2)
        ink = colours.ink if self.chip.implied else tone.on_soft
        draw_sign(painter, self.chip.kind, ink, QRectF(_BESIDE, (self.height() - _SIGN) / 2, _SIGN, _SIGN))
        left = _BESIDE + _SIGN + 6
        room = QRectF(left, 0, self.width() - left - _BESIDE + 4, self.height())
        words = self.fontMetrics().elidedText(self.text(), Qt.TextElideMode.ElideRight, int(room.width()))
        painter.setPen(QColor(ink))
        painter.drawText(room, Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignLeft, words)

    def event(self, event: QEvent) -> bool:
        """Let Tab walk the chips."""
        if isinstance(event, QKeyEvent) and event.type() is QEvent.Type.KeyPress:
            if event.key() == Qt.Key.Key_Tab:
                self.walked.emit(1)
                return True
            if event.key() == Qt.Key.Key_Backtab:
                self.walked.emit(-1)
                return True
        return super().event(event)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Walk by arrows, go back by Up or Escape, correct by Enter, take out by Del."""
        key = event.key()
        if key in (Qt.Key.Key_Right, Qt.Key.Key_Left):
            self.walked.emit(1 if key == Qt.Key.Key_Right else -1)
        elif key in (Qt.Key.Key_Up, Qt.Key.Key_Escape):
            self.left.emit()
        elif key in (Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_F2):
            self.click()
        elif key in (Qt.Key.Key_Delete, Qt.Key.Key_Backspace):
            self.removed.emit()
        else:
            super().keyPressEvent(event)

    def focusInEvent(self, event: QFocusEvent) -> None:
        """Light up the phrase in the line."""
        super().focusInEvent(event)
        self.lit.emit(True)

    def focusOutEvent(self, event: QFocusEvent) -> None:
        """Let the phrase go."""
        super().focusOutEvent(event)
        self.lit.emit(False)

    def enterEvent(self, event: QEnterEvent) -> None:
        """Light up the phrase in the line."""
        super().enterEvent(event)
        self.lit.emit(True)

    def leaveEvent(self, event: QEvent) -> None:
        """Let the phrase go, unless the cursor is here."""
        super().leaveEvent(event)
        self.lit.emit(self.hasFocus())


class ChipBar(QWidget):
    """The chips of a line. `wanted`: one is to be corrected; `gone`: the cook walks off either end (-1 or 1)."""

    wanted = Signal(int)
    removed = Signal(int)
    gone = Signal(int)
    lit = Signal(int)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._row = RowWrap(self, gap=6)
        self._row.setContentsMargins(0, 2, 0, 2)
        self._made: list[ChipButton] = []
        self.setAccessibleName(tr("What was understood"))

    @property
    def buttons(self) -> list[ChipButton]:
        """Return the chips that are shown."""
        return [each for each in self._made if not each.isHidden()]

    def show_chips(self, chips: Sequence[tuple[Chip, str]]) -> None:
        """Show chips, each with its words."""
        changed = len(chips) != len(self.buttons)
        while len(self._made) < len(chips):
            self._add()
        for button, (chip, words) in zip(self._made, chips, strict=False):
            button.show_chip(chip, words)
            button.show()
        for button in self._made[len(chips) :]:
            button.hide()
        if changed:
            self.updateGeometry()

    def enter(self, at: int = 0) -> None:
        """Put the cursor on a chip."""
        shown = self.buttons
        if shown:
            shown[max(0, min(at, len(shown) - 1))].setFocus(Qt.FocusReason.TabFocusReason)

    def _add(self) -> None:
        at = len(self._made)
        button = ChipButton(self)
        button.clicked.connect(lambda: self.wanted.emit(at))
        button.removed.connect(lambda: self.removed.emit(at))
        button.left.connect(lambda: self.gone.emit(-1))
        button.walked.connect(lambda by: self._walk(at + by))
        button.lit.connect(lambda on: self.lit.emit(at if on else -1))
        self._made.append(button)
        self._row.addWidget(button)

    def _walk(self, to: int) -> None:
        if 0 <= to < len(self.buttons):
            self.enter(to)
        else:
            self.gone.emit(-1 if to < 0 else 1)
