"""Where a plan is kept: what begins gets a mark of its own, what is copied is another plan."""

from __future__ import annotations

from dataclasses import replace
from uuid import UUID

import pytest

import demo_data
from app.bridge import PlanPlace
from core.intake.text_plan import read_file, write_file
from core.plan.edits import RenamePlan
from core.store import PlanFile
from tests.support.builders import a_bench, a_step

MARK = "0f6ae3b2-6a0e-4f0c-9a55-2f1d5c3b7e10"


@pytest.fixture
def plan():
    return a_bench(a_step("soup.boil", minutes=20))


def test_a_plan_that_begins_gets_a_mark_of_its_own(plan, tmp_path):
    places = [PlanPlace.fresh(plan) for _ in range(2)]
    marks = {place.desk.plan.mark for place in places}
    assert len(marks) == 2
    assert all(UUID(mark).version == 4 for mark in marks)
    for place in places:
        assert replace(place.desk.plan, mark="") == plan
    # kept in its first file it is the same plan
    kept = places[0].keep_as(tmp_path / "feast")
    assert kept.desk.plan == places[0].desk.plan
    kept.close()
    again = PlanPlace.opened(tmp_path / "feast.cookday")
    assert again.desk.plan == places[0].desk.plan
    again.close()


def test_a_demo_gets_a_mark_each_time_it_is_opened(tmp_path):
    demo_data.put(tmp_path)
    path = tmp_path / "weeknight_supper.toml"
    marks = {PlanPlace.opened(path).desk.plan.mark for _ in range(2)}
    assert len(marks) == 2
    assert "" not in marks
    assert read_file(path).mark == ""  # the text itself stays as it is


def test_a_text_that_tells_its_mark_keeps_it(plan, tmp_path):
    write_file(replace(plan, mark=MARK), tmp_path / "feast.toml")
    assert PlanPlace.opened(tmp_path / "feast.toml").desk.plan.mark == MARK


def test_a_renamed_plan_has_the_mark_that_it_had_and_undo_leaves_it(plan, tmp_path):
    place = PlanPlace.fresh(plan).keep_as(tmp_path / "feast")
    mark = place.desk.plan.mark
    place.desk.apply(RenamePlan("Other"))
    assert place.desk.plan.mark == mark
    place.desk.undo()
    assert place.desk.plan.mark == mark
    place.close()


def test_a_copy_is_another_plan_and_the_one_copied_stays(plan, tmp_path):
    place = PlanPlace.fresh(plan).keep_as(tmp_path / "feast")
    mark = place.desk.plan.mark
    place.copy_to(tmp_path / "copy.cookday")
    assert place.file.plan().mark == mark
    with PlanFile.open(tmp_path / "copy.cookday") as file:
        assert file.held.mark not in {"", mark}
        assert replace(file.held, mark=mark) == place.desk.plan
    other = place.keep_as(tmp_path / "third")
    assert other.desk.plan.mark not in {"", mark}
    assert replace(other.desk.plan, mark="") == plan
    other.close()
    with PlanFile.open(tmp_path / "feast.cookday") as file:
        assert file.held.mark == mark


def test_a_plan_without_a_file_is_not_copied(plan, tmp_path):
    PlanPlace.fresh(plan).copy_to(tmp_path / "copy.cookday")
    assert list(tmp_path.iterdir()) == []
