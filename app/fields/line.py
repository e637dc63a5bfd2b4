"""A line of text that stands for a value: read when it is left, refused beside it, the typed text kept."""

from __future__ import annotations

from typing import Any

from PySide6.QtCore import QEvent, Qt, QTimer, Signal
from PySide6.QtGui import QAction, QFocusEvent, QIcon, QKeyEvent, QKeySequence
from PySide6.QtWidgets import QLineEdit, QMenu, QWidget

from app.fields.marking import mark
from app.fields.spec import Take, Typed
from core.measures.refusal import Refusal

_PAUSE = 700  # ms of not typing after which what is wrong is said


class Line(QLineEdit):
    """Reads its text and hands the value over. `complained` carries what is wrong, "" once it is mended."""

    complained = Signal(str)
    taken = Signal()

    def __init__(self, how: Typed, take: Take, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._how = how
        self._take = take
        self._value: Any = None
        self.wrong = ""
        self.left_by = Qt.FocusReason.OtherFocusReason
        self.setProperty("field", "line")
        self._pause = QTimer(self)
        self._pause.setSingleShot(True)
        self._pause.setInterval(_PAUSE)
        self._pause.timeout.connect(self._look)
        self.textEdited.connect(self._typed)
        self.editingFinished.connect(self.commit)
        self._offers: QAction | None = None
        if how.offers is not None:
            self._offers = self.addAction(QIcon(), QLineEdit.ActionPosition.TrailingPosition)
            self._offers.setToolTip(self.tr("Choose (arrow down)"))
            self._offers.triggered.connect(self.offer)

    @property
    def value(self) -> Any:
        """Return the value last shown or taken."""
        return self._value

    def show_value(self, value: Any, afresh: bool = False) -> None:
        """Show a value, unless the cook is typing or has something to mend here; `afresh`: even then."""
        self._value = value
        if afresh or not (self.isModified() or self.wrong):
            self._show()

    def commit(self) -> bool:
        """Read the text and hand the value over; tell whether nothing is wrong."""
        self._pause.stop()
        if not self.isModified():
            return not self.wrong
        try:
            value = self._how.read(self.text())
        except Refusal as refusal:
            return self._complain(str(refusal))
        if sentence := self._take(value):
            return self._complain(sentence)
        self._value = value
        self._show()
        self.taken.emit()
        return True

    def refuse(self, sentence: str) -> None:
        """Mark the text as not taken."""
        self._complain(sentence)

    def offer(self) -> None:
        """Open the list of texts to choose from."""
        menu = QMenu(self)
        menu.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        for text in self._how.offers() if self._how.offers is not None else ():
            menu.addAction(text, lambda text=text: self._chosen(text))
        if not menu.isEmpty():
            menu.popup(self.mapToGlobal(self.rect().bottomLeft()))

    def dress(self, chevron: QIcon) -> None:
        """Give the mark that opens the list its colours."""
        if self._offers is not None:
            self._offers.setIcon(chevron)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Let Escape bring back the plan's value, and the arrow down the list to choose from."""
        plain = event.modifiers() in (Qt.KeyboardModifier.NoModifier, Qt.KeyboardModifier.KeypadModifier)
        if event.key() == Qt.Key.Key_Escape and (self.isModified() or self.wrong):
            self.show_value(self._value, afresh=True)
            return
        if event.key() == Qt.Key.Key_Down and plain and self._how.offers is not None:
            self.offer()
            return
        super().keyPressEvent(event)

    def event(self, event: QEvent) -> bool:
        """Leave undo and redo to the plan while nothing was typed here."""
        if event.type() == QEvent.Type.ShortcutOverride and isinstance(event, QKeyEvent):
            undo = event.matches(QKeySequence.StandardKey.Undo) and not self.isUndoAvailable()
            redo = event.matches(QKeySequence.StandardKey.Redo) and not self.isRedoAvailable()
            if undo or redo:
                event.ignore()
                return False
        return super().event(event)

    def focusOutEvent(self, event: QFocusEvent) -> None:
        """Remember how the field was left, before the text is read."""
        self.left_by = event.reason()
        super().focusOutEvent(event)

    def _show(self) -> None:
        self._pause.stop()
        text = self._how.show(self._value)
        if text != self.text() or self.isModified():
            self.setText(text)
            self.setCursorPosition(0)
        self.setModified(False)
        self._mend()

    def _typed(self) -> None:
        if not self.wrong:
            self._pause.start()
            return
        self._look()

    def _look(self) -> None:
        """Say what is wrong with the text so far; whether the plan bears it is seen when it is left."""
        try:
            self._how.read(self.text())
        except Refusal as refusal:
            self._complain(str(refusal))
        else:
            self._mend()

    def _complain(self, sentence: str) -> bool:
        self.setModified(True)
        if sentence != self.wrong:
            self.wrong = sentence
            mark(self, sentence)
            self.complained.emit(sentence)
        return False

    def _mend(self) -> None:
        if self.wrong:
            self.wrong = ""
            mark(self, "")
            self.complained.emit("")

    def _chosen(self, text: str) -> None:
        before = self.text().strip()
        self.setText(f"{before}{self._how.joins}{text}" if self._how.joins and before else text)
        self.setModified(True)
        self.setFocus()
        self.commit()


