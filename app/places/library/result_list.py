"""The dishes found, one below the other: name, times and equipment, and why each was found."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from typing import TYPE_CHECKING

from PySide6.QtCore import QModelIndex, QPersistentModelIndex, QRect, QSize, Qt
from PySide6.QtGui import QColor, QFont, QPainter
from PySide6.QtWidgets import (
    QApplication,
    QFrame,
    QListWidget,
    QListWidgetItem,
    QStyle,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QWidget,
)

from app.fields.wrapping import wrapped
from app.look.colours import palette_under
from app.places.library.words import facts_words

if TYPE_CHECKING:
    from core.store.library_search import Found

_FACTS = Qt.ItemDataRole.UserRole
_WHY = Qt.ItemDataRole.UserRole + 1
_EDGE = 12
_ABOVE = 8


class ResultList(QListWidget):
    """Shows what was found; the row chosen is the dish that is looked at."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("ownDishes")
        self.setAccessibleName(self.tr("My dishes"))
        self.setItemDelegate(_Drawn(self))
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setVerticalScrollMode(QListWidget.ScrollMode.ScrollPerPixel)
        self.setResizeMode(QListWidget.ResizeMode.Adjust)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.found: tuple[Found, ...] = ()

    @property
    def chosen(self) -> Found | None:
        """Return what is found in the row chosen."""
        row = self.currentRow()
        return self.found[row] if 0 <= row < len(self.found) else None

    def show_found(self, found: Sequence[Found], on_menu: Collection[str]) -> None:
        """Show what was found; the dish chosen stays so where it still is, `on_menu` are names in small letters."""
        before = self.chosen
        self.found = tuple(found)
        self.blockSignals(True)
        self.clear()
        for each in self.found:
            self.addItem(self._item(each, each.own.name.casefold() in on_menu))
        keys = [each.own.key for each in self.found]
        row = keys.index(before.own.key) if before is not None and before.own.key in keys else 0
        self.setCurrentRow(row if keys else -1)
        self.blockSignals(False)
        if keys:
            self.scrollToItem(self.item(row))

    def step(self, by: int) -> None:
        """Choose the next dish, or the one before."""
        if self.count():
            self.setCurrentRow(max(0, min(self.count() - 1, self.currentRow() + by)))

    def _item(self, found: Found, on_menu: bool) -> QListWidgetItem:
        facts = facts_words(found.own)
        if on_menu:
            facts = self.tr("{facts} · on the menu").format(facts=facts)
        why = ", ".join(found.why)
        item = QListWidgetItem(found.own.name)
        item.setData(_FACTS, facts)
        item.setData(_WHY, self.tr("Why: {why}").format(why=why) if why else "")
        spoken = ", ".join(each for each in (found.own.name, facts, why) if each)
        item.setData(Qt.ItemDataRole.AccessibleTextRole, spoken)
        return item


class _Drawn(QStyledItemDelegate):
    """Draws a dish in as many lines as its words take."""

    def sizeHint(self, option: QStyleOptionViewItem, index: QModelIndex | QPersistentModelIndex) -> QSize:
        """Ask for as many lines as there are."""
        lines = sum(len(each) for each, _face in self._parts(index, option.font))
        return QSize(self._width() + 2 * _EDGE, lines * option.fontMetrics.lineSpacing() + 2 * _ABOVE)

    def paint(
        self, painter: QPainter, option: QStyleOptionViewItem, index: QModelIndex | QPersistentModelIndex
    ) -> None:
        """Draw it."""
        parent = self.parent()
        palette = parent.window().palette() if isinstance(parent, QWidget) else QApplication.palette()
        colours = palette_under(palette)
        rect = option.rect
        painter.save()
        chosen = bool(option.state & QStyle.StateFlag.State_Selected)
        if chosen:
            painter.fillRect(rect, QColor(colours.lane))
            painter.fillRect(QRect(rect.left(), rect.top(), 5, rect.height()), QColor(colours.accent))
        painter.setPen(QColor(colours.line))
        painter.drawLine(rect.bottomLeft(), rect.bottomRight())
        y = rect.top() + _ABOVE
        line = option.fontMetrics.lineSpacing()
        for number, (lines, face) in enumerate(self._parts(index, option.font)):
            painter.setFont(face)
            painter.setPen(QColor(colours.faint if number == 1 else colours.ink))
            for words in lines:
                painter.drawText(
                    QRect(rect.left() + _EDGE, y, self._width(), line), Qt.AlignmentFlag.AlignVCenter, words
                )
                y += line
        painter.restore()

    def _parts(
        self, index: QModelIndex | QPersistentModelIndex, font: QFont
    ) -> list[tuple[list[str], QFont]]:
        bold = QFont(font)
        bold.setBold(True)
        parts = ((index.data(), bold), (index.data(_FACTS), font), (index.data(_WHY), font))
        return [(wrapped(words, face, self._width()) if words else [], face) for words, face in parts]

    def _width(self) -> int:
        parent = self.parent()
        return (parent.viewport().width() if isinstance(parent, QListWidget) else 300) - 2 * _EDGE
