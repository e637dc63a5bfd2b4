"""Corrects one phrase of a line in its place: typed anew or chosen, judged as it is typed."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from PySide6.QtCore import QEvent, QObject, QPoint, QSize, Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLabel, QLineEdit, QListWidget, QVBoxLayout, QWidget

from app.fields import a_button

Judge = Callable[[str], tuple[str, str]]
"""Returns what a phrase in the chip's place would be understood as, and what is wrong with it."""
_WIDE = 330
_ROWS = 8


class ChipMender(QFrame):
    """A small sheet under a chip. `written` carries the new phrase, "" to take it out; `shut`: nothing changes."""

    written = Signal(str)
    shut = Signal()

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent, Qt.WindowType.Popup)
        self.setObjectName("mender")
        self._judge: Judge = lambda _words: ("", "")
        self._done = False
        self.title = QLabel()
        self.title.setObjectName("menderTitle")
        self.line = QLineEdit()
        self.line.setObjectName("menderLine")
        self.line.setMinimumHeight(30)
        self.told = QLabel()
        self.told.setWordWrap(True)
        self.told.setTextFormat(Qt.TextFormat.PlainText)
        self.list = QListWidget()
        self.list.setObjectName("usualList")
        self.list.setAccessibleName(self.tr("Instead"))
        self.take = a_button(self.tr("Write it so"), tip=self.tr("Write it so in the line (Enter)"))
        self.out = a_button(self.tr("Take it out"), "bin", self.tr("Take the phrase out of the line"))
        column = QVBoxLayout(self)
        column.setContentsMargins(12, 10, 12, 10)
        column.setSpacing(6)
        for widget in (self.title, self.line, self.told, self.list):
            column.addWidget(widget)
        foot = QHBoxLayout()
        foot.addWidget(self.take)
        foot.addStretch(1)
        foot.addWidget(self.out)
        column.addLayout(foot)
        self.line.installEventFilter(self)
        self.list.installEventFilter(self)
        self.line.textChanged.connect(self._look)
        self.line.returnPressed.connect(self._write)
        self.list.itemActivated.connect(lambda item: self._chosen(item.text()))
        self.list.itemClicked.connect(lambda item: self._chosen(item.text()))
        self.take.clicked.connect(self._write)
        self.out.clicked.connect(lambda: self._end(""))

    def ask(self, kind: str, phrase: str, offers: Sequence[str], judge: Judge, can_go: bool, where: QPoint) -> None:
        """Ask for a phrase at a place of the screen; `can_go`: it stands in the line and may be taken out."""
        self._judge = judge
        self._done = False
        self.title.setText(kind)
        self.line.setAccessibleName(kind)
        self.list.clear()
        self.list.addItems(list(offers))
        self.list.setVisible(bool(offers))
        rows = min(_ROWS, len(offers))
        self.list.setFixedHeight(rows * max(30, self.fontMetrics().height() + 14) + 6)
        self.out.setVisible(can_go)
        self.line.setText(phrase)
        self._look()
        self.setFixedWidth(_WIDE)
        self.adjustSize()
        screen = self.screen().availableGeometry()
        size: QSize = self.sizeHint()
        left = max(screen.left() + 4, min(where.x(), screen.right() - _WIDE - 4))
        top = where.y() if where.y() + size.height() < screen.bottom() else screen.bottom() - size.height() - 4
        self.move(left, max(screen.top() + 4, top))
        self.show()
        self.line.setFocus(Qt.FocusReason.PopupFocusReason)
        self.line.selectAll()

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Go from the line down into the list and back up."""
        if isinstance(event, QKeyEvent) and event.type() is QEvent.Type.KeyPress:
            if watched is self.line and event.key() == Qt.Key.Key_Down and self.list.count():
                self.list.setCurrentRow(0)
                self.list.setFocus()
                return True
            if watched is self.list and event.key() == Qt.Key.Key_Up and self.list.currentRow() == 0:
                self.line.setFocus()
                return True
            if watched is self.list and event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
                self._chosen(self.list.currentItem().text())
                return True
        return super().eventFilter(watched, event)

    def hideEvent(self, event: QEvent) -> None:
        """Tell that nothing changes where it was shut by Escape or a click elsewhere."""
        super().hideEvent(event)  # type: ignore[arg-type]
        if not self._done:
            self._done = True
            self.shut.emit()

    def _look(self) -> None:
        words, wrong = self._judge(self.line.text())
        self.told.setText(wrong or words)
        self.told.setVisible(bool(wrong or words))
        name = "wrong" if wrong else "soft"
        if self.told.objectName() != name:
            self.told.setObjectName(name)
            self.told.style().unpolish(self.told)
            self.told.style().polish(self.told)
        self.take.setEnabled(not wrong)

    def _write(self) -> None:
        if self.line.text().strip() and not self._judge(self.line.text())[1]:
            self._end(self.line.text())

    def _chosen(self, phrase: str) -> None:
        self.line.setText(phrase)
        self._write()

    def _end(self, phrase: str) -> None:
        self._done = True
        self.hide()
        self.written.emit(phrase)
