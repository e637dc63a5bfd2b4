"""Changes of rows into a plan file. An order of writing that keys and places allow."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any

from sqlalchemy import Connection, Table, bindparam, delete, insert, update

from core.store.changes import TableChanges
from core.store.rows import PLAN
from core.store.shapes import SHAPES, Key, Row, cell_of
from core.store.tables import TABLES

_KEYS = {PLAN: ("id",), **{name: shape.key for name, shape in SHAPES.items()}}


class OutOfStep(Exception):
    """Tell that the file does not hold the rows that were to be changed; nothing of the save may stay."""


def next_revision(connection: Connection, held: int) -> int:
    """Count a save on from the revision held; raise OutOfStep where the file has moved on."""
    plan = TABLES[PLAN]
    statement = update(plan).where(plan.c.id == 1, plan.c.revision == held).values(revision=held + 1)
    _expect(connection.execute(statement).rowcount, 1)
    return held + 1


def write(connection: Connection, changes: Sequence[TableChanges]) -> None:
    """Write changes that come table by table, each table after those it refers to; raise OutOfStep."""
    # What refers goes before what it refers to; what comes or changes goes the other way round.
    for change in reversed(changes):
        _remove(connection, change)
    for change in changes:
        _park(connection, change)
        _change(connection, change)
        _add(connection, change)


def _remove(connection: Connection, change: TableChanges) -> None:
    if change.removed:
        statement = delete(TABLES[change.table]).where(*_is(change.table))
        found = connection.execute(statement, [_key(change.table, key) for key in change.removed])
        _expect(found.rowcount, len(change.removed))


def _park(connection: Connection, change: TableChanges) -> None:
    # Two rows that swap places would for a moment both stand in one: first all that move step aside.
    moving = [key for key, cells in change.changed if "position" in cells]
    if moving:
        table = TABLES[change.table]
        statement = update(table).where(*_is(change.table)).values(position=-1 - table.c.position)
        found = connection.execute(statement, [_key(change.table, key) for key in moving])
        _expect(found.rowcount, len(moving))


def _change(connection: Connection, change: TableChanges) -> None:
    table = TABLES[change.table]
    alike: dict[tuple[str, ...], list[tuple[Key, Row]]] = {}
    for key, cells in change.changed:
        alike.setdefault(tuple(cells), []).append((key, cells))
    for columns, rows in alike.items():
        values: dict[str, Any] = {name: bindparam(f"new_{name}") for name in columns}
        statement = update(table).where(*_is(change.table)).values(values)
        found = connection.execute(statement, [_new(change.table, key, row) for key, row in rows])
        _expect(found.rowcount, len(rows))


def _add(connection: Connection, change: TableChanges) -> None:
    if change.added:
        # A new file's plan starts at revision 0; no other table has a revision.
        more = {"revision": 0} if change.table == PLAN else {}
        connection.execute(insert(TABLES[change.table]), [{**row, **more} for row in change.added])


def _is(name: str) -> Iterable[Any]:
    table: Table = TABLES[name]
    return [table.c[column] == bindparam(f"old_{column}") for column in _KEYS[name]]


def _key(name: str, key: Key) -> Row:
    return {f"old_{column}": cell_of(part) for column, part in zip(_KEYS[name], key, strict=True)}


def _new(name: str, key: Key, row: Row) -> Row:
    return {**_key(name, key), **{f"new_{column}": cell for column, cell in row.items()}}


def _expect(found: int, wanted: int) -> None:
    if found != wanted:
        raise OutOfStep(f"{found} rows where {wanted} belong")
