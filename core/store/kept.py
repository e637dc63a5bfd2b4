"""Days kept by name, as rows of a plan file. What a row's texts mean is known above; here they are only kept."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import asdict, dataclass
from itertools import count

from sqlalchemy import Connection, bindparam, delete, insert, select, update

from core.store.plain import Unreadable, field_types, made
from core.store.tables import TABLES


@dataclass(frozen=True, slots=True)
class KeptText:
    """A day kept: its name, its timetable as text, when it was kept, the mark of the plan then, if it is current."""

    name: str
    timetable: str
    at: str
    mark: str
    current: bool = False


def read_kept(connection: Connection) -> tuple[KeptText, ...]:
    """Return the days kept in a file, in their order; one that cannot be read is left out and stays in the file."""
    table = TABLES["kept"]
    found = connection.execute(select(table).order_by(table.c.position, table.c.name)).mappings().all()
    days = []
    for row in found:
        try:
            days.append(made(KeptText, {name: _cell(row[name], kind) for name, kind in _FIELDS.items()}))
        except Unreadable:
            continue
    return tuple(days)


def write_kept(connection: Connection, before: Iterable[KeptText], after: Iterable[KeptText]) -> None:
    """Put the days of `after` in the place of those of `before`.

    Rows that are in neither stay: a day that could not be read is not lost for that, nor when another gets its name.
    """
    table = TABLES["kept"]
    gone = {each.name for each in before}
    _make_room(connection, {each.name for each in after} - gone)
    rows = [{**asdict(each), "position": position} for position, each in enumerate(after)]
    if gone:
        old = delete(table).where(table.c.name == bindparam("old"))
        connection.execute(old, [{"old": name} for name in sorted(gone)])
    if rows:
        connection.execute(insert(table), rows)


def _make_room(connection: Connection, names: set[str]) -> None:
    """Give rows that bear these names, which nobody could read, names of their own."""
    table = TABLES["kept"]
    taken = set(connection.execute(select(table.c.name)).scalars())
    for name in sorted(names & taken):
        other = next(new for number in count(2) if (new := f"{name} ({number})") not in taken | names)
        taken.add(other)
        connection.execute(update(table).where(table.c.name == name).values(name=other, current=False))


_FIELDS = field_types(KeptText)


def _cell(cell: object, kind: type) -> object:
    if type(cell) is not kind:
        raise Unreadable(f"{cell!r} in a kept day is not of type {kind.__name__}")
    return cell
