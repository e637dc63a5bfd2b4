from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.timeline.bars import Bar, BarKind, Lane, LaneKind
from app.timeline.geometry import FOLD, Axis, Layout, quiet_stretches


@st.composite
def axes(draw: st.DrawFn) -> Axis:
    low = draw(st.integers(-20_000, 0))
    length = draw(st.integers(1, 20_000))
    cuts = sorted(draw(st.sets(st.integers(low, low + length), max_size=8)))
    folds = [(one, other) for one, other in zip(cuts[::2], cuts[1::2], strict=False) if other > one]
    return Axis(low, low + length, draw(st.floats(0.02, 400)), folds)


@given(axes(), st.data())
def test_every_minute_comes_back_from_its_point(axis: Axis, data: st.DataObject) -> None:
    minute = data.draw(st.integers(axis.low - 500, axis.high + 500))
    assert axis.minute(axis.x(minute)) == minute


@given(axes(), st.data())
def test_later_is_always_further_right(axis: Axis, data: st.DataObject) -> None:
    one, other = sorted(data.draw(st.tuples(*[st.integers(axis.low - 50, axis.high + 50)] * 2)))
    assert (one == other) == (axis.x(one) == axis.x(other))
    assert axis.x(one) <= axis.x(other)


def test_without_folds_the_scale_is_even() -> None:
    axis = Axis(-100, 100, 2.5)
    assert [axis.x(at) for at in (-110, -100, 0, 100, 110)] == [-25, 0, 250, 500, 525]
    assert axis.width == 500
    assert axis.time(251.25) == 0.5


def test_a_fold_takes_its_fixed_width_and_no_more_than_it_would_unfolded() -> None:
    wide = Axis(0, 2000, 1.0, [(500, 1500)])
    assert wide.width == 1000 + FOLD
    assert wide.x(1000) == 500 + FOLD / 2
    assert wide.folded(1000)
    assert not wide.folded(500)
    far = wide.zoomed(0.01)
    assert far.width == pytest.approx(20)


@given(axes(), st.floats(60, 4000))
def test_the_scale_that_fits_fits(axis: Axis, width: float) -> None:
    fitted = axis.zoomed(axis.scale_for(width))
    assert fitted.width <= width * 1.001
    if not axis.folds:
        assert fitted.width == pytest.approx(width)


def test_quiet_stretches_are_where_nothing_begins_or_ends() -> None:
    assert quiet_stretches([0, 100, 400, 420], -50, 1000, least=120, margin=15) == ((115, 385), (435, 985))
    assert quiet_stretches([], 0, 100) == ()


def a_bar(start: int, end: int, row: int = 0, rows: int = 1) -> Bar:
    return Bar(BarKind.STEP, start, end, "soup.boil", row=row, rows=rows)


def layout_of(*bars: Bar, rows: int = 2) -> Layout:
    ordered = tuple(sorted(bars, key=lambda bar: bar.start))
    lane = Lane("one", LaneKind.STATION, "One", ordered, rows)
    below = Lane("two", LaneKind.STATION, "Two", (a_bar(0, 10),), 1, crown=True)
    return Layout((lane, below), row=26)


@given(
    st.lists(st.tuples(st.integers(-500, 500), st.integers(1, 200), st.integers(0, 2)), max_size=20),
    st.floats(0.3, 20),
    st.data(),
)
def test_what_is_hit_is_what_lies_there(raw: list[tuple[int, int, int]], ppm: float, data: st.DataObject) -> None:
    bars, until = [], {}
    for start, length, row in sorted(raw):
        if start >= until.get(row, -1000):
            bars.append(a_bar(start, start + length, row))
            until[row] = start + length
    layout, axis = layout_of(*bars, rows=3), Axis(-600, 800, ppm)
    x, y = data.draw(st.floats(0, axis.width)), data.draw(st.floats(0, layout.height - 0.01))
    inside = [(at, bar) for at, bar, box in layout.boxes(axis) if box.holds(x, y)]
    hit = layout.hit(x, y, axis)
    if inside:
        assert hit in inside
    elif hit is not None:
        assert layout.box(*hit, axis).holds(x, y, slop=5)


def test_a_narrow_bar_is_hit_from_beside_and_the_nearer_one_wins() -> None:
    layout, axis = layout_of(a_bar(0, 1), a_bar(8, 9)), Axis(-100, 100, 1.0)
    y = layout.row_top(0, 0) + 10
    assert layout.hit(axis.x(4), y, axis)[1].start == 0
    assert layout.hit(axis.x(5), y, axis)[1].start == 8
    assert layout.hit(axis.x(20), y, axis) is None


def test_lanes_stand_below_each_other_and_rows_inside_them() -> None:
    layout = layout_of(a_bar(0, 10), a_bar(0, 10, row=1))
    axis = Axis(-100, 100, 1.0)
    upper, lower = layout.box(0, a_bar(0, 10), axis), layout.box(0, a_bar(0, 10, row=1), axis)
    assert upper.bottom <= lower.y
    assert lower.bottom <= layout.tops[1]
    assert layout.row_top(1, 0) - layout.tops[1] > layout.row_top(0, 0) - layout.tops[0]
    assert layout.lane_at(layout.tops[1] + 1) == 1
    assert layout.lane_at(layout.height + 1) is None
    assert layout.lane_at(-1) is None


def test_a_wide_bar_spans_its_rows() -> None:
    layout, axis = layout_of(a_bar(0, 10, rows=2)), Axis(-100, 100, 1.0)
    box = layout.box(0, a_bar(0, 10, rows=2), axis)
    assert box.h == pytest.approx(2 * 26 - 3)


def test_only_what_is_in_sight_is_painted_tails_and_long_bars_too() -> None:
    long = a_bar(-500, 490)
    layout = layout_of(long, a_bar(-400, -390, 1), a_bar(495, 499))
    assert layout.between(0, 0, 10) == [long]
