from __future__ import annotations

from dataclasses import replace
from datetime import datetime, timedelta
from pathlib import Path

import pytest

from core.measures.refusal import Refusal
from core.store import PlanFile, keep_copies, kept_copies
from tests.core.store.sample import full_plan

NOON = datetime(2026, 9, 24, 12).astimezone()


@pytest.fixture
def path(tmp_path: Path) -> Path:
    (tmp_path / "plans").mkdir()
    path = tmp_path / "plans" / "feast.cookday"
    PlanFile.create(path, full_plan()).close()
    return path


def rename(path: Path, name: str) -> None:
    with PlanFile.open(path) as file:
        file.save(file.plan(), replace(file.plan(), name=name))


def name_in(path: Path) -> str:
    with PlanFile.open(path) as file:
        return file.plan().name


def test_a_copy_bears_the_date_and_opens(path: Path, tmp_path: Path) -> None:
    folder = tmp_path / "deep" / "copies"
    copy = keep_copies(path, folder, now=NOON)
    assert copy is not None
    assert copy.parent == folder
    assert copy.name.startswith("feast ")
    assert copy.name.endswith(" 2026-09-24 120000.cookday")
    assert name_in(copy) == full_plan().name
    assert [each.name for each in path.parent.iterdir()] == ["feast.cookday"]


def test_a_copy_holds_what_an_open_file_has_in_its_log(path: Path, tmp_path: Path) -> None:
    with PlanFile.open(path) as file:
        file.save(full_plan(), replace(full_plan(), name="Logged"))
        copy = keep_copies(path, tmp_path, now=NOON)
    assert copy is not None
    assert name_in(copy) == "Logged"


def test_nothing_new_needs_no_copy(path: Path, tmp_path: Path) -> None:
    assert keep_copies(path, tmp_path, now=NOON) is not None
    assert keep_copies(path, tmp_path, now=NOON + timedelta(hours=1)) is None
    PlanFile.open(path).close()
    assert keep_copies(path, tmp_path, now=NOON + timedelta(hours=2)) is None
    rename(path, "New")
    assert keep_copies(path, tmp_path, now=NOON + timedelta(hours=3)) is not None
    assert len(kept_copies(path, tmp_path)) == 2


def test_the_oldest_copies_go(path: Path, tmp_path: Path) -> None:
    for day in range(5):
        rename(path, f"Day {day}")
        keep_copies(path, tmp_path, most=3, now=NOON + timedelta(days=day))
    assert [name_in(each) for each in kept_copies(path, tmp_path)] == ["Day 4", "Day 3", "Day 2"]


def test_files_of_one_name_in_two_folders_keep_their_own_copies(path: Path, tmp_path: Path) -> None:
    (tmp_path / "other").mkdir()
    other = tmp_path / "other" / "feast.cookday"
    PlanFile.create(other, replace(full_plan(), name="Other")).close()
    (tmp_path / "feast notes 2026-09-24 120000.cookday").write_text("not a copy")
    keep_copies(path, tmp_path, most=1, now=NOON)
    keep_copies(other, tmp_path, most=1, now=NOON + timedelta(days=1))
    assert [name_in(each) for each in kept_copies(path, tmp_path)] == [full_plan().name]
    assert [name_in(each) for each in kept_copies(other, tmp_path)] == ["Other"]
    assert (tmp_path / "feast notes 2026-09-24 120000.cookday").exists()


def test_copies_of_what_is_no_plan_are_refused(tmp_path: Path) -> None:
    (tmp_path / "note.txt").write_text("Roast at 180")
    with pytest.raises(Refusal, match=r"“note.txt” is not a plan file"):
        keep_copies(tmp_path / "note.txt", tmp_path)
    assert kept_copies(tmp_path / "note.txt", tmp_path / "no folder") == ()


def test_a_folder_that_cannot_be_made_is_a_refusal(path: Path, tmp_path: Path) -> None:
    (tmp_path / "taken").write_text("a file")
    with pytest.raises(Refusal, match="cannot be reached on the disk"):
        keep_copies(path, tmp_path / "taken" / "copies")
