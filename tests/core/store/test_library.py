"""The library file: keeping, replacing, removing; two windows; what cannot be read; what it never changes."""

from __future__ import annotations

import json
import shutil
import sqlite3
import stat
from collections.abc import Callable, Iterator
from contextlib import closing
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from core.measures.refusal import Refusal
from core.plan.edits.library import OwnCopy, TakeDish, own_copy
from core.plan.ids import DishId
from core.plan.plan import Plan
from core.store.file import PlanFile
from core.store.library import Library
from core.store.library_sentences import Damaged
from core.store.library_tables import LIBRARY_LAYOUT
from tests.core.store.sample import full_plan
from tests.support.builders import a_dish, a_kitchen, a_plan, a_step
from tests.support.strategies import plans

DAY = datetime(2026, 9, 20, 8, 15, tzinfo=UTC)


def a_copy(name: str, *steps: str) -> OwnCopy:
    word = name.casefold().replace(" ", "-")
    return OwnCopy(a_dish(word, *(a_step(f"{word}.s{n}", does) for n, does in enumerate(steps)), name=name))


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return tmp_path / "data" / "own.cooklib"


@pytest.fixture
def library(path: Path) -> Iterator[Library]:
    with Library.open(path) as found:
        yield found


def refusal(act: Callable[[], object]) -> str:
    with pytest.raises(Refusal) as caught:
        act()
    return str(caught.value)


def names(library: Library) -> list[str]:
    return [each.name for each in library.dishes()]


# ---------------------------------------------------------------- keeping


def test_a_new_library_is_empty_and_one_file(library: Library, path: Path) -> None:
    assert library.dishes() == ()
    assert library.kitchens() == ()
    library.close()
    assert [each.name for each in path.parent.iterdir()] == ["own.cooklib"]


def test_a_dish_with_everything_in_it_comes_back_as_it_is(path: Path) -> None:
    plan = full_plan()
    copies = [own_copy(plan, dish) for dish in plan.dishes]
    with Library.open(path, now=lambda: DAY) as library:
        kept = [library.keep_dish(copy, "Midwinter table") for copy in copies]
    with Library.open(path) as library:
        found = {each.key: each for each in library.dishes()}
    assert [found[each.key] for each in kept] == kept
    assert [each.copy for each in kept] == copies
    assert {(each.kept, each.changed, each.origin, each.revision) for each in kept} == {
        (DAY, DAY, "Midwinter table", 1)
    }


def test_dishes_come_by_name_whatever_the_case_of_letters(library: Library) -> None:
    for name in ("roast roots", "Apple snow", "Pea soup"):
        library.keep_dish(a_copy(name))
    assert names(library) == ["Apple snow", "Pea soup", "roast roots"]


def test_a_name_that_is_taken_is_refused_or_gets_a_number(library: Library) -> None:
    library.keep_dish(a_copy("Pea soup"))
    said = refusal(lambda: library.keep_dish(a_copy("PEA  Soup")))
    assert said == "“PEA Soup” is kept already. Replace the one that is kept, or keep this one as another."
    for _ in range(2):
        library.keep_dish(a_copy("Pea soup"), another=True)
    assert names(library) == ["Pea soup", "Pea soup 2", "Pea soup 3"]


def test_a_better_one_takes_the_place_and_keeps_key_and_first_day(path: Path) -> None:
    moments = iter([DAY, DAY + timedelta(days=3)])
    with Library.open(path, now=lambda: next(moments)) as library:
        held = library.keep_dish(a_copy("Pea soup", "Boil"), "Lunch")
        better = library.replace(held, a_copy("Pea soup", "Boil", "Blend"), "Supper")
        assert library.dishes() == (better,)
    assert (better.key, better.kept, better.revision) == (held.key, DAY, 2)
    assert (better.changed, better.origin) == (DAY + timedelta(days=3), "Supper")


def test_a_dish_cannot_take_the_name_of_another(library: Library) -> None:
    library.keep_dish(a_copy("Pea soup"))
    held = library.keep_dish(a_copy("Bean soup"))
    assert "is kept already" in refusal(lambda: library.replace(held, a_copy("Pea soup")))
    assert names(library) == ["Bean soup", "Pea soup"]


def test_what_was_removed_comes_back_also_where_its_name_was_given_away(library: Library) -> None:
    soup = library.keep_dish(a_copy("Pea soup", "Boil"))
    library.remove(soup)
    assert library.dishes() == ()
    assert library.put_back(soup).copy == soup.copy
    library.remove(library.dishes()[0])
    library.keep_dish(a_copy("Pea soup", "Fry"))
    back = library.put_back(soup)
    assert back.name == "Pea soup 2"
    assert names(library) == ["Pea soup", "Pea soup 2"]


def test_a_dish_removed_and_put_back_is_not_taken_for_what_another_window_has_seen(path: Path) -> None:
    with Library.open(path) as one, Library.open(path) as other:
        first = one.keep_dish(a_copy("Pea soup", "Boil"))
        second = one.replace(first, a_copy("Pea soup", "Steam"))
        assert other.dishes() == (second,)
        one.remove(second)
        back = one.put_back(first)
        assert other.dishes() == (back,)
        assert "no longer in the library" in refusal(lambda: other.replace(second, a_copy("Pea soup", "Fry")))
        assert other.dishes() == (back,)


def test_what_no_file_can_keep_is_refused_and_the_rest_stays(library: Library) -> None:
    library.keep_dish(a_copy("Pea soup"))
    lone = replace(a_copy("Bean soup").dish, note="half a sign: \ud800")
    assert "Nothing was kept" in refusal(lambda: library.keep_dish(OwnCopy(replace(lone, name="\ud800"))))
    assert names(library) == ["Pea soup"]


def test_kitchens_are_known_by_name(path: Path) -> None:
    moments = iter([DAY, DAY, DAY + timedelta(days=1)])
    hall, home = replace(full_plan().kitchen, name="The hall"), replace(a_kitchen(), name="Home")
    larger = replace(hall, name="the Hall", walk=5)
    with Library.open(path, now=lambda: next(moments)) as library:
        library.keep_kitchen(hall)
        library.keep_kitchen(home)
        assert [each.kitchen for each in library.kitchens()] == [home, hall]
        again = library.keep_kitchen(larger)
        assert [each.kitchen for each in library.kitchens()] == [home, larger]
        assert (again.kept, again.changed, again.revision) == (DAY, DAY + timedelta(days=1), 2)
        library.remove_kitchen("HOME")
        assert [each.name for each in library.kitchens()] == ["the Hall"]
        assert "no longer in the library" in refusal(lambda: library.remove_kitchen("Home"))


# ---------------------------------------------------------------- two windows


def test_two_windows_see_and_keep_each_others_dishes(path: Path) -> None:
    with Library.open(path) as one, Library.open(path) as other:
        one.keep_dish(a_copy("Pea soup"))
        other.keep_dish(a_copy("Bean soup"))
        assert "is kept already" in refusal(lambda: other.keep_dish(a_copy("Pea soup")))
        assert names(one) == names(other) == ["Bean soup", "Pea soup"]


def test_what_another_window_changed_is_not_written_over(path: Path) -> None:
    with Library.open(path) as one, Library.open(path) as other:
        held = one.keep_dish(a_copy("Pea soup", "Boil"))
        theirs = other.replace(held, a_copy("Pea soup", "Steam"))
        said = refusal(lambda: one.replace(held, a_copy("Pea soup", "Fry")))
        assert "changed in the library by another window" in said
        assert refusal(lambda: one.remove(held)) == said
        assert one.dishes() == (theirs,)
        one.remove(theirs)
        assert "no longer in the library" in refusal(lambda: other.replace(theirs, a_copy("Pea soup", "Fry")))
        assert other.dishes() == ()


def test_a_library_that_another_window_is_writing_is_waited_for_then_refused(path: Path, monkeypatch) -> None:
    monkeypatch.setattr("core.store.connect.PATIENCE", 0.05)
    with Library.open(path) as library, closing(sqlite3.connect(path, isolation_level=None)) as other:
        other.execute("BEGIN IMMEDIATE")
        assert "being written by another window" in refusal(lambda: library.keep_dish(a_copy("Pea soup")))
        other.execute("ROLLBACK")
        library.keep_dish(a_copy("Pea soup"))
        assert names(library) == ["Pea soup"]


# ---------------------------------------------------------------- what lies there is never spoilt


def seen_and_refused(path: Path, kind: type[Refusal]) -> str:
    """Return why a file is refused, having seen that it and its folder stay as they were."""
    before, beside = path.read_bytes(), sorted(path.parent.iterdir())
    with pytest.raises(kind) as caught:
        Library.open(path)
    assert path.read_bytes() == before
    assert sorted(path.parent.iterdir()) == beside
    return str(caught.value)


def test_a_damaged_library_is_refused_then_set_aside_and_a_new_one_begins(path: Path) -> None:
    with Library.open(path) as library:
        for number in range(40):
            library.keep_dish(a_copy(f"Soup {number}", "Boil " * 100))
    broken = bytearray(path.read_bytes())
    broken[5000:9000] = b"\xff" * 4000
    path.write_bytes(broken)
    said = seen_and_refused(path, Damaged)
    assert said.startswith("The library “own.cooklib” is damaged: ")
    assert said.endswith("set it aside and begin a new one.")
    aside = Library.set_aside(path)
    assert aside.name == "own.damaged.cooklib"
    assert aside.read_bytes() == broken
    with Library.open(path) as library:
        assert library.dishes() == ()
    path.write_bytes(b"x" * 200)
    assert Library.set_aside(path).name == "own.damaged-2.cooklib"
    assert aside.read_bytes() == broken


@pytest.mark.parametrize("content", [b"grocer's bill", b"SQLite format 3\x00" + b"\x00" * 84 + b"x" * 400])
def test_what_is_no_library_is_left_alone(path: Path, content: bytes) -> None:
    path.parent.mkdir()
    path.write_bytes(content)
    assert "is a file of another kind" in seen_and_refused(path, Damaged)


def test_a_plan_file_is_no_library(path: Path) -> None:
    path.parent.mkdir()
    PlanFile.create(path.with_suffix(".cookday"), full_plan()).close()
    shutil.move(path.with_suffix(".cookday"), path)
    assert "is a file of another kind" in seen_and_refused(path, Damaged)


def test_a_library_of_a_newer_program_is_left_alone_and_not_called_damaged(path: Path) -> None:
    Library.open(path).close()
    with closing(sqlite3.connect(path)) as raw, raw:
        raw.execute(f"PRAGMA user_version = {LIBRARY_LAYOUT + 1}")
    said = seen_and_refused(path, Refusal)
    assert "was written by a newer Cook-Day Planner (its layout is 2, this program reads up to 1)" in said
    with pytest.raises(Refusal) as caught:
        Library.open(path)
    assert not isinstance(caught.value, Damaged)


def test_a_library_without_its_tables_is_damaged(path: Path) -> None:
    Library.open(path).close()
    with closing(sqlite3.connect(path)) as raw, raw:
        raw.execute("DROP TABLE own_kitchen")
    assert "its tables are not all there" in seen_and_refused(path, Damaged)


def test_an_empty_file_left_by_a_cut_off_start_becomes_a_library(path: Path) -> None:
    path.parent.mkdir()
    path.touch()
    with Library.open(path) as library:
        library.keep_dish(a_copy("Pea soup"))
        assert names(library) == ["Pea soup"]


def test_a_folder_in_its_place_is_said(path: Path) -> None:
    path.mkdir(parents=True)
    assert "is a folder. Move it away" in refusal(lambda: Library.open(path))


def test_a_place_where_no_folder_can_be_made_is_said(tmp_path: Path) -> None:
    (tmp_path / "data").write_text("in the way")
    assert "cannot be reached on the disk" in refusal(lambda: Library.open(tmp_path / "data" / "own.cooklib"))


def test_a_library_that_may_only_be_read_is_read_and_refuses_to_be_written(path: Path) -> None:
    with Library.open(path) as library:
        library.keep_dish(a_copy("Pea soup"))
    path.chmod(stat.S_IRUSR)
    with Library.open(path) as library:
        assert names(library) == ["Pea soup"]
        assert "may only be read" in refusal(lambda: library.keep_dish(a_copy("Bean soup")))


def test_a_library_that_was_moved_away_takes_nothing(library: Library, path: Path) -> None:
    path.rename(path.with_name("elsewhere"))
    assert "no longer where it was" in refusal(lambda: library.keep_dish(a_copy("Pea soup")))


# ---------------------------------------------------------------- older and newer values


def stored(path: Path) -> dict[str, str]:
    with closing(sqlite3.connect(path)) as raw:
        return dict(raw.execute("SELECT called, copy FROM own_dish").fetchall())


def store(path: Path, called: str, copy: object) -> None:
    with closing(sqlite3.connect(path)) as raw, raw:
        raw.execute("UPDATE own_dish SET copy = ? WHERE called = ?", (json.dumps(copy), called))


def test_fields_that_a_row_does_not_know_yet_have_their_defaults(path: Path) -> None:
    with Library.open(path) as library:
        kept = library.keep_dish(a_copy("Pea soup", "Boil"))
    old = json.loads(stored(path)["pea soup"])
    for name in ("scale", "pan", "pan_wanted"):  # came after the first release of the plan file
        del old["dish"][name]
    del old["stations"]
    store(path, "pea soup", old)
    with Library.open(path) as library:
        assert library.dishes() == (kept,)


def test_a_row_that_cannot_be_read_is_counted_and_stays_in_the_file(path: Path) -> None:
    with Library.open(path) as library:
        library.keep_dish(a_copy("Pea soup"))
        library.keep_dish(a_copy("Bean soup"))
    newer = json.loads(stored(path)["pea soup"])
    newer["dish"]["aroma"] = "smoke"
    store(path, "pea soup", newer)
    with Library.open(path) as library:
        assert names(library) == ["Bean soup"]
        assert library.unread == 1
        assert "is kept already" in refusal(lambda: library.keep_dish(a_copy("Pea soup")))
        library.keep_dish(a_copy("Pea soup"), another=True)
    assert json.loads(stored(path)["pea soup"]) == newer
    assert sorted(stored(path)) == ["bean soup", "pea soup", "pea soup 2"]


# ---------------------------------------------------------------- copies are values


@settings(suppress_health_check=[HealthCheck.too_slow, HealthCheck.function_scoped_fixture])
@given(st.data(), plans(most_dishes=2, most_steps=3).filter(lambda plan: plan.menu.dishes))
def test_no_plan_changes_because_the_library_did(tmp_path: Path, data: st.DataObject, plan: Plan) -> None:
    """Take; let the library change; send back improved; take again: each plan holds what was taken when it was."""
    path = tmp_path / "own.cooklib"
    path.unlink(missing_ok=True)
    dish = data.draw(st.sampled_from(plan.menu.dishes)).id
    with Library.open(path) as library:
        held = library.keep_dish(own_copy(plan, dish), plan.name)
        taker = replace(plan, menu=replace(plan.menu, dishes=(), links=()), decisions=type(plan.decisions)())
        first = TakeDish.of(library.dishes()[0].copy)(taker)
        taken = first.menu.dishes[0]
        improved = replace(taken, note="less salt")
        changed = replace(first, menu=replace(first.menu, dishes=(improved,)))
        better = library.replace(held, own_copy(changed, taken.id), "again")
        assert first.menu.dishes == (taken,)
        second = TakeDish.of(library.dishes()[0].copy)(first)
        assert second.menu.dishes[0] == taken
        assert second.menu.dishes[1].note == "less salt"
        library.remove(better)
        assert second.menu.dishes[0] == taken
        assert plan.dishes[dish] == held.copy.dish


def test_a_plan_file_knows_nothing_of_the_library(tmp_path: Path) -> None:
    with Library.open(tmp_path / "own.cooklib") as library:
        library.keep_dish(a_copy("Pea soup", "Boil"))
        plan = TakeDish.of(library.dishes()[0].copy)(a_plan())
        with PlanFile.create(tmp_path / "feast.cookday", plan) as file:
            library.remove(library.dishes()[0])
            assert file.plan().dishes[DishId("pea-soup")].name == "Pea soup"
