"""The recipe's own text: read only, its phrases marked; the one that is looked at is brought into view."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Sequence

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import (
    QColor,
    QKeyEvent,
    QMouseEvent,
    QResizeEvent,
    QSyntaxHighlighter,
    QTextCharFormat,
    QTextCursor,
    QTextDocument,
)
from PySide6.QtWidgets import QApplication, QFrame, QPlainTextEdit, QTextEdit, QWidget

from app.fields.wrapping import wrapped
from app.look import Palette
from app.places.recipe.kinds import KINDS

_FIRST = ("name", "quantity", "item", "length", "heat", "kind", "doneness", "wait")
"""One value of each kind, in the order of the legend."""

Span = tuple[int, int]
Marks = Sequence[tuple[int, int, str]]
"""Where phrases begin and end, and what each is (`Origin.what`)."""


class Places:
    """Counts a text's signs as Qt does: those beyond the first plane of Unicode are two to it."""

    def __init__(self, text: str) -> None:
        self._wide = [at for at, sign in enumerate(text) if ord(sign) > 0xFFFF]

    def to_qt(self, at: int) -> int:
        """Return Qt's count for a place in the text."""
        return at + bisect_left(self._wide, at)

    def from_qt(self, at: int) -> int:
        """Return the place in the text for Qt's count."""
        before = bisect_left([each + number for number, each in enumerate(self._wide)], at)
        return at - before if not before or at > self._wide[before - 1] + before else self._wide[before - 1]


class TextPane(QPlainTextEdit):
    """Shows a text with its phrases marked. `chosen` carries the place in the text that was clicked or entered."""

    chosen = Signal(int)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("recipeText")
        self.setAccessibleName(self.tr("The text of the recipe"))
        self.setReadOnly(True)
        self.setTabChangesFocus(True)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setTextInteractionFlags(
            Qt.TextInteractionFlag.TextSelectableByMouse | Qt.TextInteractionFlag.TextSelectableByKeyboard
        )
        self.document().setDocumentMargin(12)
        self._light = _Marking(self.document())
        self._places = Places("")
        self._marks: tuple[tuple[int, int, str], ...] = ()
        self._range = QTextCharFormat()
        self._phrase = QTextCharFormat()
        self.marked: tuple[Span | None, Span | None] = (None, None)

    def show_text(self, text: str, marks: Marks) -> None:
        """Show another text."""
        if text != self.toPlainText():
            self._places = Places(text)
            self.setPlainText(text)
        self._marks = tuple(marks)
        to_qt = self._places.to_qt
        self._light.show_marks([(to_qt(start), to_qt(end), what) for start, end, what in marks])
        self.mark(None)

    def dress(self, palette: Palette) -> None:
        """Give the marks the colours of a theme."""
        self._range, self._phrase = QTextCharFormat(), QTextCharFormat()
        self._range.setBackground(QColor(palette.legal))
        self._range.setForeground(QColor(palette.ink))
        self._phrase.setBackground(QColor(palette.accent))
        self._phrase.setForeground(QColor(palette.on_accent))
        self._light.dress(palette)
        self.mark(*self.marked)

    def mark(self, around: Span | None, phrase: Span | None = None) -> None:
        """Mark what is looked at, and in it the phrase that a value came from; bring it into view."""
        self.marked = (around, phrase)
        found = []
        parts = [(each, self._range) for each in self._plain_parts(around)]
        for place, look in (*parts, (phrase, self._phrase)):
            if place is not None and place[0] < place[1]:
                one = QTextEdit.ExtraSelection()
                one.cursor = self._cursor(*place)
                one.format = look
                found.append(one)
        self.setExtraSelections(found)
        place = phrase or around
        if found and place is not None:
            self._bring(*place)

    def _plain_parts(self, around: Span | None) -> list[Span]:
        """Return what of a range is no phrase: phrases keep their own look."""
        if around is None:
            return []
        at, end = around
        found = []
        for start, stop, what in sorted(self._marks):
            if what in KINDS and at < stop and start < end:
                found.append((at, min(start, end)))
                at = max(at, stop)
        return [(start, stop) for start, stop in (*found, (at, end)) if start < stop]

    def _cursor(self, start: int, end: int) -> QTextCursor:
        cursor = QTextCursor(self.document())
        cursor.setPosition(self._places.to_qt(start))
        cursor.setPosition(self._places.to_qt(end), QTextCursor.MoveMode.KeepAnchor)
        return cursor

    def _bring(self, start: int, end: int) -> None:
        view = self.viewport().rect()
        first, last = (self.cursorRect(self._cursor(at, at)) for at in (start, end))
        if first.top() >= view.top() and last.bottom() <= view.bottom():
            return
        cursor = self._cursor(start, start)
        if not self.hasFocus():
            self.setTextCursor(cursor)
            self.centerCursor()
        else:
            self.ensureCursorVisible()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Choose by Enter the phrase at the cursor."""
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.chosen.emit(self._places.from_qt(self.textCursor().position()))
        elif event.key() == Qt.Key.Key_Escape:
            event.ignore()
        else:
            super().keyPressEvent(event)

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        """Choose the phrase that was clicked; what was drawn over is selected, to be copied."""
        super().mouseReleaseEvent(event)
        if event.button() == Qt.MouseButton.LeftButton and not self.textCursor().hasSelection():
            at = self.cursorForPosition(event.position().toPoint()).position()
            self.chosen.emit(self._places.from_qt(at))


class Legend(QPlainTextEdit):
    """Says in one line how each kind of phrase is marked; only the kinds that are there."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("recipeLegend")
        self.setAccessibleName(self.tr("How phrases are marked"))
        self.setReadOnly(True)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.setTextInteractionFlags(Qt.TextInteractionFlag.NoTextInteraction)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setVerticalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.document().setDocumentMargin(6)
        self._light = _Marking(self.document())

    def show_kinds(self, whats: Sequence[str]) -> None:
        """Show the kinds of some values, each once."""
        there = {KINDS[what] for what in whats if what in KINDS}
        text, marks = "", []
        for what in _FIRST:
            if KINDS[what] not in there:
                continue
            words = QApplication.translate("recipe", KINDS[what].words)
            marks.append((len(text), len(text) + len(words), what))
            text += f"{words}   "
        self.setPlainText(text.rstrip())
        self._light.show_marks(marks)
        self.setVisible(bool(text))
        self._fit()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Be as high as the words take."""
        super().resizeEvent(event)
        self._fit()

    def _fit(self) -> None:
        lines = max(1, len(wrapped(self.toPlainText(), self.font(), max(60, self.viewport().width() - 16))))
        height = lines * self.fontMetrics().lineSpacing() + 14
        if height != self.height():
            self.setFixedHeight(height)

    def dress(self, palette: Palette) -> None:
        """Give the marks the colours of a theme."""
        self._light.dress(palette)


class _Marking(QSyntaxHighlighter):
    """Puts the formats of phrases on the lines of a document."""

    def __init__(self, document: QTextDocument) -> None:
        super().__init__(document)
        self._marks: dict[int, list[tuple[int, int, str]]] = {}
        self._formats: dict[str, QTextCharFormat] = {}

    def show_marks(self, marks: Marks) -> None:
        """Mark other phrases; those of a kind that is not marked are left out."""
        self._marks = {}
        for start, end, what in sorted(marks, key=lambda each: (each[0], -each[1])):
            if what in KINDS:
                self._marks.setdefault(self.document().findBlock(start).blockNumber(), []).append((start, end, what))
        self.rehighlight()

    def dress(self, palette: Palette) -> None:
        """Take on the colours of a theme."""
        self._formats = {what: kind.format(palette) for what, kind in KINDS.items()}
        self.rehighlight()

    def highlightBlock(self, text: str) -> None:
        """Format one line."""
        first = self.currentBlock().position()
        for start, end, what in self._marks.get(self.currentBlock().blockNumber(), ()):
            low, high = max(start - first, 0), min(end - first, len(text))
            if low < high and what in self._formats:
                self.setFormat(low, high - low, self._formats[what])
