"""The plan's mark in its file: kept through every save, given to older files, and another one for another plan."""

from __future__ import annotations

import shutil
import sqlite3
from contextlib import closing
from dataclasses import replace
from pathlib import Path
from uuid import UUID

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from core.desk import Desk
from core.desk.kept import plan_mark as state_of
from core.measures.refusal import Refusal
from core.plan.edits import RenamePlan
from core.plan.plan import Plan, new_mark
from core.store import PlanFile
from core.store.mark import SCHEMA
from core.store.rows import to_plan, to_rows
from tests.core.store.sample import OLDER_MARK, full_plan, sample_days
from tests.support.random_edits import edits_for
from tests.support.strategies import plans

SAMPLES = Path(__file__).parent / "samples"
OLDER = range(1, 5)
OTHER = "2f0d5c1a-94a5-4c59-8a62-1d1b1f0c7f4e"


def old(layout: int, path: Path) -> Path:
    return Path(shutil.copy(SAMPLES / f"v{layout}.cookday", path))


def test_a_new_mark_is_a_random_uuid_in_its_usual_form() -> None:
    # RFC 9562, 4 and 5.4: version 4, lower case, with hyphens
    found = {new_mark() for _ in range(200)}
    assert len(found) == 200
    assert all(UUID(each).version == 4 and str(UUID(each)) == each for each in found)


@pytest.mark.parametrize("layout", OLDER)
def test_an_older_file_gets_a_mark_that_stays(layout: int, tmp_path: Path) -> None:
    path = old(layout, tmp_path / "feast.cookday")
    for _again in range(2):
        with PlanFile.open(path) as file:
            assert file.plan().mark == OLDER_MARK
    with PlanFile.open(path) as file:
        file.save(file.held, replace(file.held, name="Another name"))
    with PlanFile.open(path) as file:
        assert (file.held.name, file.held.mark) == ("Another name", OLDER_MARK)


def test_an_older_file_that_may_only_be_read_has_the_same_mark_at_each_opening(tmp_path: Path) -> None:
    path = old(2, tmp_path / "feast.cookday")
    path.chmod(0o444)
    for _again in range(2):
        with PlanFile.open(path) as file:
            assert file.read_only
            assert file.held.mark == OLDER_MARK


@pytest.mark.parametrize(
    "changed", ["name = 'Other'", "plating_local = '2027-12-24T19:00:00'", "plating_zone = 'Europe/Paris'"]
)
def test_older_files_of_other_plans_get_other_marks(changed: str, tmp_path: Path) -> None:
    path = old(4, tmp_path / "feast.cookday")
    with closing(sqlite3.connect(path)) as raw, raw:
        raw.execute(f"UPDATE plan SET {changed}")  # noqa: S608  our own words
    with PlanFile.open(path) as file:
        assert UUID(file.held.mark) != UUID(OLDER_MARK)


def test_an_older_file_of_the_same_name_and_other_dishes_gets_another_mark(tmp_path: Path) -> None:
    path = old(4, tmp_path / "feast.cookday")
    with closing(sqlite3.connect(path)) as raw, raw:
        raw.execute("UPDATE dish SET name = 'Soup' WHERE position = 0")
    with PlanFile.open(path) as file:
        assert file.held.mark != OLDER_MARK


def test_an_older_program_refuses_a_file_with_marks(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    PlanFile.create(tmp_path / "feast.cookday", full_plan()).close()
    monkeypatch.setattr("core.store.opening.SCHEMA", 4)
    said = rf"newer Cook-Day Planner \(its layout is {SCHEMA}, this program reads up to 4\)"
    with pytest.raises(Refusal, match=said):
        PlanFile.open(tmp_path / "feast.cookday")


def test_a_copy_is_the_same_plan_or_another_one(tmp_path: Path) -> None:
    with PlanFile.create(tmp_path / "feast.cookday", full_plan()) as file:
        file.keep((), sample_days())
        file.keep_seen("seen")
        file.copy_to(tmp_path / "same.cookday")
        file.copy_to(tmp_path / "other.cookday", mark=OTHER)
        assert file.plan() == full_plan()
    with PlanFile.open(tmp_path / "same.cookday") as file:
        assert file.held == full_plan()
    with PlanFile.open(tmp_path / "other.cookday") as file:
        assert file.held == replace(full_plan(), mark=OTHER)
        assert (file.kept(), file.seen()) == (sample_days(), "seen")
        file.save(file.held, replace(file.held, name="Other"))
    assert sorted(each.name for each in tmp_path.iterdir()) == ["feast.cookday", "other.cookday", "same.cookday"]


def test_a_copy_of_a_file_that_may_only_be_read_is_another_plan_too(tmp_path: Path) -> None:
    path = old(5, tmp_path / "feast.cookday")
    path.chmod(0o444)
    with PlanFile.open(path) as file:
        file.copy_to(tmp_path / "other.cookday", mark=OTHER)
    with PlanFile.open(tmp_path / "other.cookday") as file:
        assert file.held == replace(full_plan(), mark=OTHER)


def test_renaming_writes_the_name_alone_and_undo_leaves_the_mark(tmp_path: Path) -> None:
    with PlanFile.create(tmp_path / "feast.cookday", full_plan()) as file:

        class Keep:
            def save(self, before: Plan, after: Plan) -> None:
                assert file.save(before, after) == 1

        desk = Desk(file.held, Keep())
        desk.apply(RenamePlan("Other"))
        assert (file.plan().name, file.plan().mark) == ("Other", full_plan().mark)
        desk.undo()
        assert file.plan() == full_plan()


def test_days_kept_before_there_were_marks_still_know_their_plan() -> None:
    plan = full_plan()
    assert {state_of(replace(plan, mark=mark)) for mark in ("", OTHER)} == {state_of(plan)}


marks = st.one_of(st.just(""), st.uuids().map(str))


@settings(max_examples=60, suppress_health_check=[HealthCheck.too_slow])
@given(plans(most_dishes=2, most_steps=3), marks)
def test_the_mark_comes_back_from_its_rows(plan: Plan, mark: str) -> None:
    plan = replace(plan, mark=mark)
    rows = {table: list(found.values()) for table, found in to_rows(plan).items()}
    assert to_plan(rows) == plan


@settings(max_examples=60, suppress_health_check=[HealthCheck.too_slow])
@given(st.data(), plans(most_dishes=2, most_steps=3), st.uuids().map(str))
def test_no_edit_no_undo_and_no_redo_changes_the_mark(data: st.DataObject, plan: Plan, mark: str) -> None:
    desk = Desk(replace(plan, mark=mark))
    for _number in range(data.draw(st.integers(1, 5))):
        try:
            desk.apply(data.draw(edits_for(desk.plan)))
        except Refusal:
            continue
        assert desk.plan.mark == mark
    while desk.undo() is not None:
        assert desk.plan.mark == mark
    while desk.redo() is not None:
        assert desk.plan.mark == mark
