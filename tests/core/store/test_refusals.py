from __future__ import annotations

import os
import shutil
import sqlite3
import tempfile
from collections.abc import Callable, Iterator
from contextlib import closing, contextmanager
from dataclasses import replace
from pathlib import Path

import pytest

from core.measures.refusal import Refusal
from core.store import connect
from core.store.file import PlanFile
from core.store.mark import APPLICATION_ID
from tests.core.store.sample import full_plan

NOBODY = 65534


@pytest.fixture
def path(tmp_path: Path) -> Path:
    path = tmp_path / "feast.cookday"
    PlanFile.create(path, full_plan()).close()
    return path


def refusal(act: Callable[[], object]) -> str:
    with pytest.raises(Refusal) as caught:
        act()
    return caught.value.text


def opening(path: Path) -> str:
    """Return what is said when a file is refused, having seen that it and its folder stay as they were."""
    before = path.read_bytes() if path.is_file() else None
    beside = sorted(path.parent.iterdir()) if path.parent.is_dir() else None
    said = refusal(lambda: PlanFile.open(path))
    assert (path.read_bytes() if path.is_file() else None) == before
    assert (sorted(path.parent.iterdir()) if path.parent.is_dir() else None) == beside
    return said


def alter(path: Path, *statements: str) -> None:
    with closing(sqlite3.connect(path)) as raw, raw:
        for statement in statements:
            raw.execute(statement)


@contextmanager
def closed_folder(content: bytes, file_mode: int, folder_mode: int) -> Iterator[Path]:
    """Hand out a file in a folder with these rights, and act inside as a user who may not do everything."""
    # pytest's own folders are closed to other users, so this one stands beside them.
    folder = Path(tempfile.mkdtemp())
    (folder / "feast.cookday").write_bytes(content)
    (folder / "feast.cookday").chmod(file_mode)
    folder.chmod(folder_mode)
    root = os.geteuid() == 0
    if root:
        os.setresuid(NOBODY, NOBODY, 0)
    try:
        yield folder / "feast.cookday"
    finally:
        if root:
            os.setresuid(0, 0, 0)
        folder.chmod(0o700)
        shutil.rmtree(folder)


def test_a_file_that_is_not_there(tmp_path: Path) -> None:
    said = opening(tmp_path / "gone.cookday")
    assert (
        said == "“gone.cookday” is not there. It may have been moved or renamed; look for it, then open it."
    )
    assert "is not there" in opening(tmp_path / "no" / "gone.cookday")


def test_a_folder(tmp_path: Path) -> None:
    (tmp_path / "plans.cookday").mkdir()
    assert opening(tmp_path / "plans.cookday") == "“plans.cookday” is a folder. Choose a plan file inside it."


def test_a_name_that_no_file_can_have(tmp_path: Path) -> None:
    assert refusal(lambda: PlanFile.open(tmp_path / "a\0b")).startswith("“a\0b” ")
    assert "cannot be read" in refusal(lambda: PlanFile.open(tmp_path / ("long" * 100)))


def test_what_is_not_a_file(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "pipe.cookday")
    assert "is not a file that can hold a plan" in refusal(lambda: PlanFile.open(tmp_path / "pipe.cookday"))


def test_an_empty_file(tmp_path: Path) -> None:
    (tmp_path / "empty.cookday").touch()
    assert opening(tmp_path / "empty.cookday").startswith("“empty.cookday” is empty")


@pytest.mark.parametrize("content", [b"Roast at 180", b"SQLite format 3\x00", b"SQLite format 4\x00" * 20])
def test_a_file_of_another_kind(tmp_path: Path, content: bytes) -> None:
    (tmp_path / "note.txt").write_bytes(content)
    assert opening(tmp_path / "note.txt").startswith("“note.txt” is not a plan file. Open a file that")


@pytest.mark.parametrize("mode", ["DELETE", "WAL"])
def test_a_database_of_another_program_is_left_alone(tmp_path: Path, mode: str) -> None:
    other = tmp_path / "music.db"
    with closing(sqlite3.connect(other)) as raw:
        raw.execute(f"PRAGMA journal_mode = {mode}")
        raw.execute("PRAGMA application_id = 77")
        raw.execute("CREATE TABLE plan (id)")
        # Still open, so that a log lies beside the file: opening it to write would fold the log in.
        assert opening(other).startswith("“music.db” is a database of another program, not a plan file.")


def test_a_plan_of_a_newer_program(path: Path) -> None:
    alter(path, "PRAGMA user_version = 12")
    said = opening(path)
    assert said.startswith("“feast.cookday” was written by a newer Cook-Day Planner (its layout is 12,")
    assert "bring this program up to date" in said


def test_a_file_whose_tables_were_never_finished(tmp_path: Path) -> None:
    alter(tmp_path / "half.cookday", f"PRAGMA application_id = {APPLICATION_ID}", "CREATE TABLE plan (id)")
    assert "damaged: its tables were never finished" in opening(tmp_path / "half.cookday")


@pytest.mark.parametrize(
    ("statement", "says"),
    [
        ("DROP TABLE pin", "no such table: pin"),
        ("DROP TABLE alembic_version", "no such table: alembic_version"),
        ("UPDATE alembic_version SET version_num = '0007'", "contradicts itself"),
        ("ALTER TABLE step DROP COLUMN note", "no such column"),
        ("DELETE FROM dish WHERE id = 'beans'", "a row of .* refers to a (dish|step) that is not there"),
        ("DELETE FROM plan", "0 plans in one file"),
        ("UPDATE plan SET revision = 'x'", "the plan's revision is not a number"),
        ("UPDATE plan SET plating_local = 'soon'", "'soon' is no datetime"),
        ("UPDATE step SET touches = '[{]'", "not JSON"),
        ("UPDATE step SET length_low = 'long'", "'long' is not of type int"),
        ("UPDATE step SET note = x'00ff'", "not of type str"),
        ("UPDATE step SET note = CAST(x'ff' AS TEXT)", "Could not decode to UTF-8"),
        ("UPDATE link SET kind = 'sideways' WHERE position = 0", "'sideways' is no LinkKind"),
    ],
)
def test_content_that_does_not_hold_together(path: Path, statement: str, says: str) -> None:
    alter(path, statement)
    said = opening(path)
    assert said.startswith("“feast.cookday” is damaged: ")
    assert said.endswith("Open one of the copies kept of it instead.")
    with pytest.raises(Refusal, match=says):
        PlanFile.open(path)


def test_a_plan_that_is_whole_and_wrong(path: Path) -> None:
    alter(path, "UPDATE dish SET name = '' WHERE id = 'beans'")
    said = opening(path)
    assert said.startswith("“feast.cookday” holds a plan with something wrong in it: ")
    assert "name" in said
    with PlanFile.open(path, mending=True) as file:
        wrong = file.plan()
        assert wrong.menu.dishes[0].name == ""
        file.save(wrong, full_plan())
    with PlanFile.open(path) as file:
        assert file.plan() == full_plan()


@pytest.mark.parametrize(
    ("statement", "says"),
    [
        ("UPDATE plan SET plating_zone = 'Europe/Atlantis'", "Europe/Atlantis"),
        ("UPDATE plan SET plating_local = '2026-09-26T19:30:09'", "Plating"),
    ],
)
def test_a_moment_that_no_clock_shows(path: Path, statement: str, says: str) -> None:
    alter(path, statement)
    assert says in opening(path)


def test_a_list_of_free_pages_that_does_not_add_up(path: Path) -> None:
    content = bytearray(path.read_bytes())
    content[36:40] = (7).to_bytes(4, "big")
    path.write_bytes(content)
    assert "is damaged" in opening(path)
    assert "reelist" in opening(path)


def test_a_list_of_tables_that_is_no_text(path: Path) -> None:
    path.write_bytes(path.read_bytes().replace(b"REFERENCES station", b"REFERENCES\x80station"))
    assert "is damaged: its inner list of tables cannot be read" in opening(path)
    path.chmod(0o444)
    assert "is damaged" in opening(path)


def test_a_file_whose_neighbours_cannot_be_made(path: Path) -> None:
    path.with_name("feast.cookday-wal").mkdir()
    said = refusal(lambda: PlanFile.open(path))
    assert said.startswith("“feast.cookday” cannot be reached on the disk (")


def test_a_file_that_became_read_only_while_open(path: Path) -> None:
    with PlanFile.open(path) as file:
        file._database.pragma("query_only = ON")
        said = refusal(lambda: file.save(full_plan(), replace(full_plan(), name="New")))
        assert said.startswith("“feast.cookday” may only be read, so nothing was saved.")


def test_a_link_is_followed(path: Path, tmp_path: Path) -> None:
    (tmp_path / "desk").mkdir()
    link = tmp_path / "desk" / "link.cookday"
    link.symlink_to(path)
    newer = replace(full_plan(), name="Newer")
    with PlanFile.open(link) as file:
        file.save(full_plan(), newer)
        path.chmod(0o444)
        with PlanFile.open(link) as reader:
            assert reader.plan() == newer
    path.chmod(0o644)
    PlanFile.create(link, full_plan(), replace=True).close()
    assert link.is_symlink()
    with PlanFile.open(path) as file:
        assert file.plan() == full_plan()
    assert list((tmp_path / "desk").iterdir()) == [link]


def test_a_file_with_holes(path: Path) -> None:
    content = path.read_bytes()
    path.write_bytes(content[:4096] + b"\xaa" * (len(content) - 4096))
    assert "“feast.cookday” is damaged" in opening(path)
    path.write_bytes(content[: len(content) // 2])
    assert "“feast.cookday” is damaged" in opening(path)
    path.write_bytes(content[:16] + b"\xff\xff" + content[18:])
    assert "“feast.cookday” is damaged" in opening(path)
    path.chmod(0o444)
    assert "“feast.cookday” is damaged" in opening(path)


def test_a_file_that_may_only_be_read_opens(path: Path) -> None:
    path.chmod(0o444)
    content = path.read_bytes()
    with PlanFile.open(path) as file:
        assert file.read_only
        assert file.plan() == full_plan()
        said = refusal(lambda: file.save(full_plan(), replace(full_plan(), name="New")))
        assert said.startswith(
            "“feast.cookday” may only be read, so nothing was saved. Save the plan under another"
        )
        file.copy_to(path.with_name("copy.cookday"))
    assert path.read_bytes() == content
    assert sorted(each.name for each in path.parent.iterdir()) == ["copy.cookday", "feast.cookday"]
    with PlanFile.open(path.with_name("copy.cookday")) as copy:
        assert copy.save(full_plan(), replace(full_plan(), name="New")) == 1


def test_a_file_that_may_only_be_read_shows_what_its_log_holds(path: Path) -> None:
    newer = replace(full_plan(), name="Newer")
    with PlanFile.open(path) as file:
        file.save(full_plan(), newer)
        path.chmod(0o444)
        with PlanFile.open(path) as reader:
            assert reader.read_only
            assert reader.plan() == newer


def test_a_folder_where_nothing_can_be_written(path: Path) -> None:
    with closed_folder(path.read_bytes(), 0o666, 0o555) as shut:
        with PlanFile.open(shut) as file:
            assert file.read_only
            assert file.plan() == full_plan()
            assert "Nothing can be written in the folder" in refusal(
                lambda: file.copy_to(shut.with_name("b.cookday"))
            )
        assert "Nothing can be written" in refusal(
            lambda: PlanFile.create(shut.with_name("c.cookday"), full_plan())
        )
        assert list(shut.parent.iterdir()) == [shut]


def test_a_file_that_may_not_be_read(path: Path) -> None:
    with closed_folder(path.read_bytes(), 0o000, 0o777) as shut:
        said = refusal(lambda: PlanFile.open(shut))
        assert said.startswith("“feast.cookday” may not be read by you. Ask for the right to read it")


def test_a_full_disk(path: Path) -> None:
    with PlanFile.open(path) as file:
        pages = file._database.pragma("page_count")
        file._database.pragma(f"max_page_count = {pages}")
        large = replace(full_plan(), name="x" * 100_000)
        said = refusal(lambda: file.save(full_plan(), large))
        assert said.startswith("“feast.cookday” was not saved: the disk is full. Make room")
        assert file.plan() == full_plan()
        file._database.pragma("max_page_count = 1000000")
        assert file.save(full_plan(), large) == 1
        assert file.plan() == large


def test_a_file_that_another_program_is_writing(path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(connect, "PATIENCE", 0.02)
    with PlanFile.open(path) as file, closing(sqlite3.connect(path)) as other:
        other.execute("BEGIN IMMEDIATE")
        said = refusal(lambda: file.save(full_plan(), replace(full_plan(), name="New")))
        assert said == "“feast.cookday” is being written by another program. Try again in a moment."
        assert file.plan() == full_plan()
        other.execute("ROLLBACK")
        assert file.save(full_plan(), replace(full_plan(), name="New")) == 1


@pytest.mark.parametrize("replaced", [False, True])
def test_a_file_that_was_taken_away_while_open(path: Path, replaced: bool) -> None:
    with PlanFile.open(path) as file:
        path.rename(path.with_name("elsewhere.cookday"))
        if replaced:
            path.write_bytes(b"another")
        said = refusal(lambda: file.save(full_plan(), replace(full_plan(), name="New")))
        assert said.startswith("“feast.cookday” is no longer where it was")
        file.copy_to(path.with_name("rescued.cookday"))
    with PlanFile.open(path.with_name("rescued.cookday")) as rescued:
        assert rescued.plan() == full_plan()


def test_creating_where_something_is(path: Path, tmp_path: Path) -> None:
    content = path.read_bytes()
    said = refusal(lambda: PlanFile.create(path, full_plan()))
    assert said == "“feast.cookday” is there already. Choose another name."
    assert path.read_bytes() == content
    (tmp_path / "note.txt").write_text("Roast at 180")
    assert "is not a plan file" in refusal(
        lambda: PlanFile.create(tmp_path / "note.txt", full_plan(), replace=True)
    )
    assert (tmp_path / "note.txt").read_text() == "Roast at 180"
    assert "is a folder" in refusal(lambda: PlanFile.create(tmp_path, full_plan(), replace=True))
    assert "the folder “no” is not there" in refusal(lambda: PlanFile.create(tmp_path / "no/a", full_plan()))


def test_creating_over_an_older_plan(path: Path) -> None:
    new = replace(full_plan(), name="New")
    with PlanFile.open(path):
        said = refusal(lambda: PlanFile.create(path, new, replace=True))
        assert said == "“feast.cookday” is open in another window. Close it there, or choose another name."
    with PlanFile.create(path, new, replace=True) as file:
        assert file.plan() == new
    path.chmod(0o444)
    assert "may only be read" in refusal(lambda: PlanFile.create(path, full_plan(), replace=True))


def test_a_log_left_by_a_killed_program_is_not_read_into_the_file_that_takes_its_place(path: Path) -> None:
    with PlanFile.open(path) as file:
        file.save(full_plan(), replace(full_plan(), name="In the log"))
        left = {end: path.with_name(path.name + end).read_bytes() for end in ("", "-wal")}
    for end, content in left.items():
        path.with_name(path.name + end).write_bytes(content)
    PlanFile.create(path, replace(full_plan(), name="New"), replace=True).close()
    with PlanFile.open(path) as file:
        assert file.plan().name == "New"


def test_a_copy_over_itself_or_an_open_file(path: Path, tmp_path: Path) -> None:
    with PlanFile.open(path) as file:
        assert "is this plan's own file" in refusal(lambda: file.copy_to(path, replace=True))
        file.copy_to(tmp_path / "b.cookday")
        assert "is there already" in refusal(lambda: file.copy_to(tmp_path / "b.cookday"))
        file.save(full_plan(), replace(full_plan(), name="New"))
        file.copy_to(tmp_path / "b.cookday", replace=True)
    with PlanFile.open(tmp_path / "b.cookday") as copy:
        assert copy.plan().name == "New"


def test_a_plan_that_could_not_be_opened_is_not_created(tmp_path: Path) -> None:
    wrong = replace(full_plan(), name="")
    assert refusal(lambda: PlanFile.create(tmp_path / "a.cookday", wrong))
    elsewhere = replace(full_plan(), plating=replace(full_plan().plating, zone="Europe/Atlantis"))
    assert "Europe/Atlantis" in refusal(lambda: PlanFile.create(tmp_path / "a.cookday", elsewhere))
    assert list(tmp_path.iterdir()) == []


def test_a_creation_that_fails_leaves_nothing(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def fail(*_args: object) -> None:
        raise sqlite3.OperationalError("disk I/O error")

    monkeypatch.setattr("core.store.file.write", fail)
    assert "“a.cookday”" in refusal(lambda: PlanFile.create(tmp_path / "a.cookday", full_plan()))
    assert list(tmp_path.iterdir()) == []
