from __future__ import annotations

import shutil
import sqlite3
from contextlib import closing
from pathlib import Path
from typing import Any

import pytest
from alembic.autogenerate import compare_metadata
from alembic.runtime.migration import MigrationContext

from core.measures.refusal import Refusal
from core.store import file as file_module
from core.store import migrate, opening
from core.store.connect import open_file
from core.store.file import PlanFile
from core.store.mark import APPLICATION_ID, SCHEMA
from core.store.tables import Table
from tests.core.store.sample import first_plan, fourth_plan, full_plan, sample_days, third_plan

SAMPLES = Path(__file__).parent / "samples"
V1 = SAMPLES / "v1.cookday"

PLANS = {1: first_plan, 2: third_plan, 3: third_plan, 4: fourth_plan, 5: full_plan}

LATER = SCHEMA + 1
NEXT = f"""
import sqlalchemy as sa
from alembic import op

revision = "{LATER:04}"
down_revision = "{SCHEMA:04}"


def upgrade() -> None:
    with op.batch_alter_table("dish", recreate="always") as dish:
        dish.add_column(sa.Column("colour", sa.Text(), nullable=False, server_default="white"))
    {{more}}
"""


@pytest.fixture
def next_layout(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Any:
    """Return a function that gives the program one more layout, as a later release would have one."""

    def add(more: str = "") -> None:
        scripts = tmp_path / "scripts"
        shutil.copytree(migrate.SCRIPTS / "versions", scripts / "versions")
        (scripts / "versions" / f"v{LATER:04}_next.py").write_text(NEXT.format(more=more))
        monkeypatch.setattr(migrate, "SCRIPTS", scripts)
        for module in (file_module, opening, migrate):
            monkeypatch.setattr(module, "SCHEMA", LATER)

    return add


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return Path(shutil.copy(V1, tmp_path / "feast.cookday"))


def versions(path: Path) -> tuple[int, str]:
    with closing(sqlite3.connect(path)) as raw:
        (number,) = raw.execute("PRAGMA user_version").fetchone()
        (name,) = raw.execute("SELECT version_num FROM alembic_version").fetchone()
    return number, name


@pytest.mark.parametrize("layout", range(1, SCHEMA + 1))
def test_the_approved_file_of_each_version_opens(layout: int, tmp_path: Path) -> None:
    path = Path(shutil.copy(SAMPLES / f"v{layout}.cookday", tmp_path / "feast.cookday"))
    assert versions(path) == (layout, f"{layout:04}")
    with PlanFile.open(path) as file:
        assert file.plan() == PLANS[layout]()
        assert file.kept() == (sample_days() if layout >= 3 else ())
        assert not file.read_only
    assert versions(path) == (SCHEMA, f"{SCHEMA:04}")


def test_what_version_1_did_not_say_is_as_it_was_taken_for_granted(path: Path) -> None:
    with PlanFile.open(path) as file:
        kitchen, decisions = file.plan().kitchen, file.plan().decisions
    oven, grate, tray = kitchen.station["oven"], kitchen.station["grate"], kitchen.vessel["tray"]
    assert (grate.laying, grate.fires, grate.not_with, oven.heater.full) == (5, 1, (), 0)
    assert (tray.by_hand, kitchen.walk, decisions.wishes.sleep_until) == (True, 1, 480)


def test_an_old_file_of_which_no_plan_comes_is_left_as_it_was(path: Path) -> None:
    with closing(sqlite3.connect(path)) as raw, raw:
        raw.execute("UPDATE station SET heater = 'hot' WHERE id = 'oven'")
    content = path.read_bytes()
    with pytest.raises(Refusal, match=r"“feast\.cookday” is damaged"):
        PlanFile.open(path)
    assert path.read_bytes() == content
    assert [each.name for each in path.parent.iterdir()] == ["feast.cookday"]


def test_the_scripts_make_the_tables_that_are_mapped(tmp_path: Path) -> None:
    PlanFile.create(tmp_path / "a.cookday", full_plan()).close()
    database = open_file(tmp_path / "a.cookday")
    with database.connection.begin():
        context = MigrationContext.configure(
            database.connection, opts={"compare_type": True, "compare_server_default": True}
        )
        assert compare_metadata(context, Table.metadata) == []
    database.close()


def test_the_scripts_name_every_constraint(tmp_path: Path) -> None:
    PlanFile.create(tmp_path / "a.cookday", full_plan()).close()
    with closing(sqlite3.connect(tmp_path / "a.cookday")) as raw:
        tables = dict(raw.execute("SELECT name, sql FROM sqlite_master WHERE type = 'table'").fetchall())
    for table in Table.metadata.tables.values():
        for constraint in table.constraints:
            assert f"CONSTRAINT {constraint.name} " in tables[table.name]


def test_the_newest_script_is_the_layout_that_files_are_marked_with(tmp_path: Path) -> None:
    scripts = migrate.scripts_in(migrate.SCRIPTS)
    assert scripts.get_heads() == [f"{SCHEMA:04}"]
    numbers = [each.revision for each in scripts.walk_revisions()]
    assert numbers == [f"{number:04}" for number in range(SCHEMA, 0, -1)]
    PlanFile.create(tmp_path / "a.cookday", full_plan()).close()
    assert versions(tmp_path / "a.cookday") == (SCHEMA, f"{SCHEMA:04}")
    assert (tmp_path / "a.cookday").read_bytes()[68:72] == APPLICATION_ID.to_bytes(4, "big") == b"CKDY"


def test_an_upgrade_keeps_every_row_and_a_copy_of_the_old_file(path: Path, next_layout: Any) -> None:
    next_layout()
    with PlanFile.open(path) as file:
        # The dishes' table was dropped and made anew; what belongs to dishes must have outlived it.
        assert file.plan() == first_plan()
        assert file._database.raw.execute("SELECT DISTINCT colour FROM dish").fetchall() == [("white",)]
        with pytest.raises(sqlite3.IntegrityError):
            file._database.raw.execute("UPDATE step SET dish = 'gone'")
    assert versions(path) == (LATER, f"{LATER:04}")
    assert sorted(each.name for each in path.parent.iterdir() if each.is_file()) == [
        "feast.cookday",
        "feast.v1.bak",
    ]
    assert versions(path.with_name("feast.v1.bak")) == (1, "0001")


def test_the_copy_of_the_old_file_takes_no_other_copys_place(path: Path, next_layout: Any) -> None:
    next_layout()
    path.with_name("feast.v1.bak").write_text("of another day")
    PlanFile.open(path).close()
    assert path.with_name("feast.v1.bak").read_text() == "of another day"
    assert versions(path.with_name("feast.v1-2.bak")) == (1, "0001")


def test_an_upgrade_that_fails_leaves_the_file_as_it_was(path: Path, next_layout: Any) -> None:
    next_layout("op.execute('INSERT INTO nowhere VALUES (1)')")
    with pytest.raises(Refusal, match=r"“feast.cookday” is damaged: .*no such table: nowhere"):
        PlanFile.open(path)
    assert versions(path) == (1, "0001")
    with closing(sqlite3.connect(path)) as raw:
        columns = [row[1] for row in raw.execute("PRAGMA table_info(dish)")]
        assert "colour" not in columns
        assert raw.execute("SELECT count(*) FROM step").fetchone() == (6,)


def test_an_upgrade_that_would_lose_a_reference_is_not_kept(path: Path, next_layout: Any) -> None:
    next_layout("op.execute(\"DELETE FROM dish WHERE id = 'beans'\")")
    with pytest.raises(Refusal, match="refers to a dish that is not there"):
        PlanFile.open(path)
    assert versions(path) == (1, "0001")


def test_an_old_file_that_may_only_be_read_is_brought_up_to_date_in_memory(path: Path, next_layout: Any) -> None:
    next_layout()
    path.chmod(0o444)
    content = path.read_bytes()
    with PlanFile.open(path) as file:
        assert file.plan() == first_plan()
    assert path.read_bytes() == content
    assert [each.name for each in path.parent.iterdir() if each.is_file()] == ["feast.cookday"]


def test_a_file_upgraded_by_a_later_program_is_refused_by_this_one(
    path: Path, next_layout: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    next_layout()
    PlanFile.open(path).close()
    monkeypatch.undo()
    with pytest.raises(Refusal, match="written by a newer Cook-Day Planner"):
        PlanFile.open(path)
