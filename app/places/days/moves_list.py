"""What moved, as a list beside the timeline: the furthest first; choosing one goes there."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QModelIndex, QPersistentModelIndex, QRect, QSize, Qt, Signal
from PySide6.QtGui import QColor, QPainter
from PySide6.QtWidgets import (
    QLabel,
    QListWidget,
    QListWidgetItem,
    QStyle,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QVBoxLayout,
    QWidget,
)

from app.look import type as faces
from app.look.colours import palette_under
from app.places.days.words import move_words, moves_words
from app.timeline.moves import Move
from core.plan.plan import Plan

MOST_LISTED = 200
"""Lines: beyond, nobody reads on."""
_PAD = 6


class MovesList(QWidget):
    """One entry for each load that moved: its name, and what it did. `chosen` carries the step's id."""

    chosen = Signal(str)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.heading = QLabel(self.tr("What moved"))
        self.heading.setObjectName("heading")
        self.against = QLabel()
        self.against.setObjectName("soft")
        self.against.setWordWrap(True)
        self.against.setTextFormat(Qt.TextFormat.PlainText)
        self.list = QListWidget()
        self.list.setAccessibleName(self.tr("What moved"))
        self.list.setItemDelegate(_Lines(self.list))
        self.list.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        column = QVBoxLayout(self)
        column.setContentsMargins(14, 12, 14, 8)
        column.setSpacing(4)
        for widget in (self.heading, self.against):
            column.addWidget(widget)
        column.addWidget(self.list, 1)
        self.list.itemActivated.connect(self._activated)
        self.list.itemClicked.connect(self._activated)
        self.hide()

    def show_moves(self, plan: Plan, moves: Sequence[Move], against: str) -> None:
        """List moves that are sorted already; `against`: what they are told against."""
        self.against.setText(f"{against} {moves_words(moves)}")
        self.list.clear()
        for move in moves[:MOST_LISTED]:
            words = "\n".join(move_words(plan, move))
            item = QListWidgetItem(words)
            item.setData(Qt.ItemDataRole.UserRole, str(move.key[0]))
            item.setToolTip(words)
            self.list.addItem(item)
        self.list.setVisible(bool(moves))

    def _activated(self, item: QListWidgetItem) -> None:
        self.chosen.emit(item.data(Qt.ItemDataRole.UserRole))


class _Lines(QStyledItemDelegate):
    """Paints a name in bold and under it what it did, each on one line, what is long cut in its middle."""

    def sizeHint(self, option: QStyleOptionViewItem, index: QModelIndex | QPersistentModelIndex) -> QSize:
        """Ask for its lines."""
        return QSize(80, (str(index.data()).count("\n") + 1) * option.fontMetrics.lineSpacing() + _PAD)

    def paint(
        self, painter: QPainter, option: QStyleOptionViewItem, index: QModelIndex | QPersistentModelIndex
    ) -> None:
        """Paint an entry."""
        colours = palette_under(option.widget.palette())
        chosen = bool(option.state & QStyle.StateFlag.State_Selected)
        if chosen:
            painter.fillRect(option.rect, QColor(colours.accent))
        lines = str(index.data()).split("\n")
        inside = option.rect.adjusted(6, _PAD // 2, -6, -_PAD // 2)
        height = inside.height() // len(lines)
        for at, text in enumerate(lines):
            painter.setFont(faces.face(0.93, bold=at == 0))
            painter.setPen(QColor(colours.on_accent if chosen else colours.faint if at else colours.ink))
            shown = painter.fontMetrics().elidedText(text, Qt.TextElideMode.ElideMiddle, inside.width())
            where = QRect(inside.left(), inside.top() + at * height, inside.width(), height)
            painter.drawText(where, Qt.AlignmentFlag.AlignVCenter, shown)
