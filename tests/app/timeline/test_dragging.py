from __future__ import annotations

from PySide6.QtCore import QPoint, QRectF, Qt, QTimer
from PySide6.QtGui import QImage, QPainter

from app.timeline import Timeline
from app.timeline.paint import paint, paint_over
from app.timeline.paint_held import ghosts, held_box
from core.timetable.clash import Clash, ClashKind
from tests.app.timeline.acting import Told, drag, find, middle, press

ROAST = ("pork.roast", 0)
SHIFT = Qt.KeyboardModifier.ShiftModifier


def across(timeline: Timeline, minutes: float) -> QPoint:
    return QPoint(round(minutes * timeline.scene.axis.ppm), 0)


def test_a_drop_tells_where(timeline: Timeline, qtbot) -> None:
    with qtbot.waitSignal(timeline.step_dropped) as dropped:
        drag(timeline, middle(timeline, "pork.roast"), across(timeline, 41))
    assert dropped.args == ["pork.roast", 0, -120, None]
    assert timeline.scene.held is None


def test_with_shift_it_drops_on_the_minute(timeline: Timeline, qtbot) -> None:
    with qtbot.waitSignal(timeline.step_dropped) as dropped:
        drag(timeline, middle(timeline, "pork.roast"), across(timeline, 41), SHIFT)
    assert dropped.args == ["pork.roast", 0, -119, None]


def test_another_burner_is_told(timeline: Timeline, qtbot) -> None:
    there = find(timeline, "beans.cook")[2]
    start = middle(timeline, "beans.boil")
    with qtbot.waitSignal(timeline.step_dropped) as dropped:
        drag(timeline, start, QPoint(0, round(there.y + 4 - start.y())))
    assert dropped.args == ["beans.boil", 0, -40, "burner-2"]


def test_escape_lets_go_with_nothing_changed(timeline: Timeline, qtbot) -> None:
    before = timeline.bar_rects()
    with qtbot.assertNotEmitted(timeline.step_dropped):
        start = middle(timeline, "pork.roast")
        drag(timeline, start, QPoint(200, 0), release=False)
        assert timeline.scene.held is not None
        press(timeline, Qt.Key.Key_Escape)
        assert timeline.scene.held is None
        qtbot.mouseRelease(timeline.viewport(), Qt.MouseButton.LeftButton, pos=start + QPoint(200, 0))
    assert timeline.bar_rects() == before


def test_while_held_the_core_is_asked_once_for_the_stretch_and_at_each_new_place(timeline: Timeline, qtbot) -> None:
    told = Told(legal=(-190, -100), pushed={("pork.carve", 0): -5})
    timeline.thinker_for = lambda plan, timetable: told
    drag(timeline, middle(timeline, "pork.roast"), across(timeline, 30), release=False)
    held = timeline.scene.held
    assert held.legal == (-190, -100)
    assert held.start == -130
    assert held.pushed == {("pork.carve", 0): -5, ROAST: -130}
    assert told.asked.count(("legal", ROAST)) == 1
    assert ("pushed", ROAST, -130) in told.asked
    qtbot.waitUntil(lambda: ("clashes", ROAST, -130, None) in told.asked, timeout=2000)
    press(timeline, Qt.Key.Key_Escape)


def test_what_is_pushed_shows_as_a_ghost_at_its_new_place(timeline: Timeline) -> None:
    timeline.thinker_for = lambda plan, timetable: Told(pushed={("pork.carve", 0): -5})
    drag(timeline, middle(timeline, "pork.roast"), across(timeline, 30), release=False)
    (ghost,) = ghosts(timeline.scene, timeline.scene.held)
    assert ghost[1].step == "pork.carve"
    assert ghost[2].x == timeline.scene.x(-5)
    press(timeline, Qt.Key.Key_Escape)


def test_the_clock_at_both_ends_and_what_clashes_are_written(timeline: Timeline, qtbot) -> None:
    clash = Clash(ClashKind.OVER_FULL, "The oven has two racks.", -130, -40, ("pork.roast",))
    timeline.thinker_for = lambda plan, timetable: Told(clashes=(clash,))
    with qtbot.waitSignal(timeline.held_moved, timeout=2000) as moved:
        drag(timeline, middle(timeline, "pork.roast"), across(timeline, 30), release=False)
    assert moved.args == ["The oven has two racks."]
    texts = timeline.drawn_texts()
    assert "17:20" in texts
    assert "18:50" in texts
    assert "The oven has two racks." in texts
    press(timeline, Qt.Key.Key_Escape)


def test_the_held_bar_lies_where_it_would_start(timeline: Timeline) -> None:
    timeline.thinker_for = lambda plan, timetable: Told()
    drag(timeline, middle(timeline, "pork.roast"), across(timeline, 30), release=False)
    box = held_box(timeline.scene, timeline.scene.held)
    assert box.x == timeline.scene.x(-130)
    press(timeline, Qt.Key.Key_Escape)


def test_the_oven_curve_bends_while_it_is_dragged_and_straightens_when_let_go(timeline: Timeline, qtbot) -> None:
    before = timeline.scene.curves["station:oven"]
    drag(timeline, middle(timeline, "pork.roast"), across(timeline, -60), release=False)
    qtbot.waitUntil(lambda: timeline.scene.curves["station:oven"] != before, timeout=3000)
    assert timeline.scene.curves["station:oven"].points[0].at < before.points[0].at
    press(timeline, Qt.Key.Key_Escape)
    assert timeline.scene.curves["station:oven"] == before


def test_a_drag_to_the_edge_scrolls_on(timeline: Timeline, qtbot) -> None:
    start = middle(timeline, "pork.roast")
    before = timeline.horizontalScrollBar().value()
    drag(timeline, start, QPoint(round(timeline.scene.gutter) + 3 - start.x(), 0), release=False)
    qtbot.waitUntil(lambda: timeline.horizontalScrollBar().value() < before - 20, timeout=3000)
    press(timeline, Qt.Key.Key_Escape)
    assert not [timer for timer in timeline.pointer.findChildren(QTimer) if timer.isActive()]
    after = timeline.horizontalScrollBar().value()
    qtbot.wait(120)
    assert timeline.horizontalScrollBar().value() == after


def test_what_a_drag_paints_piece_by_piece_is_what_painting_it_whole_gives(timeline: Timeline, qtbot) -> None:
    timeline.thinker_for = lambda plan, timetable: Told(pushed={("pork.carve", 0): -30})
    start = middle(timeline, "beans.boil")
    there = find(timeline, "beans.cook")[2]
    drag(timeline, start, across(timeline, -20), release=False)
    qtbot.waitUntil(lambda: not timeline.pointer.dragging.thinking, timeout=2000)
    for point in (start + across(timeline, -35), QPoint(start.x() - 90, round(there.y + 5))):
        qtbot.mouseMove(timeline.viewport(), point)
        seen = timeline.viewport().grab().toImage()
        whole = QImage(seen.size(), seen.format())
        painter = QPainter(whole)
        paint(painter, timeline.scene, timeline.kit, QRectF(whole.rect()))
        paint_over(painter, timeline.scene, timeline.kit, QRectF(whole.rect()))
        painter.end()
        assert seen == whole
    press(timeline, Qt.Key.Key_Escape)


def test_a_new_plan_ends_a_drag(timeline: Timeline, qtbot) -> None:
    with qtbot.assertNotEmitted(timeline.step_dropped):
        start = middle(timeline, "pork.roast")
        drag(timeline, start, QPoint(200, 0), release=False)
        timeline.set_plan(timeline.scene.plan, timeline.scene.timetable, ())
        assert timeline.scene.held is None
        qtbot.mouseRelease(timeline.viewport(), Qt.MouseButton.LeftButton, pos=start + QPoint(200, 0))


def test_dragging_the_ruler_moves_the_view(timeline: Timeline, qtbot) -> None:
    before = timeline.horizontalScrollBar().value()
    with qtbot.assertNotEmitted(timeline.step_dropped):
        drag(timeline, QPoint(600, 12), QPoint(150, 0))
    assert timeline.horizontalScrollBar().value() == before - 150
