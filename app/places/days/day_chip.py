"""One kept day: a click goes back to it, its menu does the rest."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QAction, QContextMenuEvent, QKeyEvent
from PySide6.QtWidgets import QMenu, QToolButton, QWidget

_LONGEST, _AMONG_MANY = 22, 10
"""Characters of a name that are written on the chip, and on one of three or more; all of it is in the tip."""


class DayChip(QToolButton):
    """`wanted`: go back to it; `again`: keep what is seen in its place; `rename` and `drop` say themselves.

    All carry the day's name, `compare` another one too, "" for what is seen.
    """

    wanted = Signal(str)
    again = Signal(str)
    rename = Signal(str)
    drop = Signal(str)
    compare = Signal(str, str)

    def __init__(self, name: str, number: int, others: tuple[str, ...], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.name = name
        self.setObjectName("dayChip")
        self.setCheckable(True)
        self.setMinimumHeight(28)
        self.setPopupMode(QToolButton.ToolButtonPopupMode.MenuButtonPopup)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self._key = self.tr("Alt+{number}").format(number=number)
        self.state = ""
        self._most = _LONGEST if len(others) < 2 else _AMONG_MANY
        self.chosen = self._menu(others)
        self.setMenu(self.chosen)
        self.clicked.connect(lambda _checked=False: self.wanted.emit(self.name))

    def show_state(self, current: bool, as_kept: bool, when: str) -> None:
        """Mark it as the current day, as it was kept or changed since; `when` it was kept is in the tip."""
        self.setChecked(current)
        self.state = (self.tr("as kept") if as_kept else self.tr("changed since")) if current else ""
        short = self.name if len(self.name) <= self._most else f"{self.name[: self._most - 1]}…"
        self.setText(f"{short} · {self.state}" if self.state else short)
        does = self.tr("Go back to it as it was kept") if not (current and as_kept) else self.tr("This is what is seen")
        self.setToolTip(f"{self.name}\n{when}\n{does} ({self._key})")
        self.setAccessibleName(f"{self.tr('Kept day')} {self.name}")
        self.setAccessibleDescription(", ".join(each for each in (self.state, when) if each))
        self.keep_again.setEnabled(current and not as_kept)

    def contextMenuEvent(self, event: QContextMenuEvent) -> None:
        """Open the menu beneath, by mouse or by the menu key."""
        self.chosen.popup(self.mapToGlobal(self.rect().bottomLeft()))
        event.accept()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Rename by F2, drop by Delete, open the menu by Down."""
        if event.key() == Qt.Key.Key_F2:
            self.rename.emit(self.name)
        elif event.key() == Qt.Key.Key_Delete:
            self.drop.emit(self.name)
        elif event.key() == Qt.Key.Key_Down:
            self.chosen.popup(self.mapToGlobal(self.rect().bottomLeft()))
        elif event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.click()
        else:
            super().keyPressEvent(event)

    def _menu(self, others: tuple[str, ...]) -> QMenu:
        menu = QMenu(self)
        self._add(menu, self.tr("Go to it"), lambda: self.wanted.emit(self.name))
        self.keep_again = self._add(menu, self.tr("Keep it as it is now"), lambda: self.again.emit(self.name))
        compare = menu.addMenu(self.tr("Compare"))
        self._add(compare, self.tr("with what is seen now"), lambda: self.compare.emit(self.name, ""))
        for other in others:
            words = self.tr("with “{name}”").format(name=other)
            self._add(compare, words, partial(self.compare.emit, self.name, other))
        menu.addSeparator()
        self._add(menu, self.tr("Rename…"), lambda: self.rename.emit(self.name))
        self._add(menu, self.tr("Drop"), lambda: self.drop.emit(self.name))
        return menu

    def _add(self, menu: QMenu, words: str, run: Callable[[], object]) -> QAction:
        action = menu.addAction(words.replace("&", "&&"))
        action.triggered.connect(lambda _checked=False: run())
        return action
