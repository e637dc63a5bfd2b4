from __future__ import annotations

from datetime import datetime
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.timeline.geometry import Axis
from app.timeline.scale import STEPS, Tick, clock_marks, day_labels, days, plating_ticks, ruler_step, spread
from tests.support.builders import a_plan

PLAN = a_plan()


def hours_and_minutes(moment: datetime) -> str:
    return f"{moment:%H:%M}"


@pytest.mark.parametrize(
    ("ppm", "step"), [(70, 1), (13, 5), (6.4, 10), (2, 60), (0.5, 180), (0.05, 1440), (0.001, 1440)]
)
def test_the_step_is_the_first_whose_labels_have_room(ppm: float, step: int) -> None:
    assert ruler_step(ppm) == step


def test_the_clock_is_marked_at_whole_steps() -> None:
    marks = [hours_and_minutes(PLAN.wall(at)) for at in clock_marks(PLAN, -95, 5, 30)]
    assert marks == ["18:00", "18:30", "19:00", "19:30"]


def test_the_clock_goes_on_through_a_change_of_the_clock() -> None:
    # Europe/London, 25 October 2026: 02:00 becomes 01:00 (tz database)
    plan = a_plan(plating="2026-10-25 12:00")
    marks = clock_marks(plan, -13 * 60 - 30, -9 * 60, 60)
    assert [hours_and_minutes(plan.wall(at)) for at in marks] == ["00:00", "01:00", "02:00", "03:00"]
    assert marks[2] - marks[1] == 120
    long_day = next(day for day in days(plan, -700, 0) if day.date.day == 25)
    assert long_day.end - long_day.start == 25 * 60


def test_time_to_plating_counts_from_plating() -> None:
    ticks = [(tick.at, tick.label) for tick in plating_ticks(-65, 20, 30)]
    assert ticks == [(-60, "T-1:00"), (-30, "T-0:30"), (0, "T")]
    assert plating_ticks(-1500, -1400, 1440) == [Tick(-1440, "T-1d 0:00")]


@given(
    st.lists(st.tuples(st.integers(-3000, 0), st.text("0123456789:", min_size=1, max_size=9)), max_size=40),
    st.floats(0.05, 20),
    st.lists(st.integers(-2900, -10), min_size=2, max_size=2, unique=True),
)
def test_labels_never_collide_nor_enter_a_fold(raw: list[tuple[int, str]], ppm: float, cut: list[int]) -> None:
    axis = Axis(-3000, 0, ppm, [(min(cut), max(cut))])
    labels = spread([Tick(*each) for each in sorted(raw)], axis, lambda text: 7.0 * len(text))
    for one, other in pairwise(labels):
        assert one.x + one.width + 10 <= other.x
    for label in labels:
        assert label.x + label.width <= axis.x(min(cut)) or label.x >= axis.x(max(cut))
    if raw and ppm > 5 and max(cut) - min(cut) < 100:
        assert labels or all(min(cut) - 20 < at < max(cut) + 20 for at, _text in raw)


def test_every_day_in_sight_bears_its_date_where_it_fits() -> None:
    axis = Axis(-2 * 1440, 0, 0.5)
    shown = days(PLAN, axis.low, axis.high)
    labels = day_labels(shown, axis, 60, axis.width, lambda day: f"{day:%a %d}", lambda _text: 40)
    assert [label.text for label in labels] == ["Thu 24", "Fri 25", "Sat 26"]
    assert labels[0].x == 66, "a day that began out of sight is named at the left edge"


def test_steps_grow() -> None:
    assert sorted(STEPS) == list(STEPS)
