from __future__ import annotations

import sqlite3
import tempfile
import threading
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest

from core.measures.refusal import Refusal
from core.plan.decisions import Decisions, Pin
from core.plan.ids import DishId, StepId
from core.plan.kitchen import Heater
from core.plan.menu import Menu
from core.plan.plan import Plan
from core.store import fresh
from core.store.file import PlanFile
from tests.core.store.sample import full_plan


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return tmp_path / "feast.cookday"


@pytest.fixture
def file(path: Path) -> Iterator[PlanFile]:
    with PlanFile.create(path, full_plan()) as made:
        yield made


def with_dishes(plan: Plan, *names: str) -> Plan:
    """Return a plan with these of its dishes alone, in this order, and no links or decisions."""
    dishes = tuple(plan.dishes[DishId(name)] for name in names)
    return replace(plan, menu=Menu(dishes), decisions=Decisions())


def test_a_plan_file_is_made_where_it_is_to_be_and_nowhere_else(path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The system's folder for passing files may be full or locked: the plan's own place is what counts."""

    def full(*_args: object, **_kwargs: object) -> str:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(tempfile, "mkdtemp", full)
    monkeypatch.setattr(tempfile, "mkstemp", full)
    made: list[bytes] = []
    monkeypatch.setattr(fresh, "_made", made)
    for name in ("first", "second"):
        with PlanFile.create(path.with_stem(name), full_plan()) as file:
            assert file.held == full_plan()
    assert len(made) == 1
    assert path.with_stem("first").stat().st_mode == path.with_stem("second").stat().st_mode
    assert sorted(each.name for each in path.parent.iterdir()) == ["first.cookday", "second.cookday"]


def rows_in(path: Path, table: str) -> int:
    with sqlite3.connect(path) as raw:
        count: int = raw.execute(f"SELECT count(*) FROM {table}").fetchone()[0]  # noqa: S608  names of ours
    raw.close()
    return count


def reopened(path: Path) -> Plan:
    with PlanFile.open(path) as again:
        return again.plan()


def beside(path: Path) -> list[str]:
    return sorted(each.name for each in path.parent.iterdir())


def test_a_created_file_holds_the_plan(file: PlanFile, path: Path) -> None:
    assert file.plan() == full_plan()
    assert file.held == full_plan()
    assert not file.read_only
    file.close()
    assert reopened(path) == full_plan()


def test_a_closed_file_lies_alone(file: PlanFile, path: Path) -> None:
    file.save(file.held, replace(file.held, name="Other"))
    assert beside(path) == ["feast.cookday", "feast.cookday-shm", "feast.cookday-wal"]
    file.close()
    file.close()
    assert beside(path) == ["feast.cookday"]
    copy = path.with_name("by hand.cookday")
    copy.write_bytes(path.read_bytes())
    assert reopened(copy).name == "Other"


def test_a_settled_file_can_be_copied_by_hand_while_it_is_open(file: PlanFile, path: Path) -> None:
    file.save(file.held, replace(file.held, name="Other"))
    file.settle()
    copy = path.with_name("by hand.cookday")
    copy.write_bytes(path.read_bytes())
    assert reopened(copy).name == "Other"


def test_saving_counts_the_rows(file: PlanFile, path: Path) -> None:
    plan = full_plan()
    first, *rest = plan.decisions.pins
    moved = replace(plan, decisions=replace(plan.decisions, pins=(replace(first, start=-210), *rest)))
    assert file.save(plan, moved) == 1
    assert file.save(moved, moved) == 0
    renamed = replace(
        moved,
        menu=replace(
            moved.menu, dishes=(replace(moved.menu.dishes[0], name="Beans"), *moved.menu.dishes[1:])
        ),
    )
    assert file.save(moved, renamed) == 1
    turned = replace(renamed, menu=replace(renamed.menu, dishes=renamed.menu.dishes[::-1]))
    assert file.save(renamed, turned) == 2
    file.close()
    assert reopened(path) == turned


def test_a_saved_pin_writes_one_row_of_the_database(file: PlanFile) -> None:
    plan = full_plan()
    first, *rest = plan.decisions.pins
    moved = replace(plan, decisions=replace(plan.decisions, pins=(replace(first, start=-210), *rest)))
    said: list[str] = []
    file._database.raw.set_trace_callback(said.append)
    file.save(plan, moved)
    written = [each for each in said if each.split()[0] in {"UPDATE", "INSERT", "DELETE"}]
    assert [each.split()[1].strip('"') for each in written] == ["plan", "pin"]


def test_steps_that_trade_places_pass_each_other(file: PlanFile, path: Path) -> None:
    plan = full_plan()
    beans = plan.menu.dishes[0]
    turned = replace(beans, steps=(beans.steps[2], beans.steps[0], beans.steps[1]))
    after = replace(plan, menu=replace(plan.menu, dishes=(turned, *plan.menu.dishes[1:])))
    assert file.save(plan, after) == 3
    file.close()
    assert reopened(path) == after


def test_things_come_in_front_and_go_from_the_middle(file: PlanFile, path: Path) -> None:
    plan = full_plan()
    three = with_dishes(plan, "beans", "roots", "cream")
    file.save(plan, three)
    two = with_dishes(plan, "beans", "cream")
    assert file.save(three, two) == 1 + 2 + 1  # the dish, its two steps, the place of the last
    turned = with_dishes(plan, "roots", "cream", "beans")
    file.save(two, turned)
    file.close()
    assert reopened(path) == turned


def test_a_plan_may_be_emptied_and_filled(file: PlanFile, path: Path) -> None:
    plan = full_plan()
    bare = Plan("Nothing yet", plan.plating)
    file.save(plan, bare)
    assert rows_in(path, "step") == rows_in(path, "station") == rows_in(path, "pin") == 0
    file.save(bare, plan)
    file.close()
    assert reopened(path) == plan


def test_what_belongs_to_a_dish_goes_with_it(file: PlanFile, path: Path) -> None:
    file.close()
    raw = sqlite3.connect(path)
    raw.execute("PRAGMA foreign_keys = ON")
    with raw:
        raw.execute("DELETE FROM dish WHERE id = 'beans'")
    left = {table: raw.execute(f"SELECT count(*) FROM {table}").fetchone()[0] for table in ("step", "link")}  # noqa: S608
    assert left == {"step": 3, "link": 1}
    assert raw.execute("SELECT step FROM pin ORDER BY step").fetchall() == [("roots.cut",), ("roots.roast",)]
    assert raw.execute("SELECT count(*) FROM ingredient").fetchone() == (0,)
    with raw:
        raw.execute("DELETE FROM station WHERE id = 'oven'")
    assert raw.execute("SELECT station FROM pin").fetchall() == [(None,), (None,)]
    raw.close()


def test_a_save_that_fails_in_the_middle_leaves_nothing(file: PlanFile, path: Path) -> None:
    plan = full_plan()
    renamed = replace(plan, name="Half written", transfer=0)
    nowhere = replace(renamed, decisions=Decisions(pins=(Pin(StepId("beans.gone")),)))
    with pytest.raises(Refusal, match=r"“feast.cookday” was not saved: the plan names a step.*Undo"):
        file.save(plan, nowhere)
    assert file.plan() == plan
    assert file.save(plan, renamed) == 1
    file.close()
    assert reopened(path) == renamed


def test_a_save_that_was_refused_may_be_tried_again(file: PlanFile, path: Path) -> None:
    plan = full_plan()
    with pytest.raises(
        Refusal, match=r"“feast.cookday” was not saved: the plan holds a number or a character"
    ):
        file.save(plan, replace(plan, name="\ud800"))
    after = replace(plan, name="Mended", transfer=0)
    assert file.save(plan, after) == 1
    file.close()
    assert reopened(path) == after


def test_what_would_not_be_read_again_is_not_written(file: PlanFile, path: Path) -> None:
    plan = full_plan()
    half = replace(plan.menu.dishes[0], course=7.5)  # type: ignore[arg-type]  # a fault of ours, let in
    wrong = replace(plan, menu=replace(plan.menu, dishes=(half, *plan.menu.dishes[1:])))
    with pytest.raises(Refusal, match=r"something that no file can keep \(7.5 is not of type int\)"):
        file.save(plan, wrong)
    with pytest.raises(Refusal, match="no file can keep"):
        PlanFile.create(path.with_name("b.cookday"), wrong)
    hot = replace(plan.kitchen.stations[0], heater=Heater(up=float("nan")))
    with pytest.raises(Refusal, match="no file can keep"):
        file.save(
            plan, replace(plan, kitchen=replace(plan.kitchen, stations=(hot, *plan.kitchen.stations[1:])))
        )
    assert file.plan() == plan


def test_numbers_beyond_the_file_are_refused(file: PlanFile) -> None:
    with pytest.raises(Refusal, match="no file can keep"):
        file.save(full_plan(), replace(full_plan(), opens=-(2**70)))


def test_two_windows_do_not_overwrite_each_other(file: PlanFile, path: Path) -> None:
    plan = full_plan()
    mine, theirs = replace(plan, name="Mine"), replace(plan, transfer=0)
    with PlanFile.open(path) as other:
        other.save(plan, theirs)
        with pytest.raises(Refusal, match=r"“feast.cookday” was changed by another window"):
            file.save(plan, mine)
        with pytest.raises(Refusal, match="changed by another window"):
            file.save(mine, replace(mine, opens=-500))
        assert file.plan() == theirs
        both = replace(theirs, name="Mine")
        assert file.save(theirs, both) == 1
        assert other.plan() == both


def test_a_plan_that_was_never_here_is_not_saved_from(file: PlanFile) -> None:
    with pytest.raises(Refusal, match="changed by another window"):
        file.save(replace(full_plan(), name="Elsewhere"), full_plan())
    assert file.plan() == full_plan()


def test_a_stale_plan_does_not_undo_what_was_read_anew(file: PlanFile, path: Path) -> None:
    plan = full_plan()
    with PlanFile.open(path) as other:
        other.save(plan, replace(plan, transfer=0))
    file.plan()
    with pytest.raises(Refusal, match="changed by another window"):
        file.save(plan, replace(plan, name="Mine"))


def test_threads_take_turns(file: PlanFile, path: Path) -> None:
    faults: list[BaseException] = []

    def copy(number: int) -> None:
        try:
            file.copy_to(path.with_name(f"copy {number}.cookday"))
        except BaseException as error:  # noqa: BLE001  handed to the test
            faults.append(error)

    threads = [threading.Thread(target=copy, args=(number,)) for number in range(4)]
    for thread in threads:
        thread.start()
    plan = file.held
    for minute in range(20):
        after = replace(plan, opens=-3000 - minute)
        file.save(plan, after)
        plan = after
    for thread in threads:
        thread.join()
    assert faults == []
    for number in range(4):
        copied = reopened(path.with_name(f"copy {number}.cookday"))
        assert replace(copied, opens=None) == replace(plan, opens=None)


def test_a_copy_holds_what_the_file_holds(file: PlanFile, path: Path) -> None:
    plan = replace(full_plan(), name="Copied")
    file.save(full_plan(), plan)
    file.copy_to(path.with_name("copy.cookday"))
    file.save(plan, full_plan())
    assert reopened(path.with_name("copy.cookday")) == plan
    assert file.plan() == full_plan()
    file.close()
    assert beside(path) == ["copy.cookday", "feast.cookday"]
