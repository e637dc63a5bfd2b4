"""The plan file: opened, read, saved by what differs, copied, closed.

One SQLite database holds one plan. While it is open, SQLite keeps two files beside it (`-wal`, `-shm`);
closing takes them away, so that what lies there is one file that people can copy.
"""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from threading import RLock
from types import TracebackType
from typing import Self

from sqlalchemy import delete, insert, select, update

from core.measures.refusal import Refusal
from core.plan.plan import Plan
from core.store.changes import changes
from core.store.connect import Database, open_copy, open_file, settle
from core.store.kept import KeptText, read_kept, write_kept
from core.store.mark import SCHEMA
from core.store.opening import bring_up_to_date, plan_in, require_readable, require_sound
from core.store.peek import identity, is_locked_away, require_plan_file
from core.store.placing import hold_place, written_beside
from core.store.rows import PLAN
from core.store.sentences import keepable, moved_on, named, only_read, told
from core.store.tables import TABLES
from core.store.write import OutOfStep, next_revision, write


class PlanFile:
    """An open plan file. Any thread may use it, one at a time; saving is quick enough for the window's."""

    def __init__(self, path: Path, database: Database, read_only: bool, mending: bool) -> None:
        """Take over an open database; use `create` or `open`."""
        self.path = path
        self._mending = mending
        self.read_only = read_only
        self._database = database
        self._identity = identity(path)
        self._lock = RLock()
        self._closed = False
        with told(path):
            self._held, self._revision = plan_in(path, database, mending)

    @classmethod
    def create(cls, path: Path, plan: Plan, replace: bool = False) -> PlanFile:
        """Write a plan into a new file and return it open; `replace`: an older plan file may lie there.

        Refuse a place that is taken or cannot be written, and a plan that `core.plan.check` finds something
        wrong with. The file appears whole or not at all.
        """
        path = Path(path)
        write_new(path, plan, replace)
        return cls.open(path)

    @classmethod
    def open(cls, path: Path, mending: bool = False) -> PlanFile:
        """Open a plan file, bringing one of an older layout up to date after copying it beside.

        Refuse what is not there, is no plan file, is damaged, or was written by a newer program; none of
        these is changed. A plan that `core.plan.check` finds something wrong with is refused too, unless it
        is opened for `mending`. A file that may only be read opens, and refuses to be saved.
        """
        path = Path(path)
        require_plan_file(path)
        with told(path):
            read_only = is_locked_away(path)
            # SQLite's own files lie beside the file itself, not beside a link to it.
            real = path.resolve()
            database = open_copy(real) if read_only else open_file(real)
            try:
                layout = require_readable(path, database)
                require_sound(path, database, layout)
                if layout < SCHEMA:
                    bring_up_to_date(path, database, layout, not read_only, mending)
                if not read_only:
                    database.pragma("journal_mode = WAL")
                return cls(path, database, read_only, mending)
            except BaseException:
                database.close()
                raise

    def plan(self) -> Plan:
        """Read the plan as the file holds it now, other windows' changes included."""
        with self._lock, told(self.path):
            self._held, self._revision = plan_in(self.path, self._database, self._mending)
            return self._held

    @property
    def held(self) -> Plan:
        """The plan that was last read or saved here."""
        return self._held

    def save(self, before: Plan, after: Plan) -> int:
        """Write the rows in which `after` differs from `before`, all or none, and return how many.

        `before` is what was last read or saved here. The plan is written as it is: whoever edits has checked
        it. Refuse when another window has changed the file since, when the file is gone or may only be read,
        when the disk is full, when another program is writing.
        """
        with self._lock:
            if self.read_only:
                raise only_read(self.path)
            self._require_there()
            if before != self._held:
                raise moved_on(self.path)
            with keepable(self.path):
                found = changes(before, after)
            if found:
                try:
                    with told(self.path), self._database.transaction() as connection:
                        revision = next_revision(connection, self._revision)
                        write(connection, found)
                except OutOfStep as error:
                    raise moved_on(self.path) from error
                self._revision = revision
            self._held = after
            return sum(each.count for each in found)

    def seen(self) -> str:
        """Return the text of the timetable last seen; "" where none was kept or it cannot be read."""
        with self._lock, told(self.path):
            found = self._database.connection.execute(select(TABLES["seen"].c.timetable)).scalar()
            self._database.connection.rollback()
            return found if isinstance(found, str) else ""

    def keep_seen(self, timetable: str) -> None:
        """Keep the text of the timetable that is seen; it is no part of the plan and moves no revision."""
        with self._lock:
            if self.read_only or self._closed:
                return
            self._require_there()
            with told(self.path), self._database.transaction() as connection:
                connection.execute(delete(TABLES["seen"]))
                if timetable:
                    connection.execute(insert(TABLES["seen"]), [{"id": 1, "timetable": timetable}])

    def kept(self) -> tuple[KeptText, ...]:
        """Return the days kept by name, in their order."""
        with self._lock, told(self.path), self._database.transaction("BEGIN") as connection:
            return read_kept(connection)

    def keep(self, before: Sequence[KeptText], after: Sequence[KeptText]) -> None:
        """Keep the days of `after` in the place of those of `before`, all or none; refuse as `save` does."""
        with self._lock:
            if self.read_only:
                raise only_read(self.path)
            self._require_there()
            try:
                with told(self.path), self._database.transaction() as connection:
                    revision = next_revision(connection, self._revision)
                    write_kept(connection, before, after)
            except OutOfStep as error:
                raise moved_on(self.path) from error
            self._revision = revision

    def copy_to(self, path: Path, replace: bool = False, mark: str = "") -> None:
        """Write what the file holds now into another file; `replace`: an older plan file may lie there.

        `mark`: what the copy is known by outside from now on, as another plan; "": it is the same plan.
        """
        path = Path(path)
        if identity(path) is not None and identity(path) == self._identity:
            raise Refusal(f"{named(path)} is this plan's own file. Choose another name for the copy.")
        path = hold_place(path, replace)
        with self._lock, written_beside(path) as draft:
            copy = open_file(draft, make=True)
            try:
                self._database.raw.backup(copy.raw)
                if mark:
                    with copy.transaction() as connection:
                        connection.execute(update(TABLES[PLAN]).values(mark=mark))
            finally:
                copy.close()

    def settle(self) -> None:
        """Move all saves into the file itself, for a copy made by hand meanwhile; for idle moments."""
        with self._lock:
            if not self.read_only:
                settle(self._database)

    def close(self) -> None:
        """Close the file and take away what SQLite keeps beside it; closing twice does no harm."""
        with self._lock:
            if self._closed:
                return
            self._closed = True
            self.settle()
            self._database.close()

    def __enter__(self) -> Self:
        """Return the open file."""
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        """Close the file."""
        self.close()

    def _require_there(self) -> None:
        # A file that was moved or replaced would take the save and be seen by nobody.
        if identity(self.path) != self._identity:
            raise Refusal(
                f"{named(self.path)} is no longer where it was: it was moved, renamed or replaced. "
                "Nothing was saved; save the plan under a new name."
            )


def write_new(path: Path, plan: Plan, replace: bool) -> None:
    """Write a plan into a new file, whole or not at all."""
    from core.plan.check import require
    from core.store.fresh import make_empty

    require(plan)
    with keepable(path):
        rows = changes(None, plan)
    with told(path), written_beside(hold_place(path, replace)) as draft:
        make_empty(draft)
        database = open_file(draft)
        try:
            with database.transaction() as connection:
                write(connection, rows)
        finally:
            database.close()
