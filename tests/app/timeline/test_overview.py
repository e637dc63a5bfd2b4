"""The strip along the foot, by real events of mouse, wheel and keys."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QPoint, QPointF, Qt
from PySide6.QtGui import QColor, QWheelEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from app.look.colours import DARK, LIGHT, qpalette
from app.timeline import Timeline
from app.timeline.overview import Overview
from core.timetable.timetable import Timetable
from tests.app.timeline.acting import press, wheel
from tests.app.timeline.feast import the_plan, the_timetable, waited_too_long

LEFT = Qt.MouseButton.LeftButton
NONE = Qt.KeyboardModifier.NoModifier


@pytest.fixture
def strip(timeline: Timeline) -> Overview:
    return timeline.overview


def seen(timeline: Timeline) -> tuple[float, float]:
    return timeline.scene.seen


def middle(strip: Overview) -> QPoint:
    return strip.window_frame().center().toPoint()


def drag(strip: Overview, start: QPoint, by: int) -> None:
    QTest.mousePress(strip, LEFT, NONE, start)
    for part in (0.25, 0.5, 0.75, 1.0):
        QTest.mouseMove(strip, start + QPoint(round(by * part), 0))
    QTest.mouseRelease(strip, LEFT, NONE, start + QPoint(by, 0))


def test_it_lies_along_the_foot_as_wide_as_the_lanes(timeline: Timeline, strip: Overview) -> None:
    assert strip.isVisible()
    over = timeline.viewport().geometry()
    assert strip.geometry().top() == over.bottom() + 1
    assert strip.geometry().bottom() == timeline.height() - 1
    assert (strip.x(), strip.width()) == (over.x(), over.width())
    assert 36 <= strip.height() <= 44


def test_without_a_timetable_it_leaves_its_room(timeline: Timeline, strip: Overview) -> None:
    tall = timeline.viewport().height()
    timeline.set_plan(the_plan(), Timetable(), ())
    assert not strip.isVisible()
    assert timeline.viewport().height() == tall + strip.height()


def test_the_frame_is_around_what_is_in_sight(timeline: Timeline, strip: Overview) -> None:
    frame = strip.window_frame()
    assert strip.time(frame.left()) == pytest.approx(-180, abs=2)
    assert strip.time(frame.right()) == pytest.approx(10, abs=2)
    timeline.fit_all()
    frame = strip.window_frame()
    assert strip.time(frame.left()) == pytest.approx(timeline.scene.axis.low, abs=2)
    assert strip.time(frame.right()) == pytest.approx(timeline.scene.axis.high, abs=2)


def test_the_frame_is_never_too_narrow_to_hold(timeline: Timeline, strip: Overview) -> None:
    timeline.sight.fit(-5, 0, 0)
    assert strip.window_frame().width() >= 10


@pytest.mark.parametrize("by", [-120, -30, 20])
def test_dragging_the_frame_moves_the_window_and_keeps_its_length(timeline: Timeline, strip: Overview, by: int) -> None:
    timeline.set_folded(False)
    timeline.sight.fit(-400, -100, 0)
    (low, high), scale = seen(timeline), timeline.scene.axis.ppm
    rate = strip.axis.ppm
    drag(strip, middle(strip), by)
    assert seen(timeline)[0] == pytest.approx(low + by / rate, abs=2)
    assert seen(timeline)[1] - seen(timeline)[0] == pytest.approx(high - low, abs=0.01)
    assert timeline.scene.axis.ppm == scale


def test_dragging_the_left_end_keeps_the_right_one(timeline: Timeline, strip: Overview) -> None:
    low, high = seen(timeline)
    frame = strip.window_frame()
    drag(strip, QPoint(round(frame.left()), 20), 60)
    now = seen(timeline)
    assert now[1] == pytest.approx(high, abs=1.5)
    assert now[0] == pytest.approx(strip.time(frame.left() + 60), abs=2)
    assert now[0] > low + 5


def test_dragging_the_right_end_keeps_the_left_one(timeline: Timeline, strip: Overview) -> None:
    low, high = seen(timeline)
    frame = strip.window_frame()
    drag(strip, QPoint(round(frame.right()), 20), -80)
    now = seen(timeline)
    assert now[0] == pytest.approx(low, abs=1.5)
    assert now[1] == pytest.approx(strip.time(frame.right() - 80), abs=2)
    assert now[1] < high - 5


def test_an_end_dragged_past_the_other_stops_at_five_minutes(timeline: Timeline, strip: Overview) -> None:
    frame = strip.window_frame()
    drag(strip, QPoint(round(frame.right()), 20), -1500)
    low, high = seen(timeline)
    assert high - low == pytest.approx(5, abs=0.1)


def test_a_click_beside_the_frame_brings_it_there(timeline: Timeline, strip: Overview) -> None:
    timeline.set_folded(False)
    timeline.sight.fit(-180, 10, 0)
    target = QPoint(round(strip.across(-900)), 25)
    QTest.mouseClick(strip, LEFT, NONE, target)
    low, high = seen(timeline)
    assert (low + high) / 2 == pytest.approx(-900, abs=3)
    assert high - low == pytest.approx(190, abs=0.1)


def test_a_double_click_shows_everything(timeline: Timeline, strip: Overview) -> None:
    QTest.mouseDClick(strip, LEFT, NONE, middle(strip))
    low, high = seen(timeline)
    assert low <= timeline.scene.axis.low + 1
    assert high >= timeline.scene.axis.high - 1


def turn(strip: Overview, x: float, angle: int) -> None:
    at = QPointF(x, 20)
    event = QWheelEvent(
        at, QPointF(strip.mapToGlobal(at.toPoint())), QPoint(), QPoint(0, angle), Qt.MouseButton.NoButton, NONE,
        Qt.ScrollPhase.NoScrollPhase, False,
    )  # fmt: skip
    QApplication.sendEvent(strip, event)


def test_the_wheel_zooms_around_the_minute_under_the_pointer(timeline: Timeline, strip: Overview) -> None:
    x = strip.across(-60)
    before = timeline.scene.x(-60)
    scale = timeline.scene.axis.ppm
    for _turn in range(3):
        turn(strip, x, 120)
    assert timeline.scene.axis.ppm > scale
    assert timeline.scene.x(-60) == pytest.approx(before, abs=8)
    turn(strip, strip.across(-60), -120)
    assert timeline.scene.axis.ppm == pytest.approx(scale * 1.25**2)


def test_it_is_reached_and_worked_by_keys(timeline: Timeline, strip: Overview, qtbot) -> None:
    timeline.set_folded(False)
    timeline.sight.fit(-400, -100, 0)
    timeline.setFocus()
    for _tab in range(12):
        if QApplication.focusWidget() is strip:
            break
        QTest.keyClick(QApplication.focusWidget(), Qt.Key.Key_Tab)
    assert QApplication.focusWidget() is strip
    low, high = seen(timeline)
    QTest.keyClick(strip, Qt.Key.Key_Left)
    assert seen(timeline)[0] == pytest.approx(low - 30, abs=1)
    QTest.keyClick(strip, Qt.Key.Key_Right)
    assert seen(timeline)[0] == pytest.approx(low, abs=1)
    QTest.keyClick(strip, Qt.Key.Key_PageUp)
    assert seen(timeline)[0] == pytest.approx(low - 270, abs=1)
    QTest.keyClick(strip, Qt.Key.Key_Home)
    assert seen(timeline)[0] == pytest.approx(timeline.scene.axis.low, abs=1)
    QTest.keyClick(strip, Qt.Key.Key_End)
    assert seen(timeline)[1] == pytest.approx(timeline.scene.axis.high, abs=1)
    QTest.keyClick(strip, Qt.Key.Key_Up)
    assert seen(timeline)[1] - seen(timeline)[0] == pytest.approx((high - low) / 1.25, abs=1)
    QTest.keyClick(strip, Qt.Key.Key_Down)
    assert seen(timeline)[1] - seen(timeline)[0] == pytest.approx(high - low, abs=1)
    QTest.keyClick(strip, Qt.Key.Key_2)
    assert seen(timeline)[0] == pytest.approx(-120, abs=5), "other keys are the timeline's"


def test_it_says_what_is_in_sight(timeline: Timeline, strip: Overview) -> None:
    strip.setFocus(Qt.FocusReason.TabFocusReason)
    assert strip.accessibleName() == "All days at a glance"
    assert strip.accessibleDescription() == "in sight: Sat 26 Sept 16:30 to Sat 26 Sept 19:40"
    timeline.sight.shift(-300)
    assert "16:30" not in strip.accessibleDescription()


def test_moving_the_window_paints_no_picture_anew(timeline: Timeline, strip: Overview, qtbot) -> None:
    strip.repaint()
    made = strip.pictures
    for by in (-40, 25, -10):
        drag(strip, middle(strip), by)
        strip.repaint()
    for _turn in range(5):
        wheel(timeline, QPoint(600, 300), QPoint(0, 120), Qt.KeyboardModifier.ControlModifier)
        strip.repaint()
    press(timeline, Qt.Key.Key_2)
    strip.repaint()
    assert strip.pictures == made
    timeline.set_plan(the_plan(), the_timetable(), ())
    strip.repaint()
    assert strip.pictures == made + 1


def colours(strip: Overview, left: int, right: int, y: int) -> set[str]:
    image = strip.grab().toImage()
    return {QColor(image.pixel(x, y)).name().upper() for x in range(left, right)}


@pytest.mark.parametrize("palette", [LIGHT, DARK], ids=lambda palette: palette.name)
def test_clashes_are_red_and_plating_is_blue(timeline: Timeline, strip: Overview, palette) -> None:
    timeline.setPalette(qpalette(palette))
    timeline.set_plan(the_plan(), the_timetable(), (waited_too_long(),))
    timeline.sight.fit(-180, 10, 0.0)
    top = round(timeline.kit.metrics(timeline.kit.small_face).height()) + 3
    first, last = round(strip.across(-50)), round(strip.across(-5))
    assert palette.clash in colours(strip, first, last, top)
    assert palette.clash not in colours(strip, round(strip.across(-150)), round(strip.across(-70)), top)
    x = round(strip.across(0))
    assert palette.accent in colours(strip, x - 2, x + 3, 30)


def test_hands_heap_up_darker_than_what_cooks_by_itself(timeline: Timeline, strip: Overview) -> None:
    y = strip.height() - 5
    by_hand = colours(strip, round(strip.across(-147)), round(strip.across(-133)), y)
    alone = colours(strip, round(strip.across(-118)), round(strip.across(-95)), y)
    assert min(QColor(each).lightness() for each in by_hand) < min(QColor(each).lightness() for each in alone)
