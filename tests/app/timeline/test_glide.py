from __future__ import annotations

import time
from collections.abc import Iterator
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st
from PySide6.QtCore import QEvent, QObject, QPoint, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from app.timeline import Timeline, glide, glide_motion, glide_run
from app.timeline.bars import Bar, BarKind
from app.timeline.geometry import Box
from app.timeline.glide import LASTS, Shown, between, eased, glide_of
from core.timetable.timetable import Timetable
from tests.app.timeline.acting import press, wheel
from tests.app.timeline.feast import the_plan, the_timetable

WHOLE = Box(0, 0, 1000, 500)


class Clock:
    """Seconds that pass when told to."""

    def __init__(self) -> None:
        self.now = 100.0

    def __call__(self) -> float:
        return self.now


class Paints(QObject):
    """Counts how often a widget is painted."""

    def __init__(self, widget: QObject) -> None:
        super().__init__()
        self.count = 0
        widget.installEventFilter(self)

    def eventFilter(self, _watched: QObject, event: QEvent) -> bool:  # noqa: N802  Qt's name
        self.count += event.type() == QEvent.Type.Paint
        return False


@pytest.fixture
def clock(timeline: Timeline) -> Iterator[Clock]:
    """Let things move on the timeline, by a clock of the test's own."""
    told = Clock()
    timeline.glide.clock, timeline.glide.wanted = told, lambda: True
    timeline.fit_all()
    yield told
    timeline.glide.finish()


def places(timeline: Timeline) -> dict[tuple, Box]:
    return {(bar.kind, bar.step, bar.start, bar.cook): box for _lane, bar, box in timeline.bar_rects()}


def later(by: int = 30) -> Timetable:
    """Return the feast with the roast so many minutes earlier and its oven too."""
    old = the_timetable()
    placed = tuple(
        replace(each, start=each.start - by) if each.step == "pork.roast" else each for each in old.placed
    )
    return replace(old, placed=placed)


def roast(timeline: Timeline) -> Box:
    return next(box for bar, box, _seen in timeline.glide.boxes() if bar.step == "pork.roast")


# ---------------------------------------------------------------- numbers without a window


def test_the_way_is_fast_first_and_ends_exactly() -> None:
    assert [eased(share) for share in (-1, 0, 0.5, 1, 2)] == [0, 0, 0.875, 1, 1]
    old, new = Box(0, 10, 100, 20), Box(80, 90, 20, 40)
    assert between(old, new, 0) is old
    assert between(old, new, 1) is new
    assert between(old, new, 0.5) == Box(40, 50, 60, 30)


def a_bar(step: str = "soup.boil", start: int = 0, kind: BarKind = BarKind.STEP, **fields) -> Bar:
    return Bar(kind, start, start + 10, step, **fields)


def test_the_same_load_goes_from_box_to_box_new_ones_come_and_gone_ones_go() -> None:
    before = [Shown("a", a_bar(), Box(0, 0, 10, 10)), Shown("a", a_bar("soup.cut", 5), Box(20, 0, 10, 10))]
    after = [Shown("b", a_bar(start=40), Box(100, 50, 10, 10)), Shown("b", a_bar("soup.eat", 9), Box(200, 50, 10, 10))]
    found = glide_of(before, after, WHOLE)
    half = {bar.step: (box, seen) for bar, box, seen in found.at(0.5)}
    assert half["soup.boil"] == (Box(87.5, 43.75, 10, 10), 1.0)
    assert half["soup.cut"] == (Box(20, 0, 10, 10), 0.0)
    assert half["soup.eat"] == (Box(200, 50, 10, 10), 0.0)
    assert {bar.step: seen for bar, _box, seen in found.at(0.25)} == {"soup.boil": 1, "soup.cut": 0.5, "soup.eat": 0}
    assert {bar.step: seen for bar, _box, seen in found.at(0.75)} == {"soup.boil": 1, "soup.cut": 0, "soup.eat": 0.5}


def test_hands_come_out_of_their_steps_bar_and_go_back_into_it() -> None:
    step, hand = Shown("a", a_bar(), Box(0, 0, 50, 10)), Shown("b", a_bar(kind=BarKind.HAND), Box(9, 90, 5, 10))
    out = glide_of([step], [hand], WHOLE)
    assert (hand.bar, Box(0, 0, 50, 10), 1.0) in out.at(0)
    assert (hand.bar, hand.box, 1.0) in out.at(1)
    assert (step.bar, hand.box, 0.0) in out.at(1), "what is no longer there fades on its way"


def test_hands_given_to_another_cook_are_the_same_hands() -> None:
    ann, ben = a_bar(kind=BarKind.HAND, cook="ann"), a_bar(kind=BarKind.HAND, cook="ben")
    found = glide_of([Shown("cook:ann", ann, Box(0, 0, 9, 9))], [Shown("cook:ben", ben, Box(0, 40, 9, 9))], WHOLE)
    assert len(found.moving) == 1
    assert found.at(0.5)[0][1] == Box(0, 35, 9, 9)


def test_what_stays_where_it_is_does_not_go_and_out_of_sight_nothing_does() -> None:
    one = Shown("a", a_bar(), Box(0, 0, 10, 10))
    assert not glide_of([one], [one], WHOLE).goes
    far = Shown("a", a_bar(), Box(5000, 0, 10, 10))
    assert not glide_of([far], [far._replace(box=Box(6000, 0, 10, 10))], WHOLE).goes
    assert glide_of([one], [far], WHOLE).goes


def test_very_many_bars_fade_over_instead() -> None:
    half = glide.MANY // 2
    before = [Shown("a", a_bar(f"soup.s{n}", n), Box(n, 0, 10, 10)) for n in range(half)]
    assert not glide_of(before, before, WHOLE).fades
    found = glide_of([*before, Shown("a", a_bar(), Box(1, 0, 10, 10))], before, WHOLE)
    assert found.fades
    assert found.goes
    assert found.moving == ()


BOXES = st.builds(Box, *(st.floats(0, 900) for _ in range(4)))


@given(
    old=st.dictionaries(st.integers(0, 9), BOXES), new=st.dictionaries(st.integers(0, 9), BOXES), share=st.floats(0, 1)
)
def test_all_begin_where_they_were_and_end_where_they_are(old: dict, new: dict, share: float) -> None:
    before = [Shown("a", a_bar(f"soup.s{n}"), box) for n, box in old.items()]
    after = [Shown("b", a_bar(f"soup.s{n}", 7), box) for n, box in new.items()]
    sight = Box(-1, -1, 3000, 3000)
    found = glide_of(before, after, sight)
    inside = {n for boxes in (old, new) for n, box in boxes.items() if box.meets(sight)}
    first = {bar.step: box for bar, box, seen in found.at(0) if seen}
    last = {bar.step: box for bar, box, seen in found.at(1) if seen}
    assert first == {f"soup.s{n}": box for n, box in old.items() if n in inside}
    assert last == {f"soup.s{n}": box for n, box in new.items() if n in inside}
    for bar, box, seen in found.at(share):
        name = int(bar.step.removeprefix("soup.s"))
        assert 0 <= seen <= 1
        if name in old and name in new:
            low, high = sorted((old[name].x, new[name].x))
            assert low - 1e-9 <= box.x <= high + 1e-9


# ---------------------------------------------------------------- on the widget, by a clock told by hand


def test_bars_glide_from_reading_to_reading(timeline: Timeline, clock: Clock) -> None:
    before = places(timeline)
    press(timeline, Qt.Key.Key_R)
    after, name = places(timeline), (BarKind.STEP, "gratin.bake", -130, None)
    assert timeline.glide.running

    def at(share: float) -> Box:
        clock.now = 100.0 + share * LASTS
        boxes = timeline.glide.boxes()
        return next(box for bar, box, _seen in boxes if bar.step == "gratin.bake" and bar.kind is BarKind.STEP)

    assert at(0) == before[name]
    assert at(0.5).y == pytest.approx(before[name].y + 0.875 * (after[name].y - before[name].y))
    assert at(1) == after[name]
    shown = {id(each.bar): each.box for each in timeline.glide.shown()}
    for _lane, bar, box in timeline.bar_rects():
        assert shown[id(bar)] == box, "all are in their places"


def test_bars_glide_to_a_better_timetable_and_on_from_where_they_are(timeline: Timeline, clock: Clock) -> None:
    begin = roast_box = next(box for _lane, bar, box in timeline.bar_rects() if bar.step == "pork.roast")
    timeline.sight.moved_by_hand()
    timeline.set_plan(the_plan(), later(30))
    clock.now += LASTS / 2
    halfway = roast(timeline)
    assert halfway.x < roast_box.x
    timeline.set_plan(the_plan(), the_timetable())
    assert roast(timeline) == halfway, "the next change begins where the bar is seen"
    clock.now += LASTS
    assert roast(timeline) == pytest.approx(begin)


def test_a_dropped_bar_does_not_go_back_first(timeline: Timeline, clock: Clock) -> None:
    timeline.sight.moved_by_hand()
    axis = timeline.scene.axis
    begin = next(box for _lane, bar, box in timeline.bar_rects() if bar.step == "pork.roast")
    timeline.glide.dropped("pork.roast", 0, -190)
    timeline.set_plan(the_plan(), later(30))
    starts = [each.box.x for each in timeline.glide.shown() if each.bar.step == "pork.roast"]
    assert starts[0] == pytest.approx(begin.x + axis.x(-190) - axis.x(-160), abs=1.5)


def test_folding_a_lane_glides(timeline: Timeline, clock: Clock) -> None:
    timeline.lines.toggle(0)
    assert timeline.glide.running
    heights = {box.h for bar, box, _seen in timeline.glide.boxes() if bar.step == "pork.roast"}
    assert max(heights) > 20, "from a rack's height"


@pytest.mark.parametrize("what", ["press", "wheel", "key", "resize"])
def test_any_hand_ends_it_at_once_and_is_obeyed(timeline: Timeline, clock: Clock, what: str) -> None:
    timeline.set_reading("dish")
    assert timeline.glide.running
    if what == "press":
        box = next(box for _lane, bar, box in timeline.bar_rects() if bar.step == "pork.roast")
        point = QPoint(round(box.x + box.w / 2), round(box.y + box.h / 2))
        QTest.mousePress(timeline.viewport(), Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier, point)
        assert timeline.scene.selected == "pork.roast", "it is already there"
        QTest.mouseRelease(timeline.viewport(), Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier, point)
    elif what == "wheel":
        wheel(timeline, QPoint(600, 300), QPoint(0, 120), Qt.KeyboardModifier.ControlModifier)
    elif what == "key":
        press(timeline, Qt.Key.Key_Home)
        assert timeline.focused is not None
    else:
        timeline.resize(1200, 700)
    assert not timeline.glide.running


def test_zooming_by_a_button_shows_things_where_they_are(timeline: Timeline, clock: Clock) -> None:
    timeline.set_reading("dish")
    timeline.fit_last_hours(2)
    timeline.viewport().grab()
    assert not timeline.glide.running


def test_it_paints_while_it_glides_and_not_after(timeline: Timeline, qtbot) -> None:
    timeline.fit_all()
    timeline.glide.wanted = lambda: True
    QApplication.processEvents()
    paints = Paints(timeline.viewport())
    timeline.set_reading("dish")
    qtbot.waitUntil(lambda: not timeline.glide.running, timeout=5000)
    QApplication.processEvents()
    done = paints.count
    assert done >= 2
    until = time.monotonic() + 0.15
    while time.monotonic() < until:
        QApplication.processEvents()
    assert paints.count == done


def test_halfway_the_picture_is_neither_and_at_the_end_it_is_the_new_one(timeline: Timeline, clock: Clock) -> None:
    timeline.set_reading("dish")
    clock.now += LASTS / 2
    halfway = timeline.viewport().grab().toImage()
    timeline.glide.finish()
    end = timeline.viewport().grab().toImage()
    assert halfway != end
    timeline.glide.wanted = lambda: False
    timeline.set_reading("cook")
    timeline.set_reading("dish")
    assert timeline.viewport().grab().toImage() == end


def test_many_bars_fade_over(timeline: Timeline, clock: Clock, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(glide_run, "MANY", 3)
    timeline.set_reading("dish")
    assert timeline.glide.fades
    assert timeline.glide.boxes() == []
    clock.now += LASTS / 2
    timeline.viewport().grab()
    assert timeline.glide.running


# ---------------------------------------------------------------- whether things may move


def test_nothing_moves_unless_asked_where_nobody_sees_it(timeline: Timeline) -> None:
    timeline.set_reading("dish")
    assert not timeline.glide.running


@pytest.mark.parametrize(("told", "moves"), [("full", True), ("less", False)])
def test_the_environment_has_the_first_word(qapp, monkeypatch: pytest.MonkeyPatch, told: str, moves: bool) -> None:
    monkeypatch.setenv(glide_motion.NAME, told)
    assert glide_motion.wanted() is moves


@pytest.mark.parametrize(("wish", "lasts", "moves"), [
    ("system", 200, True),
    ("system", 0, False),
    ("less", 200, False),
    ("full", 0, True),
])
def test_the_cooks_wish_comes_before_the_platforms(
    qapp, monkeypatch: pytest.MonkeyPatch, wish: str, lasts: int, moves: bool
) -> None:
    monkeypatch.delenv(glide_motion.NAME, raising=False)
    monkeypatch.setattr(glide_motion, "_UNSEEN", frozenset())
    monkeypatch.setattr(glide_motion, "_platform_lasts", lambda _app: lasts)
    glide_motion.MotionSetting().motion = wish
    assert glide_motion.MotionSetting().motion == wish
    assert glide_motion.wanted() is moves
