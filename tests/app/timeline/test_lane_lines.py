from __future__ import annotations

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from PySide6.QtCore import QPoint, Qt
from PySide6.QtGui import QColor
from PySide6.QtTest import QTest

from app.look.colours import LIGHT
from app.timeline import Timeline, spoken
from app.timeline.bars import BarKind, LaneKind
from app.timeline.geometry import LINE
from app.timeline.lane_lines import with_lines
from app.timeline.lanes import lanes_of
from app.timeline.staging import stage
from core.plan.plan import Plan
from core.timetable.on_paper import on_paper
from tests.app.timeline import terrace
from tests.app.timeline.acting import drag, find, middle, press
from tests.app.timeline.feast import the_plan, the_timetable
from tests.support.builders import a_vessel
from tests.support.strategies import plans


def number(timeline: Timeline, lane: str) -> int:
    return next(at for at, each in enumerate(timeline.scene.lanes) if each.id == lane)


def click_name(timeline: Timeline, lane: str) -> None:
    at, scene = number(timeline, lane), timeline.scene
    point = QPoint(60, round(scene.y(scene.layout.tops[at]) + 5))
    QTest.mouseClick(timeline.viewport(), Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier, point)


def test_a_click_on_its_name_folds_a_lane_to_a_line_and_another_opens_it(timeline: Timeline) -> None:
    at = number(timeline, "station:oven")
    before = timeline.scene.layout.heights[at]
    click_name(timeline, "station:oven")
    lane, layout = timeline.scene.lanes[at], timeline.scene.layout
    assert lane.line
    assert layout.heights[at] == pytest.approx(LINE * layout.row)
    assert layout.heights[at] < 17 < before
    assert "station:oven" not in timeline.scene.curves
    for _lane, bar, box in timeline.bar_rects():
        if bar.station == "oven" and bar.kind is BarKind.STEP:
            assert 2 <= box.h <= layout.heights[at] / 2, "two racks are two strokes"
    click_name(timeline, "station:oven")
    assert not timeline.scene.lanes[at].line
    assert timeline.scene.layout.heights[at] == before


def test_a_key_folds_the_lane_of_the_focused_bar_and_keeps_the_focus(timeline: Timeline) -> None:
    timeline.select("gratin.bake")
    press(timeline, Qt.Key.Key_L)
    assert timeline.scene.lanes[number(timeline, "station:oven")].line
    assert timeline.focused is not None
    assert timeline.focused[1].step == "gratin.bake"
    press(timeline, Qt.Key.Key_L)
    assert not timeline.scene.lanes[number(timeline, "station:oven")].line


def test_a_key_without_a_focus_folds_nothing(timeline: Timeline) -> None:
    timeline.select(None)
    press(timeline, Qt.Key.Key_L)
    assert not any(lane.line for lane in timeline.scene.lanes)


def test_the_focus_stays_on_a_vessel_when_its_lane_folds(timeline: Timeline) -> None:
    timeline.set_plan(terrace.the_plan(), terrace.the_timetable())
    at = number(timeline, "vessel:bowl")
    bowl = timeline.scene.lanes[at].bars[0]
    assert bowl.kind is BarKind.VESSEL
    timeline.focus_on(at, bowl)
    assert timeline.accessibleName() == "Timeline, Big bowl, Potato salad: Worktop"
    press(timeline, Qt.Key.Key_L)
    assert timeline.scene.lanes[at].line
    assert timeline.focused == (at, bowl)
    assert spoken.name_of(timeline.scene, bowl) == "Big bowl, Potato salad: Worktop"


def test_a_line_is_remembered_through_other_readings_and_timetables(timeline: Timeline) -> None:
    click_name(timeline, "station:fridge")
    timeline.set_reading("dish")
    assert not any(lane.line for lane in timeline.scene.lanes)
    timeline.set_reading("station")
    timeline.set_plan(the_plan(), on_paper(the_plan()))
    assert [lane.id for lane in timeline.scene.lanes if lane.line] == ["station:fridge"]
    assert timeline.scene.lanes[number(timeline, "station:fridge")].tracks == ()


def test_arrows_go_into_a_line_and_out_of_it(timeline: Timeline) -> None:
    click_name(timeline, "station:burner-1")
    timeline.select("beans.cook")
    press(timeline, Qt.Key.Key_Up)
    assert timeline.focused is not None
    assert (timeline.focused[0], timeline.focused[1].step) == (number(timeline, "station:burner-1"), "beans.boil")
    press(timeline, Qt.Key.Key_Down)
    assert timeline.focused[1].step == "beans.cook"


def test_burners_beside_a_line_are_no_longer_joined_to_it(timeline: Timeline) -> None:
    click_name(timeline, "station:burner-2")
    assert [timeline.scene.lanes[at].joined for at in range(2, 5)] == [False, False, False]
    click_name(timeline, "station:burner-2")
    assert [timeline.scene.lanes[at].joined for at in range(2, 5)] == [False, True, True]


def test_a_bar_in_a_line_is_hit_anywhere_in_its_height_and_can_be_dragged(timeline: Timeline, qtbot) -> None:
    click_name(timeline, "station:oven")
    at, scene = number(timeline, "station:oven"), timeline.scene
    box = find(timeline, "pork.roast")[2]
    alone = round(scene.x(-150))  # the gratin goes in at -130
    for y in range(round(scene.y(scene.layout.tops[at])) + 1, round(box.y + 9)):
        found = timeline.pointer.bar_at(QPoint(alone, y).toPointF())
        assert found is not None
        assert (found[0], found[1].step) == (at, "pork.roast")
    with qtbot.waitSignal(timeline.step_dropped) as dropped:
        drag(timeline, QPoint(alone, round(box.y + 1)), QPoint(-200, 0))
    assert dropped.args[0] == "pork.roast"


def test_a_line_still_shows_a_clash_in_red(timeline: Timeline) -> None:
    click_name(timeline, "station:oven")
    at, scene = number(timeline, "station:oven"), timeline.scene
    image = timeline.viewport().grab().toImage()
    strip = scene.lane_box(at)

    def reds(minute: int) -> int:
        x = round(scene.x(minute))
        return sum(
            QColor(image.pixel(x, y)).name().upper() == LIGHT.clash
            for y in range(round(strip.y), round(strip.bottom))
        )

    assert reds(-30) >= 3, "the gratin waits too long from -55 to 0"
    assert reds(-100) == 0


def test_many_vessels_begin_as_lines_and_few_do_not() -> None:
    few = lanes_of(terrace.the_plan(), terrace.the_timetable(), "station", -400, 60)
    assert not any(lane.line for lane in with_lines(few, {}))
    bowl = next(lane for lane in few if lane.kind is LaneKind.VESSEL)
    many = (*few, bowl, bowl, bowl)
    assert sum(lane.line for lane in with_lines(many, {})) == 4
    assert sum(lane.line for lane in with_lines(many, {bowl.id: False})) == 0
    assert a_vessel("bowl").count == 1


@settings(suppress_health_check=[HealthCheck.too_slow])
@given(plan=plans(), reading=st.sampled_from(["station", "dish", "cook"]))
def test_strokes_lie_inside_their_lines_and_are_hit(plan: Plan, reading: str) -> None:
    timetable = on_paper(plan)
    open_lanes = stage(plan, timetable, (), reading).lanes
    scene = stage(plan, timetable, (), reading, ppm=3.0, lines={lane.id: True for lane in open_lanes})
    for at, bar, box in scene.layout.boxes(scene.axis):
        top, foot = scene.layout.tops[at], scene.layout.tops[at] + scene.layout.heights[at]
        assert top <= box.y
        assert box.bottom <= foot + 0.01
        if box.w >= 2 and bar.kind is not BarKind.HEATING:
            found = scene.layout.hit(box.x + box.w / 2, box.y + box.h / 2, scene.axis)
            assert found is not None
            hit = scene.layout.box(*found, scene.axis)
            assert found[0] == at
            assert found[1] == bar or hit.holds(box.x + box.w / 2, box.y + box.h / 2)


def test_a_line_with_few_rows_keeps_its_strokes_apart() -> None:
    scene = stage(the_plan(), the_timetable(), (), "station", ppm=3.0, lines={"station:oven": True})
    bars = [bar for bar in scene.lanes[0].bars if bar.kind is BarKind.STEP]
    first, second = (scene.layout.box(0, bar, scene.axis) for bar in bars)
    assert not first.meets(second)


def test_a_name_in_a_line_and_its_sign_are_written(timeline: Timeline) -> None:
    click_name(timeline, "station:oven")
    assert "Oven" in timeline.drawn_texts()
    assert "160 °C" not in timeline.drawn_texts()
    assert timeline.lines.tip(0) == "Oven\nClick or press L to unfold"
    assert middle(timeline, "gratin.bake").y() < timeline.scene.y(timeline.scene.layout.heights[0])
