"""A page that says where the cursor goes when the page is gone to."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QWidget
from shiboken6 import isValid


class Entered(QWidget):
    """Puts the focus that it is given on one widget inside, while Tab goes through all of it from the top.

    A focus proxy would not do: from before the page Tab, too, goes right to the proxy, past all that stands above it.
    """

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._entry: QWidget | None = None

    def enter_at(self, widget: QWidget) -> None:
        """Let the focus go there from now on."""
        self._entry = widget

    def setFocus(self, reason: Qt.FocusReason = Qt.FocusReason.OtherFocusReason) -> None:
        """Put the focus where it is to go."""
        if self._entry is not None and isValid(self._entry):
            self._entry.setFocus(reason)
        else:
            super().setFocus(reason)
