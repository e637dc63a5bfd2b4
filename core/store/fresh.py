"""What a plan file is before anything stands in it: made by the scripts of all layouts, once in a program's run."""

from __future__ import annotations

import tempfile
from functools import cache
from pathlib import Path

from core.store.connect import open_file
from core.store.mark import SUFFIX
from core.store.migrate import upgrade
from core.store.opening import mark


@cache
def empty_file() -> bytes:
    """Return a plan file of the newest layout without a plan. Raise OSError where there is no room to make it."""
    with tempfile.TemporaryDirectory(prefix="cookday-") as folder:
        path = Path(folder) / f"empty{SUFFIX}"
        database = open_file(path, make=True)
        try:
            mark(database)
            upgrade(database)
        finally:
            database.close()
        return path.read_bytes()
