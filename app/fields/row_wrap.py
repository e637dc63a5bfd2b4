"""Lays widgets out in a row, and in further rows where the text has grown or the window is narrow."""

from __future__ import annotations

from PySide6.QtCore import QMargins, QRect, QSize, Qt
from PySide6.QtWidgets import QLayout, QLayoutItem, QSizePolicy, QWidget


class RowWrap(QLayout):
    """A row that goes on below where its widgets do not fit; what may stretch takes the rest of its row."""

    def __init__(self, parent: QWidget | None = None, margins: QMargins | None = None, gap: int = 8) -> None:
        super().__init__(parent)
        self._items: list[QLayoutItem] = []
        self._gap = gap
        if margins is not None:
            self.setContentsMargins(margins)

    def addItem(self, item: QLayoutItem) -> None:
        """Add an item at the end."""
        self._items.append(item)

    def count(self) -> int:
        """Return how many items there are."""
        return len(self._items)

    def itemAt(self, index: int) -> QLayoutItem | None:
        """Return an item; None past the end."""
        return self._items[index] if 0 <= index < len(self._items) else None

    def takeAt(self, index: int) -> QLayoutItem | None:
        """Take an item out."""
        return self._items.pop(index) if 0 <= index < len(self._items) else None

    def expandingDirections(self) -> Qt.Orientation:
        """Return that it grows across."""
        return Qt.Orientation.Horizontal

    def hasHeightForWidth(self) -> bool:
        """Tell that a narrow one is higher."""
        return True

    def heightForWidth(self, width: int) -> int:
        """Return the height of all rows at a width."""
        return self._lay(QRect(0, 0, width, 0), move=False)

    def setGeometry(self, rect: QRect) -> None:
        """Put every widget in its place."""
        super().setGeometry(rect)
        self._lay(rect, move=True)

    def sizeHint(self) -> QSize:
        """Return the size of a single row."""
        shown = self._shown()
        widths = [item.sizeHint().width() for item in shown]
        height = max((item.sizeHint().height() for item in shown), default=0)
        return self._with_margins(QSize(sum(widths) + self._gap * max(0, len(widths) - 1), height))

    def minimumSize(self) -> QSize:
        """Return the size of the widest item: all others may go below it."""
        shown = self._shown()
        width = max((item.minimumSize().width() for item in shown), default=0)
        return self._with_margins(QSize(width, max((item.minimumSize().height() for item in shown), default=0)))

    def _shown(self) -> list[QLayoutItem]:
        return [item for item in self._items if not item.isEmpty()]

    def _with_margins(self, size: QSize) -> QSize:
        margins = self.contentsMargins()
        return size.grownBy(margins)

    def _rows(self, width: int) -> list[list[QLayoutItem]]:
        """Return the items row by row; what may stretch asks for no width of its own."""
        rows: list[list[QLayoutItem]] = [[]]
        used = 0
        for item in self._shown():
            wide = 0 if _stretches(item) else item.sizeHint().width()
            if rows[-1] and used + self._gap + wide > width:
                rows.append([])
                used = 0
            used += wide + (self._gap if rows[-1] else 0)
            rows[-1].append(item)
        return rows

    def _lay(self, rect: QRect, *, move: bool) -> int:
        """Lay the rows out in a rectangle; return the height that they take with the margins."""
        margins = self.contentsMargins()
        inner = rect.marginsRemoved(margins)
        y = inner.y()
        for row in self._rows(inner.width()):
            fixed = sum(item.sizeHint().width() for item in row if not _stretches(item))
            free = max(0, inner.width() - fixed - self._gap * max(0, len(row) - 1))
            loose = sum(_stretches(item) for item in row)
            height = max((item.sizeHint().height() for item in row), default=0)
            x = inner.x()
            for item in row:
                wide = free // loose if _stretches(item) else min(item.sizeHint().width(), inner.width())
                if move:
                    item.setGeometry(QRect(x, y, wide, height))
                x += wide + self._gap
            y += height + self._gap
        return y - self._gap - rect.y() + margins.bottom()


def _stretches(item: QLayoutItem) -> bool:
    widget = item.widget()
    return widget is not None and widget.sizePolicy().horizontalPolicy() is QSizePolicy.Policy.Ignored
