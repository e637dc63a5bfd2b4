"""What the window remembers from one time to the next: look, size, recent plans, where plans are kept."""

from __future__ import annotations

from pathlib import Path
from typing import cast, get_args

import platformdirs
from PySide6.QtCore import QByteArray, QSettings

from app.look import Mode

_MODES = get_args(Mode)


class Settings:
    """A thin, typed face of QSettings, kept as one text file in the user's settings folder."""

    def __init__(self) -> None:
        folder = platformdirs.user_config_path("cookday", appauthor=False)
        self._store = QSettings(str(folder / "window.ini"), QSettings.Format.IniFormat)

    @property
    def look(self) -> Mode:
        """Return light, dark or as the system."""
        found = str(self._store.value("look", "system"))
        return cast("Mode", found if found in _MODES else "system")

    @look.setter
    def look(self, mode: Mode) -> None:
        self._store.setValue("look", mode)

    @property
    def geometry(self) -> QByteArray | None:
        """Return the window's former place and size."""
        found = self._store.value("geometry")
        return found if isinstance(found, QByteArray) else None

    @geometry.setter
    def geometry(self, geometry: QByteArray) -> None:
        self._store.setValue("geometry", geometry)

    @property
    def advice_open(self) -> bool:
        """Return whether how the day stands was open beside the timeline."""
        return str(self._store.value("advice", "closed")) == "open"

    @advice_open.setter
    def advice_open(self, there: bool) -> None:
        self._store.setValue("advice", "open" if there else "closed")

    @property
    def sheets(self) -> str:
        """Return the choice of sheets to print, as text; "" where none was made yet."""
        return str(self._store.value("sheets", ""))

    @sheets.setter
    def sheets(self, choice: str) -> None:
        self._store.setValue("sheets", choice)

    @property
    def files(self) -> str:
        """Return the choices of what is handed out as files, as text; "" where none was made yet."""
        return str(self._store.value("files", ""))

    @files.setter
    def files(self, choices: str) -> None:
        self._store.setValue("files", choices)

    @property
    def plans_folder(self) -> Path:
        """Return the folder where new plans are kept."""
        found = self._store.value("plans")
        return Path(str(found)) if found else platformdirs.user_documents_path() / "Cook-Day plans"

    def free_place(self, name: str) -> Path:
        """Return a path in the plans folder that no file bears yet."""
        folder = self.plans_folder
        folder.mkdir(parents=True, exist_ok=True)
        plain = "".join(char for char in name if char.isalnum() or char in " -_'").strip()[:60] or "Plan"
        path, number = folder / f"{plain}.cookday", 2
        while path.exists():
            path, number = folder / f"{plain} {number}.cookday", number + 1
        return path
