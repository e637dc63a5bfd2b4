"""The running day: facts are never moved, nothing else begins before now, and a day that goes as planned goes on."""

from dataclasses import replace

from hypothesis import HealthCheck, assume, event, given, settings
from hypothesis import strategies as st

from core.arrange import Effort, Fit, arrange
from core.arrange.reflowing import reflow
from core.plan.day import Day, Fact, State
from core.plan.plan import Plan
from core.timetable.as_planned import with_seen
from core.timetable.clashes import clashes
from core.timetable.timetable import Placed, Timetable
from tests.core.arrange.daily import facts_stand, nothing_sooner
from tests.support.brute_feasts import tiny_days
from tests.support.strategies import small_feasts
from tests.support.tries import tries

LITTLE = Effort(work=0.8)
SOME = settings(
    max_examples=tries(10), deadline=None, suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much]
)


def fact_of(placed: Placed, now: int) -> Fact:
    state = State.DONE if placed.end <= now else State.UNDER_WAY
    return Fact(placed.step, state, placed.start, placed.end, placed.load)


def as_planned(timetable: Timetable, now: int) -> Day:
    """Return the day so far, gone as the timetable says."""
    facts = tuple(fact_of(each, now) for each in timetable.placed if each.start < now)
    return with_seen(Day(now, facts), timetable)


@st.composite
def days_gone_otherwise(draw: st.DrawFn, timetable: Timetable) -> Day:
    """Draw a day on which some things began later or sooner, took longer or were left out."""
    low = min((each.start for each in timetable.placed), default=-1)
    now = draw(st.integers(low, 0))
    facts = []
    for placed in timetable.placed:
        match draw(st.sampled_from(("as planned", "otherwise", "dropped", "not yet"))):
            case "as planned" if placed.start < now:
                facts.append(fact_of(placed, now))
            case "otherwise" if now > low:
                start = draw(st.integers(low, now - 1))
                if draw(st.booleans()) and start + 1 <= now:
                    end = draw(st.integers(start + 1, now))
                    facts.append(Fact(placed.step, State.DONE, start, end, placed.load))
                else:
                    end = draw(st.one_of(st.none(), st.integers(now + 1, now + 5)))
                    facts.append(Fact(placed.step, State.UNDER_WAY, start, end, placed.load))
            case "dropped":
                facts.append(Fact(placed.step, State.DROPPED, load=placed.load))
    return Day(now, tuple(facts))


def holds(plan: Plan, day: Day, seen: Timetable) -> None:
    day = with_seen(day, seen)
    outcome = arrange(plan, LITTLE, day=day, seen=seen)
    event(outcome.fit.name)
    facts_stand(outcome.timetable, day)
    nothing_sooner(outcome.timetable, day, seen)
    assert outcome.clashes == clashes(plan, outcome.timetable, day=day)
    assert (outcome.fit is Fit.MEETS) == (outcome.clashes == ())


def seen_of(plan: Plan) -> Timetable:
    outcome = arrange(plan, LITTLE)
    assume(outcome.fit is Fit.MEETS)
    return outcome.timetable


@SOME
@given(small_feasts(), st.data())
def test_facts_stand_and_nothing_begins_before_now(plan, data):
    seen = seen_of(plan)
    holds(plan, data.draw(days_gone_otherwise(seen)), seen)


@SOME
@given(tiny_days(), st.data())
def test_facts_stand_with_ways_pieces_fires_and_washing_up(plan, data):
    seen = seen_of(plan)
    holds(plan, data.draw(days_gone_otherwise(seen)), seen)


@SOME
@given(st.one_of(small_feasts(), tiny_days()), st.integers(-40, 0))
def test_a_day_that_goes_as_planned_goes_on_as_planned(plan, now):
    seen = seen_of(plan)
    day = as_planned(seen, now)
    assert clashes(plan, seen, day=day) == ()
    outcome = arrange(plan, LITTLE, day=day, seen=seen)
    assert outcome.fit is Fit.MEETS
    facts_stand(outcome.timetable, day)


@SOME
@given(st.one_of(small_feasts(), tiny_days()), st.integers(-40, 0))
def test_re_planning_such_a_day_moves_nothing(plan, now):
    seen = seen_of(plan)
    day = as_planned(seen, now)
    found = reflow(plan, seen, day=day)
    assert found is not None
    assert found.fit is Fit.MEETS
    assert {each.key: each.start for each in found.timetable.placed} == {
        each.key: each.start for each in seen.placed
    }


@SOME
@given(small_feasts(), st.integers(-40, 0))
def test_a_day_without_facts_on_which_it_is_still_early_is_a_day_like_any(plan, now):
    plain = arrange(plan, LITTLE)
    first = min((each.start for each in plain.timetable.placed), default=0)
    heated = min((each.start for each in plain.timetable.heatings), default=0)
    assume(now <= min(first, heated))
    if plain.fit is Fit.MEETS:
        assert arrange(plan, LITTLE, day=Day(now)).fit is Fit.MEETS
        assert arrange(replace(plan, opens=now), LITTLE, day=Day(now)).fit is Fit.MEETS
