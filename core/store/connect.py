"""One open connection to a plan file: how it is opened, how a transaction begins, how it ends."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import Any

from sqlalchemy import Connection, StaticPool, create_engine

PATIENCE = 2.0
"""Seconds to wait for another program that is writing; the window waits as long."""


class Database:
    """A SQLite connection with SQLAlchemy around it.

    One connection serves all threads, so whoever uses it from several holds a lock (`PlanFile` does).
    """

    def __init__(self, raw: sqlite3.Connection) -> None:
        """Take over an open connection; pragmas and copies go to `raw`, statements to `connection`."""
        self.raw = raw
        # Autocommit in the driver: a transaction begins and ends where `transaction` says, and nowhere else.
        raw.isolation_level = None
        raw.execute("PRAGMA foreign_keys = ON")
        raw.execute("PRAGMA synchronous = FULL")
        # A file may come from anybody: what it brings along in its own schema is not run with our rights.
        raw.execute("PRAGMA trusted_schema = OFF")
        raw.execute("PRAGMA cell_size_check = ON")
        self._engine = create_engine("sqlite://", creator=lambda: raw, poolclass=StaticPool)
        self.connection: Connection = self._engine.connect()

    @contextmanager
    def transaction(self, begin: str = "BEGIN IMMEDIATE") -> Iterator[Connection]:
        """Keep everything inside to one transaction: all of it is written, or, after an error, none."""
        with self.connection.begin():
            self.connection.exec_driver_sql(begin)
            yield self.connection

    def pragma(self, text: str) -> Any:
        """Return the first value that a pragma answers, None if it answers nothing."""
        row = self.raw.execute(f"PRAGMA {text}").fetchone()
        return None if row is None else row[0]

    def close(self) -> None:
        """Close the connection; the last one to close takes the files beside the plan file away."""
        self.connection.close()
        self._engine.dispose()
        self.raw.close()


def open_file(path: Path, make: bool = False) -> Database:
    """Return a connection that may write; the file must be there unless it is to be made."""
    mode = "rwc" if make else "rw"
    return _database(f"{_uri(path)}?mode={mode}")


def open_copy(path: Path) -> Database:
    """Return a connection to a copy in memory of what the file holds now; the file is only read."""
    memory = _database(":memory:")
    try:
        with reading(path) as source:
            source.backup(memory.raw)
    except BaseException:
        memory.close()
        raise
    return memory


@contextmanager
def reading(path: Path) -> Iterator[sqlite3.Connection]:
    """Open a plan file only to read it, leaving nothing beside it."""
    # A file at rest has no -wal beside it and is read as it lies: SQLite would otherwise make files beside
    # it, which a folder on a locked disk refuses and a reader does not clear away.
    wal = path.with_name(path.name + "-wal")
    still = "" if wal.exists() and wal.stat().st_size else "&immutable=1"
    source = sqlite3.connect(f"{_uri(path)}?mode=ro{still}", uri=True, timeout=PATIENCE)
    try:
        yield source
    finally:
        source.close()


def settle(database: Database) -> None:
    """Move what the write-ahead log holds into the file itself, as far as other windows allow."""
    with suppress(sqlite3.Error):
        database.raw.execute("PRAGMA wal_checkpoint(TRUNCATE)")


def _database(name: str) -> Database:
    raw = sqlite3.connect(name, uri=True, timeout=PATIENCE, check_same_thread=False)
    try:
        return Database(raw)
    except BaseException:
        raw.close()
        raise


def _uri(path: Path) -> str:
    return path.absolute().as_uri()
