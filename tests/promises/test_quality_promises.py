"""Whatever the plan: measuring agrees with the model, and no timetable without a clash beats a bound."""

from dataclasses import replace

from hypothesis import HealthCheck, assume, event, given, settings
from hypothesis import strategies as st

from core.arrange import Effort, Fit, arrange
from core.arrange.outcome import WishKind
from core.arrange.quality import price, quality, reached_of
from core.arrange.quality_measure import measure
from core.arrange.several import differ, dominates, several
from core.plan.decisions import Wishes
from core.plan.plan import Plan
from core.timetable.clashes import clashes
from tests.support.builders import a_moment
from tests.support.strategies import small_feasts
from tests.support.tries import tries

LITTLE = Effort(work=0.5)
SOME = settings(max_examples=tries(10), deadline=None, suppress_health_check=[HealthCheck.too_slow])

WEIGHTS = st.sampled_from((0, 1, 3, 10))


@st.composite
def breakfasts(draw: st.DrawFn) -> Plan:
    """Draw a small feast in the morning, with time to spare, by a cook who would sleep or rest, more or less."""
    plan = draw(small_feasts())
    wishes = Wishes(draw(WEIGHTS), draw(WEIGHTS), draw(WEIGHTS), draw(WEIGHTS), draw(WEIGHTS))
    plating = a_moment(draw(st.sampled_from(("2026-09-26 08:50", "2026-03-29 08:30", "2026-10-25 10:00"))))
    steps_keep = draw(st.booleans())  # food that keeps for long leaves room for calm and sleep
    dishes = plan.menu.dishes
    if steps_keep:
        dishes = tuple(replace(each, keep=replace(each.keep, most=None)) for each in dishes)
    menu = replace(plan.menu, dishes=dishes)
    return replace(
        plan, menu=menu, plating=plating, opens=-180, decisions=replace(plan.decisions, wishes=wishes)
    )


@SOME
@given(breakfasts())
def test_what_is_measured_is_what_the_model_said(plan):
    outcome = arrange(plan, LITTLE)
    assume(outcome.fit is Fit.MEETS)
    own = measure(plan, outcome.timetable)
    said = {each.wish: each.reached for each in outcome.wishes}
    if outcome.bound == outcome.score:
        event("proven")
        assert {wish: own[wish] for wish in said} == said
    assert all(own[wish] <= said[wish] for wish in said)
    assert all(own[wish] == said[wish] for wish in (WishKind.FRESH, WishKind.CALM) if wish in said)


@SOME
@given(breakfasts(), st.integers(0, 2))
def test_no_timetable_without_a_clash_beats_a_bound(plan, seed):
    outcome = arrange(plan, Effort(work=0.2, seed=seed))
    assume(outcome.fit is Fit.MEETS)
    seen = arrange(plan, Effort(work=0.1, seed=seed + 7)).timetable
    found = quality(plan, outcome.timetable, work=0.6, seen=seen)
    for each in found.wishes:
        assert each.bound is not None
        assert each.bound.amount <= each.reached
        event(f"{each.wish} {'best' if each.best else 'open'}")
        if each.price is not None:
            assert clashes(plan, each.price.timetable) == ()
            now = reached_of(plan, each.price.timetable, seen).of(each.wish).reached
            assert each.bound.amount <= now < each.reached


@SOME
@given(breakfasts())
def test_a_price_is_that_of_a_timetable_that_holds(plan):
    outcome = arrange(plan, Effort(work=0.1))
    assume(outcome.fit is Fit.MEETS)
    found = price(plan, outcome.timetable, WishKind.CALM, work=0.4)
    if found is None:
        return
    assert clashes(plan, found.timetable) == ()
    assert found.differences[0].wish is WishKind.CALM
    assert found.differences[0].now < found.differences[0].was


@SOME
@given(breakfasts())
def test_what_is_offered_holds_and_none_beats_another(plan):
    offered = several(plan, Effort(work=0.8))
    event(f"{len(offered)} offered")
    assert len(offered) <= 3
    for each in offered:
        assert clashes(plan, each.timetable) == ()
        assert each.quality == reached_of(plan, each.timetable)
        for other in offered:
            if other is not each:
                assert not dominates(each, other)
                assert differ(each, other)
