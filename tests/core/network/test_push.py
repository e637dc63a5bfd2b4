"""Drags worked out by hand: what is pushed, what stays, what breaks."""

import pytest

from core.plan.decisions import Pin
from core.plan.menu import LinkKind
from core.plan.network import back_timed
from core.plan.network_limits import Follows, LimitKind
from core.plan.network_push import Pusher, can_slip
from core.plan.step import Keep, Loads
from tests.support.builders import a_bench, a_dish, a_link, a_plan, hands_off

A, B, C = ("soup.a", 0), ("soup.b", 0), ("soup.c", 0)


def a_soup(**fields):
    """Three steps of 10 minutes; b follows a within 20 minutes, c follows b whenever."""
    return a_bench(
        *(hands_off(step, 10) for step, _load in (A, B, C)),
        links=(a_link("soup.a", "soup.b", 5, 20), a_link("soup.b", "soup.c")),
        opens=-300,
        **fields,
    )


SEEN = {A: -200, B: -180, C: -100}


def test_a_later_start_pushes_only_what_is_in_the_way():
    pusher = Pusher(a_soup(), SEEN)
    assert pusher.pushed(A, -196).moved == {A: -196}
    assert pusher.pushed(A, -190).moved == {A: -190, B: -175}
    assert pusher.pushed(A, -110).moved == {A: -110, B: -95, C: -85}


def test_a_most_wait_draws_the_earlier_step_along():
    assert Pusher(a_soup(), SEEN).pushed(B, -160).moved == {B: -160, A: -190}
    assert Pusher(a_soup(), SEEN).pushed(A, -230).moved == {A: -230, B: -200}


def test_an_earlier_start_pushes_what_comes_before():
    assert Pusher(a_soup(), SEEN).pushed(C, -190).moved == {C: -190, B: -200, A: -215}


def test_the_stretch_reaches_as_far_as_the_whole_chain_can_move():
    pusher = Pusher(a_soup(), SEEN)
    assert pusher.legal_stretch(A) == (-300, -35)
    assert pusher.legal_stretch(B) == (-285, -20)
    assert pusher.legal_stretch(C) == (-275, -10)


def test_pinned_loads_do_not_move_and_the_link_to_them_breaks():
    pusher = Pusher(a_soup(pins=(Pin("soup.b", start=-180),)), SEEN)
    assert pusher.legal_stretch(A) == (-210, -195)
    push = pusher.pushed(A, -190)
    assert push.moved == {A: -190}
    assert [(each.limit.kind, each.by) for each in push.broken] == [(LimitKind.LEAST, 5)]
    assert pusher.pushed(A, -215).broken[0].limit.kind is LimitKind.MOST


def test_the_dragged_loads_own_pin_does_not_hold_it():
    pusher = Pusher(a_soup(pins=(Pin("soup.b", start=-180),)), SEEN)
    assert pusher.legal_stretch(B) == (-285, -20)
    assert pusher.pushed(B, -160).broken == ()


def test_a_pinned_load_stands_where_it_is_seen():
    pusher = Pusher(a_soup(pins=(Pin("soup.b", start=-150),)), SEEN)
    assert pusher.pushed(C, -175).broken[0].by == 5
    assert pusher.pushed(C, -175).moved == {C: -175}


def test_past_the_table_the_serving_breaks_and_nothing_else_moves():
    push = Pusher(a_soup(), SEEN).pushed(C, -4)
    assert push.moved == {C: -4}
    assert [(each.limit.kind, each.by) for each in push.broken] == [(LimitKind.SERVED, 6)]


def test_orders_on_a_station_push_with_their_gap():
    steps = [hands_off(step, 10) for step, _load in (A, B)]
    pusher = Pusher(a_bench(*steps, opens=-300), {A: -100, B: -80}, [Follows(A, B, 4)])
    assert pusher.pushed(A, -90).moved == {A: -90, B: -76}
    assert pusher.legal_stretch(B) == (-286, -10)


def test_loads_push_each_other():
    grill = hands_off("leeks.grill", 8, loads=Loads(24, 9, 2))
    plan = a_plan(a_dish("leeks", grill, keep=Keep(45)), opens=-300)
    keys = [("leeks.grill", load) for load in range(3)]
    pusher = Pusher(plan, dict(zip(keys, (-50, -40, -30), strict=True)))
    assert pusher.pushed(keys[0], -46).moved == {keys[0]: -46, keys[1]: -36, keys[2]: -26}
    assert pusher.pushed(keys[2], -32).moved == {keys[2]: -32, keys[1]: -42, keys[0]: -52}
    assert pusher.legal_stretch(keys[0]) == (-53, -28)


def test_lengths_as_placed_count():
    assert Pusher(a_soup(), SEEN, lengths={A: 16}).pushed(A, -196).moved == {A: -196, B: -175}


def test_broken_links_elsewhere_stay_as_they_are_and_those_at_hand_are_mended():
    seen = {A: -190, B: -180, C: -100}  # b begins 5 minutes too soon
    pusher = Pusher(a_soup(), seen)
    assert [(each.limit.kind, each.by) for each in pusher.broken_now()] == [(LimitKind.LEAST, 5)]
    assert pusher.pushed(C, -50).moved == {C: -50}
    assert pusher.pushed(C, -180).moved == {C: -180, B: -190, A: -200}
    assert pusher.pushed(A, -192).moved == {A: -192, B: -177}
    assert pusher.pushed(B, -182).moved == {B: -182, A: -197}
    assert can_slip(a_soup(), seen)[A] == 160  # to -30: the wait of 5 that is missing now is not asked for


def test_waits_that_contradict_each_other_leave_no_place():
    links = (a_link("soup.a", "soup.b", 5), a_link("soup.a", "soup.b", 0, 14, kind=LinkKind.START_TO_START))
    plan = a_bench(hands_off("soup.a"), hands_off("soup.b"), links=links, opens=-300)
    pusher = Pusher(plan, {A: -100, B: -85})
    assert pusher.legal_stretch(B) is None
    assert pusher.pushed(B, -80).broken[0].by == 1


def test_a_load_not_on_the_timetable_is_not_reported_but_keeps_its_room():
    pusher = Pusher(a_soup(), {A: -200, C: -100})
    assert pusher.pushed(A, -120).moved == {A: -120, C: -95}
    assert can_slip(a_soup(), {A: -200, C: -100}).keys() == {A, C}


def test_slip_counts_back_from_the_end_with_and_without_pushing():
    plan = a_soup()
    assert can_slip(plan, SEEN) == {A: 165, B: 160, C: 90}
    assert can_slip(plan, SEEN, alone=True) == {A: 5, B: 10, C: 90}
    assert set(can_slip(plan, back_timed(plan)).values()) == {0}


@pytest.mark.parametrize(("alone", "slip"), [(False, 15), (True, 5)])
def test_a_pinned_load_slips_as_if_its_pin_were_lifted(alone, slip):
    pins = (Pin("soup.a", start=-200), Pin("soup.c", start=-160))
    seen = {A: -200, B: -180, C: -160}
    assert can_slip(a_soup(pins=pins), seen, alone=alone)[A] == slip


def test_a_load_that_is_too_late_slips_by_nothing():
    assert can_slip(a_soup(), SEEN | {C: -3})[C] == 0
