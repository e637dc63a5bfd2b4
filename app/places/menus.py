"""The menu bar, made from the table of commands."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from PySide6.QtGui import QAction, QKeySequence
from PySide6.QtWidgets import QApplication, QMainWindow, QMenu

from app.places.commands import COMMANDS, MENUS


def make_menus(window: QMainWindow, runs: Mapping[str, Callable[[], object]]) -> dict[str, QAction]:
    """Fill a window's menu bar; return the actions by their commands' names."""
    menus: dict[str, QMenu] = {name: window.menuBar().addMenu(_said(name)) for name in MENUS}
    actions = {}
    for command in COMMANDS:
        action = QAction(_said(command.words), window)
        if command.keys:
            action.setShortcut(QKeySequence(command.keys))
        action.triggered.connect(lambda _checked=False, run=runs[command.name]: run())
        menus[command.menu].addAction(action)
        if command.line_after:
            menus[command.menu].addSeparator()
        actions[command.name] = action
    return actions


def _said(words: str) -> str:
    return QApplication.translate("commands", words)
