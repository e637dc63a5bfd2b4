"""What is open, one question below the other; choosing one shows its place, Enter goes to what answers it."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtGui import QKeyEvent, QResizeEvent
from PySide6.QtWidgets import QFrame, QListWidget, QListWidgetItem, QWidget

from app.fields.wrapping import wrapped
from app.places.recipe.worked_ask import Asked

_MOST_LINES = 7
_EDGE = 8


class AskedList(QListWidget):
    """`looked`: another question is chosen. `answered`: the cook goes to what answers it. `settled`: put aside."""

    looked = Signal()
    answered = Signal()
    settled = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("askedList")
        self.setAccessibleName(self.tr("Open questions"))
        self.setWordWrap(True)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setResizeMode(QListWidget.ResizeMode.Adjust)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setVerticalScrollMode(QListWidget.ScrollMode.ScrollPerPixel)
        self.setTabKeyNavigation(False)
        self.asked: tuple[Asked, ...] = ()
        self._been: Asked | None = None
        self.currentRowChanged.connect(lambda _row: self.looked.emit())
        self.itemClicked.connect(lambda _item: self.answered.emit())

    @property
    def chosen(self) -> Asked | None:
        """Return the question that is chosen."""
        row = self.currentRow()
        return self.asked[row] if 0 <= row < len(self.asked) else None

    def show_asked(self, asked: Sequence[Asked]) -> None:
        """Show what is open now; the one chosen stays so, or the one in its place."""
        if tuple(asked) == self.asked:
            return
        before, row = self.chosen, self.currentRow()
        self.asked = tuple(asked)
        self.blockSignals(True)
        self.clear()
        for each in self.asked:
            self.addItem(self._item(each))
        if before is not None and self.asked:
            self.setCurrentRow(self.asked.index(before) if before in self.asked else min(row, len(self.asked) - 1))
        self.blockSignals(False)
        self._fit()

    def step(self, by: int) -> Asked | None:
        """Choose the next question that was not gone to, or the one before; the first after the last."""
        if not self.asked:
            return None
        row, chosen = self.currentRow(), self.chosen
        if chosen is None or (self.asked[0].must and not chosen.must):
            row = 0  # what must be answered comes first
        elif chosen == self._been:
            row = (row + by) % len(self.asked)
        if row == self.currentRow():
            self.looked.emit()
        self.setCurrentRow(row)
        return self.chosen

    def been(self) -> None:
        """Remember that the cook has gone to what answers the question chosen."""
        self._been = self.chosen

    def _item(self, asked: Asked) -> QListWidgetItem:
        words = self.tr("? {sentence}") if asked.must else self.tr("· {sentence}")
        item = QListWidgetItem(words.format(sentence=asked.sentence))
        said = self.tr("must be answered: {sentence}") if asked.must else "{sentence}"
        item.setData(Qt.ItemDataRole.AccessibleTextRole, said.format(sentence=asked.sentence))
        if asked.must:
            face = self.font()
            face.setBold(True)
            item.setFont(face)
        return item

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Take the height that the questions take, up to some lines."""
        super().resizeEvent(event)
        self._fit()

    def _fit(self) -> None:
        line = self.fontMetrics().lineSpacing()
        room = max(60, self.viewport().width() - 2 * _EDGE)
        heights = []
        for row in range(self.count()):
            item = self.item(row)
            lines = len(wrapped(item.text(), item.font() if item.font().bold() else self.font(), room))
            heights.append(lines * line + 8)
            if item.sizeHint() != QSize(room, heights[-1]):
                item.setSizeHint(QSize(room, heights[-1]))
        height = min(sum(heights) + 4, _MOST_LINES * (line + 8))
        if height != self.height():
            self.setFixedHeight(max(1, height))

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Go to what answers by Enter, put aside by Delete."""
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter) and not event.modifiers():
            self.answered.emit()
        elif event.key() == Qt.Key.Key_Delete:
            self.settled.emit()
        elif event.key() == Qt.Key.Key_Escape:
            event.ignore()
        else:
            super().keyPressEvent(event)
