"""The buttons at the chosen bar, clicked with the mouse; and the menus they open."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QMenu

from app.timeline import Timeline
from core.plan.decisions import Choice, LengthOf, Pin
from core.plan.edits import Choose, SetLength
from core.plan.step import Manner
from tests.app.timeline.acting import drag, find, middle
from tests.app.timeline.decided import BOIL, COOK, ROAST, open_plan
from tests.app.timeline.feast import the_timetable


@pytest.fixture
def chosen(timeline: Timeline, qtbot) -> Timeline:
    timeline.set_plan(open_plan(), the_timetable())
    QTest.mouseClick(timeline.viewport(), Qt.MouseButton.LeftButton, pos=middle(timeline, ROAST))
    qtbot.waitUntil(timeline.buttons.isVisible)
    return timeline


def choose(words: str) -> None:
    menu = QApplication.activePopupWidget()
    assert isinstance(menu, QMenu)
    action = next(each for each in menu.actions() if words in each.text())
    QTest.mouseClick(menu, Qt.MouseButton.LeftButton, pos=menu.actionGeometry(action).center())


def test_pin_is_one_click_and_its_lifting_another(chosen: Timeline, qtbot) -> None:
    with qtbot.waitSignal(chosen.step_dropped) as dropped:
        QTest.mouseClick(chosen.buttons.pin, Qt.MouseButton.LeftButton)
    assert dropped.args == [ROAST, 0, -160, None]
    chosen.set_plan(open_plan(pins=(Pin(ROAST, 0, -160),)), the_timetable())
    chosen.buttons.follow()
    assert chosen.buttons.pin.isChecked()
    assert chosen.buttons.pin.accessibleName() == "Lift the pin"
    with qtbot.waitSignal(chosen.pin_lifted) as lifted:
        QTest.mouseClick(chosen.buttons.pin, Qt.MouseButton.LeftButton)
    assert lifted.args == [ROAST, 0]


def test_a_way_is_chosen_in_two_clicks(chosen: Timeline, qtbot) -> None:
    QTest.mouseClick(chosen.buttons.way, Qt.MouseButton.LeftButton)
    with qtbot.waitSignal(chosen.edit_wanted) as wanted:
        choose("in the hot oven")
    edit = wanted.args[0]
    assert getattr(edit, "edit", edit) == Choose(ROAST, 1)


def test_a_length_is_chosen_in_two_clicks(chosen: Timeline, qtbot) -> None:
    QTest.mouseClick(chosen.buttons.length, Qt.MouseButton.LeftButton)
    with qtbot.waitSignal(chosen.edit_wanted) as wanted:
        choose("slow length")
    edit = wanted.args[0]
    assert getattr(edit, "edit", edit) == SetLength(ROAST, Manner.HIGH)


def test_buttons_show_what_was_decided_and_only_what_makes_sense(chosen: Timeline) -> None:
    buttons = chosen.buttons
    chosen.set_plan(
        open_plan(choices=(Choice(BOIL, 0),), lengths=(LengthOf(ROAST, Manner.HIGH),)), the_timetable()
    )
    for step, shown, pressed in (
        (ROAST, {"pin", "way", "length"}, {"length"}),
        (BOIL, {"pin", "way"}, {"way"}),
        (COOK, {"pin"}, set()),
    ):
        chosen.select(step)
        buttons.follow()
        known = {"pin": buttons.pin, "way": buttons.way, "length": buttons.length}
        assert {name for name, button in known.items() if button.isVisible()} == shown, step
        assert {name for name, button in known.items() if button.isChecked() and button.isVisible()} == pressed, step


def test_they_stand_inside_a_wide_bar_and_beside_a_narrow_one_and_leave_its_end_free(chosen: Timeline) -> None:
    seen = {"inside": 0, "beside": 0}
    for step in (ROAST, BOIL, COOK, "gratin.bake", "pork.carve"):
        for span in ((-180, 10), (-60, 10)):
            chosen.sight.fit(*span, 0.0)
            chosen.select(step)
            chosen.buttons.follow()
            if not chosen.buttons.isVisible():
                continue
            box, at = find(chosen, step)[2], chosen.buttons.geometry()
            assert chosen.viewport().rect().contains(at), (step, span)
            assert at.left() >= chosen.scene.gutter
            inside = at.left() >= box.x and at.right() <= box.right
            beside = at.left() >= box.right + 10 or at.right() <= box.x - 10
            assert inside or beside, (step, span, box, at)
            seen["inside" if inside else "beside"] += 1
            if inside and box.right < chosen.scene.width:
                assert at.right() <= box.right - 14, "the end is taken to stretch or to link"
            assert abs(at.center().y() - (box.y + min(box.h, chosen.scene.layout.row) / 2)) < 3
    assert min(seen.values()) > 0, "both have been seen"


def test_they_go_with_the_bar_and_away_while_it_is_dragged(chosen: Timeline, qtbot) -> None:
    buttons = chosen.buttons
    before = buttons.x()
    chosen.horizontalScrollBar().setValue(chosen.horizontalScrollBar().value() + 40)
    qtbot.waitUntil(lambda: buttons.x() == before - 40)
    drag(chosen, middle(chosen, ROAST) - QPoint(60, 0), QPoint(40, 0), release=False)
    qtbot.waitUntil(lambda: not buttons.isVisible())
    QTest.keyClick(chosen, Qt.Key.Key_Escape)
    qtbot.waitUntil(buttons.isVisible)
    chosen.select(None)
    qtbot.waitUntil(lambda: not buttons.isVisible())


def test_a_touch_or_food_that_waits_has_no_buttons(chosen: Timeline) -> None:
    for lane, bar, _box in chosen.bar_rects():
        if bar.kind == "stay" or (bar.kind == "hand" and bar.step == "gratin.bake"):
            number = next(at for at, each in enumerate(chosen.scene.lanes) if each.id == lane)
            chosen.focus_on(number, bar)
            chosen.buttons.follow()
            assert not chosen.buttons.isVisible()


def test_following_costs_no_painting_where_nothing_moved(chosen: Timeline, qtbot) -> None:
    moved = []
    follow = chosen.buttons.follow
    chosen.buttons._soon.timeout.disconnect()
    chosen.buttons._soon.timeout.connect(lambda: moved.append(follow()))
    for _turn in range(5):
        chosen.viewport().update()
        QApplication.processEvents()
    assert moved == []
