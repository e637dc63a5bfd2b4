"""While it runs: better and better, ended when asked to, nothing lost; and after a drop, little moves."""

from dataclasses import replace
from threading import Event

from hypothesis import HealthCheck, assume, event, given, settings
from hypothesis import strategies as st

from core.arrange import Effort, Fit, arrange
from core.arrange.reflowing import reflow
from core.plan.decisions import Pin
from core.plan.plan import Plan
from core.timetable.clashes import clashes
from core.timetable.timetable import Timetable
from tests.support.strategies import small_feasts
from tests.support.tries import tries

LITTLE = Effort(work=0.5)
SOME = settings(max_examples=tries(12), deadline=None, suppress_health_check=[HealthCheck.too_slow])


def starts(timetable: Timetable) -> dict:
    return {each.key: each.start for each in timetable.placed}


@SOME
@given(small_feasts())
def test_each_timetable_heard_is_better_than_the_one_before(plan):
    heard = []
    outcome = arrange(plan, LITTLE, better=heard.append)
    scores = [each.score for each in heard]
    assert scores == sorted(set(scores), reverse=True)
    if outcome.fit is Fit.MEETS:
        assert heard
        assert all(each.fit is Fit.MEETS and clashes(plan, each.timetable) == () for each in heard)
        assert heard[-1].timetable == outcome.timetable
        assert outcome.bound is None or outcome.bound <= outcome.score
    else:
        assert all(each.fit is not Fit.MEETS for each in heard)


@SOME
@given(small_feasts())
def test_a_search_told_to_stop_keeps_what_it_has(plan):
    stop, heard = Event(), []

    def hear(outcome):
        heard.append(outcome)
        stop.set()

    outcome = arrange(plan, Effort(work=1000.0), better=hear, stop=stop)
    assert len(heard) <= 1
    if heard:
        assert outcome.timetable == heard[0].timetable
    if outcome.fit is Fit.MEETS:
        assert clashes(plan, outcome.timetable) == ()


@SOME
@given(small_feasts())
def test_a_search_stopped_before_it_begins_ends_with_an_answer(plan):
    stop = Event()
    stop.set()
    outcome = arrange(plan, Effort(work=1000.0), stop=stop)
    assert outcome.stopped
    assert outcome.rounds <= 8
    assert outcome.clashes == clashes(plan, outcome.timetable)
    assert (outcome.fit is Fit.MEETS) == (outcome.clashes == ())


def arranged(plan: Plan) -> Timetable:
    outcome = arrange(plan, LITTLE)
    assume(outcome.fit is Fit.MEETS)
    return outcome.timetable


@SOME
@given(small_feasts())
def test_where_nothing_changed_nothing_moves(plan):
    seen = arranged(plan)
    found = reflow(plan, seen)
    assert found is not None
    assert found.fit is Fit.MEETS
    assert starts(found.timetable) == starts(seen)
    assert {each.key: (each.setting, each.length) for each in found.timetable.placed} == {
        each.key: (each.setting, each.length) for each in seen.placed
    }


@SOME
@given(small_feasts(), st.data())
def test_after_a_drop_it_holds_or_there_is_nothing_to_show(plan, data):
    seen = arranged(plan)
    step = data.draw(st.sampled_from(list(plan.steps)))
    start = data.draw(st.integers(-40, 0))
    pinned = replace(plan, decisions=replace(plan.decisions, pins=(Pin(step, start=start),)))
    found = reflow(pinned, seen)
    if found is None:
        event("nothing")
        assert arrange(pinned, LITTLE).fit is not Fit.MEETS
        return
    event(found.fit.name)
    assert found.fit is Fit.MEETS
    assert clashes(pinned, found.timetable) == ()
    assert found.timetable.at[step, 0].start == start


@SOME
@given(small_feasts())
def test_a_cook_who_does_not_mind_moves_gets_an_answer_too(plan):
    wishes = replace(plan.decisions.wishes, keep=0)
    plan = replace(plan, decisions=replace(plan.decisions, wishes=wishes))
    seen = arranged(plan)
    found = reflow(plan, seen)
    assert found is not None
    assert starts(found.timetable) == starts(seen)
