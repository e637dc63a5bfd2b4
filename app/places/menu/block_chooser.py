"""Adds a usual run of steps to a dish: a button, and a list to choose from with what each run holds."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QEvent, QObject, QPoint, QSize, Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import (
    QFrame,
    QHBoxLayout,
    QLabel,
    QListWidget,
    QListWidgetItem,
    QScrollArea,
    QVBoxLayout,
    QWidget,
)

from app.bridge import OpenPlan
from app.fields import a_button, tried
from app.places.menu.block_words import name_of, spoken_block, told_block
from core.plan.blocks import BlockKind
from core.plan.blocks_usual import BLOCKS
from core.plan.edits import AddBlock
from core.plan.ids import DishId, StepId

_KIND = Qt.ItemDataRole.UserRole
_SIZE = QSize(760, 430)
Place = Callable[[], tuple[DishId, StepId | None] | None]
"""Returns the dish and the step after which a run is added; None where there is no dish."""


class UsualSteps(QObject):
    """The button with its list. `added`: a run was added; carries the id of its first step."""

    added = Signal(str)

    def __init__(self, opened: OpenPlan, place: Place, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.button = a_button(
            self.tr("Usual steps…"),
            tip=self.tr("Add a usual run of steps after the chosen one, such as rest and carve"),
        )
        self._opened = opened
        self._place = place
        self.chooser = BlockChooser(self.button)
        self.chooser.taken.connect(self._add)

    def open(self) -> None:
        """Show the runs to choose from."""
        place = self._place()
        if place is not None:
            self.chooser.open_under(self.button)

    def _add(self, kind: str) -> None:
        place = self._place()
        if place is None:
            return
        dish, after = place
        edit = AddBlock(dish, BlockKind(kind), after)
        first = edit.new_steps(self._opened.plan)[0]
        sentence = tried(self._opened, edit, "menu")
        self.chooser.refuse(sentence)
        if not sentence:
            self.chooser.hide()
            self.added.emit(first.id)


class BlockChooser(QFrame):
    """The runs by name; beside them the steps, sources and cautions of the one marked. `taken`: its kind."""

    taken = Signal(str)

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent, Qt.WindowType.Popup)
        self.setObjectName("usual")
        self.list = QListWidget()
        self.list.setObjectName("usualList")
        self.list.setAccessibleName(self.tr("Usual steps"))
        self.list.setFixedWidth(230)
        for kind, block in BLOCKS.items():
            item = QListWidgetItem(name_of(kind))
            item.setData(_KIND, kind.value)
            item.setData(Qt.ItemDataRole.AccessibleTextRole, spoken_block(block))
            self.list.addItem(item)
        self.list.setCurrentRow(0)
        self.list.installEventFilter(self)
        self.told = QLabel()
        self.told.setObjectName("usualTold")
        self.told.setWordWrap(True)
        self.told.setTextFormat(Qt.TextFormat.RichText)
        self.told.setAlignment(Qt.AlignmentFlag.AlignTop)
        self.wrong = QLabel()
        self.wrong.setObjectName("wrong")
        self.wrong.setWordWrap(True)
        self.wrong.setTextFormat(Qt.TextFormat.PlainText)
        self.wrong.hide()
        self.take = a_button(self.tr("Add these steps"), "plus", self.tr("Add them after the chosen step (Enter)"))
        self._lay_out()
        self.list.currentItemChanged.connect(lambda _item: self._tell())
        self.list.itemActivated.connect(lambda _item: self._taken())
        self.take.clicked.connect(self._taken)
        self._tell()

    def _lay_out(self) -> None:
        scroll = QScrollArea()
        scroll.setWidget(self.told)
        scroll.setWidgetResizable(True)
        scroll.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        scroll.viewport().setAutoFillBackground(False)
        right = QVBoxLayout()
        right.addWidget(scroll, 1)
        right.addWidget(self.wrong)
        foot = QHBoxLayout()
        note = QLabel(self.tr("Lengths are starting points: type over them."))
        note.setObjectName("soft")
        note.setWordWrap(True)
        foot.addWidget(note, 1)
        foot.addWidget(self.take)
        right.addLayout(foot)
        row = QHBoxLayout(self)
        row.setContentsMargins(10, 10, 10, 10)
        row.setSpacing(10)
        row.addWidget(self.list)
        row.addLayout(right, 1)

    def open_under(self, button: QWidget) -> None:
        """Show the runs under a button, wholly on its screen."""
        self.refuse("")
        free = button.screen().availableGeometry()
        size = _SIZE.boundedTo(free.size())
        self.resize(size)
        corner = button.mapToGlobal(QPoint(0, button.height() + 2))
        corner.setX(max(free.left(), min(corner.x(), free.right() - size.width())))
        corner.setY(max(free.top(), min(corner.y(), free.bottom() - size.height())))
        self.move(corner)
        self.show()
        self.list.setFocus(Qt.FocusReason.PopupFocusReason)

    def refuse(self, sentence: str) -> None:
        """Say why a run cannot be added."""
        self.wrong.setText(sentence)
        self.wrong.setVisible(bool(sentence))

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Take the marked run by Enter, leave by Escape."""
        if watched is self.list and event.type() == QEvent.Type.KeyPress and isinstance(event, QKeyEvent):
            if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
                self._taken()
                return True
            if event.key() == Qt.Key.Key_Escape:
                self.hide()
                return True
        return super().eventFilter(watched, event)

    def _taken(self) -> None:
        item = self.list.currentItem()
        if item is not None:
            self.taken.emit(item.data(_KIND))

    def _tell(self) -> None:
        item = self.list.currentItem()
        self.refuse("")
        if item is not None:
            self.told.setText(told_block(BLOCKS[BlockKind(item.data(_KIND))]))
