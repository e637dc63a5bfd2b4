"""Drags against every placing of small plans: where a load may go, and that all others move the least."""

from dataclasses import replace

import numpy as np
from hypothesis import assume, given
from hypothesis import strategies as st

from core.plan.decisions import Pin
from core.plan.network_limits import LimitKind, pinned_starts
from core.plan.network_push import Pusher, can_slip
from tests.core.network.grid import CLOSES, OPENS, Grid, small_plans

OFFSETS = st.integers(OPENS, CLOSES)


@st.composite
def drags(draw):
    """Draw a plan, a placing that keeps all it asks, and a load; the load's own pin does not bind it."""
    plan = draw(small_plans(pins=False))
    grid = Grid(plan)
    placings = grid.placings()
    assume(len(placings))
    row = placings[draw(st.integers(0, len(placings) - 1))]
    starts = dict(zip(grid.keys, map(int, row), strict=True))
    pinned = draw(st.lists(st.sampled_from(grid.keys), unique=True, max_size=2))
    plan = replace(plan, decisions=replace(plan.decisions, pins=tuple(Pin(*each, starts[each]) for each in pinned)))
    key = draw(st.sampled_from(grid.keys))
    others = {each: start for each, start in pinned_starts(plan).items() if each != key}
    return plan, starts, key, Grid(plan, others)


@st.composite
def untidy(draw):
    """Draw a plan, starts that may break any of its limits, a load and where it is dragged."""
    plan = draw(small_plans())
    starts = {key: draw(OFFSETS) for key in Grid(plan).keys}
    return plan, starts, draw(st.sampled_from(sorted(starts))), draw(OFFSETS)


@given(drags())
def test_the_legal_stretch_is_where_some_placing_of_the_others_fits(drag):
    plan, starts, key, grid = drag
    assert Pusher(plan, starts).legal_stretch(key) == grid.span(key)


@given(drags(), OFFSETS)
def test_inside_the_stretch_all_holds_again_and_each_load_moves_the_least(drag, start):
    plan, starts, key, grid = drag
    first, last = grid.span(key)
    start = min(max(start, first), last)
    push = Pusher(plan, starts).pushed(key, start)
    after = starts | push.moved
    assert push.broken == ()
    assert grid.holds(after)
    assert all(push.moved[each] != starts[each] for each in push.moved if each != key)
    moved = np.abs(np.array([after[each] - starts[each] for each in grid.keys]))
    possible = np.abs(grid.placings(key, start) - np.array([starts[each] for each in grid.keys]))
    assert (possible.min(axis=0) == moved).all()


@given(drags(), OFFSETS)
def test_outside_the_stretch_only_what_cannot_hold_breaks(drag, start):
    plan, starts, key, grid = drag
    pusher = Pusher(plan, starts)
    push = pusher.pushed(key, start)
    first, last = grid.span(key)
    assert bool(push.broken) == (not first <= start <= last)
    assert all(key in (each.limit.before, each.limit.after) for each in push.broken)
    after = starts | push.moved
    limits = [each for each in pusher.network.limits if each.kind is not LimitKind.PIN]
    gone = {each.limit: each.by for each in push.broken}
    for limit in limits:
        assert after.get(limit.before, 0) + limit.minutes - gone.get(limit, 0) <= after.get(limit.after, 0)
    held = {each: there for each, there in pinned_starts(plan).items() if each != key}
    elsewhere = [limit for limit in limits if key not in (limit.before, limit.after)]
    for limit in gone:
        assert not _can_hold(limit, elsewhere, after, key, held)


def _can_hold(limit, others, after, key, pinned):
    """Return whether one limit can hold with a load where it is and all limits that do not touch it."""
    keys = sorted(after)
    shape = np.ones(len(keys), dtype=int)

    def axis(each):
        if each is None or each == key:
            return 0 if each is None else after[key]
        one = shape.copy()
        one[keys.index(each)] = CLOSES - OPENS + 1
        return np.arange(OPENS, CLOSES + 1).reshape(one)

    good = np.ones([1 if each == key else CLOSES - OPENS + 1 for each in keys], dtype=bool)
    for each in (limit, *others):
        good = good & (axis(each.before) + each.minutes <= axis(each.after))
    for each, start in pinned.items():
        good = good & (axis(each) == start)
    return bool(good.any())


@given(drags())
def test_slip_is_the_way_to_the_end_of_the_stretch(drag):
    plan, starts, key, grid = drag
    assert can_slip(plan, starts)[key] == grid.span(key)[1] - starts[key]
    alone = 0
    while grid.holds(starts | {key: min(starts[key] + alone + 1, CLOSES)}) and starts[key] + alone < CLOSES:
        alone += 1
    assert can_slip(plan, starts, alone=True)[key] == alone


@given(untidy())
def test_an_untidy_timetable_is_never_made_worse_elsewhere_and_pins_stay(drag):
    plan, starts, key, start = drag
    pusher = Pusher(plan, starts)
    push = pusher.pushed(key, start)
    after = starts | push.moved
    broken = {each.limit for each in push.broken}
    assert after[key] == start
    assert not {pin for pin in pinned_starts(plan) if pin != key} & set(push.moved)
    for limit in pusher.network.limits:
        before = starts.get(limit.before, 0) + limit.minutes - starts.get(limit.after, 0)
        now = after.get(limit.before, 0) + limit.minutes - after.get(limit.after, 0)
        if key not in (limit.before, limit.after):
            assert now <= max(0, before)
        elif limit.kind is not LimitKind.PIN:
            assert (limit in broken) == (now > 0)


@given(untidy())
def test_every_start_of_an_untidy_timetables_stretch_is_legal_and_none_beside_it(drag):
    plan, starts, key, start = drag
    pusher = Pusher(plan, starts)
    stretch = pusher.legal_stretch(key)
    legal = stretch is not None and stretch[0] <= start <= stretch[1]
    assert legal == (not pusher.pushed(key, start).broken)
