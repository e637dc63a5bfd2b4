"""The line of the present moment, by a clock of our own."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

import pytest
from PySide6.QtCore import QCoreApplication, QPoint
from PySide6.QtGui import QColor

from app.look.colours import LIGHT
from app.timeline import Timeline
from core.timetable.timetable import Timetable
from tests.app.timeline.feast import the_plan, the_timetable


class Clock:
    """A clock that stands until it is put on."""

    def __init__(self, minute: float) -> None:
        self.at = the_plan().plating.utc() + timedelta(minutes=minute)

    def __call__(self) -> datetime:
        return self.at

    def go(self, minutes: float) -> None:
        self.at += timedelta(minutes=minutes)


@pytest.fixture
def clock(timeline: Timeline) -> Clock:
    made = Clock(-73.5)
    timeline.now.clock = made
    timeline.set_plan(the_plan(), the_timetable(), ())
    timeline.sight.fit(-180, 10, 0)
    return made


def dark_columns(timeline: Timeline, y: int) -> list[int]:
    image = timeline.viewport().grab().toImage()
    left, right = round(timeline.scene.gutter) + 2, round(timeline.scene.width)
    return [x for x in range(left, right) if QColor(image.pixel(x, y)).name().upper() == LIGHT.ink]


def line_at(timeline: Timeline) -> set[int]:
    """Return the columns that are ink in the second oven's empty lane over a dash and a gap."""
    lane = next(at for at, each in enumerate(timeline.scene.lanes) if each.name == "Second oven")
    top = round(timeline.scene.y(timeline.scene.layout.tops[lane])) + 30
    return {x for y in range(top, top + 10) for x in dark_columns(timeline, y)}


def test_a_line_stands_at_the_present_minute_with_the_time(timeline: Timeline, clock: Clock) -> None:
    assert timeline.scene.now == -74, "seconds begun do not count"
    assert "18:16" in timeline.drawn_texts()
    x = round(timeline.scene.x(-74))
    assert line_at(timeline) == {x - 1, x}


def test_a_minute_later_it_has_moved(timeline: Timeline, clock: Clock) -> None:
    clock.go(1)
    timeline.now.tick()
    x = round(timeline.scene.x(-73))
    assert line_at(timeline) == {x - 1, x}
    assert "18:17" in timeline.drawn_texts()


@pytest.mark.parametrize("minute", [-1075, 60, -3 * 1440])
def test_on_other_days_there_is_none(timeline: Timeline, minute: int) -> None:
    timeline.now.clock = Clock(minute)
    timeline.set_plan(the_plan(), the_timetable(), ())
    assert timeline.scene.now is None
    assert line_at(timeline) == set()


def test_without_a_timetable_there_is_none(timeline: Timeline, clock: Clock) -> None:
    timeline.set_plan(the_plan(), Timetable(), ())
    assert timeline.scene.now is None


def test_a_minute_paints_only_its_line_and_the_ruler(timeline: Timeline, clock: Clock, qtbot) -> None:
    areas = []
    paint = timeline._backing.paint

    def watched(painter, scene, kit, rects) -> None:
        areas.extend(rects)
        paint(painter, scene, kit, rects)

    QCoreApplication.processEvents()
    timeline._backing.paint = watched
    made, scene = timeline.overview.pictures, timeline.scene
    clock.go(1)
    timeline.now.tick()
    QCoreApplication.processEvents()
    assert areas
    below = [each for each in areas if each.bottom() > scene.ruler]
    assert below
    assert sum(each.width() for each in below) <= 20
    assert timeline.scene is scene, "nothing is staged anew"
    assert timeline.overview.pictures == made
    clock.go(0.2)
    areas.clear()
    timeline.now.tick()
    QCoreApplication.processEvents()
    assert areas == [], "the same minute paints nothing"


def test_what_a_minute_paints_is_what_painting_it_whole_gives(timeline: Timeline, clock: Clock, qtbot) -> None:
    QCoreApplication.processEvents()
    screen = timeline.windowHandle().screen()
    for _minute in range(4):
        clock.go(1)
        timeline.now.tick()
        QCoreApplication.processEvents()
        piece_by_piece = screen.grabWindow(timeline.winId()).toImage()
        timeline.viewport().update()
        QCoreApplication.processEvents()
        assert piece_by_piece == screen.grabWindow(timeline.winId()).toImage()


def test_it_looks_again_when_the_minute_is_over(timeline: Timeline) -> None:
    timeline.now.clock = lambda: datetime(2026, 9, 26, 17, 0, 45, tzinfo=UTC)
    timeline.now.look()
    assert timeline.now.due == 15_020


def test_the_timer_itself_moves_the_line(timeline: Timeline, qtbot) -> None:
    clock = Clock(-73)
    clock.go(59.95 / 60)
    timeline.now.clock = clock
    timeline.set_plan(the_plan(), the_timetable(), ())
    assert timeline.scene.now == -73
    clock.go(0.1 / 60)
    qtbot.waitUntil(lambda: timeline.scene.now == -72, timeout=3000)


def test_the_time_stands_clear_of_the_scales(timeline: Timeline, clock: Clock) -> None:
    for minute in range(-120, -60):
        clock.at = the_plan().plating.utc() + timedelta(minutes=minute)
        timeline.now.look()
        timeline.kit.written = []
        timeline.drawn_texts()
        ruler = [each.box for each in timeline.kit.written if each.box.top() < timeline.scene.ruler]
        meeting = [(one, two) for at, one in enumerate(ruler) for two in ruler[at + 1 :] if one.intersects(two)]
        assert meeting == []


def test_a_click_goes_through_the_line(timeline: Timeline, clock: Clock) -> None:
    box = next(box for _lane, bar, box in timeline.bar_rects() if bar.step == "gratin.bake")
    point = QPoint(round(timeline.scene.x(-74)), round(box.y + box.h / 2))
    assert timeline.pointer.bar_at(point)[1].step == "gratin.bake"
