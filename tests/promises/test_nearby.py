"""The surroundings of a few steps say of them what the whole timetable says, whatever the plan, wherever they go."""

from dataclasses import replace

from hypothesis import given
from hypothesis import strategies as st

from core.plan.ids import StepId
from core.timetable.clashes import Checker, clashes
from core.timetable.nearby import Moved, Nearby
from core.timetable.timetable import Timetable
from tests.core.timetable.busy_feasts import busy_feasts
from tests.core.timetable.timetables import timetables
from tests.support.strategies import plans, small_feasts

PLANS = st.one_of(plans(), small_feasts(), busy_feasts())
STILL = Moved({}, {}, {}, {})


@given(st.data())
def test_the_surroundings_of_steps_find_what_the_whole_finds_for_them(data):
    plan = data.draw(PLANS)
    timetable = data.draw(timetables(plan, -60, 10))
    only = frozenset(data.draw(st.sets(st.sampled_from([*plan.steps, StepId("no.step")]), max_size=4)))
    checker = Checker(plan)
    part = Nearby(plan, timetable, checker.facts).around(STILL, only)
    assert checker.clashes(part, only) == clashes(plan, timetable, only)


@given(st.data())
def test_and_when_they_stand_elsewhere(data):
    plan = data.draw(PLANS)
    timetable = data.draw(timetables(plan, -60, 10))
    if not timetable.placed:
        return
    chosen = data.draw(st.lists(st.sampled_from(timetable.placed), max_size=3, unique_by=lambda each: each.key))
    spots = [spot for each in timetable.placed for spot in each.spots]
    elsewhere = {}
    for each in chosen:
        by = data.draw(st.integers(-40, 40))
        hands = tuple(replace(hand, start=hand.start + by) for hand in each.hands)
        there = data.draw(st.sampled_from((each.spots, *((spot,) for spot in spots[:4]))))
        elsewhere[each.key] = replace(each, start=each.start + by, hands=hands, spots=there)
    stays = {}
    for number, stay in enumerate(timetable.stays):
        if {stay.before, stay.after} & {step for step, _load in elsewhere}:
            stays[number] = data.draw(st.sampled_from((None, replace(stay, end=stay.end + 3))))
    moved = Moved(elsewhere, stays, {}, {})
    steps = frozenset(step for step, _load in elsewhere)
    checker = Checker(plan)
    part = Nearby(plan, timetable, checker.facts).around(moved, steps)
    assert checker.clashes(part, steps) == clashes(plan, moved.onto(timetable), steps)


@given(st.data())
def test_nothing_moved_is_the_timetable_itself(data):
    timetable = data.draw(timetables(data.draw(PLANS), -60, 10))
    assert STILL.onto(timetable) == timetable
    assert STILL.onto(Timetable()) == Timetable()
