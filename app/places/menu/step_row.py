"""One step of the list: words to read, a line to write, or its fields, one of the three at a time."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from PySide6.QtCore import QEvent, QObject, Qt, QTimer, Signal
from PySide6.QtGui import QMouseEvent
from PySide6.QtWidgets import QApplication, QVBoxLayout, QWidget

from app.fields import Row, Spec
from app.fields.spec import TakeKey
from app.places.menu.line_box import LineBox
from app.places.menu.step_words import StepWords

_LOOK_AGAIN = 60  # ms


class StepRow(Row):
    """Shows words until the cook opens it. `line_wanted`: its line is to be shown; `walked`: to another step."""

    line_wanted = Signal()
    walked = Signal(int)

    def __init__(
        self, lines: Sequence[Sequence[Spec | str | QWidget]], take: TakeKey, lead: QWidget, box: Callable[[], LineBox]
    ) -> None:
        """Make the fields of each line; `box` makes the line to write when it is first asked for."""
        super().__init__(lines, take, lead)
        direct = self.findChildren(QWidget, options=Qt.FindChildOption.FindDirectChildrenOnly)
        self._field_widgets = [each for each in direct if each not in (lead, self.wrong)]
        self._make_box = box
        self.box: LineBox | None = None
        self.words = StepWords()
        self.words.opened.connect(self.line_wanted)
        self.words.entered.connect(self.entered)
        self.words.walked.connect(self.walked)
        self._column().insertWidget(0, self.words)
        self.face = ""
        self._turn("words")

    def _column(self) -> QVBoxLayout:
        """Return the layout beside the number."""
        layout = self.layout()
        inner = None if layout is None else layout.itemAt(layout.count() - 1)
        column = None if inner is None else inner.layout()
        assert isinstance(column, QVBoxLayout)
        return column

    def read_words(self) -> None:
        """Show the words again."""
        self._turn("words")

    def write_line(self, text: str, beyond: str) -> None:
        """Show the line with the cursor at its end, unless it is being written already."""
        if self.box is None:
            self.box = self._make_box()
            self.box.stand_close()
            self._column().insertWidget(1, self.box)
            QWidget.setTabOrder(self.words, self.box.line)
            self.box.added.connect(lambda _on: self._line_done())
            self.box.given_up.connect(self._line_done)
            self.box.left.connect(self._line_left)
            self.box.line.installEventFilter(self)
        if self.face != "line" or not (self.box.line.touched() or self.box.line.wrong):
            self.box.stand_for(text, beyond)
        self._turn("line")
        self.box.enter()

    def enter(self, key: str = "") -> None:
        """Open the fields and put the cursor into one of them."""
        self.open_fields()
        super().enter(key)

    def open_fields(self) -> None:
        """Show the fields; what is half written in the line is handed over first, or stays to be mended."""
        if self.face == "line" and self.box is not None and not self.box.commit():
            return
        self._turn("fields")

    def read(self) -> None:
        """Put the cursor on the words."""
        self.words.setFocus(Qt.FocusReason.OtherFocusReason)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """See when the fields are left."""
        if event.type() is QEvent.Type.FocusOut and self.face == "fields":
            QTimer.singleShot(0, self, self._settle)
        return super().eventFilter(watched, event)

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Choose the step by a click beside its words."""
        super().mousePressEvent(event)
        if self.face == "words":
            self.read()
        else:
            self.entered.emit()

    def _settle(self) -> None:
        """Show the words again once the cook is elsewhere, unless something here is to be mended."""
        focused = QApplication.focusWidget()
        if self.face != "fields" or focused is None or self.isAncestorOf(focused) or not self.isVisible():
            return
        if focused.window() is not self.window():
            return
        if QApplication.activePopupWidget() is not None or QApplication.mouseButtons() != Qt.MouseButton.NoButton:
            QTimer.singleShot(_LOOK_AGAIN, self, self._settle)
            return
        if not self.wrong.isVisibleTo(self):
            self._turn("words")

    def _line_done(self) -> None:
        inside = self.box is not None and self.box.has_focus()
        self._turn("words")
        if inside:
            self.read()

    def _line_left(self) -> None:
        if self.face == "line" and self.box is not None and not (self.box.line.touched() or self.box.line.wrong):
            self._turn("words")

    def _turn(self, face: str) -> None:
        if face == self.face:
            return
        self.face = face
        # what comes is shown before what goes is hidden, so that the focus finds its way
        order = sorted(("words", "line", "fields"), key=lambda each: each != face)
        for each in order:
            for widget in self._of(each):
                widget.setVisible(each == face)

    def _of(self, face: str) -> list[QWidget]:
        if face == "fields":
            return self._field_widgets
        if face == "line":
            return [self.box] if self.box is not None else []
        return [self.words]
