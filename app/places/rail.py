"""The rail: large named buttons, one for each place of the window."""

from __future__ import annotations

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtGui import QFontMetrics
from PySide6.QtWidgets import QButtonGroup, QFrame, QSizePolicy, QToolButton, QVBoxLayout, QWidget

from app.look import icons
from app.look.colours import palette_under


class Rail(QFrame):
    """Names the places; `chosen` carries a place's name."""

    chosen = Signal(str)

    def __init__(self, places: list[tuple[str, str, str, str]], parent: QWidget | None = None) -> None:
        """Make a button for each (name, words, icon, keys)."""
        super().__init__(parent)
        self.setObjectName("rail")
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Preferred)  # names are never cut
        column = QVBoxLayout(self)
        column.setContentsMargins(10, 14, 10, 14)
        column.setSpacing(8)
        self._icons: dict[str, str] = {}
        self.buttons: dict[str, QToolButton] = {}
        group = QButtonGroup(self)
        for name, words, icon, keys in places:
            button = QToolButton()
            button.setText(words)
            button.setToolTip(f"{words} ({keys})")
            button.setCheckable(True)
            button.setIconSize(QSize(30, 30))
            button.setToolButtonStyle(Qt.ToolButtonStyle.ToolButtonTextUnderIcon)
            button.setMinimumSize(96, 76)
            button.setObjectName("railButton")
            button.clicked.connect(lambda _checked=False, place=name: self.chosen.emit(place))
            group.addButton(button)
            column.addWidget(button)
            self.buttons[name] = button
            self._icons[name] = icon
        column.addStretch(1)
        self.dress()

    def show_place(self, name: str) -> None:
        """Mark the place that is open."""
        if name in self.buttons:
            self.buttons[name].setChecked(True)

    def dress(self) -> None:
        """Draw the icons in the colours of the moment, and leave each name the room that it takes when it is bold."""
        ink = palette_under(self.palette()).ink
        bold = self.font()
        bold.setBold(True)
        for name, button in self.buttons.items():
            button.setMinimumWidth(max(96, QFontMetrics(bold).horizontalAdvance(button.text()) + 26))
            button.setIcon(icons.icon(self._icons[name], ink))
