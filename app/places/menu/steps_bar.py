"""What can be done with the chosen step, in a row of buttons above the steps."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtWidgets import QHBoxLayout, QWidget

from app.fields import a_button, with_key

if TYPE_CHECKING:
    from app.places.menu.steps_leaf import StepsLeaf


class StepsBar(QWidget):
    """Buttons, each with its key."""

    def __init__(self, leaf: StepsLeaf) -> None:
        super().__init__()
        self.insert = a_button(self.tr("New step below"), "plus", self.tr("Write a step after the chosen one"))
        self.write = a_button(self.tr("Line"), tip=self.tr("Write the chosen step as a line"))
        self.fields = a_button(self.tr("Fields"), tip=self.tr("Show the fields of the chosen step"))
        self.copy = a_button(self.tr("Copy"), tip=self.tr("Copy the chosen step"))
        self.up = a_button(self.tr("Move the step up"), "up", only_icon=True)
        self.down = a_button(self.tr("Move the step down"), "down", only_icon=True)
        self.remove = a_button(self.tr("Remove the step (undo brings it back)"), "bin", only_icon=True)
        self.more = a_button(self.tr("More"), tip=self.tr("Show or hide what does not fit in a row"))
        self.more.setAccessibleName(self.tr("More about the step"))
        self.more.setCheckable(True)
        with_key(self.insert, "Alt+Return", leaf, leaf.write_next)
        with_key(self.write, "F2", leaf.rows, leaf.write_line)
        with_key(self.fields, "Shift+F2", leaf, leaf.open_fields)
        with_key(self.copy, "Ctrl+D", leaf, leaf.acts.copy)
        with_key(self.up, "Alt+Up", leaf, lambda: leaf.acts.shift(-1))
        with_key(self.down, "Alt+Down", leaf, lambda: leaf.acts.shift(1))
        with_key(self.remove, "Alt+Del", leaf, leaf.acts.remove)
        row = QHBoxLayout(self)
        row.setContentsMargins(18, 8, 18, 4)
        row.setSpacing(4)
        for button in (self.insert, leaf.usual.button, self.write, self.fields, self.copy, self.up, self.down):
            row.addWidget(button)
        row.addWidget(self.remove)
        row.addStretch(1)
        row.addWidget(self.more)
        with_key(self.more, "Alt+M", leaf, leaf.fold)

    def show_state(self, at: int, count: int) -> None:
        """Let be pressed what can be done with the step in a place of so many (-1: with none)."""
        for button in (self.copy, self.remove, self.write, self.fields):
            button.setEnabled(at >= 0)
        self.up.setEnabled(at > 0)
        self.down.setEnabled(0 <= at < count - 1)
