"""Sets pages beside the interface: the window answers while a long sheet is being made."""

from __future__ import annotations

from collections.abc import Callable
from contextlib import suppress

from PySide6.QtCore import QObject, QThreadPool, Signal

from core.measures.refusal import Refusal

Setting = Callable[[], bytes]
"""Makes the pages, from values only: it runs in another thread."""


class _Result(QObject):
    """Brings what came of a setting to the window's thread; belongs to no widget, so that none can take it along."""

    came = Signal(int, object)


class Typesetting(QObject):
    """`done` carries the pages that were asked for last; `busy` tells whether they are still being made.

    At most one is made at a time; of those asked for meanwhile only the last is. `refused` carries why there can be no
    pages; what goes wrong otherwise is told by `failed` and raised here.
    """

    done = Signal(bytes)
    refused = Signal(str)
    failed = Signal()
    busy_changed = Signal(bool)

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._number = 0
        self._running = False
        self._next: Setting | None = None
        self._result = _Result()
        self._result.came.connect(self._came)

    @property
    def busy(self) -> bool:
        """Tell whether pages are being made."""
        return self._running

    def ask(self, setting: Setting) -> None:
        """Make pages; what was asked for before is no longer wanted."""
        self._number += 1
        if self._running:
            self._next = setting
        else:
            self._run(setting)

    def drop(self) -> None:
        """Want nothing any more."""
        self._number += 1
        self._next = None

    def _run(self, setting: Setting) -> None:
        number, result = self._number, self._result

        def work() -> None:
            try:
                found: object = setting()
            except Exception as error:  # noqa: BLE001  # raised again where the window can say it
                found = error
            with suppress(RuntimeError):  # the program has ended meanwhile: nobody is there to look
                result.came.emit(number, found)

        self._running = True
        self.busy_changed.emit(True)
        QThreadPool.globalInstance().start(work)

    def _came(self, number: int, found: object) -> None:
        self._running = False
        following, self._next = self._next, None
        if following is not None:
            self._run(following)
            return
        self.busy_changed.emit(False)
        if number != self._number:
            return
        if isinstance(found, Refusal):
            self.refused.emit(str(found))
            return
        if isinstance(found, Exception):
            self.failed.emit()
            raise found
        self.done.emit(found)
