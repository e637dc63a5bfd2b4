"""What the pointer must not lose or break: a release that a menu took, a click on a link's end, a choice."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QPoint, QPointF, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QMenu

from app.timeline import Timeline
from app.timeline.drag_link import knob_of
from tests.app.timeline.acting import middle

LEFT = Qt.MouseButton.LeftButton
NO = Qt.KeyboardModifier.NoModifier


def bar(timeline: Timeline, step: str):
    return next((lane, each, box) for lane, each, box in timeline.bar_rects() if each.step == step)


def test_a_menu_in_the_middle_of_a_drag_lets_go(timeline: Timeline) -> None:
    start = middle(timeline, "gratin.bake")
    QTest.mousePress(timeline.viewport(), LEFT, NO, start)
    QTest.mouseMove(timeline.viewport(), start + QPoint(30, 0))
    assert timeline.scene.held is not None
    timeline.pointer._menu(start, timeline.viewport().mapToGlobal(start))
    assert timeline.scene.held is None
    assert not timeline.pointer.active
    assert not timeline.pointer.dragging.active


def test_what_lost_its_release_is_let_go_by_the_next_press(timeline: Timeline) -> None:
    start = middle(timeline, "gratin.bake")
    QTest.mousePress(timeline.viewport(), LEFT, NO, start)
    QTest.mouseMove(timeline.viewport(), start + QPoint(30, 0))
    timeline.pointer.take(QPointF(timeline.scene.gutter + 5, timeline.scene.height - 4))
    assert timeline.scene.held is None
    assert not timeline.pointer.dragging.active


@pytest.mark.parametrize("inside", [2, 6, 10])
def test_a_click_on_the_end_of_a_link_chooses_the_bar_it_lies_on(timeline: Timeline, inside: int) -> None:
    QTest.mouseClick(timeline.viewport(), LEFT, NO, middle(timeline, "gratin.slice"))
    assert timeline.scene.selected == "gratin.slice"
    _lane, _bar, box = bar(timeline, "gratin.bake")
    point = QPointF(box.x + inside, box.y + box.h / 2)
    assert timeline.pointer.linking.at(point), "a link ends here"
    QTest.mouseClick(timeline.viewport(), LEFT, NO, point.toPoint())
    assert timeline.scene.selected == "gratin.bake"


@pytest.mark.parametrize("key", [Qt.KeyboardModifier.ShiftModifier, Qt.KeyboardModifier.ControlModifier])
def test_adding_a_bar_by_its_end_keeps_what_was_chosen(timeline: Timeline, key: Qt.KeyboardModifier) -> None:
    QTest.mouseClick(timeline.viewport(), LEFT, NO, middle(timeline, "pork.roast"))
    _lane, _bar, box = bar(timeline, "gratin.bake")
    QTest.mouseClick(timeline.viewport(), LEFT, key, QPoint(round(box.right) - 3, round(box.y + box.h / 2)))
    chosen = {step for step, _load in timeline.scene.also} | {timeline.scene.selected}
    assert chosen == {"pork.roast", "gratin.bake"}


def test_a_link_in_the_air_begins_where_it_was_drawn_from_while_the_view_scrolls(timeline: Timeline) -> None:
    QTest.mouseClick(timeline.viewport(), LEFT, NO, middle(timeline, "gratin.slice"))
    knob = knob_of(timeline.scene)
    assert knob is not None
    linking = timeline.pointer.linking
    linking.press(QPointF(*knob))
    assert linking.move(QPointF(*knob) + QPointF(40, 30), False)
    bar = timeline.horizontalScrollBar()
    bar.setValue(bar.value() + 50 if bar.value() + 50 <= bar.maximum() else bar.value() - 50)
    linking.move(QPointF(*knob) + QPointF(41, 30), False)
    now = knob_of(timeline.scene)
    assert now is not None
    assert now[0] != knob[0]
    assert timeline.scene.gesture.start == pytest.approx(now, abs=1.0)


def test_a_menu_that_is_shut_is_gone_for_good(timeline: Timeline, qtbot) -> None:
    for _each in range(5):
        timeline.pointer._menu(middle(timeline, "gratin.bake"), QPoint(100, 100))
        QApplication.activePopupWidget().close()
        qtbot.wait(1)
    qtbot.waitUntil(lambda: not timeline.findChildren(QMenu))
