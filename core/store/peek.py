"""What a file is, told from its first bytes, before anything opens it as a database.

A database opened to be written is changed by the opening alone if its last writer was cut short;
so a file is known to be ours before SQLite sees it.
"""

from __future__ import annotations

import os
import stat
from pathlib import Path

from core.measures.refusal import Refusal
from core.store.mark import APPLICATION_ID
from core.store.sentences import named, reason

_MAGIC = b"SQLite format 3\x00"
_HEADER = 100
_APPLICATION_ID = slice(68, 72)


def require_plan_file(path: Path) -> None:
    """Refuse what is not there, not a file, not readable, or not a plan file of this program."""
    header = _header(path)
    if not header:
        raise Refusal(
            f"{named(path)} is empty: there is no plan in it. Open another file, or a copy kept of this one."
        )
    if not header.startswith(_MAGIC) or len(header) < _HEADER:
        raise Refusal(f"{named(path)} is not a plan file. Open a file that Cook-Day Planner has written.")
    if int.from_bytes(header[_APPLICATION_ID], "big") != APPLICATION_ID:
        raise Refusal(
            f"{named(path)} is a database of another program, not a plan file. It was left as it is; "
            "open a file that Cook-Day Planner has written."
        )


def is_locked_away(path: Path) -> bool:
    """Say whether a file may only be read: marked so, or in a folder where nothing can be written."""
    path = path.resolve()
    marked = not path.stat().st_mode & (stat.S_IWUSR | stat.S_IWGRP | stat.S_IWOTH)
    return marked or not os.access(path, os.W_OK) or not os.access(path.parent, os.W_OK)


def identity(path: Path) -> tuple[int, int] | None:
    """Return what tells one file on the disk from another that took its name; None when it is gone."""
    try:
        found = path.stat()
    except OSError:
        return None
    return found.st_dev, found.st_ino


def _header(path: Path) -> bytes:
    try:
        trouble = _trouble(path)
        if not trouble:
            with path.open("rb") as file:
                return file.read(_HEADER)
    except PermissionError as error:
        raise Refusal(
            f"{named(path)} may not be read by you. Ask for the right to read it, or choose another file."
        ) from error
    except (OSError, ValueError) as error:
        raise Refusal(
            f"{named(path)} cannot be read ({reason(error)}). Check the disk, or open a copy of the file."
        ) from error
    raise Refusal(f"{named(path)} {trouble}")


def _trouble(path: Path) -> str:
    if path.is_dir():
        return "is a folder. Choose a plan file inside it."
    if not path.exists():
        return "is not there. It may have been moved or renamed; look for it, then open it."
    if not path.is_file():
        return "is not a file that can hold a plan. Choose another one."
    return ""
