"""Bring a plan file's tables to the newest layout with Alembic, in one transaction.

The layouts are the scripts in `versions`, numbered as SQLite's `user_version` counts them. A new file goes
through all of them too, so that what they make is the one truth about the tables.
"""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

from core.store.connect import Database
from core.store.mark import SCHEMA

if TYPE_CHECKING:
    from alembic.script import ScriptDirectory

SCRIPTS = Path(__file__).parent
"""The folder whose `versions` holds the scripts."""


def upgrade(database: Database) -> None:
    """Bring the tables to the newest layout, all or nothing; raise Unreadable if the rows do not follow."""
    from alembic.operations import Operations
    from alembic.runtime.migration import MigrationContext, MigrationStep

    from core.store.plain import Unreadable

    scripts = scripts_in(SCRIPTS)

    def steps(current: Any, _context: MigrationContext) -> list[MigrationStep]:
        way = scripts.iterate_revisions("head", current or "base", implicit_base=True)
        return [MigrationStep.upgrade_from_script(scripts.revision_map, each) for each in reversed(list(way))]

    # A table that is copied and dropped would take all rows that refer to it along (ON DELETE CASCADE),
    # and the switch is deaf inside a transaction: so it is thrown around it, and the keys are checked after.
    database.pragma("foreign_keys = OFF")
    try:
        with database.transaction("BEGIN EXCLUSIVE") as connection:
            context = MigrationContext.configure(
                connection, opts={"script": scripts, "fn": steps, "transactional_ddl": True}
            )
            with Operations.context(context):
                context.run_migrations()
            broken = connection.exec_driver_sql("PRAGMA foreign_key_check").first()
            if broken is not None:
                raise Unreadable(f"a row of {broken[0]} refers to a {broken[2]} that is not there")
            connection.exec_driver_sql(f"PRAGMA user_version = {SCHEMA}")
    finally:
        database.pragma("foreign_keys = ON")


def scripts_in(folder: Path) -> ScriptDirectory:
    """Return the migration scripts under a folder."""
    from alembic.script import ScriptDirectory

    return ScriptDirectory(str(folder))
