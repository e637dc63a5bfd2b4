"""How much is painted and worked out for one turn, scroll, move or minute: counted, not timed."""

from __future__ import annotations

from collections import Counter
from functools import cache

import pytest
from PySide6.QtCore import QCoreApplication, QPoint, Qt
from PySide6.QtTest import QTest

import app.timeline.timeline as timeline_module
from app.timeline import Timeline, paint_density
from app.timeline.bars import BarKind
from app.timeline.paint_density import thinned
from bench.feasts import feast
from bench.many_feasts import many
from core.timetable import book_kept
from core.timetable.clashes import clashes
from tests.app.timeline.acting import wheel

CTRL = Qt.KeyboardModifier.ControlModifier
SHIFT = Qt.KeyboardModifier.ShiftModifier


@cache
def large(one_kitchen: bool) -> tuple:
    """Return ten feasts of 12 dishes: side by side, or one after the other in a single kitchen, where they clash."""
    one = many(12, 10, one_kitchen=one_kitchen)
    return one.plan, one.planted, tuple(clashes(one.plan, one.planted)) if one_kitchen else ()


class Watch:
    """Counts on one timeline: scenes staged, rectangles and points painted."""

    def __init__(self, timeline: Timeline, monkeypatch) -> None:
        self.timeline = timeline
        self.count: Counter[str] = Counter()
        stage, paint = timeline_module.stage, timeline._backing.paint

        def staged(*given, **named):
            self.count["staged"] += 1
            return stage(*given, **named)

        def painted(painter, scene, kit, rects):
            self.count["paints"] += 1
            self.count["points"] += sum(rect.width() * rect.height() for rect in rects)
            paint(painter, scene, kit, rects)

        monkeypatch.setattr(timeline_module, "stage", staged)
        monkeypatch.setattr(timeline._backing, "paint", painted)
        self.clear()

    def clear(self) -> None:
        QCoreApplication.processEvents()
        self.count.clear()
        self.timeline.kit.counts.clear()

    @property
    def bars(self) -> int:
        return self.timeline.kit.counts["bars"]


def in_sight(timeline: Timeline) -> int:
    """Return how many bars, or tails of bars, lie in sight in lanes that show bars."""
    scene, count = timeline.scene, 0
    for at, lane in enumerate(scene.lanes):
        strip = scene.lane_box(at)
        if strip.bottom < scene.ruler - 12 or strip.y > scene.height + 12 or thinned(scene, at):
            continue
        boxes = [scene.box(at, bar) for bar in lane.bars]
        count += sum(box.right > scene.gutter - 9 and box.x < scene.width + 9 for box in boxes)
    return count


@pytest.fixture
def watch(timeline: Timeline, monkeypatch) -> Watch:
    timeline.glide.wanted = lambda: False
    timeline.set_plan(*large(False))
    timeline.fit_last_hours(2)
    return Watch(timeline, monkeypatch)


def test_a_turn_of_the_wheel_paints_once_and_only_bars_in_sight(watch: Watch) -> None:
    timeline = watch.timeline
    whole = sum(len(lane.bars) for lane in timeline.scene.lanes)
    for _turn in range(6):
        wheel(timeline, QPoint(800, 400), QPoint(0, 120), CTRL)
        QCoreApplication.processEvents()
        assert watch.count["paints"] == 1
        assert watch.count["staged"] == 0
        assert watch.bars <= in_sight(timeline)
        assert watch.bars < whole / 5
        watch.clear()


def test_many_turns_before_a_paint_are_painted_once(watch: Watch) -> None:
    for _turn in range(20):
        wheel(watch.timeline, QPoint(800, 400), QPoint(0, 12), CTRL)
    QCoreApplication.processEvents()
    assert watch.count["paints"] == 1


def test_scrolling_across_leaves_the_lanes_names_alone(watch: Watch, monkeypatch) -> None:
    named = []
    monkeypatch.setattr("app.timeline.paint_ruler.gutter", lambda *given: named.append(given))
    wheel(watch.timeline, QPoint(800, 400), QPoint(0, 120), SHIFT)
    QCoreApplication.processEvents()
    assert watch.count["paints"] == 1
    assert watch.count["staged"] == 0
    assert named == []


def test_scrolling_down_paints_a_strip(watch: Watch) -> None:
    wheel(watch.timeline, QPoint(800, 400), QPoint(0, -120))
    QCoreApplication.processEvents()
    viewport = watch.timeline.viewport()
    assert 0 < watch.count["points"] < 0.25 * viewport.width() * viewport.height()
    assert watch.bars < in_sight(watch.timeline) / 2


def test_a_pointer_that_hovers_paints_nothing(watch: Watch) -> None:
    for x in range(200, 1200, 40):
        QTest.mouseMove(watch.timeline.viewport(), QPoint(x, 300))
    QCoreApplication.processEvents()
    assert watch.count["points"] == 0


def test_a_drag_stages_nothing_and_paints_the_bars_once(watch: Watch) -> None:
    timeline = watch.timeline
    timeline.set_reading("dish")
    scene = timeline.scene
    box = next(
        box
        for _lane, bar, box in timeline.bar_rects()
        if bar.kind is BarKind.STEP
        and box.w > 30
        and scene.gutter + 60 < box.x < scene.width - 400
        and scene.ruler + 40 < box.y < scene.height - 60
    )
    start = QPoint(round(box.x + box.w / 2), round(box.y + box.h / 2))
    viewport = timeline.viewport()
    QTest.mousePress(viewport, Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier, start)
    QTest.mouseMove(viewport, start + QPoint(12, 0))
    QCoreApplication.processEvents()
    assert scene.held is not None
    watch.clear()
    taken = timeline._backing.taken
    for step in range(1, 9):
        QTest.mouseMove(viewport, start + QPoint(12 + 9 * step, 0))
        QCoreApplication.processEvents()
    assert watch.count["staged"] == 0
    assert watch.bars == 0, "bars come from the picture taken when the drag began"
    assert timeline._backing.taken == taken
    assert timeline.scene is scene
    QTest.keyClick(timeline, Qt.Key.Key_Escape)


def test_texts_are_drawn_once_and_then_their_pictures(watch: Watch) -> None:
    timeline = watch.timeline
    timeline.viewport().repaint()
    made = len(timeline.kit._sprites)
    assert made > 20
    for _time in range(3):
        timeline.viewport().repaint()
    assert len(timeline.kit._sprites) == made


def test_from_far_off_a_crowded_kitchen_is_painted_as_profiles(timeline: Timeline, monkeypatch) -> None:
    timeline.glide.wanted = lambda: False
    timeline.set_plan(*large(True))
    timeline.fit_all()
    watch = Watch(timeline, monkeypatch)
    timeline.viewport().repaint()
    counts = timeline.kit.counts
    assert counts["profiles"] >= 5
    assert watch.bars <= 12 * len(timeline.scene.lanes)
    timeline.fit_last_hours(2)
    watch.clear()
    timeline.viewport().repaint()
    assert watch.bars > 0
    assert counts["profiles"] < 5, "nearer there are bars again"


def test_profiles_are_worked_out_once_for_all_zooms(timeline: Timeline, monkeypatch) -> None:
    timeline.glide.wanted = lambda: False
    timeline.set_plan(*large(True))
    timeline.fit_all()
    timeline.viewport().repaint()
    from app.timeline import paint_density

    monkeypatch.setattr(paint_density, "occupied", lambda bars: pytest.fail("counted again"))
    for _turn in range(4):
        wheel(timeline, QPoint(800, 400), QPoint(0, 120), CTRL)
        timeline.viewport().repaint()


def test_opening_reads_the_timetable_once(timeline: Timeline, monkeypatch) -> None:
    timeline.glide.wanted = lambda: False
    read: list[object] = []
    book = book_kept.Book
    monkeypatch.setattr(book_kept, "Book", lambda *given: read.append(given) or book(*given))
    one = feast(12, 7)
    timeline.set_plan(one.plan, one.planted, ())
    assert len(read) == 1


@pytest.mark.parametrize(("most", "least", "seen"), [(10, 20, 90), (10**9, 150, 10**9)])
def test_an_overfull_kitchen_thins_out_until_a_view_holds_few_bars_and_scrolling_changes_no_lane(
    timeline: Timeline, monkeypatch, most: int, least: int, seen: int
) -> None:
    monkeypatch.setattr(paint_density, "MOST", most)
    timeline.glide.wanted = lambda: False
    timeline.resize(1920, 1080)
    timeline.set_plan(*large(True))
    found = 0
    for _step in range(24):
        wheel(timeline, QPoint(900, 400), QPoint(0, 60), CTRL)
        before = [thinned(timeline.scene, at) for at in range(len(timeline.scene.lanes))]
        down = timeline.verticalScrollBar()
        for share in (0, 0.5, 1):
            down.setValue(round(share * down.maximum()))
            found = max(found, in_sight(timeline))
        assert [thinned(timeline.scene, at) for at in range(len(timeline.scene.lanes))] == before
    assert least < found < seen
