"""Gestures with the real mouse, with fingers, a pen and keys, on the widget."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QCoreApplication, QEvent, QPoint, QPointF, Qt
from PySide6.QtGui import QInputDevice, QPointingDevice, QTabletEvent
from PySide6.QtTest import QTest

from app.timeline import Timeline
from app.timeline.bars import BarKind
from app.timeline.drag_gesture import BandHeld, LinkHeld, PlatingHeld
from app.timeline.drag_link import curves_of, knob_of
from app.timeline.pointer_touch import HOLD
from core.plan.decisions import Pin
from core.plan.edits import AddLink, ChangeLink, PinStep, PinSteps, RemoveLink, ServeLater, StretchStep
from tests.app.timeline.acting import Told, _move, drag, find, middle, press
from tests.app.timeline.feast import ANN, the_plan, the_timetable

ROAST, CARVE, BAKE = ("pork.roast", 0), ("pork.carve", 0), ("gratin.bake", 0)
CTRL, SHIFT = Qt.KeyboardModifier.ControlModifier, Qt.KeyboardModifier.ShiftModifier
LEFT, NONE = Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier


def across(timeline: Timeline, minutes: float) -> QPoint:
    return QPoint(round(minutes * timeline.scene.axis.ppm), 0)


def click(timeline: Timeline, step: str, keys=NONE) -> None:
    QTest.mouseClick(timeline.viewport(), LEFT, keys, middle(timeline, step))


def right_end(timeline: Timeline, step: str) -> QPoint:
    box = find(timeline, step)[2]
    return QPoint(round(box.right - 3), round(box.y + box.h / 2))


def line(timeline: Timeline) -> QPoint:
    return QPoint(round(timeline.scene.x(0)), 20)


def point(xy) -> QPoint:
    return QPoint(round(xy[0]), round(xy[1]))


def chosen(timeline: Timeline) -> set:
    scene = timeline.scene
    return set(scene.also) | ({scene.focus.key} if scene.focus is not None else set())


@pytest.fixture
def wanted(timeline: Timeline) -> list:
    found: list = []
    timeline.edit_wanted.connect(found.append)
    return found


# ------------------------------------------------------------ several


@pytest.mark.parametrize("key", [CTRL, SHIFT])
def test_a_click_with_a_key_chooses_more_and_once_more_fewer(timeline: Timeline, key) -> None:
    click(timeline, "pork.roast")
    click(timeline, "gratin.bake", key)
    click(timeline, "pork.carve", key)
    assert chosen(timeline) == {ROAST, BAKE, CARVE}
    click(timeline, "gratin.bake", key)
    assert chosen(timeline) == {ROAST, CARVE}
    click(timeline, "pork.carve", key)
    assert chosen(timeline) == {ROAST}
    click(timeline, "gratin.bake", key)
    click(timeline, "pork.roast")
    assert chosen(timeline) == {ROAST}, "a plain click chooses one"


def test_dragging_one_of_several_drags_all_and_pins_them_in_one_edit(timeline: Timeline, wanted, qtbot) -> None:
    click(timeline, "gratin.bake")
    click(timeline, "pork.roast", CTRL)
    with qtbot.assertNotEmitted(timeline.step_dropped):
        drag(timeline, middle(timeline, "pork.roast"), across(timeline, -10))
    (done,) = wanted
    assert done.edit == PinSteps((PinStep("pork.roast", 0, -170), PinStep("gratin.bake", 0, -140)))
    assert done.seen.at[ROAST].start == -170
    assert done.seen.at[BAKE].start == -140
    assert done.seen.at["gratin.slice", 0].start == -160, "slicing is pushed by the bake"
    assert chosen(timeline) == {ROAST, BAKE}


def test_what_is_pushed_by_several_has_ghosts(timeline: Timeline) -> None:
    click(timeline, "gratin.bake")
    click(timeline, "pork.roast", CTRL)
    drag(timeline, middle(timeline, "pork.roast"), across(timeline, -10), release=False)
    held = timeline.scene.held
    assert held.also == {BAKE}
    assert held.pushed == {ROAST: -170, BAKE: -140, ("gratin.slice", 0): -160, CARVE: -20}
    press(timeline, Qt.Key.Key_Escape)


def test_dragging_one_that_is_not_chosen_leaves_the_others(timeline: Timeline, wanted, qtbot) -> None:
    click(timeline, "gratin.bake")
    click(timeline, "pork.roast", CTRL)
    with qtbot.waitSignal(timeline.step_dropped) as dropped:
        drag(timeline, middle(timeline, "pork.carve"), across(timeline, -3), SHIFT)
    assert dropped.args == ["pork.carve", 0, -15, None]
    assert wanted == []


def test_a_band_on_empty_ground_chooses_what_it_touches(timeline: Timeline, qtbot) -> None:
    bake, roast = find(timeline, "gratin.bake")[2], find(timeline, "pork.roast")[2]
    below = timeline.scene.lane_box(1)
    start = QPoint(round(bake.right + 40), round(below.y + below.h / 2))
    end = QPoint(round(roast.x + 5), round(min(roast.y, bake.y) + 4))
    drag(timeline, start, end - start, release=False)
    assert isinstance(timeline.scene.gesture, BandHeld)
    assert timeline.scene.gesture.count == 2
    QTest.mouseRelease(timeline.viewport(), LEFT, NONE, end)
    assert timeline.scene.gesture is None
    assert chosen(timeline) == {ROAST, BAKE}
    QTest.mouseClick(timeline.viewport(), LEFT, NONE, start)
    assert chosen(timeline) == set(), "a click on empty ground chooses nothing"


def test_keys_move_all_that_is_chosen(timeline: Timeline, wanted) -> None:
    click(timeline, "gratin.bake")
    click(timeline, "pork.roast", CTRL)
    press(timeline, Qt.Key.Key_Left, Qt.KeyboardModifier.AltModifier)
    (done,) = wanted
    assert {(pin.step, pin.start) for pin in done.edit.pins} == {("pork.roast", -165), ("gratin.bake", -135)}


# ------------------------------------------------------------ another cook


def test_a_hand_dropped_on_another_cook_pins_that_cook(timeline: Timeline, wanted) -> None:
    start = middle(timeline, "pork.carve", BarKind.HAND)
    at = next(number for number, lane in enumerate(timeline.scene.lanes) if lane.cook == ANN)
    timeline.verticalScrollBar().setValue(10_000)
    start = middle(timeline, "pork.carve", BarKind.HAND)
    there = timeline.scene.lane_box(at)
    drag(timeline, start, QPoint(0, round(there.y + there.h / 2) - start.y()))
    (done,) = wanted
    assert done.edit == PinStep("pork.carve", 0, -12, None, ANN)
    assert {hand.cook for hand in done.seen.at[CARVE].hands} == {ANN}


# ------------------------------------------------------------ lengths


def test_the_end_of_a_bar_is_drawn(timeline: Timeline, wanted, qtbot) -> None:
    end = right_end(timeline, "pork.roast")
    qtbot.mouseMove(timeline.viewport(), end)
    assert timeline.viewport().cursor().shape() is Qt.CursorShape.SizeHorCursor
    with qtbot.assertNotEmitted(timeline.step_dropped):
        drag(timeline, end, across(timeline, 30), release=False)
        held = timeline.scene.held
        assert (held.start, held.length, held.asks) == (-160, 120, True)
        assert held.pushed == {ROAST: -160, CARVE: -10}
        texts = timeline.drawn_texts()
        assert "?" in texts
        assert any("2 h" in text for text in texts)
        assert any("Longer than" in text for text in texts)
        QTest.mouseRelease(timeline.viewport(), LEFT, NONE, end + across(timeline, 30))
    (done,) = wanted
    assert done.edit == StretchStep("pork.roast", 120, 0)
    assert (done.seen.at[ROAST].length, done.seen.at[CARVE].start) == (120, -10)


def test_a_length_let_go_or_put_back_changes_nothing(timeline: Timeline, wanted) -> None:
    end = right_end(timeline, "pork.roast")
    drag(timeline, end, across(timeline, 30), release=False)
    press(timeline, Qt.Key.Key_Escape)
    assert timeline.scene.held is None
    QTest.mouseRelease(timeline.viewport(), LEFT, NONE, end + across(timeline, 30))
    QTest.mouseClick(timeline.viewport(), LEFT, NONE, end)
    assert wanted == []
    assert timeline.scene.selected == "pork.roast", "a click on the end chooses the bar"


# ------------------------------------------------------------ plating


def test_the_line_of_plating_is_drawn(timeline: Timeline, wanted, qtbot) -> None:
    start = line(timeline)
    qtbot.mouseMove(timeline.viewport(), start)
    assert timeline.viewport().cursor().shape() is Qt.CursorShape.SplitHCursor
    drag(timeline, start, across(timeline, -10), release=False)
    qtbot.waitUntil(lambda: not timeline.pointer.plating.thinking, timeout=3000)
    held = timeline.scene.gesture
    assert isinstance(held, PlatingHeld)
    assert (held.by, held.along, held.wrong) == (-10, False, True)
    texts = timeline.drawn_texts()
    assert "19:20" in texts
    assert any("10 min sooner" in text for text in texts)
    QTest.mouseRelease(timeline.viewport(), LEFT, NONE, start + across(timeline, -10))
    (done,) = wanted
    assert done.edit == ServeLater(-10)
    assert done.seen.at[CARVE].start == -2, "19:18 by the clock as before"
    assert timeline.scene.gesture is None


def test_with_ctrl_what_is_not_pinned_comes_along(timeline: Timeline, wanted) -> None:
    timeline.set_plan(the_plan(pins=(Pin("gratin.bake", 0, -130),)), the_timetable())
    start = line(timeline)
    QTest.mousePress(timeline.viewport(), LEFT, NONE, start)
    for minutes in (2, 10):
        _move(timeline.viewport(), start + across(timeline, minutes), CTRL)
    QTest.mouseRelease(timeline.viewport(), LEFT, CTRL, start + across(timeline, 10))
    (done,) = wanted
    assert done.edit == ServeLater(10)
    assert (done.seen.at[CARVE].start, done.seen.at[BAKE].start) == (-12, -140)


# ------------------------------------------------------------ links


def test_a_new_link_is_drawn_from_the_knob(timeline: Timeline, wanted) -> None:
    click(timeline, "pork.roast")
    knob = point(knob_of(timeline.scene))
    drag(timeline, knob, middle(timeline, "beans.cook") - knob)
    (done,) = wanted
    assert isinstance(done.edit, AddLink)
    assert done.edit.link.key[:2] == ("pork.roast", "beans.cook")
    assert done.seen.at["beans.cook", 0].start == -25, "it is late enough already"


def test_an_end_dropped_on_another_bar_links_anew_and_in_the_void_breaks(timeline: Timeline, wanted) -> None:
    click(timeline, "pork.roast")
    (curve,) = curves_of(timeline.scene)
    far = point(curve.far)
    drag(timeline, far, middle(timeline, "beans.cook") - far)
    assert isinstance(wanted[0].edit, ChangeLink)
    assert wanted[0].edit.replacement.after == "beans.cook"
    assert wanted[0].seen.at["beans.cook", 0].start == -25
    free = timeline.scene.lane_box(1)
    drag(timeline, far, QPoint(600, round(free.y + free.h / 2)) - far)
    assert wanted[1].edit == RemoveLink(curve.link.key)


def test_a_link_that_would_go_in_a_circle_is_refused_with_the_chain(timeline: Timeline, wanted, qtbot) -> None:
    click(timeline, "pork.carve")
    knob = point(knob_of(timeline.scene))
    drag(timeline, knob, middle(timeline, "pork.roast") - knob, release=False)
    held = timeline.scene.gesture
    assert isinstance(held, LinkHeld)
    assert held.wrong
    assert "Carve" in held.says
    assert "Roast" in held.says
    with qtbot.waitSignal(timeline.held_moved) as told:
        QTest.mouseRelease(timeline.viewport(), LEFT, NONE, middle(timeline, "pork.roast"))
    assert told.args == [held.says]
    assert wanted == []


# ------------------------------------------------------------ escape, edges


def test_escape_lets_go_of_everything(timeline: Timeline, wanted, qtbot) -> None:
    click(timeline, "pork.roast")
    free = timeline.scene.lane_box(1)
    starts = {
        "bar": middle(timeline, "pork.roast"),
        "end": right_end(timeline, "gratin.bake"),
        "plating": line(timeline),
        "knob": point(knob_of(timeline.scene)),
        "link": point(curves_of(timeline.scene)[0].far),
        "band": QPoint(500, round(free.y + free.h / 2)),
    }
    with qtbot.assertNotEmitted(timeline.step_dropped):
        for what, start in starts.items():
            drag(timeline, start, QPoint(-60, 14), release=False)
            assert timeline.pointer.active, what
            press(timeline, Qt.Key.Key_Escape)
            assert not timeline.pointer.active, what
            assert (timeline.scene.held, timeline.scene.gesture) == (None, None), what
            QTest.mouseRelease(timeline.viewport(), LEFT, NONE, start + QPoint(-60, 14))
            click(timeline, "pork.roast")
    assert wanted == []


@pytest.mark.parametrize("what", ["end", "band", "link"])
def test_every_gesture_scrolls_at_the_edge(timeline: Timeline, qtbot, what: str) -> None:
    click(timeline, "gratin.bake")
    free = timeline.scene.lane_box(1)
    start = {
        "end": right_end(timeline, "gratin.bake"),
        "band": QPoint(500, round(free.y + free.h / 2)),
        "link": point(knob_of(timeline.scene)),
    }[what]
    before = timeline.horizontalScrollBar().value()
    edge = QPoint(round(timeline.scene.gutter) + 3, start.y())
    drag(timeline, start, edge - start, release=False)
    qtbot.waitUntil(lambda: timeline.horizontalScrollBar().value() < before - 20, timeout=3000)
    press(timeline, Qt.Key.Key_Escape)


# ------------------------------------------------------------ fingers and pens


@pytest.fixture(scope="module")
def screen() -> QPointingDevice:
    return QTest.createTouchDevice()


def test_a_tap_chooses(timeline: Timeline, screen, qtbot) -> None:
    here = middle(timeline, "pork.roast")
    QTest.touchEvent(timeline.viewport(), screen).press(0, here).commit()
    QTest.touchEvent(timeline.viewport(), screen).release(0, here).commit()
    assert timeline.scene.selected == "pork.roast"


def test_a_swipe_scrolls_and_drags_nothing(timeline: Timeline, screen, qtbot) -> None:
    here, before = middle(timeline, "pork.roast"), timeline.horizontalScrollBar().value()
    with qtbot.assertNotEmitted(timeline.step_dropped):
        QTest.touchEvent(timeline.viewport(), screen).press(0, here).commit()
        for by in (20, 60, 100):
            QTest.touchEvent(timeline.viewport(), screen).move(0, here + QPoint(by, 0)).commit()
        QTest.touchEvent(timeline.viewport(), screen).release(0, here + QPoint(100, 0)).commit()
    assert timeline.horizontalScrollBar().value() == before - 100
    assert timeline.scene.held is None


def test_holding_still_takes_hold_and_then_drags(timeline: Timeline, screen, qtbot) -> None:
    here = middle(timeline, "pork.roast")
    QTest.touchEvent(timeline.viewport(), screen).press(0, here).commit()
    qtbot.waitUntil(lambda: timeline.scene.held is not None, timeout=HOLD * 10)
    with qtbot.waitSignal(timeline.step_dropped) as dropped:
        for by in (10, 41):
            QTest.touchEvent(timeline.viewport(), screen).move(0, here + across(timeline, by)).commit()
        QTest.touchEvent(timeline.viewport(), screen).release(0, here + across(timeline, 41)).commit()
    assert dropped.args == ["pork.roast", 0, -120, None]


def test_a_second_finger_lets_go(timeline: Timeline, screen, qtbot) -> None:
    here = middle(timeline, "pork.roast")
    QTest.touchEvent(timeline.viewport(), screen).press(0, here).commit()
    qtbot.waitUntil(lambda: timeline.scene.held is not None, timeout=HOLD * 10)
    with qtbot.assertNotEmitted(timeline.step_dropped):
        QTest.touchEvent(timeline.viewport(), screen).stationary(0).press(1, here + QPoint(80, 0)).commit()
        assert timeline.scene.held is None
        QTest.touchEvent(timeline.viewport(), screen).release(0, here).release(1, here + QPoint(80, 0)).commit()


def test_a_pen_held_still_drags_too(timeline: Timeline, qtbot) -> None:
    here = middle(timeline, "pork.roast")
    device = QPointingDevice(
        "pen",
        7,
        QInputDevice.DeviceType.Stylus,
        QPointingDevice.PointerType.Pen,
        QInputDevice.Capability.Position,
        1,
        1,
    )

    def pen(kind: QEvent.Type, at: QPoint, button=LEFT) -> None:
        place = QPointF(at)
        event = QTabletEvent(
            kind, device, place, QPointF(timeline.viewport().mapToGlobal(at)), 1.0, 0, 0, 0, 0, 0, NONE, button, LEFT
        )
        QCoreApplication.sendEvent(timeline.viewport(), event)

    pen(QEvent.Type.TabletPress, here)
    qtbot.waitUntil(lambda: timeline.scene.held is not None, timeout=HOLD * 10)
    with qtbot.waitSignal(timeline.step_dropped) as dropped:
        pen(QEvent.Type.TabletMove, here + across(timeline, 41), Qt.MouseButton.NoButton)
        pen(QEvent.Type.TabletRelease, here + across(timeline, 41))
    assert dropped.args == ["pork.roast", 0, -120, None]


# ------------------------------------------------------------ the stretch, and what a move costs


def test_both_stretches_are_shown_with_their_times(timeline: Timeline, qtbot) -> None:
    drag(timeline, middle(timeline, "pork.carve"), across(timeline, -3), SHIFT, release=False)
    dragging = timeline.pointer.dragging
    qtbot.waitUntil(lambda: not dragging.sweeping and not dragging.thinking, timeout=5000)
    held, thinker = timeline.scene.held, timeline.thinker
    assert held.legal == (-20, -10)
    free = {start for first, last in held.free for start in range(first, last + 1)}
    for start in range(-20, -9):
        wrong = [clash for clash in thinker.clashes_if(CARVE, start) if "pork.carve" in clash.steps]
        assert (start in free) == (not wrong), start
    texts = timeline.drawn_texts()
    assert {"19:10", "19:30"} <= set(texts), "the ends of the stretch in which carving may lie"
    press(timeline, Qt.Key.Key_Escape)


def test_another_lane_is_asked_about_anew(timeline: Timeline, qtbot) -> None:
    told = Told(legal=(-45, -35))
    timeline.thinker_for = lambda plan, timetable: told
    there = find(timeline, "beans.cook")[2]
    start = middle(timeline, "beans.boil")
    drag(timeline, start, across(timeline, -5), release=False)
    dragging = timeline.pointer.dragging
    for station, at in ((None, start), ("burner-2", QPoint(start.x(), round(there.y + 5)))):
        qtbot.mouseMove(timeline.viewport(), at)
        qtbot.waitUntil(lambda: not dragging.sweeping and not dragging.thinking, timeout=5000)
        asked = {each[2] for each in told.asked if each[0] == "clashes" and each[3] == station}
        assert asked >= set(range(-45, -34))
        assert timeline.scene.held.free == ((-45, -35),)
    press(timeline, Qt.Key.Key_Escape)


def test_a_move_repaints_from_one_picture_and_asks_for_pushes_only(timeline: Timeline, qtbot) -> None:
    told = Told()
    timeline.thinker_for = lambda plan, timetable: told
    start = middle(timeline, "pork.roast")
    drag(timeline, start, across(timeline, -10), release=False)
    qtbot.waitUntil(lambda: not timeline.pointer.dragging.thinking, timeout=2000)
    backing = timeline._backing
    timeline.viewport().repaint()
    taken, asked = backing.taken, len(told.asked)
    for minutes in range(-15, -65, -5):
        qtbot.mouseMove(timeline.viewport(), start + across(timeline, minutes))
        timeline.viewport().repaint()
    assert backing.taken == taken, "the picture under the drag is taken once"
    assert sum(each[0] == "legal" for each in told.asked) == 1
    assert sum(each[0] == "pushed" for each in told.asked[asked:]) == 10
    press(timeline, Qt.Key.Key_Escape)
