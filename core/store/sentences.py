"""What the cook is told when a plan file cannot be read or written."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from sqlalchemy.exc import DBAPIError

from core.measures.refusal import Refusal
from core.store.plain import Unreadable

_COPY = "Open one of the copies kept of it instead."


def named(path: Path) -> str:
    """Return a file's name as sentences carry it."""
    return f"“{path.name}”" if path.name else f"“{path}”"


def damaged(path: Path, what: str) -> Refusal:
    """Return the refusal of a plan file whose content does not hold together."""
    return Refusal(f"{named(path)} is damaged: {what}. {_COPY}")


def amiss(path: Path, sentence: str) -> Refusal:
    """Return the refusal of a file that is whole and holds a plan that nobody could have made here."""
    return Refusal(f"{named(path)} holds a plan with something wrong in it: {sentence} {_COPY}")


def moved_on(path: Path) -> Refusal:
    """Return the refusal to save over what another window wrote."""
    return Refusal(
        f"{named(path)} was changed by another window; this change was not saved. "
        "Open the file again to see the other changes, or save this plan under another name."
    )


def only_read(path: Path) -> Refusal:
    """Return the refusal to save into a file that may only be read."""
    return Refusal(
        f"{named(path)} may only be read, so nothing was saved. "
        "Save the plan under another name or in another folder."
    )


def reason(error: Exception) -> str:
    """Return what an error of the system says, without the path that it repeats."""
    return (error.strerror if isinstance(error, OSError) else None) or str(error)


@contextmanager
def told(path: Path) -> Iterator[None]:
    """Turn what SQLite and stored data complain about into a refusal that names the file and the mend."""
    try:
        yield
    except DBAPIError as error:
        raise _of_sqlite(path, error.orig if error.orig is not None else error) from error
    except sqlite3.Error as error:
        raise _of_sqlite(path, error) from error
    except Unreadable as error:
        raise damaged(path, str(error)) from error
    except UnicodeDecodeError as error:
        # SQLite quotes what it cannot make sense of, and the quotation itself cannot be read.
        raise damaged(path, "its inner list of tables cannot be read") from error
    except (OverflowError, UnicodeEncodeError) as error:
        raise _not_kept(path, "a number or a character that no file can keep") from error
    except OSError as error:
        raise Refusal(
            f"{named(path)} cannot be reached on the disk ({reason(error)}). "
            "Check the disk, or choose another folder."
        ) from error


@contextmanager
def keepable(path: Path) -> Iterator[None]:
    """Turn what of a plan cannot be written, or would not be read again, into a refusal."""
    try:
        yield
    except Unreadable as error:
        raise _not_kept(path, f"something that no file can keep ({error})") from error


def _not_kept(path: Path, what: str) -> Refusal:
    return Refusal(f"{named(path)} was not saved: the plan holds {what}. Undo the last change.")


def _of_sqlite(path: Path, error: BaseException) -> Refusal:
    name = str(getattr(error, "sqlite_errorname", ""))
    if name.startswith(("SQLITE_BUSY", "SQLITE_LOCKED")):
        return Refusal(f"{named(path)} is being written by another program. Try again in a moment.")
    if name.startswith("SQLITE_FULL"):
        return Refusal(
            f"{named(path)} was not saved: the disk is full. Make room, or save the plan on another disk."
        )
    if name.startswith("SQLITE_CONSTRAINT"):
        return Refusal(
            f"{named(path)} was not saved: the plan names a step, station or cook that it does not have. "
            "Undo the last change."
        )
    if name.startswith(("SQLITE_READONLY", "SQLITE_PERM")):
        return only_read(path)
    if name.startswith(("SQLITE_IOERR", "SQLITE_CANTOPEN")):
        return Refusal(
            f"{named(path)} cannot be reached on the disk ({error}). "
            "Check the disk, or save the plan on another one."
        )
    return damaged(path, str(error))
