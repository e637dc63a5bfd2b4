"""Where sheets are kept: beside the cook's own papers, not where the program happened to be started."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from pathlib import Path

import platformdirs
from PySide6.QtCore import QIODevice, QObject, QSaveFile, Qt, Signal
from PySide6.QtWidgets import QFileDialog, QWidget

from core.measures.refusal import Refusal


def keeping_dialog(parent: QWidget, title: str, name: str, kinds: str, last: Path | None = None) -> QFileDialog:
    """Return a dialog that asks where to keep a sheet, a name for it proposed; it is deleted when it is shut.

    `last`: the folder where one was kept before.
    """
    folder = platformdirs.user_documents_path() if last is None else last
    plain = name.replace("/", "-").replace("\\", "-")
    dialog = QFileDialog(parent, title, str((folder if folder.is_dir() else Path.home()) / plain), kinds)
    dialog.setAcceptMode(QFileDialog.AcceptMode.AcceptSave)
    dialog.setDefaultSuffix(Path(plain).suffix.removeprefix("."))  # so that it asks before it replaces such a file
    dialog.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
    return dialog


def write_whole(path: Path, data: bytes) -> None:
    """Write a file whole or not at all: what was there before stays until all is written. Raise OSError."""
    file = QSaveFile(str(path))
    file.setDirectWriteFallback(True)  # a folder where only this one file may be written
    if not (file.open(QIODevice.OpenModeFlag.WriteOnly) and file.write(data) == len(data) and file.commit()):
        raise OSError(None, file.errorString().rstrip("."))


class Keeper(QObject):
    """Asks where something is to be kept and writes it. `told` carries where it is, `refused` why it is not."""

    told = Signal(str)
    refused = Signal(str)

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self._parent = parent
        self._last: Path | None = None

    def ask(self, title: str, name: str, kinds: str, then: Callable[[Path], object]) -> None:
        """Ask for a place, `name` proposed, and hand it over."""
        dialog = keeping_dialog(self._parent, title, name, kinds, self._last)
        dialog.fileSelected.connect(lambda chosen: then(Path(chosen)))
        dialog.open()

    def keep(self, what: str, path: Path, endings: Sequence[str], make: Callable[[Path], bytes]) -> bool:
        """Write what `make` gives for the path, with the first ending where it has none of them; tell how it went.

        `what` is called so in the sentence: "The run sheet".
        """
        if path.suffix.lower() not in endings:
            path = path.with_name(path.name + endings[0])
        try:
            write_whole(path, make(path))
        except Refusal as refusal:
            self.refused.emit(str(refusal))
            return False
        except OSError as wrong:
            words = self.tr("{name} could not be written: {why}.")
            self.refused.emit(words.format(name=path.name, why=wrong.strerror or str(wrong)))
            return False
        self._last = path.parent
        self.told.emit(self.tr("{what}: kept as {path}.").format(what=what, path=path))
        return True
