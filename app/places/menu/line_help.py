"""The help page of the cook's line: all that a line can say on one page, made from the grammar itself."""

from __future__ import annotations

import html

from PySide6.QtCore import QEvent, Qt, QTimer
from PySide6.QtGui import QHideEvent, QKeyEvent, QResizeEvent, QShowEvent
from PySide6.QtWidgets import QDialog, QFrame, QHBoxLayout, QLabel, QScrollArea, QVBoxLayout, QWidget

from app.fields import a_button
from app.fields.dress import fields_sheet
from app.look import palette_under
from app.look.colours import Palette
from app.look.type import sized
from app.places.menu.line_kinds import FAMILIES
from core.reading.line_grammar import GRAMMAR, OPENING, Row

_SMALL, _LARGE = (1220, 668, 0.88), (1420, 850, 1.1)
"""Width, height in pixels and the share of the usual size of type, on a small screen and on a large one."""
_LARGE_FROM = 880  # px of the screen's height
_COLUMNS = (
    (("clock", "Time"), ("warmth", "Heat"), ("oven", "Place")),
    (("pot", "Vessels"), ("hand", "Hands"), ("tick", "Done when"), ("arrow", "Waits, and what follows what")),
)


class LineHelp(QDialog):
    """Stands beside the work: it stays open while the cook types on, and goes by Escape."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent, Qt.WindowType.Tool)
        self.setWindowTitle(self.tr("How a line is written"))
        self.setObjectName("lineHelpPage")
        self.opening = QLabel(self.tr(OPENING))
        self.opening.setWordWrap(True)
        self.tables = [QLabel() for _column in _COLUMNS]
        self.paper = QFrame()
        self.paper.setObjectName("paper")
        column = QVBoxLayout(self.paper)
        column.setContentsMargins(14, 8, 14, 8)
        column.setSpacing(4)
        head = QHBoxLayout()
        head.setSpacing(22)
        head.addWidget(self.opening, 1)
        self.shut = a_button(self.tr("Back to the line"), tip=self.tr("Back to the line (Esc)"))
        self.shut.clicked.connect(self.close)
        head.addWidget(self.shut, 0, Qt.AlignmentFlag.AlignTop)
        column.addLayout(head)
        row = QHBoxLayout()
        row.setSpacing(22)
        for table in self.tables:
            table.setTextFormat(Qt.TextFormat.RichText)
            table.setAlignment(Qt.AlignmentFlag.AlignTop)
            table.setWordWrap(True)
            table.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
            row.addWidget(table, 1, Qt.AlignmentFlag.AlignTop)
        column.addLayout(row)
        column.addStretch(1)
        scroll = QScrollArea()
        scroll.setWidget(self.paper)
        scroll.setWidgetResizable(True)
        scroll.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.page = scroll
        whole = QVBoxLayout(self)
        whole.setContentsMargins(0, 0, 0, 0)
        whole.addWidget(scroll, 1)
        self._share = 0.0
        self.suit(self.screen().availableGeometry().height())

    def suit(self, height: int) -> None:
        """Be as large as a screen of a height in pixels gives room for."""
        across, down, self._share = _LARGE if height >= _LARGE_FROM else _SMALL
        self.resize(across, down)
        self.setStyleSheet("")
        self._dress()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Ask for the height of the tables at the new width."""
        super().resizeEvent(event)
        self._fit()

    def showEvent(self, event: QShowEvent) -> None:
        """Ask again once every part has its place."""
        super().showEvent(event)
        QTimer.singleShot(0, self, self._fit)

    def _fit(self) -> None:
        """Have the paper as high as its text is at this width: left to itself it asks for that of narrow tables."""
        layout = self.paper.layout()
        if layout is not None:
            layout.invalidate()
            layout.activate()  # so that the row of tables inside forgets their heights too
            self.paper.setMinimumHeight(layout.heightForWidth(self.page.viewport().width()))

    def changeEvent(self, event: QEvent) -> None:
        """Follow the theme."""
        super().changeEvent(event)
        if event.type() is QEvent.Type.PaletteChange:
            self._dress()

    def hideEvent(self, event: QHideEvent) -> None:
        """Give the cursor back to the line."""
        super().hideEvent(event)
        parent = self.parentWidget()
        if parent is not None and parent.isVisible():
            parent.activateWindow()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Go by the key that called it, too."""
        if event.key() == Qt.Key.Key_F1 and event.modifiers() == Qt.KeyboardModifier.ShiftModifier:
            self.close()
        else:
            super().keyPressEvent(event)

    def _dress(self) -> None:
        parent = self.parentWidget()
        colours = palette_under(self.palette() if parent is None else parent.window().palette())
        sheet = fields_sheet(colours) + f"QDialog#lineHelpPage {{ background: {colours.ground}; }}"
        if sheet != self.styleSheet():
            self.setStyleSheet(sheet)
            for table, families in zip(self.tables, _COLUMNS, strict=True):
                table.setText(_table(families, colours, self._share))
            self._fit()


def _table(families: tuple[tuple[str, str], ...], colours: Palette, share: float) -> str:
    """Return the rows of some families as a table: what, how it is written, an example."""
    parts = [f'<table width="100%" cellspacing="0" cellpadding="1" style="font-size:{sized(share)};">']
    for sign, title in families:
        parts.append(
            f'<tr><td colspan="3" style="color:{colours.accent}; font-weight:bold; padding-top:4px;">{title}</td></tr>'
        )
        parts += [_row(each, colours) for each in GRAMMAR if FAMILIES[each.kind].sign == sign]
    return "".join((*parts, "</table>"))


def _row(row: Row, colours: Palette) -> str:
    what, written, example = (html.escape(each) for each in (row.what, row.written, row.example))
    return (
        f'<tr><td width="23%" style="color:{colours.faint};">{what}</td>'
        f'<td width="40%" style="padding-left:6px;">{written}</td>'
        f'<td width="37%" style="padding-left:8px;"><i>{example}</i></td></tr>'
    )
