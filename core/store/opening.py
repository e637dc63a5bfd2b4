"""What happens between finding a plan file and reading its plan: layout, soundness, bringing up to date."""

from __future__ import annotations

from pathlib import Path

from core.measures.refusal import Refusal
from core.plan.plan import Plan
from core.store.connect import Database, open_copy, open_file
from core.store.mark import APPLICATION_ID, SCHEMA
from core.store.placing import written_beside
from core.store.read import read_plan
from core.store.sentences import amiss, damaged, named


def mark(database: Database) -> None:
    """Mark a new database as a plan file, in its header, where `peek` reads it."""
    # A plan has many small tables: with pages of 1 kB its file is a third of what the usual 4 kB make.
    database.pragma("page_size = 1024")
    database.pragma(f"application_id = {APPLICATION_ID}")


def require_readable(path: Path, database: Database) -> int:
    """Return the layout of a plan file's tables; refuse one newer than this program knows."""
    layout = int(database.pragma("user_version"))
    if layout > SCHEMA:
        raise Refusal(
            f"{named(path)} was written by a newer Cook-Day Planner (its layout is {layout}, this program "
            f"reads up to {SCHEMA}). Open it with that one, or bring this program up to date."
        )
    if layout < 1:
        raise damaged(path, "its tables were never finished")
    return layout


def require_sound(path: Path, database: Database, layout: int) -> None:
    """Refuse a file whose pages, references or versions do not hold together."""
    said = database.pragma("quick_check(1)")
    if said != "ok":
        raise damaged(path, str(said))
    broken = database.raw.execute("PRAGMA foreign_key_check").fetchone()
    if broken is not None:
        raise damaged(path, f"a row of {broken[0]} refers to a {broken[2]} that is not there")
    said = database.raw.execute("SELECT version_num FROM alembic_version").fetchall()
    if said != [(f"{layout:04}",)]:
        raise damaged(path, "what it says about its layout contradicts itself")


def bring_up_to_date(path: Path, database: Database, layout: int, keep_old: bool, mending: bool) -> None:
    """Bring an older layout to the newest.

    `keep_old`: the file itself changes, so try it on a copy in memory, and lay one as it was beside it first.
    """
    from core.store.migrate import upgrade

    if keep_old:
        _rehearse(path, mending)
        with written_beside(old_copy(path, layout)) as draft:
            copy = open_file(draft, make=True)
            try:
                database.raw.backup(copy.raw)
            finally:
                copy.close()
    upgrade(database)


def _rehearse(path: Path, mending: bool) -> None:
    """Bring a copy in memory up to date and read its plan, so that a file that would be refused is not changed."""
    from core.store.migrate import upgrade

    memory = open_copy(path.resolve())
    try:
        upgrade(memory)
        plan_in(path, memory, mending)
    finally:
        memory.close()


def old_copy(path: Path, layout: int) -> Path:
    """Return a free name beside a file for what it was before the upgrade: `feast.v1.bak`."""
    free = path.with_name(f"{path.stem}.v{layout}.bak")
    number = 2
    while free.exists():
        free = path.with_name(f"{path.stem}.v{layout}-{number}.bak")
        number += 1
    return free


def plan_in(path: Path, database: Database, mending: bool) -> tuple[Plan, int]:
    """Return the plan in an open file and its revision; refuse what the check refuses, unless `mending`."""
    from core.plan.check import problems

    with database.transaction("BEGIN") as connection:
        plan, revision = read_plan(connection)
    if not mending and (sentences := problems(plan)):
        raise amiss(path, sentences[0])
    return plan, revision
