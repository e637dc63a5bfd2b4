"""What one line and a wrapped line share: a text that stands for a value, read when it is left.

The text typed is kept when it is refused, and marked until it is mended or Escape brings the value back.
"""

from __future__ import annotations

from functools import partial
from typing import Any

from PySide6.QtCore import QEvent, QRect, Qt, QTimer
from PySide6.QtGui import QKeyEvent, QKeySequence
from PySide6.QtWidgets import QMenu, QWidget

from app.fields.marking import mark
from app.fields.spec import Take, Typed
from core.measures.refusal import Refusal

_PAUSE = 700  # ms of not typing after which what is wrong is said
_PLAIN = (Qt.KeyboardModifier.NoModifier, Qt.KeyboardModifier.KeypadModifier)


class Reading:
    """Reads its text and hands the value over.

    The class that mixes it in is a widget with these signals: `complained` carries what
    is wrong, "" once it is mended; `taken`: a new value was handed over; `returnPressed`: Enter. It says
    what stands there with `shown_text`, `put_text`, `touched`, `set_touched`.
    """

    _how: Typed
    _take: Take
    _value: Any
    wrong: str
    left_by: Qt.FocusReason

    def begin(self, how: Typed, take: Take) -> None:
        """Take on how the text is read and who takes the value."""
        self._how, self._take = how, take
        self._value = None
        self.wrong = ""
        self.left_by = Qt.FocusReason.OtherFocusReason
        self._pause = QTimer(self._widget)
        self._pause.setSingleShot(True)
        self._pause.setInterval(_PAUSE)
        self._pause.timeout.connect(self._look)

    @property
    def _widget(self) -> QWidget:
        assert isinstance(self, QWidget)
        return self

    @property
    def value(self) -> Any:
        """Return the value last shown or taken."""
        return self._value

    def show_value(self, value: Any, afresh: bool = False) -> None:
        """Show a value, unless the cook is typing or has something to mend here; `afresh`: even then."""
        self._value = value
        if afresh or not (self.touched() or self.wrong):
            self._show()

    def commit(self) -> bool:
        """Read the text and hand the value over; tell whether nothing is wrong."""
        self._pause.stop()
        if not self.touched():
            return not self.wrong
        try:
            value = self._how.read(self.shown_text())
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
        menu = QMenu(self._widget)
        menu.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        for text in self._how.offers() if self._how.offers is not None else ():
            menu.addAction(text, partial(self._chosen, text))
        if not menu.isEmpty():
            menu.popup(self._widget.mapToGlobal(QRect(self._widget.rect()).bottomLeft()))

    def is_own_key(self, event: QKeyEvent) -> bool:
        """Let Escape bring back the plan's value, and the arrow down the list to choose from."""
        if event.key() == Qt.Key.Key_Escape and (self.touched() or self.wrong):
            self.show_value(self._value, afresh=True)
            return True
        if event.key() == Qt.Key.Key_Down and event.modifiers() in _PLAIN and self._how.offers is not None:
            self.offer()
            return True
        return False

    def leaves_to_plan(self, event: QEvent) -> bool:
        """Tell whether a key undoes or redoes, and nothing was typed here: then it is the plan's."""
        if event.type() is not QEvent.Type.ShortcutOverride or not isinstance(event, QKeyEvent):
            return False
        undo, redo = QKeySequence.StandardKey.Undo, QKeySequence.StandardKey.Redo
        return not self.touched() and (event.matches(undo) or event.matches(redo))

    def typed(self) -> None:
        """Look at the text after a pause; at once where something is wrong with it."""
        if self.wrong:
            self._look()
        else:
            self._pause.start()

    def _show(self) -> None:
        self._pause.stop()
        text = self._how.show(self._value)
        if text != self.shown_text() or self.touched():
            self.put_text(text)
        self.set_touched(False)
        self._mend()

    def _look(self) -> None:
        """Say what is wrong with the text so far; whether the plan bears it is seen when it is left."""
        try:
            self._how.read(self.shown_text())
        except Refusal as refusal:
            self._complain(str(refusal))
        else:
            self._mend()

    def _complain(self, sentence: str) -> bool:
        self.set_touched(True)
        if sentence != self.wrong:
            self.wrong = sentence
            mark(self._widget, sentence)
            self.complained.emit(sentence)
        return False

    def _mend(self) -> None:
        if self.wrong:
            self.wrong = ""
            mark(self._widget, "")
            self.complained.emit("")

    def _chosen(self, text: str) -> None:
        before = self.shown_text().strip()
        self.put_text(f"{before}{self._how.joins}{text}" if self._how.joins and before else text)
        self.set_touched(True)
        self._widget.setFocus()
        self.commit()

    # What the widget says of its text.

    complained: Any
    taken: Any

    def shown_text(self) -> str:
        """Return the text."""
        raise NotImplementedError

    def put_text(self, text: str) -> None:
        """Put another text."""
        raise NotImplementedError

    def touched(self) -> bool:
        """Tell whether the cook has typed here since a value was shown."""
        raise NotImplementedError

    def set_touched(self, touched: bool) -> None:
        """Say whether the cook has typed here."""
        raise NotImplementedError
