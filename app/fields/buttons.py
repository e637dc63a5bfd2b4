"""Buttons of the places: words or an icon, a tip with the key, large enough to hit."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QKeySequence, QShortcut
from PySide6.QtWidgets import QPushButton, QWidget

from app.look import icons

_SIDE = 30


def a_button(words: str, icon: str = "", tip: str = "", only_icon: bool = False) -> QPushButton:
    """Return a button; `only_icon`: its words are spoken and in the tip, not written on it."""
    button = QPushButton("" if only_icon else words)
    button.setProperty("icon_name", icon)
    button.setAccessibleName(words)
    button.setToolTip(tip or words)
    button.setAutoDefault(True)  # Enter presses it, as the space bar does
    button.setMinimumHeight(_SIDE)
    button.setIconSize(QSize(18, 18))
    button.setObjectName("iconButton" if only_icon else "wordButton")
    if only_icon:
        button.setFixedWidth(_SIDE + 2)
    return button


def with_key(button: QPushButton, keys: str, where: QWidget, run: Callable[[], object]) -> None:
    """Let a button, and keys wherever the focus is under `where`, do something; the tip names the keys."""
    button.clicked.connect(lambda _checked=False: run())
    sequence = QKeySequence(keys)
    shortcut = QShortcut(sequence, where)
    shortcut.setContext(Qt.ShortcutContext.WidgetWithChildrenShortcut)
    shortcut.activated.connect(run)
    shown = sequence.toString(QKeySequence.SequenceFormat.NativeText)
    button.setToolTip(f"{button.toolTip()} ({shown})")


def dress_buttons(top: QWidget, ink: str) -> None:
    """Draw the icons of all buttons under a widget in a colour."""
    for button in top.findChildren(QPushButton):
        name = button.property("icon_name")
        if name:
            button.setIcon(icons.icon(name, ink))
