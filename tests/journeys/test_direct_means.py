"""Deciding on the timeline itself: pins, ways, lengths, orders, links and plating by keys, menu and mouse; undone."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtGui import QContextMenuEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QMenu

from app.bridge import PlanPlace
from app.places.key_page import KeyPage
from app.places.settings import Settings
from app.places.window import Window
from app.timeline import Timeline
from app.timeline.key_table import combination
from core.plan.decisions import Choice, Order, Pin
from core.plan.step import Manner
from core.timetable.clash import ClashKind
from tests.app.timeline.acting import find, middle
from tests.app.timeline.decided import BOIL, COOK, ROAST, open_plan
from tests.app.timeline.feast import the_timetable
from tests.support.windows import a_window


@pytest.fixture
def window(qtbot, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Window]:
    with a_window(qtbot, tmp_path, monkeypatch, height=800) as made:
        made.open_place(PlanPlace.fresh(open_plan()))
        made.opened.show(the_timetable(), "Begin")
        timeline = made.places.timeline.timeline
        timeline.sight.fit(-180, 10, 0.0)
        timeline.setFocus()
        yield made


def on(window: Window, step: str) -> Timeline:
    timeline = window.places.timeline.timeline
    timeline.show_step(step)
    return timeline


def press(timeline: Timeline, keys: str) -> None:
    pressed = combination(keys)
    QTest.keyClick(timeline, pressed.key(), pressed.keyboardModifiers())


def menu() -> QMenu:
    found = QApplication.activePopupWidget()
    assert isinstance(found, QMenu)
    return found


def pick(words: str) -> None:
    """Choose an entry of the open menu with the arrow keys."""
    for _press in range(40):
        QTest.keyClick(menu(), Qt.Key.Key_Down)
        active = menu().activeAction()
        if active is not None and words in active.text():
            QTest.keyClick(menu(), Qt.Key.Key_Return)
            return
    raise AssertionError(f"no entry with {words}: {[each.text() for each in menu().actions()]}")


def undone(window: Window) -> None:
    window.actions_by_name["undo"].trigger()


def settled(window: Window, qtbot) -> None:
    qtbot.waitUntil(lambda: not window.arranger.busy, timeout=60_000)


def test_a_length_is_chosen_with_the_keys_alone_and_seen_on_the_bar(window: Window, qtbot) -> None:
    timeline = on(window, ROAST)
    press(timeline, "G")
    pick("likely length")
    assert window.opened.plan.manners == {ROAST: Manner.LIKELY}
    assert "likely length reserved" in timeline.accessibleDescription()
    settled(window, qtbot)
    undone(window)
    assert not window.opened.plan.manners


def test_a_way_is_chosen_from_the_menu_at_the_pointer_and_taken_there(window: Window, qtbot) -> None:
    timeline = on(window, ROAST)
    point = middle(timeline, ROAST) - QPoint(80, 0)
    event = QContextMenuEvent(QContextMenuEvent.Reason.Mouse, point, timeline.viewport().mapToGlobal(point))
    QApplication.sendEvent(timeline.viewport(), event)
    whole = menu()
    ways = next(action.menu() for action in whole.actions() if action.text() == "Way to do it")
    entry = next(action for action in ways.actions() if "in the hot oven" in action.text())
    entry.trigger()
    whole.close()
    assert window.opened.plan.choices == {ROAST: Choice(ROAST, 1)}
    settled(window, qtbot)
    assert window.opened.timetable.at[ROAST, 0].way == 1, "what was shown the other way was put right nearby"
    assert not [clash for clash in window.opened.clashes if ROAST in clash.steps and clash.kind is ClashKind.LENGTH]
    undone(window)
    assert window.opened.timetable.at[ROAST, 0].way == 0


def test_who_goes_first_is_decided_with_two_presses_and_honoured(window: Window, qtbot) -> None:
    timeline = on(window, "pork.carve")
    press(timeline, "O")
    timeline = on(window, COOK)
    press(timeline, "O")
    assert window.opened.plan.decisions.orders == (Order("pork.carve", COOK),)
    settled(window, qtbot)
    at = window.opened.timetable.at
    assert at["pork.carve", 0].end <= at[COOK, 0].start, "the day was put in that order"
    assert not [clash for clash in window.opened.clashes if clash.kind is ClashKind.OUT_OF_ORDER]
    undone(window)
    assert window.opened.plan.decisions.orders == ()
    assert window.opened.timetable.at[COOK, 0].start == -25


def test_an_order_that_cannot_be_is_refused_in_words(window: Window) -> None:
    timeline = on(window, "pork.carve")
    press(timeline, "O")
    timeline = on(window, ROAST)
    press(timeline, "O")
    assert window.opened.plan.decisions.orders == ()
    assert window.banner.isVisible()


def test_two_steps_move_together_by_keys_and_nudges_are_one_undo(window: Window, qtbot) -> None:
    timeline = on(window, BOIL)
    press(timeline, "Shift+Down")
    for _press in range(2):
        press(timeline, "Alt+Left")
    assert window.opened.plan.decisions.pins == (Pin(BOIL, 0, -50), Pin(COOK, 0, -35))
    assert {key: window.opened.timetable.at[key].start for key in ((BOIL, 0), (COOK, 0))} == {
        (BOIL, 0): -50,
        (COOK, 0): -35,
    }
    settled(window, qtbot)
    undone(window)
    assert window.opened.plan.decisions.pins == ()
    assert window.opened.timetable.at[BOIL, 0].start == -40


def test_a_step_goes_to_another_burner_and_to_another_cook(window: Window, qtbot) -> None:
    timeline = on(window, COOK)
    press(timeline, "Alt+Down")
    assert window.opened.plan.pins[COOK, 0].station == "burner-3"
    settled(window, qtbot)
    timeline = on(window, "pork.carve")
    now = window.opened.timetable.at["pork.carve", 0].hands[0].cook
    other, keys = ("ann", "Alt+Up") if now == "ben" else ("ben", "Alt+Down")
    press(timeline, keys)
    assert window.opened.plan.pins["pork.carve", 0].cook == other
    assert {hand.cook for hand in window.opened.timetable.at["pork.carve", 0].hands} == {other}


def test_a_step_is_stretched_and_that_is_one_undo(window: Window, qtbot) -> None:
    timeline = on(window, "gratin.slice")
    for _press in range(3):
        press(timeline, ">")
    assert window.opened.plan.steps["gratin.slice"].length.likely == 35
    assert window.opened.timetable.at["gratin.slice", 0].length == 35
    settled(window, qtbot)
    undone(window)
    assert window.opened.plan.steps["gratin.slice"].length.likely == 20


def test_a_link_is_made_and_broken_by_keys(window: Window, qtbot) -> None:
    before = window.opened.plan.menu.links
    for _time in range(2):
        timeline = on(window, "gratin.slice")
        press(timeline, "J")
        timeline = on(window, COOK)
        press(timeline, "J")
        settled(window, qtbot)
        pairs = {(link.before, link.after) for link in window.opened.plan.menu.links}
        assert (("gratin.slice", COOK) in pairs) is (_time == 0)
    assert window.opened.plan.menu.links == before


def test_plating_is_moved_by_keys(window: Window, qtbot) -> None:
    timeline = on(window, ROAST)
    press(timeline, "Ctrl+PgDown")
    press(timeline, "Ctrl+Shift+PgDown")
    assert f"{window.opened.plan.plating.local:%H:%M}" == "19:36"
    settled(window, qtbot)
    undone(window)
    assert f"{window.opened.plan.plating.local:%H:%M}" == "19:35"


def test_a_pin_by_the_button_and_by_the_key(window: Window, qtbot) -> None:
    timeline = on(window, ROAST)
    qtbot.waitUntil(timeline.buttons.isVisible)
    QTest.mouseClick(timeline.buttons.pin, Qt.MouseButton.LeftButton)
    assert window.opened.plan.pins[ROAST, 0].start == -160
    assert find(timeline, ROAST)[1].pinned
    press(timeline, "P")
    assert not window.opened.plan.pins


def test_the_question_mark_shows_the_keys_and_f7_goes_to_the_clashes(window: Window, qtbot) -> None:
    timeline = on(window, ROAST)
    press(timeline, "?")
    pages = [widget for widget in QApplication.topLevelWidgets() if isinstance(widget, KeyPage) and widget.isVisible()]
    assert len(pages) == 1
    pages[0].close()
    window.actions_by_name["go_clashes"].trigger()
    place = window.places.timeline
    qtbot.waitUntil(place.clash_list.list.hasFocus)


def test_strong_contrast_is_a_choice_and_is_remembered(window: Window) -> None:
    timeline = window.places.timeline.timeline
    window.actions_by_name["look_dark_strong"].trigger()
    assert timeline.kit.palette.name == "dark strong"
    assert Settings().look == "dark strong"
    window.actions_by_name["look_light"].trigger()
    assert timeline.kit.palette.name == "light"
