"""What stands where sheets will be: why there are none yet, and a button for what is missing."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QLabel, QVBoxLayout, QWidget

from app.fields import a_button
from core.plan.plan import Plan

ARRANGE, WRITE = "arrange", "go_menu"
"""What `wanted` carries: the names of the window's commands."""


class Missing(QWidget):
    """A sentence in the middle of its room. `wanted` carries the command that the button stands for."""

    wanted = Signal(str)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._command = ""
        self._offered = False
        self.words = QLabel()
        self.words.setObjectName("listEmpty")
        self.words.setAlignment(Qt.AlignmentFlag.AlignCenter)
        self.words.setWordWrap(True)
        self.button = a_button("")
        self.button.clicked.connect(lambda _checked=False: self.wanted.emit(self._command))
        column = QVBoxLayout(self)
        column.addStretch(1)
        column.addWidget(self.words)
        column.addWidget(self.button, 0, Qt.AlignmentFlag.AlignHCenter)
        column.addStretch(1)
        self.button.hide()

    def text(self) -> str:
        """Return the sentence."""
        return self.words.text()

    def offer(self) -> None:
        """From now on have the button: somebody does what it says."""
        self._offered = True
        self.button.setVisible(bool(self._command))

    def show_untimed(self, plan: Plan) -> None:
        """Say that there is no timetable, and what comes first."""
        if any(dish.steps for dish in plan.menu.dishes):
            self._show(self.tr("There is no timetable yet: arrange the day, then this is made of it."), ARRANGE)
            self.button.setText(self.tr("Arrange the day"))
        else:
            words = self.tr("There is no timetable yet: write down dishes with their steps, then arrange the day.")
            self._show(words, WRITE)
            self.button.setText(self.tr("Write the menu"))
        self.button.setAccessibleName(self.button.text())
        self.button.setToolTip(self.button.text())

    def show_wrong(self, sentence: str) -> None:
        """Say why there is nothing, where no button helps."""
        self._show(sentence, "")

    def _show(self, sentence: str, command: str) -> None:
        self.words.setText(sentence)
        self._command = command
        self.button.setVisible(self._offered and bool(command))
