"""From a path to an open, sound library: made where there is none, refused where it is not one or is damaged."""

from __future__ import annotations

from pathlib import Path

from core.measures.refusal import Refusal
from core.store.connect import Database, open_copy, open_file
from core.store.library_sentences import damaged, foreign, newer, only_read, told
from core.store.library_tables import DISHES, KITCHENS, LIBRARY_ID, LIBRARY_LAYOUT, make_tables
from core.store.peek import is_locked_away
from core.store.sentences import named

_MAGIC = b"SQLite format 3\x00"
_HEADER = 100
_APPLICATION_ID = slice(68, 72)


def open_library(path: Path) -> tuple[Database, bool]:
    """Return the library's database, and whether it may only be read; make it where there is none yet.

    Raise Damaged where the file is not a library or does not hold together, Refusal where it cannot be had at
    all; the file stays as it is.
    """
    with told(path):
        there = path.exists() or path.is_symlink()
        if there:
            _require_library(path)
        else:
            path.parent.mkdir(parents=True, exist_ok=True)
        # A file of no bytes is what is left where a first start was cut short.
        locked = there and path.stat().st_size > 0 and is_locked_away(path)
        real = path.resolve()
        database = open_copy(real) if locked else open_file(real, make=True)
        try:
            if _is_new(database):
                _make(path, database, locked)
            else:
                _require_sound(path, database)
        except BaseException:
            database.close()
            raise
        return database, locked


def _require_library(path: Path) -> None:
    """Refuse what is no library, by its first bytes, before SQLite opens it and may change it."""
    if path.is_dir() or not path.exists():
        what = "is a folder" if path.is_dir() else "is a link to nothing"
        raise Refusal(f"{named(path)}, where the library belongs, {what}. Move it away, then try again.")
    with path.open("rb") as file:
        header = file.read(_HEADER)
    if not header:
        return
    if len(header) < _HEADER or not header.startswith(_MAGIC):
        raise foreign(path)
    if int.from_bytes(header[_APPLICATION_ID], "big") != LIBRARY_ID:
        raise foreign(path)


def _is_new(database: Database) -> bool:
    """Tell whether nothing is in the file yet."""
    nothing = database.raw.execute("SELECT count(*) FROM sqlite_master").fetchone()[0] == 0
    return bool(nothing and database.pragma("user_version") == 0)


def _make(path: Path, database: Database, locked: bool) -> None:
    if locked:
        raise only_read(path)
    # Another window may have made it while this one waited for its turn.
    with database.transaction() as connection:
        if _is_new(database):
            make_tables(connection)


def _require_sound(path: Path, database: Database) -> None:
    layout = int(database.pragma("user_version"))
    if layout > LIBRARY_LAYOUT:
        raise newer(path, layout, LIBRARY_LAYOUT)
    said = database.pragma("quick_check(1)")
    if said != "ok":
        raise damaged(path, str(said))
    there = {row[0] for row in database.raw.execute("SELECT name FROM sqlite_master WHERE type = 'table'")}
    if layout < 1 or not {DISHES.name, KITCHENS.name} <= there:
        raise damaged(path, "its tables are not all there")


def free_beside(path: Path, word: str) -> Path:
    """Return a name beside a file that nothing bears: `own.damaged.cooklib`, then with a number."""
    free, number = path.with_name(f"{path.stem}.{word}{path.suffix}"), 2
    while free.exists():
        free, number = path.with_name(f"{path.stem}.{word}-{number}{path.suffix}"), number + 1
    return free
