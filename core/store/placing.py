"""Where a new file is put: only on a free place or over an older plan, and whole or not at all."""

from __future__ import annotations

import os
import secrets
import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

from core.measures.refusal import Refusal
from core.store.connect import open_file
from core.store.peek import is_locked_away, require_plan_file
from core.store.sentences import named, only_read, told


def hold_place(path: Path, replace: bool) -> Path:
    """Return where a new file goes (through links), an older plan file there being ready to be replaced.

    Refuse a place where nothing can be put.
    """
    if path.is_symlink():
        path = path.resolve()
    folder = path.absolute().parent
    if not folder.is_dir():
        raise Refusal(
            f"{named(path)} cannot be written: the folder {named(folder)} is not there. Choose another one."
        )
    if not os.access(folder, os.W_OK):
        raise Refusal(
            f"Nothing can be written in the folder {named(folder)}. Choose another one for {named(path)}."
        )
    if not path.exists():
        return path
    if not replace:
        raise Refusal(f"{named(path)} is there already. Choose another name.")
    require_plan_file(path)
    if is_locked_away(path):
        raise only_read(path)
    _let_go(path)
    return path


@contextmanager
def written_beside(path: Path) -> Iterator[Path]:
    """Hand out a draft's name; at the end the draft takes the path's place, after an error it goes."""
    draft = path.with_name(f".{path.name}.{secrets.token_hex(4)}.new")
    try:
        with told(path):
            yield draft
            draft.replace(path)
            _settle_folder(path.absolute().parent)
    finally:
        for left in (draft, draft.with_name(draft.name + "-journal")):
            with suppress(OSError):
                left.unlink(missing_ok=True)


def _let_go(path: Path) -> None:
    # Leaving the write-ahead log needs the file to itself: it tells whether another window has it open,
    # and takes away the log, which would else be read into the file that comes.
    with told(path):
        old = open_file(path)
        try:
            old.pragma("journal_mode = DELETE")
        except sqlite3.OperationalError as error:
            raise Refusal(
                f"{named(path)} is open in another window. Close it there, or choose another name."
            ) from error
        finally:
            old.close()


def _settle_folder(folder: Path) -> None:
    # A new name is safe against a power cut only when its folder is written too; not every system can.
    with suppress(OSError):
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)
