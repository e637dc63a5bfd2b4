"""The field that a cook's line is typed in: wraps, marks the words that are wrong, takes several lines at once."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QMimeData, Signal
from PySide6.QtGui import QColor, QFocusEvent, QKeyEvent, Qt, QTextCharFormat, QTextCursor
from PySide6.QtWidgets import QPlainTextEdit, QTextEdit, QWidget

from app.fields.paragraph import Paragraph
from app.fields.spec import Take, Typed
from app.fields.wrapping import wrapped
from app.look.colours import palette_under

_BESIDE = 12  # px that the frame and the margins take
_PLAIN = (Qt.KeyboardModifier.NoModifier, Qt.KeyboardModifier.KeypadModifier)


class CookLine(Paragraph):
    """A text that may hold several pasted lines. `to_chips`: the cook goes on to what was understood.

    It hands its text over on Enter; whether it also does when it is left is for the box around it to say.
    """

    to_chips = Signal()
    mend_wanted = Signal()
    gone_out = Signal()
    given_up = Signal()

    def __init__(self, take: Take, shown: str = "", parent: QWidget | None = None) -> None:
        super().__init__(Typed(_as_typed, lambda _value: self._shown), take, parent)
        self._shown = shown
        self.setObjectName("cookLine")
        self.setMinimumHeight(32)
        self._marked: tuple[tuple[int, int], ...] = ()
        self._lit: tuple[int, int] | None = None

    def stand_for(self, shown: str) -> None:
        """Show a text; what was typed goes."""
        self._shown = shown
        self.show_value(shown, afresh=True)

    def write(self, text: str, cursor: int | None = None) -> None:
        """Put a text as if it was typed, with the cursor at its end or in a place."""
        self.selectAll()
        self.insertPlainText(text)
        self.put_cursor(len(text) if cursor is None else cursor)

    def put_cursor(self, at: int) -> None:
        """Put the cursor into a place of the text."""
        cursor = self.textCursor()
        cursor.setPosition(max(0, min(at, len(self.toPlainText()))))
        self.setTextCursor(cursor)

    def mark_words(self, places: Sequence[tuple[int, int]], lit: tuple[int, int] | None = None) -> None:
        """Underline words that are wrong, and light up the phrase of a chip."""
        if (tuple(places), lit) == (self._marked, self._lit):
            return
        self._marked, self._lit = tuple(places), lit
        colours = palette_under(self.window().palette())
        wrong = QTextCharFormat()
        wrong.setUnderlineStyle(QTextCharFormat.UnderlineStyle.WaveUnderline)
        wrong.setUnderlineColor(QColor(colours.clash))
        wrong.setForeground(QColor(colours.clash))
        light = QTextCharFormat()
        light.setBackground(QColor(colours.heat_fill))
        found = [self._selection(start, end, wrong) for start, end in places]
        self.setExtraSelections(found + ([self._selection(*lit, light)] if lit is not None else []))

    def _selection(self, start: int, end: int, look: QTextCharFormat) -> QTextEdit.ExtraSelection:
        selection = QTextEdit.ExtraSelection()
        cursor = QTextCursor(self.document())
        last = len(self.toPlainText())
        cursor.setPosition(min(start, last))
        cursor.setPosition(min(max(end, start + 1), last), QTextCursor.MoveMode.KeepAnchor)
        if not cursor.hasSelection() and last:  # what is missing at the end is marked at the last letter
            cursor.setPosition(last - 1)
            cursor.setPosition(last, QTextCursor.MoveMode.KeepAnchor)
        selection.cursor = cursor
        selection.format = look
        return selection

    def heightForWidth(self, width: int) -> int:
        """Return the height that all its lines take at a width."""
        text = self.toPlainText()
        if "\n" not in text:
            return super().heightForWidth(width)
        room = max(20, width - _BESIDE)
        lines = sum(max(1, len(wrapped(row, self.font(), room))) for row in text.split("\n"))
        return max(self.minimumHeight(), lines * self.fontMetrics().lineSpacing() + _BESIDE - 2)

    def insertFromMimeData(self, source: QMimeData) -> None:
        """Paste lines as lines: each will be a step."""
        rows = [" ".join(row.split()) for row in source.text().strip("\r\n").splitlines()]
        self.insertPlainText("\n".join(row for row in rows if row) if len(rows) > 1 else " ".join(rows))

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Go to the chips by Tab or Down, mend by Ctrl+Enter; the rest is as in every field."""
        key, plain = event.key(), event.modifiers() in _PLAIN
        enter = key in (Qt.Key.Key_Return, Qt.Key.Key_Enter)
        if enter and event.modifiers() == Qt.KeyboardModifier.ControlModifier:
            self.mend_wanted.emit()
        elif key == Qt.Key.Key_Escape and not (self.touched() or self.wrong):
            self.given_up.emit()
        elif plain and self.toPlainText() and (key == Qt.Key.Key_Tab or (key == Qt.Key.Key_Down and self._last())):
            self.to_chips.emit()
        else:
            super().keyPressEvent(event)

    def _last(self) -> bool:
        """Tell whether the cursor is on the last line of the screen."""
        cursor = self.textCursor()
        return not cursor.movePosition(QTextCursor.MoveOperation.Down)

    def focusNextPrevChild(self, forward: bool) -> bool:
        """Let Tab come to the line itself while something stands here."""
        if forward and self.toPlainText():
            self.to_chips.emit()
            return True
        return super().focusNextPrevChild(forward)

    def focusOutEvent(self, event: QFocusEvent) -> None:
        """Keep the text as it is: a look at a chip or at another window does not end it."""
        self.left_by = event.reason()
        QPlainTextEdit.focusOutEvent(self, event)
        self.gone_out.emit()


def _as_typed(text: str) -> str:
    """Return the text: what is wrong with it is said word by word, not of the field."""
    return text.strip("\n")
