"""When a glance begins and ends: not while the pointer only passes, and without the day flashing up in between."""

from __future__ import annotations

from PySide6.QtCore import QObject, QTimer, Signal, Slot

from app.places.advice.look import Look

DWELL = 90
"""Milliseconds on an offer before it is shown."""
GRACE = 140
"""Milliseconds after it was left before the day as it stands is shown again; the next offer may come first."""


class Glancing(QObject):
    """`settled` carries the Look to show, or None when the glance is over."""

    settled = Signal(object)

    def __init__(self, parent: QObject) -> None:
        super().__init__(parent)
        self._over: Look | None = None
        self._shown = False
        self._wait = QTimer(self)
        self._wait.setSingleShot(True)
        self._wait.timeout.connect(self._settle)

    @Slot(object)
    def over(self, look: Look | None) -> None:
        """Hear that the pointer or the focus came to an offer, or left it."""
        self._over = look
        self._wait.start(DWELL if look is not None else GRACE)

    def forget(self) -> None:
        """Begin and end nothing: what is shown was chosen."""
        self._wait.stop()
        self._over, self._shown = None, False

    def _settle(self) -> None:
        if self._over is not None or self._shown:
            self._shown = self._over is not None
            self.settled.emit(self._over)
