"""Where the window's library is, opened when it is first needed and shut with the place."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import platformdirs

if TYPE_CHECKING:
    from core.store.library import Library


class Shelf:
    """Hands out the library, open. A file that was moved away is let go, and opened or begun anew."""

    def __init__(self, path: Path | None = None) -> None:
        """Take the library's path; None: in the user's data folder."""
        self._path = path
        self._library: Library | None = None

    @property
    def path(self) -> Path:
        """Return where the library is."""
        if self._path is not None:
            return self._path
        from core.store.library import LIBRARY_NAME

        return platformdirs.user_data_path("cookday", appauthor=False) / LIBRARY_NAME

    @property
    def library(self) -> Library:
        """Return the library; raise Refusal where it cannot be opened."""
        from core.store.library import Library

        if self._library is not None and not self._library.still_there:
            self.close()
        if self._library is None:
            self._library = Library.open(self.path)
        return self._library

    def begin_anew(self) -> str:
        """Set a library that is refused aside, and return the name that it has now; raise Refusal."""
        from core.store.library import Library

        self.close()
        return Library.set_aside(self.path).name

    def close(self) -> None:
        """Let the file go."""
        if self._library is not None:
            self._library.close()
            self._library = None
