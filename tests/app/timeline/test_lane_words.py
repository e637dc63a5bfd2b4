from __future__ import annotations

from dataclasses import replace

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from PySide6.QtCore import Qt

from app.look.colours import LIGHT
from app.timeline import Timeline
from app.timeline.bars import BarKind
from app.timeline.kit import Kit
from app.timeline.lane_words import Hung, hung
from app.timeline.staging import stage
from core.plan.plan import Plan
from core.timetable.on_paper import on_paper
from core.timetable.timetable import Hand, Placed, Spot, Timetable
from tests.app.timeline.acting import press
from tests.support.builders import a_bench, a_grill, a_kitchen, a_step, a_use, an_oven
from tests.support.strategies import plans


def test_the_word_of_a_touch_hangs_below_its_thin_bar(timeline: Timeline) -> None:
    timeline.set_reading("cook")
    texts = timeline.drawn_texts()
    assert "by cook" in texts
    for text in ("PG foil off", "GB Cook the beans", "Peel and slice", "Oven on"):
        assert text in texts, text
    at = next(number for number, lane in enumerate(timeline.scene.lanes) if lane.name == "Ben")
    lane = timeline.scene.lanes[at]
    assert (lane.rows, lane.words) == (3, 2)
    below = next(each for each in hung(timeline.scene, timeline.kit, at) if each.text == "PG foil off")
    assert below.left == timeline.scene.layout.box(at, below.bar, timeline.scene.axis).x + 4


def test_a_text_that_leaves_the_view_is_shortened_or_left_out(timeline: Timeline) -> None:
    timeline.set_reading("cook")
    whole = {each.text for at in range(2) for each in hung(timeline.scene, timeline.kit, at)}
    timeline.sight.fit(-84, 10, 0.0)  # the foil is off by then
    assert "PG foil off" in whole
    assert "PG foil off" not in timeline.drawn_texts()


def test_a_walks_text_lies_on_no_line_of_another_text(qapp) -> None:
    kit = Kit(LIGHT)
    scene = stage(*out_and_in(), (), "cook", ppm=3.0, row=kit.row)
    texts = hung(scene, kit, 0)
    walks = [each.text for each in texts if each.bar.kind is BarKind.WALK]
    assert walks == ["walk to the terrace", "walk to the kitchen"]
    assert len(texts) == 5
    assert_clear(texts)


def out_and_in() -> tuple[Plan, Timetable]:
    """Return work in the kitchen, on the terrace right after, and much later in the kitchen again."""
    kitchen = replace(a_kitchen(stations=(an_oven(), a_grill())), walk=3)
    uses = [("soup.roast", "oven", -90), ("soup.grill", "grill", -60), ("soup.finish", "oven", -20)]
    plan = a_bench(*(a_step(step, minutes=5, uses=(a_use(kind),)) for step, kind, _start in uses), kitchen=kitchen)
    placed = (
        Placed(step, start, 5, spots=(Spot(kind),), hands=(Hand(start, 5, "ann"),)) for step, kind, start in uses
    )
    return plan, Timetable(tuple(placed))


def assert_clear(texts: list[Hung]) -> None:
    for number, one in enumerate(texts):
        assert one.text
        for other in texts[number + 1 :]:
            if one.level == other.level:
                assert one.right < other.left or other.right < one.left
            upper, lower = sorted((one, other), key=lambda each: each.level)
            if upper.level < lower.level:
                assert not upper.left <= lower.left - 4 <= upper.right, "its line would cross a text"


def test_no_words_hang_in_a_line(timeline: Timeline) -> None:
    timeline.set_reading("cook")
    press(timeline, Qt.Key.Key_Home)
    press(timeline, Qt.Key.Key_L)
    at = timeline.scene.focus_lane
    lane = timeline.scene.lanes[at]
    assert (lane.line, lane.words, lane.rows) == (True, 0, 1)
    assert "Potato gratin: Peel and slice" not in timeline.drawn_texts()


@settings(suppress_health_check=[HealthCheck.too_slow, HealthCheck.function_scoped_fixture])
@given(plan=plans(), ppm=st.floats(0.05, 30))
def test_hung_texts_meet_neither_each_other_nor_each_others_lines(qapp, plan: Plan, ppm: float) -> None:
    kit = Kit(LIGHT)
    scene = stage(plan, on_paper(plan), (), "cook", ppm=ppm, row=kit.row)
    for at in range(len(scene.lanes)):
        assert_clear(hung(scene, kit, at))
