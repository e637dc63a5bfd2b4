"""Wheels, trackpads, pinches and keys that zoom and scroll, by real events."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from PySide6.QtCore import QCoreApplication, QPoint, QPointF, Qt
from PySide6.QtGui import QNativeGestureEvent, QPointingDevice, QWheelEvent
from PySide6.QtTest import QTest

from app.timeline import Timeline
from app.timeline.sight_wheel import POINTS_A_NOTCH
from tests.app.timeline.acting import press, wheel
from tests.app.timeline.feast import waited_too_long

CTRL = Qt.KeyboardModifier.ControlModifier
SHIFT = Qt.KeyboardModifier.ShiftModifier
NONE = Qt.KeyboardModifier.NoModifier
SAME = settings(suppress_health_check=[HealthCheck.function_scoped_fixture], max_examples=25)


def stroke(timeline: Timeline, x: int, pixels: QPoint, keys=NONE, phase=Qt.ScrollPhase.ScrollUpdate) -> None:
    """Send what a trackpad sends: pixels beside the angle."""
    viewport = timeline.viewport()
    at = QPointF(x, 300)
    event = QWheelEvent(
        at, QPointF(viewport.mapToGlobal(at.toPoint())), pixels, pixels * 2, Qt.MouseButton.NoButton, keys, phase, False
    )
    QCoreApplication.sendEvent(viewport, event)


def zoom_gesture(timeline: Timeline, x: int, value: float, kind=Qt.NativeGestureType.ZoomNativeGesture) -> None:
    viewport = timeline.viewport()
    at = QPointF(x, 300)
    there = QPointF(viewport.mapToGlobal(at.toPoint()))
    device = QPointingDevice.primaryPointingDevice()
    QCoreApplication.sendEvent(viewport, QNativeGestureEvent(kind, device, 2, at, at, there, value, QPointF()))


@SAME
@given(x=st.integers(200, 1250), turns=st.lists(st.integers(-240, 240), min_size=1, max_size=30))
def test_turns_of_any_size_keep_the_minute_under_the_pointer(timeline: Timeline, x: int, turns: list[int]) -> None:
    timeline.sight.fit(-180, 10, 0)
    scene = timeline.scene
    minute = scene.time(x)
    for angle in turns:
        wheel(timeline, QPoint(x, 300), QPoint(0, angle), CTRL)
        bar = timeline.horizontalScrollBar()
        if bar.minimum() < bar.value() < bar.maximum():
            assert scene.x(minute) == pytest.approx(x, abs=1.01)
        else:
            break  # there is no more time to that side to keep it with


def test_a_hundred_and_twenty_small_turns_are_one_notch(timeline: Timeline) -> None:
    scale, minute = timeline.scene.axis.ppm, timeline.scene.time(700)
    for _turn in range(120):
        wheel(timeline, QPoint(700, 300), QPoint(0, 1), CTRL)
    assert timeline.scene.axis.ppm == pytest.approx(scale * 1.25)
    assert timeline.scene.x(minute) == pytest.approx(700, abs=1.01), "no drift from rounding"


def test_small_turns_add_up_to_as_much_as_a_large_one(timeline: Timeline) -> None:
    across = timeline.horizontalScrollBar()
    before = across.value()
    for _turn in range(120):
        wheel(timeline, QPoint(700, 300), QPoint(0, 1), SHIFT)
    assert before - across.value() == round(POINTS_A_NOTCH)
    wheel(timeline, QPoint(700, 300), QPoint(0, -120), SHIFT)
    assert across.value() == before


@pytest.mark.parametrize(("keys", "pixels"), [(NONE, QPoint(17, 0)), (SHIFT, QPoint(0, 17))])
def test_a_trackpad_scrolls_by_its_pixels(timeline: Timeline, keys, pixels: QPoint) -> None:
    across = timeline.horizontalScrollBar()
    before = across.value()
    stroke(timeline, 700, pixels, keys)
    assert before - across.value() == 17


def test_a_trackpad_goes_both_ways_at_once(timeline: Timeline) -> None:
    timeline.resize(900, 320)
    across, down = timeline.horizontalScrollBar(), timeline.verticalScrollBar()
    before = across.value(), down.value()
    stroke(timeline, 500, QPoint(30, -20))
    assert (across.value(), down.value()) == (before[0] - 30, before[1] + 20)


def test_a_trackpad_zooms_smoothly_with_ctrl(timeline: Timeline) -> None:
    scale, minute = timeline.scene.axis.ppm, timeline.scene.time(640)
    for _part in range(40):
        stroke(timeline, 640, QPoint(0, 1), CTRL)
    assert timeline.scene.axis.ppm == pytest.approx(scale * 1.25)
    assert timeline.scene.x(minute) == pytest.approx(640, abs=1.01)


@pytest.mark.parametrize("x", [300, 900])
def test_pinching_on_a_trackpad_zooms_between_the_fingers(timeline: Timeline, x: int) -> None:
    scale, minute = timeline.scene.axis.ppm, timeline.scene.time(x)
    zoom_gesture(timeline, x, 0, Qt.NativeGestureType.BeginNativeGesture)
    for _part in range(10):
        zoom_gesture(timeline, x, 0.05)
    zoom_gesture(timeline, x, 0, Qt.NativeGestureType.EndNativeGesture)
    assert timeline.scene.axis.ppm == pytest.approx(scale * 1.05**10)
    assert timeline.scene.x(minute) == pytest.approx(x, abs=1.01)
    zoom_gesture(timeline, x, -5)
    assert timeline.scene.axis.ppm > 0, "a device's fault turns nothing over"


def test_two_fingers_on_a_touch_screen_zoom(timeline: Timeline, qtbot) -> None:
    device = QTest.createTouchDevice()
    viewport = timeline.viewport()
    scale, minute = timeline.scene.axis.ppm, timeline.scene.time(600)

    def touch(left: int, right: int, what: str) -> None:
        sequence = QTest.touchEvent(viewport, device, False)
        for number, x in enumerate((left, right)):
            getattr(sequence, what)(number, QPoint(x, 560), viewport)
        sequence.commit(True)
        QCoreApplication.processEvents()

    touch(560, 640, "press")
    for step in range(1, 11):
        touch(560 - 8 * step, 640 + 8 * step, "move")
    touch(480, 720, "release")
    assert timeline.scene.axis.ppm == pytest.approx(scale * 3, rel=0.35)
    assert timeline.scene.x(minute) == pytest.approx(600, abs=12)
    assert timeline.scene.held is None


def test_zoom_is_continuous_from_all_days_to_five_minutes(timeline: Timeline) -> None:
    timeline.fit_all()
    scales = [timeline.scene.axis.ppm]
    for _turn in range(4000):
        wheel(timeline, QPoint(700, 300), QPoint(0, 8), CTRL)
        scales.append(timeline.scene.axis.ppm)
        if scales[-1] == scales[-2]:
            break
    low, high = timeline.scene.seen
    assert high - low == pytest.approx(5, abs=0.01)
    grown = [after / before for before, after in pairwise(scales)]
    assert max(grown) < 1.016
    assert min(grown) >= 1


@SAME
@given(start=st.floats(-1050, 0), long=st.floats(0.5, 1100))
def test_a_span_is_shown_from_end_to_end(timeline: Timeline, start: float, long: float) -> None:
    axis = timeline.scene.axis
    end = min(start + long, axis.high)
    timeline.sight.span(start, end)
    scene = timeline.scene
    assert scene.x(start) >= scene.gutter - 1.5
    assert scene.x(end) <= scene.width + 1.5
    at_closest = scene.axis.ppm == pytest.approx(timeline.sight.field / 5)
    if not at_closest and end - start > 5:
        assert scene.x(start) == pytest.approx(scene.gutter, abs=1.5)
        assert scene.x(end) == pytest.approx(scene.width, abs=1.5)


def test_turning_the_wheel_down_paints_only_what_comes_into_sight(timeline: Timeline, qtbot) -> None:
    timeline.resize(1280, 420)
    QCoreApplication.processEvents()
    viewport = timeline.viewport()
    areas = painted(timeline)
    wheel(timeline, QPoint(700, 200), QPoint(0, -120))
    QCoreApplication.processEvents()
    moved = timeline.scene.top
    assert moved > 0
    assert areas, "something came into sight"
    assert sum(each.width() * each.height() for each in areas) < 0.4 * viewport.width() * viewport.height()
    found = viewport.grab().toImage()
    viewport.repaint()
    assert found == viewport.grab().toImage()


def painted(timeline: Timeline) -> list:
    """Return a list that fills with the rectangles painted from now on."""
    areas: list = []
    paint = timeline._backing.paint

    def watched(painter, scene, kit, rects) -> None:
        areas.extend(rects)
        paint(painter, scene, kit, rects)

    timeline._backing.paint = watched
    return areas


def test_what_scrolling_moves_on_the_screen_is_what_painting_gives(timeline: Timeline, qtbot) -> None:
    timeline.resize(1280, 420)
    timeline.set_folded(False)
    timeline.sight.fit(-900, 10, 0)
    QCoreApplication.processEvents()
    for turn in (-120, -120, -33, 60, -120, 240, -7):
        wheel(timeline, QPoint(700, 200), QPoint(0, turn))
        QCoreApplication.processEvents()
        assert on_screen(timeline) == painted_anew(timeline), turn


def on_screen(timeline: Timeline):
    """Return the pixels that stand in the window's store, as they came there piece by piece."""
    return timeline.window().windowHandle().screen().grabWindow(timeline.window().winId()).toImage()


def painted_anew(timeline: Timeline):
    timeline.viewport().update()
    QCoreApplication.processEvents()
    return on_screen(timeline)


def test_one_key_fits_what_is_chosen(timeline: Timeline) -> None:
    timeline.fit_all()
    timeline.select("beans.boil")
    press(timeline, Qt.Key.Key_1)
    low, high = timeline.scene.seen
    assert -50 < low <= -40
    assert -25 <= high < 10


def test_one_key_fits_the_chosen_clash_until_another_bar_is_chosen(timeline: Timeline) -> None:
    timeline.show_clash(waited_too_long())
    shown = timeline.scene.seen
    timeline.fit_all()
    press(timeline, Qt.Key.Key_1)
    assert timeline.scene.seen == pytest.approx(shown, abs=1)
    timeline.select("beans.boil")
    press(timeline, Qt.Key.Key_1)
    assert timeline.scene.seen[1] - timeline.scene.seen[0] < 60
