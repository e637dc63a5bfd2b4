"""Days kept by name between the desk and the plan file: as they were, and none lost that cannot be read here."""

from __future__ import annotations

from datetime import UTC, datetime
from pathlib import Path

from app.bridge import OpenPlan, PlanPlace
from core.desk import KeepDay
from core.plan.plan import Plan
from core.store import KeptText, PlanFile
from core.timetable.on_paper import on_paper
from tests.support.builders import a_dish, a_kitchen, a_plan, a_step

AT = datetime(2026, 9, 20, 8, 15, tzinfo=UTC)


def the_plan() -> Plan:
    return a_plan(a_dish("soup", a_step("soup.stir", minutes=20)), kitchen=a_kitchen(cooks=1))


def opened(place: PlanPlace, qtbot) -> OpenPlan:
    return OpenPlan(place.desk)


def test_what_is_kept_is_there_when_the_file_is_opened_again(tmp_path: Path, qtbot) -> None:
    place = PlanPlace.fresh(the_plan()).keep_as(tmp_path / "feast.cookday")
    plan = opened(place, qtbot)
    assert plan.keep(KeepDay("calm", AT))
    kept = plan.kept
    place.close()
    again = PlanPlace.opened(tmp_path / "feast.cookday")
    assert again.desk.kept == kept
    assert again.desk.kept.day("calm").timetable == on_paper(the_plan())
    again.close()


def test_a_plan_that_gets_another_file_takes_its_days_along(tmp_path: Path, qtbot) -> None:
    fresh = PlanPlace.fresh(the_plan())
    assert opened(fresh, qtbot).keep(KeepDay("calm", AT))
    first = fresh.keep_as(tmp_path / "first.cookday")
    second = first.keep_as(tmp_path / "second.cookday")
    second.close()
    for name in ("first", "second"):
        with PlanFile.open(tmp_path / f"{name}.cookday") as file:
            assert [(each.name, each.current) for each in file.kept()] == [("calm", True)]


def test_a_day_that_cannot_be_read_is_left_out_and_stays_in_the_file(tmp_path: Path, qtbot) -> None:
    path = tmp_path / "feast.cookday"
    strange = KeptText("strange", "no timetable at all", AT.isoformat(), "")
    undated = KeptText("undated", '{"cookday_timetable": 1}', "one evening", "")
    with PlanFile.create(path, the_plan()) as file:
        file.keep((), (strange, undated))
    place = PlanPlace.opened(path)
    assert place.desk.kept.days == ()
    assert opened(place, qtbot).keep(KeepDay("calm", AT))
    place.close()
    with PlanFile.open(path) as file:
        assert {each.name for each in file.kept()} == {"strange", "undated", "calm"}


def test_where_another_window_has_changed_the_file_it_is_said_and_nothing_kept(tmp_path: Path, qtbot) -> None:
    path = tmp_path / "feast.cookday"
    place = PlanPlace.fresh(the_plan()).keep_as(path)
    plan = opened(place, qtbot)
    with PlanFile.open(path) as other:
        other.keep((), (KeptText("theirs", '{"cookday_timetable": 1}', AT.isoformat(), ""),))
    with qtbot.waitSignal(plan.refused) as refused:
        assert not plan.keep(KeepDay("calm", AT))
    assert "was changed by another window" in refused.args[0]
    assert plan.kept.days == ()
    assert not plan.desk.can_undo
    place.close()
