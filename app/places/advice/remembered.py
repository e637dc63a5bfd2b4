"""What the advice remembers from one time to the next: whether it is open."""

from __future__ import annotations

import platformdirs
from PySide6.QtCore import QSettings

_OPEN = "advice"


class Remembered:
    """Kept in the window's own settings file."""

    def __init__(self) -> None:
        folder = platformdirs.user_config_path("cookday", appauthor=False)
        self._store = QSettings(str(folder / "window.ini"), QSettings.Format.IniFormat)

    @property
    def is_open(self) -> bool:
        """Tell whether the advice was open."""
        return str(self._store.value(_OPEN, "closed")) == "open"

    @is_open.setter
    def is_open(self, there: bool) -> None:
        self._store.setValue(_OPEN, "open" if there else "closed")
