from __future__ import annotations

from pathlib import Path

from core.store import PlanFile
from tests.core.store.sample import full_plan


def test_what_was_seen_is_there_again_and_is_no_part_of_the_plan(tmp_path: Path) -> None:
    path = tmp_path / "feast.cookday"
    with PlanFile.create(path, full_plan()) as file:
        assert file.seen() == ""
        file.keep_seen('{"one": 1}')
        file.keep_seen('{"two": "é"}')
        assert file.plan() == full_plan()
    with PlanFile.open(path) as file:
        assert file.seen() == '{"two": "é"}'
        file.save(file.held, full_plan())
        file.keep_seen("")
        assert file.seen() == ""


def test_a_read_only_file_keeps_nothing(tmp_path: Path) -> None:
    path = tmp_path / "feast.cookday"
    with PlanFile.create(path, full_plan()) as file:
        file.keep_seen("first")
        file.read_only = True
        file.keep_seen("second")
        file.read_only = False
        assert file.seen() == "first"


def test_a_save_after_what_is_seen_was_kept_is_no_other_windows_change(tmp_path: Path) -> None:
    from dataclasses import replace

    path = tmp_path / "feast.cookday"
    with PlanFile.create(path, full_plan()) as file:
        file.keep_seen("x")
        changed = replace(full_plan(), name="Other")
        assert file.save(full_plan(), changed) == 1
