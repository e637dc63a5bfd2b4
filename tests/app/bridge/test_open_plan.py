from __future__ import annotations

from pathlib import Path

import pytest

from app.bridge import OpenPlan, PlanPlace
from core.desk import Desk
from core.measures.refusal import Refusal
from core.plan.edits import PinStep, RenamePlan
from core.plan.step import Keep
from core.timetable.on_paper import on_paper
from tests.support.builders import a_dish, a_plan, a_step


def a_supper():
    return a_plan(a_dish("soup", a_step("soup.boil", minutes=20), keep=Keep(10)), name="Supper")


def test_an_edit_is_told_as_one_change(qtbot) -> None:
    opened = OpenPlan(Desk(a_supper()))
    with qtbot.waitSignal(opened.changed) as told:
        assert opened.apply(RenamePlan("Feast"))
    assert told.args[0].after.name == "Feast"
    with qtbot.waitSignal(opened.changed):
        opened.undo()
    assert opened.plan == a_supper()
    with qtbot.waitSignal(opened.changed):
        opened.redo()
    assert opened.plan.name == "Feast"


def test_a_refused_edit_is_told_in_words_and_changes_nothing(qtbot) -> None:
    opened = OpenPlan(Desk(a_supper()))
    with qtbot.waitSignal(opened.refused) as told, qtbot.assertNotEmitted(opened.changed):
        assert not opened.apply(PinStep("soup.stir", start=-10))
    assert "soup.stir" in told.args[0]
    assert opened.plan == a_supper()


def test_clashes_follow_what_is_seen(qtbot) -> None:
    plan = a_supper()
    opened = OpenPlan(Desk(plan, timetable=on_paper(plan)))
    assert opened.clashes == ()
    assert opened.clashes is opened.clashes
    opened.apply(PinStep("soup.boil", start=-60))
    assert [clash.kind.value for clash in opened.clashes] == ["not where it was pinned"]


def test_a_plan_is_kept_as_it_is_edited_and_what_was_seen_with_it(tmp_path: Path) -> None:
    place = PlanPlace.fresh(a_supper()).keep_as(tmp_path / "supper")
    assert place.file.path == tmp_path / "supper.cookday"
    place.desk.apply(RenamePlan("Feast"))
    place.keep_seen()
    seen = place.desk.timetable
    place.close()
    again = PlanPlace.opened(tmp_path / "supper.cookday")
    assert again.desk.plan.name == "Feast"
    assert again.desk.timetable == seen
    again.close()


def test_a_file_that_is_not_there_is_refused(tmp_path: Path) -> None:
    with pytest.raises(Refusal, match="nowhere"):
        PlanPlace.opened(tmp_path / "nowhere.cookday")


def test_a_plan_whose_kept_timetable_cannot_be_read_opens_with_one_counted_back(tmp_path: Path) -> None:
    place = PlanPlace.fresh(a_supper()).keep_as(tmp_path / "supper")
    place.file.keep_seen("no timetable")
    place.close()
    again = PlanPlace.opened(tmp_path / "supper.cookday")
    assert again.desk.timetable == on_paper(a_supper())
    again.close()
