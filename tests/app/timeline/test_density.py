from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from app.timeline.bars import Bar, BarKind, Lane, LaneKind
from app.timeline.density import COARSER, Grain, Profile, coarser, crowded, occupied, profile, typical

ONE = st.tuples(st.integers(-300, 300), st.integers(0, 60)).map(lambda at: (at[0], at[0] + at[1]))
SPANS = st.lists(ONE, max_size=25)
STEPS = st.sampled_from([4, 16, 64])


def counted(spans: list[tuple[int, int]], minute: int) -> int:
    return sum(start <= minute < end for start, end in spans)


@given(SPANS, st.integers(-320, 380))
def test_a_profile_counts_what_lies_over_a_minute(spans: list[tuple[int, int]], minute: int) -> None:
    assert profile(spans).level(minute) == counted(spans, minute)


@given(SPANS, STEPS, st.integers(-10, 10))
def test_a_coarser_profile_is_the_mean_over_its_steps(spans: list[tuple[int, int]], minutes: int, step: int) -> None:
    start = step * minutes
    mean = sum(counted(spans, at) for at in range(start, start + minutes)) / minutes
    found = coarser(profile(spans), minutes)
    assert abs(found.level(start) - mean) < 0.001
    assert abs(found.level(start + minutes - 1) - mean) < 0.001


@given(SPANS, st.floats(0.001, 3))
def test_a_grain_has_no_step_that_is_too_narrow_and_loses_no_work(spans: list[tuple[int, int]], ppm: float) -> None:
    step, found = Grain(profile(spans)).at(ppm, least=1.5)
    assert step * ppm >= 1.5
    assert step == 1 or step / COARSER * ppm < 1.5
    whole = sum(level * (found.times[at + 1] - found.times[at]) for at, level in enumerate(found.levels))
    assert abs(whole - sum(end - start for start, end in spans)) <= 0.02 * step * max(1, len(found.levels))


@given(SPANS, st.integers(-320, 380), st.integers(1, 200))
def test_the_steps_between_two_minutes_are_all_that_meet_them(
    spans: list[tuple[int, int]], start: int, long: int
) -> None:
    whole = profile(spans)
    end = start + long
    found = whole.between(start, end)
    assert whole.meets(start, end) is bool(found)
    for minute in range(start, end):
        inside = [level for first, last, level in found if first <= minute < last]
        assert sum(inside) == counted(spans, minute)


def lane(*bars: tuple[int, int], rows: int = 1) -> Lane:
    made = tuple(Bar(BarKind.STEP, start, start + long) for start, long in bars)
    return Lane("a", LaneKind.STATION, "A", made, rows)


def test_a_lane_is_crowded_when_its_typical_bar_is_under_three_points_wide() -> None:
    few = lane((-100, 10), (-80, 10), (-50, 40))
    assert typical(few) == 10
    assert not crowded(few, typical(few), 0.31, 1000)
    assert crowded(few, typical(few), 0.29, 1000)


def test_a_lane_is_crowded_when_there_are_too_many_bars_for_its_rows() -> None:
    many = [(-at, 30) for at in range(200, 0, -1)]
    assert crowded(lane(*many), 30, 1.0, 1000)
    assert not crowded(lane(*many, rows=2), 30, 1.0, 1000)
    assert not crowded(lane(), 0, 0.001, 1000)


def test_heating_up_takes_no_row_and_a_wide_thing_takes_all_of_its_rows() -> None:
    bars = (Bar(BarKind.HEATING, -60, -40), Bar(BarKind.STEP, -50, -30, rows=3))
    assert occupied(bars) == Profile((-50, -30), (3,))
