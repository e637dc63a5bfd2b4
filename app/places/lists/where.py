"""Where sheets are kept: beside the cook's own papers, not where the program happened to be started."""

from __future__ import annotations

from pathlib import Path

import platformdirs
from PySide6.QtWidgets import QFileDialog, QWidget


def keeping_dialog(parent: QWidget, title: str, name: str, kinds: str) -> QFileDialog:
    """Return a dialog that asks where to keep a sheet, a name for it proposed; it is deleted when it is shut."""
    folder = platformdirs.user_documents_path()
    plain = name.replace("/", "-").replace("\\", "-")
    dialog = QFileDialog(parent, title, str((folder if folder.is_dir() else Path.home()) / plain), kinds)
    dialog.setAcceptMode(QFileDialog.AcceptMode.AcceptSave)
    return dialog
