"""Several loads dragged together, and loads that take longer: by numbers, and against networks made anew."""

from __future__ import annotations

from dataclasses import replace

from hypothesis import assume, given
from hypothesis import strategies as st

from core.plan.decisions import Pin
from core.plan.ids import StepId
from core.plan.network_push import Pusher
from tests.core.network.grid import CLOSES, OPENS, Grid, small_plans
from tests.support.builders import a_dish, a_link, a_plan, a_step

CHOP, BOIL, SERVE = (StepId("soup.chop"), 0), (StepId("soup.boil"), 0), (StepId("soup.serve"), 0)
STARTS = {CHOP: -60, BOIL: -40, SERVE: -10}


def soup(**fields):
    """Return chopping (10), boiling (20) within half an hour after it, serving (5) from 5 min to an hour after that."""
    steps = (a_step("soup.chop", minutes=10), a_step("soup.boil", minutes=20), a_step("soup.serve", minutes=5))
    links = (a_link("soup.chop", "soup.boil", 0, 30), a_link("soup.boil", "soup.serve", 5, 60))
    return a_plan(a_dish("soup", *steps), links=links, opens=-600, **fields)


def test_two_move_as_far_as_what_is_around_them_lets():
    # boiling and serving: serving ends at plating at the latest, chopping may come as early as the plan opens
    assert Pusher(soup(), STARTS).legal_shift((BOIL, SERVE)) == (-550, 5)
    # chopping and boiling: serving moves along till -5, and boiling ends 5 min before it
    assert Pusher(soup(), STARTS).legal_shift((CHOP, BOIL)) == (-540, 10)


def test_what_lies_between_two_moves_along_or_holds_them():
    assert Pusher(soup(), STARTS).legal_shift((CHOP, SERVE)) == (-540, 5)
    held = soup(pins=(Pin(BOIL[0], 0, -40),))
    # boiling stands at -40: chopping ends within 30 min before it, and serving starts from -15 to -5
    assert Pusher(held, STARTS).legal_shift((CHOP, SERVE)) == (-5, 5)


def test_only_the_others_are_pushed():
    push = Pusher(soup(), STARTS).pushed_all({BOIL: -32, CHOP: -45})
    assert push.moved == {BOIL: -32, CHOP: -45, SERVE: -7}
    assert push.broken == ()


def test_a_limit_between_two_is_broken_only_if_it_was_not_before():
    late = {CHOP: -60, BOIL: -10, SERVE: 60}
    assert not [each for each in Pusher(soup(), late).pushed_all({CHOP: -70, BOIL: -20}).broken if each.limit.link]
    apart = Pusher(soup(), STARTS).pushed_all({CHOP: -100, BOIL: -40})
    assert [each.by for each in apart.broken] == [20], "the pot waits 50 minutes where 30 are allowed"


def test_a_longer_load_pushes_what_follows():
    pusher = Pusher(soup(), STARTS).with_lengths({BOIL: 27})
    assert pusher.pushed(BOIL, -40).moved == {BOIL: -40, SERVE: -8}
    assert pusher.legal_stretch(BOIL) == (-590, -37)
    assert Pusher(soup(), STARTS).legal_stretch(BOIL) == (-590, -30), "the one it was made of is as it was"


@st.composite
def placed(draw):
    """Draw a plan with a placing that keeps all it asks."""
    plan = draw(small_plans(pins=False))
    grid = Grid(plan)
    placings = grid.placings()
    assume(len(placings))
    row = placings[draw(st.integers(0, len(placings) - 1))]
    return plan, dict(zip(grid.keys, map(int, row), strict=True)), grid


@given(placed(), st.data())
def test_together_they_may_move_wherever_some_placing_of_the_others_fits(drawn, data):
    plan, starts, grid = drawn
    keys = data.draw(st.lists(st.sampled_from(grid.keys), min_size=1, unique=True))
    shift = Pusher(plan, starts).legal_shift(keys)
    fits = set()
    for row in grid.placings():
        there = dict(zip(grid.keys, map(int, row), strict=True))
        by = {there[key] - starts[key] for key in keys}
        if len(by) == 1:
            fits |= by
    assert shift == (min(fits), max(fits))


@given(placed(), st.data())
def test_inside_that_stretch_all_holds_again(drawn, data):
    plan, starts, grid = drawn
    keys = data.draw(st.lists(st.sampled_from(grid.keys), min_size=1, unique=True))
    pusher = Pusher(plan, starts)
    by = data.draw(st.integers(*pusher.legal_shift(keys)))
    push = pusher.pushed_all({key: starts[key] + by for key in keys})
    assert push.broken == ()
    assert grid.holds(starts | push.moved)


@given(placed(), st.data())
def test_limits_made_anew_for_other_lengths_are_those_of_a_new_network(drawn, data):
    plan, starts, grid = drawn
    keys = data.draw(st.lists(st.sampled_from(grid.keys), min_size=1, unique=True))
    lengths = {key: data.draw(st.integers(1, 8)) for key in keys}
    resized = Pusher(plan, starts).with_lengths(lengths)
    anew = Pusher(plan, starts, lengths=lengths)
    assert set(resized.network.limits) == set(anew.network.limits)
    key, start = data.draw(st.sampled_from(grid.keys)), data.draw(st.integers(OPENS, CLOSES))
    assert resized.pushed(key, start) == anew.pushed(key, start)
    assert resized.legal_stretch(key) == anew.legal_stretch(key)
    assert replace(resized.network.web, tails=[], heads=[]) == replace(anew.network.web, tails=[], heads=[])
