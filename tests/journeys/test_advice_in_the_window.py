"""The story of a plan that cannot be met: a real file is opened, a way out is looked at and taken, kept and undone."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from app.places.settings import Settings
from app.places.window import Window
from core.store.file import PlanFile
from core.timetable.as_text import read_timetable
from core.timetable.clashes import clashes
from tests.support.windows import a_window

LONG = 100_000

HOME_LATE = """\
name = "Pancakes, home late"
plating = "2026-10-08 19:00 Europe/London"
opens = "30 min before"

[station.pan]
name = "Burner"
kind = "burner"

[cook.home]
name = "The cook"
present = ["day 0 18:30-22:00"]

[dish.pancakes]
name = "Pancakes"
serves = 4
keeps = "up to 5 min, on the counter"

[dish.pancakes.step.beat]
does = "Beat the batter"
takes = 10
wait = "up to 60 min, on the counter"

[dish.pancakes.step.fry]
does = "Fry"
takes = 20
burner = 1

[dish.plums]
name = "Hot plums"
serves = 4
keeps = "up to 5 min, on the counter"

[dish.plums.step.stew]
does = "Stew the plums, stirring"
takes = 15
burner = 1
"""


@pytest.fixture
def window(qtbot, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Window]:
    with a_window(qtbot, tmp_path, monkeypatch) as made:
        yield made


def test_from_a_plan_that_cannot_be_met_to_one_that_is_and_back(window: Window, qtbot, tmp_path: Path) -> None:
    text = tmp_path / "pancakes.toml"
    text.write_text(HOME_LATE, encoding="utf-8")
    assert window.open_path(text)
    place, opened = window.places.timeline, window.opened
    plan, seen = opened.plan, opened.timetable
    window.actions_by_name["how_it_stands"].trigger()
    pane = place.advice
    qtbot.waitUntil(lambda: bool(pane.page.why.reasons) and not pane.asking.busy, timeout=LONG)
    assert "15 min too much" in " ".join(each.words for each in pane.page.why.reasons)
    assert pane.page.ways.ways, "something helps"

    way, offer = pane.page.ways.ways[0]
    QTest.mouseClick(offer.said, Qt.MouseButton.LeftButton)
    assert place.timeline.scene.timetable == way.timetable
    assert PlanFile.open(window.place.file.path).held == plan, "a look keeps nothing"
    QTest.keyClick(offer.said, Qt.Key.Key_Return)
    assert opened.clashes == ()
    assert window.strip.state.text() == "everything meets"
    with PlanFile.open(window.place.file.path) as kept:
        assert kept.held == way.edit(plan)
        assert read_timetable(kept.seen()) == way.timetable
        assert clashes(kept.held, read_timetable(kept.seen())) == ()

    qtbot.waitUntil(lambda: pane.page.sure.head.isVisible() and not pane.asking.busy, timeout=LONG)
    window.actions_by_name["undo"].trigger()
    assert (opened.plan, opened.timetable) == (plan, seen)
    with PlanFile.open(window.place.file.path) as kept:
        assert kept.held == plan


def test_the_advice_is_open_again_in_the_next_window(window: Window, qtbot, tmp_path: Path) -> None:
    text = tmp_path / "pancakes.toml"
    text.write_text(HOME_LATE, encoding="utf-8")
    window.open_path(text)
    QTest.keyClick(window.places.timeline.timeline, Qt.Key.Key_F6)
    window.close()
    other = Window(Settings())
    qtbot.addWidget(other)
    with qtbot.waitExposed(other):
        other.show()
    other.open_path(text)
    assert other.places.timeline.advice.isVisible()
    other.close()
