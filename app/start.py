"""Starts the window: makes every long-lived object by hand."""

from __future__ import annotations

import logging
import sys
from collections.abc import Callable
from pathlib import Path
from types import TracebackType
from typing import TYPE_CHECKING

from core.measures.refusal import Refusal

if TYPE_CHECKING:
    from app.places.window import Window

_log = logging.getLogger("cookday")


def start(path: Path | None) -> int:
    """Open the window, with a plan if one is given; return the exit code when it closes."""
    _refuse_bad_pair()
    if path is not None and not path.exists():
        raise Refusal(f'There is no file "{path}".')
    from PySide6.QtCore import QTimer
    from PySide6.QtWidgets import QApplication

    from app.look import apply
    from app.places.window import Window

    app = QApplication.instance() or QApplication(sys.argv[:1])
    if not isinstance(app, QApplication):
        raise Refusal("Another program part already runs without a window here.")
    app.setApplicationName("cookday")
    app.setApplicationDisplayName("Cook-Day Planner")
    app.setDesktopFileName("cookday")
    from app.places.settings import Settings

    settings = Settings()
    apply(app, settings.look)
    window = Window(settings)
    sys.excepthook = _told_in(window)
    if path is not None:
        window.open_path(path)
    window.show()
    QTimer.singleShot(400, window.warm)
    return app.exec()


def _refuse_bad_pair() -> None:
    """Refuse a pair of PySide6 and Python that aborts after some thousand Qt calls (PYSIDE-3474)."""
    import PySide6

    if sys.version_info < (3, 12) and PySide6.__version_info__[:2] == (6, 12):
        raise Refusal(
            f"PySide6 {PySide6.__version__} cannot run on Python {sys.version_info[0]}.{sys.version_info[1]}: "
            "install PySide6 6.11, or use Python 3.12 or later."
        )


Hook = Callable[[type[BaseException], BaseException, TracebackType | None], None]


def _told_in(window: Window) -> Hook:
    """Return a hook that logs our own faults and tells them in the window instead of ending the day."""

    def hook(kind: type[BaseException], error: BaseException, trace: TracebackType | None) -> None:
        _log.error("unexpected", exc_info=(kind, error, trace))
        window.tell_fault(error)

    return hook
