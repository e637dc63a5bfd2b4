"""The small signs on bars, seen on the picture; the card that explains them."""

from __future__ import annotations

import pytest
from PySide6.QtGui import QColor

from app.timeline import Timeline
from app.timeline.bar_card import card_of, decided, lines_of
from app.timeline.bar_signs import PITCH
from core.plan.decisions import Choice, LengthOf, Order, Pin
from core.plan.step import Manner
from tests.app.timeline.acting import find
from tests.app.timeline.decided import BOIL, COOK, ROAST, decided_plan, open_plan
from tests.app.timeline.feast import the_timetable


def picture(timeline: Timeline, plan) -> tuple[object, object]:
    timeline.set_plan(plan, the_timetable())
    timeline.select(None)
    box = find(timeline, ROAST)[2]
    return timeline.viewport().grab().toImage(), box


@pytest.mark.parametrize(
    "decisions",
    [
        {"choices": (Choice(ROAST, 0),)},
        {"lengths": (LengthOf(ROAST, Manner.HIGH),)},
        {"orders": (Order(ROAST, BOIL),)},
    ],
    ids=["way", "length", "order"],
)
def test_a_sign_stands_between_the_tab_and_the_text(timeline: Timeline, decisions: dict) -> None:
    plain, box = picture(timeline, open_plan())
    signed, _box = picture(timeline, open_plan(**decisions))
    first = round(box.x + timeline.kit.tab)
    ink = QColor(timeline.kit.tone(1).on_soft)
    rows = range(round(box.y + 3), round(box.y + box.h - 3))

    def dark(image, x: int) -> int:
        return sum(QColor(image.pixel(x, y)).lightness() < 110 for y in rows)

    assert sum(dark(plain, x) for x in range(first + 2, first + 6)) == 0, "there was nothing before the text"
    assert sum(dark(signed, x) for x in range(first + 2, first + round(PITCH) + 2)) > 6
    assert ink.lightness() < 110


def test_text_and_signs_never_meet(timeline: Timeline) -> None:
    timeline.set_plan(decided_plan(), the_timetable())
    written: list[tuple[str, float]] = []
    kit = timeline.kit
    write = kit.write

    def watched(painter, where, text, font, colour, **more) -> None:
        written.append((text, where.left()))
        write(painter, where, text, font, colour, **more)

    kit.write = watched  # type: ignore[method-assign]
    for span in ((-180, 10), (-400, 30), (-170, -60)):
        timeline.sight.fit(*span, 0.0)
        written.clear()
        timeline.viewport().grab()
        box = find(timeline, ROAST)[2]
        starts = [left for text, left in written if text.endswith("Roast to 60 °C")]
        assert starts
        left = max(box.x, timeline.scene.gutter)
        inside = [each for each in starts if left <= each < box.right]
        assert all(each >= left + 3 * PITCH for each in inside), "three signs stand before it"


def test_a_short_bar_has_a_dot_where_its_signs_have_no_room(timeline: Timeline) -> None:
    timeline.set_plan(open_plan(orders=(Order(ROAST, BOIL),)), the_timetable())
    timeline.select(None)
    timeline.set_folded(False)
    timeline.fit_all()
    box = find(timeline, BOIL)[2]
    assert box.w < PITCH + timeline.kit.tab
    image = timeline.viewport().grab().toImage()
    near = {
        QColor(image.pixel(x, y)).name()
        for x in range(round(box.x) - 1, round(box.x) + 6)
        for y in range(round(box.bottom) - 5, round(box.bottom) + 1)
    }
    assert timeline.kit.ink.name() in near


def test_a_loose_pin_is_hollow_and_a_whole_one_is_not(timeline: Timeline) -> None:
    heads = {}
    for name, pin in (("whole", Pin(ROAST, 0, -160)), ("loose", Pin(ROAST, 0, None, "oven"))):
        image, box = picture(timeline, open_plan(pins=(pin,)))
        heads[name] = QColor(image.pixel(round(box.x) + 4, round(box.y))).lightness()
    assert heads["whole"] < 90
    assert heads["loose"] > 200


def test_the_card_explains_every_sign_and_the_reader_says_it(timeline: Timeline) -> None:
    timeline.set_plan(decided_plan(), the_timetable())
    scene = timeline.scene
    known = {step: (at, bar) for at, bar, _box in timeline.bar_rects() for step in [bar.step] if bar.kind == "step"}
    lanes = {lane.id: lane for lane in scene.lanes}
    at, bar = known[ROAST]
    assert decided(scene, bar) == [
        "pinned",
        "this way chosen",
        "likely length reserved",
        "before Green beans: Bring water to the boil",
    ]
    lines = lines_of(card_of(scene, bar, lanes[at]))
    assert "length: 1 h 20 min to 1 h 50 min, likely 1 h 30 min" in lines
    assert "decided: pinned" in lines
    assert "decided: before Green beans: Bring water to the boil" in lines
    assert "decided: kept with Ann, at any time" in lines_of(card_of(scene, known[COOK][1], lanes[known[COOK][0]]))
    assert "only after Roast pork: Roast to 60 °C" in decided(scene, known[BOIL][1])
    timeline.select(ROAST)
    for said in ("pinned", "this way chosen", "likely length reserved", "before Green beans"):
        assert said in timeline.accessibleDescription()


def test_the_card_says_what_a_step_waits_for_and_how_long_between(timeline: Timeline) -> None:
    timeline.set_plan(open_plan(), the_timetable())
    at, bar, _box = find(timeline, "pork.carve")
    lane = next(each for each in timeline.scene.lanes if each.id == at)
    lines = lines_of(card_of(timeline.scene, bar, lane))
    assert "waits for: Roast pork: Roast to 60 °C, 18:20 (30 min to 1 h between)" in lines
