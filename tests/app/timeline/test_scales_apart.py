"""The two scales: no label touches another at any zoom, on plans that cross a change of the clock too."""

from __future__ import annotations

from datetime import datetime
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.timeline import Timeline
from app.timeline.geometry import Axis
from app.timeline.scale import clock_marks, clock_ticks, day_labels, days, plating_ticks, ruler_step, spread
from core.measures.clock import offset_of
from tests.app.timeline.feast import the_plan, the_timetable
from tests.support.builders import a_plan

# the tz database: Europe/London goes back on 25 October 2026 and forward on 28 March 2027, Lord Howe by half an hour
PLANS = {
    "no change": a_plan(),
    "back": a_plan(plating="2026-10-25 12:00"),
    "forward": a_plan(plating="2027-03-28 12:00"),
    "half an hour": a_plan(plating="2026-10-04 19:30", zone="Australia/Lord_Howe"),
}


def width(text: str) -> float:
    return 6.5 * len(text)


def clock(moment: datetime) -> str:
    return f"{moment:%H:%M}"


def scales(plan, low: int, high: int, ppm: float, folds) -> list:
    axis = Axis(low, high, ppm, folds)
    step = ruler_step(ppm)
    by_clock = spread(clock_ticks(plan, low, high, step, clock), axis, width)
    to_plating = spread(plating_ticks(low, high, step), axis, width)
    dates = day_labels(days(plan, low, high), axis, 0, axis.width, lambda day: f"{day:%a %d %b}", width)
    return [by_clock, to_plating, dates]


@pytest.mark.parametrize("name", PLANS)
@given(
    low=st.integers(-5 * 1440, -60),
    ppm=st.floats(0.02, 300),
    cut=st.lists(st.integers(-7000, -30), min_size=2, max_size=2, unique=True),
    folded=st.booleans(),
)
def test_no_label_touches_another(name: str, low: int, ppm: float, cut: list[int], folded: bool) -> None:
    low = max(low, -round(20_000 / ppm) - 60)  # as much as a view and its sides can show
    folds = [(max(low, min(cut)), max(cut))] if folded and max(cut) > low else []
    for labels in scales(PLANS[name], low, 45, ppm, folds):
        for one, other in pairwise(labels):
            assert one.x + one.width + 8 <= other.x


@pytest.mark.parametrize("name", PLANS)
@given(low=st.integers(-5 * 1440, -60), step=st.sampled_from([1, 5, 10, 15, 30, 60, 120, 180, 360, 720, 1440]))
def test_the_clock_is_marked_in_order_at_whole_steps_and_nowhere_twice(name: str, low: int, step: int) -> None:
    plan = PLANS[name]
    low = max(low, -400 * step)
    marks = clock_marks(plan, low, 45, step)
    assert marks == sorted(set(marks))
    for at in marks:
        wall = plan.wall(at)
        assert (wall.hour * 60 + wall.minute) % step == 0 or name == "half an hour"
    longest = step + 120
    assert all(after - before <= longest for before, after in pairwise(marks)), "a gap of hours without a mark"
    if name == "no change":
        assert all(after - before == step for before, after in pairwise(marks))


@given(minute=st.integers(-3000, 300), name=st.sampled_from(sorted(PLANS)))
def test_a_clock_label_names_the_minute_it_stands_at(name: str, minute: int) -> None:
    plan = PLANS[name]
    wall = plan.wall(minute)
    again = offset_of(plan.plating, wall.replace(tzinfo=None))
    assert again in (minute, minute - 60, minute - 30, minute + 60, minute + 30)
    if name == "no change":
        assert again == minute


@pytest.mark.parametrize("language", ["en_GB", "en_US", "de_DE"])
def test_what_the_ruler_writes_never_meets(timeline: Timeline, language: str) -> None:
    from PySide6.QtCore import QLocale

    before = QLocale()
    QLocale.setDefault(QLocale(language))
    try:
        timeline.set_plan(the_plan(), the_timetable(), ())
        timeline.fit_all()
        for _turn in range(70):
            meeting = met_on_ruler(timeline)
            assert meeting == [], timeline.scene.axis.ppm
            timeline.sight.zoom(1.12, 800)
            timeline.sight.shift(37)
    finally:
        QLocale.setDefault(before)


def met_on_ruler(timeline: Timeline) -> list[tuple[str, str]]:
    timeline.kit.written = []
    timeline.drawn_texts()
    written, timeline.kit.written = timeline.kit.written, None
    scene = timeline.scene
    ruler = [each for each in written if each.box.center().y() < scene.ruler]
    found = []
    for at, one in enumerate(ruler):
        if one.box.right() > scene.width + 0.5:
            found.append((one.text, "the side"))
        for two in ruler[at + 1 :]:
            here, there = one.box.adjusted(0, 4, 0, -4), two.box.adjusted(0, 4, 0, -4)
            if here.intersects(there):
                found.append((one.text, two.text))
    return found
