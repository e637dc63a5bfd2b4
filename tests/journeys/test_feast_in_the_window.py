"""The whole story in the window: a clashing bake is dragged, the rest arranged, the run sheet read back."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from pypdf import PdfReader
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest

from app.bridge import PlanPlace
from app.places.window import Window
from core.arrange.outcome import Fit
from core.plan import meaning
from core.plan.ids import StepId
from core.timetable.clash import ClashKind
from tests.app.timeline.acting import drag, middle
from tests.support.windows import a_window

BREAD = StepId("flatbread.bake")


@pytest.fixture
def window(qtbot, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Window]:
    with a_window(qtbot, tmp_path, monkeypatch, height=800) as made:
        yield made


def _arranged(window: Window, qtbot, press: object) -> object:
    """Press something that arranges and return the outcome when it has ended."""
    with qtbot.waitSignal(window.arranger.ended, timeout=90_000) as ended:
        press()
    return ended.args[0]


def _warm_bakes(window: Window) -> list:
    return [
        clash
        for clash in window.opened.clashes
        if clash.kind is ClashKind.OVEN_TEMPERATURE and BREAD in clash.steps
    ]


def test_the_clashing_bake_is_dragged_the_rest_arranged_and_the_sheet_printed(
    window: Window, qtbot, tmp_path: Path
) -> None:
    QTest.mouseClick(window.welcome.demo_button, Qt.MouseButton.LeftButton)
    opened, timeline = window.opened, window.places.timeline.timeline
    assert opened.plan.name == "Harvest supper"
    assert _warm_bakes(window), "the feast as first entered wants the oven at two temperatures"
    assert window.strip.state.text().startswith(f"{len(opened.clashes)} clashes")
    assert window.places.timeline.clash_list.list.count() >= len(opened.clashes), "food limits stand among them"

    timeline.fit_last_hours(9)
    timeline.show_step(BREAD)
    before, axis = opened.timetable.at[BREAD, 0].start, timeline.scene.axis
    earlier = QPoint(round(axis.x(before - 215) - axis.x(before)), 0)
    with qtbot.waitSignal(timeline.step_dropped):
        drag(timeline, middle(timeline, BREAD), earlier)
    dropped = opened.plan.pins[BREAD, 0].start
    assert before - 225 < dropped < before - 150
    assert opened.timetable.at[BREAD, 0].start == dropped
    assert not _warm_bakes(window), "where it lies now nothing else wants the oven"

    qtbot.waitUntil(lambda: not window.arranger.busy, timeout=30_000)
    place = window.places.timeline
    window.actions_by_name["stop"].trigger()  # nothing runs: nothing happens
    outcome = _arranged(window, qtbot, lambda: QTest.mouseClick(place.around, Qt.MouseButton.LeftButton))
    assert outcome.fit is Fit.MEETS
    assert opened.clashes == ()
    assert window.strip.state.text().startswith("everything meets")
    assert opened.timetable.at[BREAD, 0].start == dropped, "a pin stays where the cook put it"

    window.go("sheets")
    window.places.sheets.keep_pdf(tmp_path / "sheet")
    _every_step_is_read_back(window, tmp_path / "sheet.pdf")

    while opened.desk.can_undo:
        window.actions_by_name["undo"].trigger()
    assert _warm_bakes(window)
    assert not opened.plan.decisions.pins


def _every_step_is_read_back(window: Window, path: Path) -> None:
    """Find every load of every step at its clock time in the text of the PDF, on the pages of its day."""
    plan, timetable = window.opened.plan, window.opened.timetable
    pages = [" ".join(page.extract_text().split()) for page in PdfReader(path).pages]
    day = ""
    text_of_day: dict[str, str] = {}
    for page in pages:
        found = re.search(r"(Mon|Tues|Wednes|Thurs|Fri|Satur|Sun)day (\d+) (\w+)(?! \d{4})", page)
        day = f"{found[2]} {found[3]}" if found else day
        text_of_day[day] = text_of_day.get(day, "") + " " + page
    for placed in timetable.placed:
        at = plan.wall(placed.start)
        step = plan.steps[placed.step]
        count = meaning.load_count(plan.dish_of[step.id], step)
        load = f"(load {placed.load + 1} of {count})" if count > 1 else ""
        words = re.escape(" ".join(f"{step.does} {load}".split()))
        clock = re.escape(f"{at:%H:%M}")
        on_day = text_of_day[f"{at.day} {at:%B}"]
        assert re.search(rf"{clock} T\S*( \S+)?( [A-Z]+)? {words}", on_day), f"{at:%H:%M} {step.does} {load}"


def test_what_was_done_is_there_again_when_the_plan_is_opened_again(window: Window, qtbot) -> None:
    window.actions_by_name["open_demo"].trigger()
    path = window.place.file.path
    outcome = _arranged(window, qtbot, lambda: _stop_soon(window, qtbot))
    assert outcome is not None
    seen, plan = window.opened.timetable, window.opened.plan
    window.actions_by_name["close_plan"].trigger()
    assert window.opened is None
    assert window.open_path(path)
    assert window.opened.timetable == seen
    assert window.opened.plan == plan
    assert PlanPlace.opened(path).desk.plan == plan


def _stop_soon(window: Window, qtbot) -> None:
    """Arrange, and stop as soon as a timetable has come back."""
    with qtbot.waitSignal(window.arranger.better, timeout=60_000):
        window.actions_by_name["arrange"].trigger()
    window.actions_by_name["stop"].trigger()


def test_a_file_that_is_no_plan_is_told_in_the_window(window: Window, tmp_path: Path) -> None:
    other = tmp_path / "letter.toml"
    other.write_text("Dear aunt,\n")
    assert not window.open_path(other)
    assert window.banner.isVisible()
    assert "letter.toml" in window.banner.words.text()
    assert window.opened is None


def test_no_two_commands_share_a_key_and_each_runs_something(window: Window) -> None:
    keys = [action.shortcut().toString() for action in window.actions_by_name.values() if action.shortcut().toString()]
    assert len(keys) == len(set(keys))


def test_an_empty_plan_begins_at_the_menu_with_a_kitchen(window: Window) -> None:
    QTest.mouseClick(window.welcome.begin_button, Qt.MouseButton.LeftButton)
    assert window.stack.currentWidget() is window.places.menu
    assert window.opened.plan.menu.dishes == ()
    assert window.opened.plan.kitchen.stations
    assert window.place.file.path.exists()
