"""The list of sheets: one is looked at, those that are ticked are printed together."""

from __future__ import annotations

from collections.abc import Collection

from PySide6.QtCore import QModelIndex, QPersistentModelIndex, QPointF, QRect, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QColor, QKeyEvent, QMouseEvent, QPainter, QPen
from PySide6.QtWidgets import (
    QListWidget,
    QListWidgetItem,
    QStyle,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QWidget,
)

from app.look.colours import palette_under
from app.look.type import SMALL
from app.places.paper.words import about, title_of
from core.sheets.kinds import SheetKind

_BOX = 16  # px
_LEFT = 38  # px to the words: the box with room around it to be hit

Index = QModelIndex | QPersistentModelIndex


class SheetList(QListWidget):
    """`looked_at` carries a kind; `ticked` a kind and whether it is now printed with the others."""

    looked_at = Signal(SheetKind)
    ticked = Signal(SheetKind, bool)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("sheetList")
        self.setAccessibleName(self.tr("Sheets; Space ticks those that are printed together"))
        self.setItemDelegate(_TwoLines(self))
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setUniformItemSizes(True)
        for kind in SheetKind:
            item = QListWidgetItem(title_of(kind))
            item.setData(Qt.ItemDataRole.UserRole, kind)
            item.setToolTip(f"{title_of(kind)}: {about(kind)}")
            item.setFlags(Qt.ItemFlag.ItemIsEnabled | Qt.ItemFlag.ItemIsSelectable)
            item.setCheckState(Qt.CheckState.Unchecked)
            self.addItem(item)
        self.currentRowChanged.connect(lambda row: self.looked_at.emit(self._kind(row)))

    @property
    def kind(self) -> SheetKind:
        """Return the kind that is chosen."""
        return self._kind(max(0, self.currentRow()))

    def show_choice(self, kind: SheetKind, together: Collection[SheetKind]) -> None:
        """Show which is looked at and which are ticked; nothing is said of it."""
        blocked = self.blockSignals(True)
        for row in range(self.count()):
            there = self._kind(row) in together
            self.item(row).setCheckState(Qt.CheckState.Checked if there else Qt.CheckState.Unchecked)
            self._speak(row, there)
        self.setCurrentRow(list(SheetKind).index(kind))
        self.blockSignals(blocked)
        self.viewport().update()

    def toggle(self, row: int) -> None:
        """Tick a sheet, or take its tick away."""
        there = self.item(row).checkState() is not Qt.CheckState.Checked
        self.item(row).setCheckState(Qt.CheckState.Checked if there else Qt.CheckState.Unchecked)
        self._speak(row, there)
        self.ticked.emit(self._kind(row), there)

    def sizeHint(self) -> QSize:
        """Be as high as all rows."""
        return QSize(250, self.count() * self.sizeHintForRow(0) + 2 * self.frameWidth())

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Let Space tick the row that is chosen."""
        if event.key() == Qt.Key.Key_Space and self.currentRow() >= 0:
            self.toggle(self.currentRow())
        else:
            super().keyPressEvent(event)

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Tick by the box; its words choose what is looked at."""
        index = self.indexAt(event.position().toPoint())
        if index.isValid() and event.button() is Qt.MouseButton.LeftButton and self._on_box(index, event):
            self.setFocus(Qt.FocusReason.MouseFocusReason)
            self.toggle(index.row())
            return
        super().mousePressEvent(event)

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        """Draw nothing along: a press on one row stays there."""
        event.accept()

    def _on_box(self, index: QModelIndex, event: QMouseEvent) -> bool:
        return event.position().x() < self.visualRect(index).left() + _LEFT

    def _kind(self, row: int) -> SheetKind:
        return SheetKind(self.item(row).data(Qt.ItemDataRole.UserRole))

    def _speak(self, row: int, there: bool) -> None:
        kind = self._kind(row)
        state = self.tr("printed together") if there else self.tr("not ticked")
        self.item(row).setData(Qt.ItemDataRole.AccessibleTextRole, f"{title_of(kind)}, {state}")
        self.item(row).setData(Qt.ItemDataRole.AccessibleDescriptionRole, about(kind))


class _TwoLines(QStyledItemDelegate):
    """Draws a box to tick, the sheet's name, and below it what it is for."""

    def sizeHint(self, option: QStyleOptionViewItem, _index: Index) -> QSize:
        """Give room for both lines, and for a finger."""
        return QSize(200, max(37, round(option.fontMetrics.height() * 1.9) + 2))

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: Index) -> None:
        """Draw a row."""
        view = option.widget
        colours = palette_under(view.window().palette())  # its own is see-through
        chosen = bool(option.state & QStyle.StateFlag.State_Selected)
        focused = chosen and view.hasFocus()
        rect = QRect(option.rect)
        painter.save()
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        if chosen:
            painter.fillRect(rect, QColor(colours.lane))
            painter.fillRect(QRect(rect.left(), rect.top(), 4, rect.height()), QColor(colours.accent))
        if focused:
            painter.setPen(QPen(QColor(colours.accent), 2))
            painter.drawRect(rect.adjusted(1, 1, -1, -1))
        box = QRectF(rect.left() + 13, rect.top() + (rect.height() - _BOX) / 2, _BOX, _BOX)
        painter.setPen(QPen(QColor(colours.rail), 1.4))
        painter.setBrush(QColor(colours.ground))
        painter.drawRoundedRect(box, 3, 3)
        if index.data(Qt.ItemDataRole.CheckStateRole) in (Qt.CheckState.Checked, Qt.CheckState.Checked.value):
            painter.setPen(QPen(QColor(colours.ink), 2.2))
            begin = box.topLeft()
            painter.drawPolyline([begin + QPointF(x, y) for x, y in ((3.5, 8.5), (6.8, 12), (12.8, 4.5))])
        kind = SheetKind(index.data(Qt.ItemDataRole.UserRole))
        words = rect.adjusted(_LEFT, 1, -6, -1)
        font = option.font
        font.setBold(True)
        painter.setFont(font)
        painter.setPen(QColor(colours.ink))
        half = words.height() // 2
        top = QRect(words.left(), words.top(), words.width(), half)
        painter.drawText(top, Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignBottom, title_of(kind))
        font.setBold(False)
        font.setPointSizeF(font.pointSizeF() * SMALL)
        painter.setFont(font)
        painter.setPen(QColor(colours.faint))
        below = QRect(words.left(), words.top() + half, words.width(), half)
        said = painter.fontMetrics().elidedText(about(kind), Qt.TextElideMode.ElideRight, below.width())
        painter.drawText(below, Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignTop, said)
        painter.restore()
