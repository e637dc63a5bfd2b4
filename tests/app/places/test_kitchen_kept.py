"""Kitchens kept apart from plans: kept, cooked in, forgotten, and all of it taken back; with keys and mouse."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import platformdirs
import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from app.bridge import PlanPlace
from app.places.kitchen.kept_kitchens import own_keeping
from app.places.kitchen.kept_list import kitchen_words
from app.places.kitchen.kitchen_line import KitchenLine
from app.places.window import Window
from core.plan.edits import AddStation
from core.plan.ids import StationId
from core.plan.kitchen import Kitchen, Station, StationKind
from core.plan.step import VesselUse
from core.store.library import LIBRARY_NAME
from tests.support.builders import a_dish, a_kitchen, a_plan, a_step, a_use, a_vessel
from tests.support.windows import a_window

HALL = a_kitchen(
    Station(StationId("oven-2"), "Second oven", StationKind.OVEN, 4), cooks=3, burning=6, name="Village hall"
)
HOME = a_kitchen(vessels=(a_vessel("pot"),), name="Flat")


def the_plan():
    soup = a_dish(
        "soup",
        a_step("soup.boil", "Boil", 20, uses=(a_use("burner"),), vessels=(VesselUse(HOME.vessels[0].id),)),
    )
    return a_plan(soup, kitchen=HOME)


@pytest.fixture
def window(qtbot, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Window]:
    with a_window(qtbot, tmp_path, monkeypatch) as made:
        made.open_place(PlanPlace.fresh(the_plan()), "kitchen")
        made.activateWindow()
        qtbot.waitUntil(lambda: QApplication.activeWindow() is made)
        yield made


def line(window: Window) -> KitchenLine:
    return window.places.kitchen.line


def kept() -> list[Kitchen]:
    return list(own_keeping().list().kitchens)


def hint(window: Window) -> str:
    label = line(window).form.cells["kitchen_name"].hint
    return label.text() if label.isVisible() else ""


def click(button) -> None:
    QTest.mouseClick(button, Qt.MouseButton.LeftButton)


def press(key: Qt.Key, modifier: Qt.KeyboardModifier = Qt.KeyboardModifier.NoModifier) -> None:
    QTest.keyClick(QApplication.focusWidget(), key, modifier)


def test_looking_makes_no_file(window: Window) -> None:
    click(line(window).others_button)
    assert line(window).others.teaching.isVisible()
    assert "No kitchen is kept yet" in line(window).others.teaching.text()
    assert not (Path(platformdirs.user_data_path("cookday", appauthor=False)) / LIBRARY_NAME).exists()


def test_a_kitchen_is_kept_as_a_value(window: Window) -> None:
    click(line(window).keep_button)
    assert kept() == [HOME]
    assert hint(window) == "kept as it is"
    assert "“Flat” is kept" in line(window).notice.words.text()
    window.places.kitchen.stations.add(StationKind.GRILL)
    assert kept() == [HOME], "changing the plan's kitchen changes no kept one"
    assert hint(window) == "kept, and changed since"
    click(line(window).keep_button)
    assert kept() == [window.opened.plan.kitchen]
    assert hint(window) == "kept as it is"
    click(line(window).notice.back)
    assert kept() == [HOME], "the older one is back"
    assert hint(window) == "kept, and changed since"


def test_keeping_is_taken_back(window: Window) -> None:
    click(line(window).keep_button)
    click(line(window).notice.back)
    assert kept() == []
    assert hint(window) == ""
    assert not line(window).notice.isVisible()


def test_the_menu_is_cooked_at_the_hall_and_back_with_one_key(window: Window) -> None:
    own_keeping().keep(HALL)
    before = window.opened.plan
    click(line(window).others_button)
    use, _forget = line(window).others.rows["Village hall"]
    click(use)
    plan = window.opened.plan
    assert plan.kitchen.name == "Village hall"
    assert [each.id for each in plan.kitchen.stations[: len(HALL.stations)]] == [
        each.id for each in HALL.stations
    ]
    assert plan.menu == before.menu
    notice = line(window).notice
    assert notice.isVisible()
    assert "Now cooked in “Village hall”" in notice.words.text()
    assert "pot" in notice.words.text().casefold(), "the vessel the hall has not is said"
    assert not line(window).others.isVisible()
    assert window.places.kitchen.leaves.buttons["stations"].text().endswith(f"  {len(plan.kitchen.stations)}")
    window.places.kitchen.stations.add_button.setFocus()
    press(Qt.Key.Key_Z, Qt.KeyboardModifier.ControlModifier)
    assert window.opened.plan == before
    assert not notice.isVisible()
    assert kept() == [HALL]


def test_the_notice_takes_the_swap_back_until_something_lies_upon_it(window: Window) -> None:
    own_keeping().keep(HALL)
    before = window.opened.plan
    line(window).use(HALL)
    click(line(window).notice.back)
    assert window.opened.plan == before
    line(window).use(HALL)
    window.opened.apply(AddStation(Station(StationId("bench"), "Bench", StationKind.ROOM)))
    assert line(window).notice.isVisible(), "what was said stays to be read"
    assert not line(window).notice.back.isVisible(), "undo would take back something else now"
    click(line(window).notice.read)
    assert not line(window).notice.isVisible()


def test_from_the_keyboard_alone(window: Window) -> None:
    own_keeping().keep(HALL)
    line(window).form.field("room").setFocus()
    press(Qt.Key.Key_Tab)
    assert QApplication.focusWidget() is line(window).keep_button
    press(Qt.Key.Key_Tab)
    assert QApplication.focusWidget() is line(window).others_button
    press(Qt.Key.Key_Space)
    assert QApplication.focusWidget() is line(window).others.rows["Village hall"][0]
    press(Qt.Key.Key_Escape)
    assert not line(window).others.isVisible()
    assert QApplication.focusWidget() is line(window).others_button
    press(Qt.Key.Key_Space)
    press(Qt.Key.Key_Space)
    assert window.opened.plan.kitchen.name == "Village hall"
    assert QApplication.focusWidget() is line(window).others_button, "the cursor is not lost with the row"


def test_the_kitchen_of_the_moment_is_marked(window: Window) -> None:
    own_keeping().keep(HALL)
    own_keeping().keep(HOME)
    click(line(window).others_button)
    rows = line(window).others.rows
    assert list(rows) == ["Flat", "Village hall"]
    assert not rows["Flat"][0].isVisible()
    assert rows["Village hall"][0].isVisible()


def test_a_kept_kitchen_is_forgotten_and_brought_back(window: Window) -> None:
    own_keeping().keep(HALL)
    before = window.opened.plan
    click(line(window).others_button)
    click(line(window).others.rows["Village hall"][1])
    assert kept() == []
    assert line(window).others.rows == {}
    assert window.opened.plan is before
    click(line(window).notice.back)
    assert kept() == [HALL]
    assert list(line(window).others.rows) == ["Village hall"]


def test_what_is_damaged_is_said_and_nothing_is_lost(window: Window) -> None:
    path = Path(platformdirs.user_data_path("cookday", appauthor=False)) / LIBRARY_NAME
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_bytes(b"not a library, but somebody's notes")
    click(line(window).others_button)
    assert LIBRARY_NAME in line(window).others.teaching.text()
    click(line(window).keep_button)
    assert line(window).notice.property("mood") == "refusal"
    assert LIBRARY_NAME in line(window).notice.words.text()
    assert path.read_bytes() == b"not a library, but somebody's notes"


def test_a_kitchen_in_a_line() -> None:
    assert kitchen_words(HALL) == "2 ovens, 6 burners, 1 fridge, 1 grill, 1 room, 3 cooks"
    one = replace(HOME, stations=HOME.stations[:1], vessels=(replace(HOME.vessels[0], count=1),))
    assert kitchen_words(one) == "1 oven, 1 vessel, 1 cook"
    assert kitchen_words(Kitchen()) == "empty"


def test_long_news_is_scrolled_and_never_pushes_the_kitchen_out(window: Window) -> None:
    news = "\n".join(f"Vessel number {number} is brought along." for number in range(60))
    line(window).notice.say(news, "Back", lambda: None)
    QApplication.processEvents()
    assert line(window).notice.height() < 190
    assert window.places.kitchen.leaves.height() > 300
