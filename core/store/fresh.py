"""What a plan file is before anything stands in it: made by the scripts of all layouts, once in a program's run."""

from __future__ import annotations

from pathlib import Path

from core.store.connect import open_file
from core.store.migrate import upgrade
from core.store.opening import mark

_made: list[bytes] = []
"""The file, once it was made."""


def make_empty(path: Path) -> None:
    """Make a plan file of the newest layout without a plan, where none is. Raise OSError or sqlite3.Error."""
    if _made:
        path.write_bytes(_made[0])
        return
    database = open_file(path, make=True)
    try:
        mark(database)
        upgrade(database)
    finally:
        database.close()
    _made.append(path.read_bytes())
