"""The column beside the pages: the list of sheets, how the chosen one is printed, the paper of all."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QFrame, QGridLayout, QLabel, QScrollArea, QVBoxLayout, QWidget

from app.fields import Pick, Picked
from app.places.paper.choice import Choice
from app.places.paper.layout_fields import LayoutFields
from app.places.paper.sheet_list import SheetList
from app.places.paper.words import title_of
from core.sheets.kinds import SheetKind

_WIDE = 292  # px at a usual size of type


class Choosing(QScrollArea):
    """`looked_at` and `ticked` come from the list; `layout_changed` carries a field and its value."""

    looked_at = Signal(SheetKind)
    ticked = Signal(SheetKind, bool)
    layout_changed = Signal(str, object)
    paper_chosen = Signal(str)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.list = SheetList()
        self.layout_fields = LayoutFields()
        self.paper = Pick(Picked(lambda: (("a4", "A4"), ("us-letter", self.tr("Letter")))), self._take_paper)
        self.paper.setAccessibleName(self.tr("Paper of all sheets"))
        self.setObjectName("choosing")
        inside = QFrame()
        inside.setObjectName("paper")
        column = QVBoxLayout(inside)
        column.setContentsMargins(0, 8, 0, 8)
        column.setSpacing(4)
        head = QLabel(self.tr("Tick what is printed together"))
        head.setObjectName("fieldLabel")
        head.setContentsMargins(14, 0, 8, 0)
        column.addWidget(head)
        column.addWidget(self.list)
        column.addWidget(self.layout_fields)
        column.addLayout(self._paper_row())
        column.addStretch(1)
        self.setWidget(inside)
        self.setWidgetResizable(True)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.setMinimumWidth(_WIDE)
        self.setMaximumWidth(max(_WIDE, self.fontMetrics().averageCharWidth() * 40))
        self.list.looked_at.connect(self.looked_at)
        self.list.ticked.connect(self.ticked)
        self.layout_fields.changed.connect(self.layout_changed)
        self.setFocusProxy(self.list)

    def show_choice(self, choice: Choice, copies: Sequence[tuple[str, str]]) -> None:
        """Show what is chosen; `copies`: what there may be of the sheet that is looked at."""
        self.list.show_choice(choice.shown, choice.together)
        self.layout_fields.show_layout(title_of(choice.shown), choice.layout(choice.shown), copies)
        self.paper.show_value(choice.paper, afresh=True)

    def _paper_row(self) -> QGridLayout:
        row = QGridLayout()
        row.setContentsMargins(14, 0, 12, 0)
        words = QLabel(self.tr("Paper of all"))
        words.setObjectName("fieldLabel")
        words.setBuddy(self.paper)
        row.addWidget(words, 0, 0)
        row.addWidget(self.paper, 0, 1)
        row.setColumnStretch(1, 1)
        return row

    def _take_paper(self, paper: str) -> str:
        self.paper_chosen.emit(paper)
        return ""
