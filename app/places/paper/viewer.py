"""Opens a sheet in the system's own program for such files."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import platformdirs
from PySide6.QtCore import QUrl
from PySide6.QtGui import QDesktopServices

from app.places.lists.where import Keeper, write_whole
from core.measures.refusal import Refusal

_LONGEST = 80


def show_outside(keeper: Keeper, name: str, ending: str, make: Callable[[], bytes]) -> None:
    """Write a file into the planner's own folder of passing things and open it; say why not where that cannot be."""
    plain = "".join(char if char.isalnum() or char in " -_" else "-" for char in name)[:_LONGEST].strip() or "sheet"
    path = platformdirs.user_cache_path("cookday", appauthor=False) / "sheets" / f"{plain}{ending}"
    try:
        _write(path, make())
    except Refusal as refusal:
        keeper.refused.emit(str(refusal))
        return
    except OSError as wrong:
        words = keeper.tr("{name} could not be written: {why}.")
        keeper.refused.emit(words.format(name=path.name, why=wrong.strerror or str(wrong)))
        return
    if QDesktopServices.openUrl(QUrl.fromLocalFile(str(path))):
        keeper.told.emit(keeper.tr("{name}: handed to the system's own program.").format(name=path.name))
    else:
        words = keeper.tr("No program opened {path}: keep the file and open it from there.")
        keeper.refused.emit(words.format(path=path))


def _write(path: Path, data: bytes) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    write_whole(path, data)
