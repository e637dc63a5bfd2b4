"""What the cook is told when the library cannot be read or written."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from sqlalchemy.exc import DBAPIError

from core.measures.refusal import Refusal
from core.plan.check_words import short
from core.store.plain import Unreadable
from core.store.sentences import named, reason


class Damaged(Refusal):
    """Say that the library does not hold together. It was left as it is; `set_aside` makes room for a new one."""


def damaged(path: Path, what: str) -> Damaged:
    """Return the refusal of a library whose content does not hold together."""
    return Damaged(
        f"The library {named(path)} is damaged: {what}. It was left as it is. Put a copy of yours in its"
        " place, or set it aside and begin a new one."
    )


def foreign(path: Path) -> Damaged:
    """Return the refusal of a file that is no library."""
    return Damaged(
        f"{named(path)}, where the library belongs, is a file of another kind. It was left as it is;"
        " set it aside and begin a new library."
    )


def newer(path: Path, layout: int, known: int) -> Refusal:
    """Return the refusal of a library that a newer program has written."""
    return Refusal(
        f"The library {named(path)} was written by a newer Cook-Day Planner (its layout is {layout}, this"
        f" program reads up to {known}). Bring this program up to date; the library was left as it is."
    )


def only_read(path: Path) -> Refusal:
    """Return the refusal to write into a library that may only be read."""
    return Refusal(
        f"The library {named(path)} may only be read, so nothing was kept. Allow writing to the file and its folder."
    )


def elsewhere(path: Path) -> Refusal:
    """Return the refusal to write into a library that is no longer in its place."""
    return Refusal(
        f"The library {named(path)} is no longer where it was: it was moved, renamed or replaced. Nothing was"
        " kept; try again."
    )


def name_taken(name: str) -> Refusal:
    """Return the refusal to keep a second dish under one name."""
    return Refusal(
        f"“{short(name)}” is kept already. Replace the one that is kept, or keep this one as another."
    )


def changed_meanwhile(name: str) -> Refusal:
    """Return the refusal to write over what another window kept meanwhile."""
    return Refusal(
        f"“{short(name)}” was changed in the library by another window. Nothing was kept; look at it as it is"
        " now, then decide again."
    )


def no_longer_kept(name: str) -> Refusal:
    """Return the refusal to change what is gone."""
    return Refusal(f"“{short(name)}” is no longer in the library. Nothing was changed; keep it anew to have it there.")


@contextmanager
def told(path: Path) -> Iterator[None]:
    """Turn what SQLite and stored data complain about into a refusal that names the library and the mend."""
    try:
        yield
    except DBAPIError as error:
        raise _of_sqlite(path, error.orig if error.orig is not None else error) from error
    except sqlite3.Error as error:
        raise _of_sqlite(path, error) from error
    except UnicodeDecodeError as error:
        raise damaged(path, "its inner list of tables cannot be read") from error
    except Unreadable as error:
        raise _not_kept(f"holds something that no file can keep ({error})") from error
    except (OverflowError, UnicodeEncodeError) as error:
        raise _not_kept("holds a number or a character that no file can keep") from error
    except OSError as error:
        raise Refusal(
            f"The library {named(path)} cannot be reached on the disk ({reason(error)}). Check the disk and"
            " the rights on the folder."
        ) from error


def _not_kept(what: str) -> Refusal:
    return Refusal(f"Nothing was kept: what is to be kept {what}. Mend it, then keep it again.")


def _of_sqlite(path: Path, error: BaseException) -> Refusal:
    name = str(getattr(error, "sqlite_errorname", ""))
    library = f"The library {named(path)}"
    if name.startswith(("SQLITE_BUSY", "SQLITE_LOCKED")):
        return Refusal(f"{library} is being written by another window. Try again in a moment.")
    if name.startswith("SQLITE_FULL"):
        return Refusal(f"{library} was not written: the disk is full. Make room, then keep it again.")
    if name.startswith(("SQLITE_READONLY", "SQLITE_PERM")):
        return only_read(path)
    if name.startswith(("SQLITE_IOERR", "SQLITE_CANTOPEN")):
        return Refusal(
            f"{library} cannot be reached on the disk ({error}). Check the disk and the rights on the folder."
        )
    return damaged(path, str(error))
