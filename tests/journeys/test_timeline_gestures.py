"""Each gesture from the press to the plan and back by one undo, in the Timeline place."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest

from app.bridge import Arranger, OpenPlan
from app.places.timeline_place import TimelinePlace
from app.timeline.bars import BarKind
from app.timeline.drag_link import curves_of, knob_of
from core.desk import Desk
from core.plan.edits import ChangeCook
from core.plan.kitchen import Window
from core.timetable.clash import ClashKind
from tests.app.timeline.acting import drag, find, middle, press
from tests.app.timeline.feast import ANN, the_plan, the_timetable
from tests.support.sizes import wanted_size

CTRL = Qt.KeyboardModifier.ControlModifier


@pytest.fixture
def place(qtbot, monkeypatch) -> TimelinePlace:
    """Give the place with the small feast; what would be mended nearby afterwards is left as it is."""
    opened = OpenPlan(Desk(the_plan(), timetable=the_timetable()))
    arranger = Arranger(opened)
    monkeypatch.setattr(arranger, "ask", lambda *_aims: None)
    made = TimelinePlace(opened, arranger)
    made.opened = opened
    qtbot.addWidget(made)
    made.resize(*wanted_size(1280, 900))
    with qtbot.waitExposed(made):
        made.show()
    made.timeline.sight.fit(-180, 10, 0.0)
    yield made
    opened.close()


def across(place: TimelinePlace, minutes: float) -> QPoint:
    return QPoint(round(minutes * place.timeline.scene.axis.ppm), 0)


def click(place: TimelinePlace, step: str, keys=Qt.KeyboardModifier.NoModifier) -> None:
    QTest.mouseClick(place.timeline.viewport(), Qt.MouseButton.LeftButton, keys, middle(place.timeline, step))


def several(place: TimelinePlace) -> None:
    click(place, "gratin.bake")
    click(place, "pork.roast", CTRL)
    drag(place.timeline, middle(place.timeline, "pork.roast"), across(place, -10))
    pins = {pin.step: pin.start for pin in place.opened.plan.decisions.pins}
    assert pins == {"pork.roast": -170, "gratin.bake": -140}


def another_cook(place: TimelinePlace) -> None:
    timeline = place.timeline
    timeline.verticalScrollBar().setValue(10_000)
    start = middle(timeline, "pork.carve", BarKind.HAND)
    at = next(number for number, lane in enumerate(timeline.scene.lanes) if lane.cook == ANN)
    box = timeline.scene.lane_box(at)
    drag(timeline, start, QPoint(0, round(box.y + box.h / 2) - start.y()))
    pin = place.opened.plan.pins["pork.carve", 0]
    assert (pin.start, pin.cook) == (-12, ANN)
    assert not [clash for clash in place.opened.clashes if clash.kind is ClashKind.PIN_MOVED]


def longer(place: TimelinePlace) -> None:
    box = find(place.timeline, "pork.roast")[2]
    drag(place.timeline, QPoint(round(box.right - 3), round(box.y + 8)), across(place, 30))
    assert place.opened.plan.steps["pork.roast"].length.likely == 120
    assert place.opened.timetable.at["pork.roast", 0].length == 120
    assert not [clash for clash in place.opened.clashes if clash.kind is ClashKind.LENGTH]


def plating(place: TimelinePlace) -> None:
    drag(place.timeline, QPoint(round(place.timeline.scene.x(0)), 20), across(place, 10))
    assert (place.opened.plan.wall(0).hour, place.opened.plan.wall(0).minute) == (19, 40)
    assert place.opened.timetable.at["pork.carve", 0].start == -22


def new_link(place: TimelinePlace) -> None:
    click(place, "gratin.slice")
    x, y = knob_of(place.timeline.scene)
    knob = QPoint(round(x), round(y))
    drag(place.timeline, knob, middle(place.timeline, "beans.boil") - knob)
    assert "gratin.slice" in {link.before for link in place.opened.plan.links_to["beans.boil"]}


def broken_link(place: TimelinePlace) -> None:
    click(place, "pork.roast")
    (curve,) = curves_of(place.timeline.scene)
    far = QPoint(round(curve.far[0]), round(curve.far[1]))
    free = place.timeline.scene.lane_box(1)
    drag(place.timeline, far, QPoint(600, round(free.y + free.h / 2)) - far)
    assert place.opened.plan.links_from["pork.roast"] == ()


@pytest.mark.parametrize("act", [several, another_cook, longer, plating, new_link, broken_link])
def test_a_gesture_is_one_undo(place: TimelinePlace, act: Callable[[TimelinePlace], None]) -> None:
    before, seen = place.opened.plan, place.opened.timetable
    act(place)
    after, shown = place.opened.plan, place.opened.timetable
    assert after != before
    place.opened.undo()
    assert (place.opened.plan, place.opened.timetable) == (before, seen)
    assert place.opened.desk.undo_label is None
    place.opened.redo()
    assert (place.opened.plan, place.opened.timetable) == (after, shown)


def test_a_refused_cook_is_told_and_nothing_changes(place: TimelinePlace) -> None:
    timeline, ann = place.timeline, place.opened.plan.kitchen.cook[ANN]
    place.opened.apply(ChangeCook(ANN, replace(ann, breaks=(Window(0, 19 * 60, 19 * 60 + 20),))))
    timeline.verticalScrollBar().setValue(10_000)
    before = place.opened.plan
    start = middle(timeline, "pork.carve", BarKind.HAND)
    at = next(number for number, lane in enumerate(timeline.scene.lanes) if lane.cook == ANN)
    box = timeline.scene.lane_box(at)
    by = QPoint(0, round(box.y + box.h / 2) - start.y())
    drag(timeline, start, by, release=False)
    assert "19:18" in timeline.scene.held.refused
    assert any("19:18" in text for text in timeline.drawn_texts())
    QTest.mouseRelease(timeline.viewport(), Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier, start + by)
    assert "19:18" in place.told.text()
    assert place.opened.plan is before


def test_a_long_drag_of_many_moves_is_one_undo(place: TimelinePlace) -> None:
    start = middle(place.timeline, "pork.roast")
    viewport = place.timeline.viewport()
    QTest.mousePress(viewport, Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier, start)
    for x in range(0, 200, 4):
        QTest.mouseMove(viewport, start + QPoint(-x, (x * 7) % 5))
    QTest.mouseRelease(viewport, Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier, start + QPoint(-200, 0))
    assert place.opened.desk.undo_label is not None
    place.opened.undo()
    assert place.opened.desk.undo_label is None
    assert place.opened.timetable == the_timetable()
    press(place.timeline, Qt.Key.Key_Escape)
