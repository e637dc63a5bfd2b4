"""A way out, applied, removes the impossibility; the next smaller one of the same kind does not."""

from dataclasses import replace

import pytest
from hypothesis import HealthCheck, assume, event, given, settings
from hypothesis import strategies as st

from bench.feasts import feast
from core.arrange.outcome import Fit
from core.arrange.possible import possible
from core.arrange.speak.ways import say_effect, say_way
from core.arrange.ways import WayKind, WayOut, ways_out
from core.plan import meaning
from core.plan.check import problems
from core.plan.edits import ChangeDish, ChangeLink, ChangeStep, Edit, ServeDishLater, ServeLater
from core.plan.plan import Plan
from core.timetable.clashes import clashes
from tests.support.strategies import small_feasts
from tests.support.tries import tries

SOME = settings(
    max_examples=tries(10),
    deadline=None,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much],
)
WORK = 0.5


def holds(plan: Plan, way: WayOut, work: float) -> None:
    """Check that an offer keeps its promise, and is told."""
    eased = way.edit(plan)
    assert set(problems(eased)) <= set(problems(plan))
    assert clashes(eased, way.timetable) == ()
    assert possible(eased, work, near=way.timetable).fit is Fit.MEETS
    assert way.price > 0
    assert say_way(plan, way).endswith(".")
    assert say_effect(plan, way).startswith("All meets by ")


def smaller(plan: Plan, way: WayOut) -> Edit | None:
    """Return the edit of the next smaller size, written anew; None where sizes do not matter."""
    less = way.size - 1
    change = way.changes[0]
    if less < 1:
        return None
    if way.kind is WayKind.SERVE_LATER:
        return ServeLater(less)
    if way.kind is WayKind.DISH_LATER:
        assert change.dish is not None
        return ServeDishLater(change.dish, less)
    if way.kind is not WayKind.WAIT_LONGER:
        return None
    assert change.was is not None
    most = change.was + less
    if change.after is not None:
        assert change.step is not None
        assert change.link is not None
        key = (change.step, change.after, change.link)
        link = next(each for each in plan.menu.links if each.key == key)
        return ChangeLink(key, replace(link, most=most))
    assert change.step is not None
    assert change.dish is not None
    step = plan.steps[change.step]
    keep = meaning.keep_of(plan, step)
    assert keep is not None
    longer = replace(keep, most=most)
    if step.keeps is not None:
        return ChangeStep(step.id, replace(step, keeps=longer))
    return ChangeDish.of(change.dish, keep=longer)


def impossible_one(plan: Plan) -> Plan:
    assume(problems(plan) == ())
    assume(possible(plan, WORK).fit is Fit.IMPOSSIBLE)
    return plan


@SOME
@given(small_feasts(most_dishes=4), st.sets(st.sampled_from(list(WayKind)), min_size=4, max_size=8))
def test_whatever_is_offered_was_solved(plan, kinds):
    plan = impossible_one(plan)
    found = ways_out(plan, work=WORK, kinds=kinds)
    event(f"{len({way.kind for way in found})} kinds")
    for way in found:
        assert way.kind in kinds
        holds(plan, way, WORK)


@SOME
@given(small_feasts(most_dishes=4))
def test_no_smaller_one_is_kept_from_the_cook(plan):
    plan = impossible_one(plan)
    kinds = (WayKind.WAIT_LONGER, WayKind.DISH_LATER, WayKind.SERVE_LATER)
    for way in ways_out(plan, work=WORK, kinds=kinds):
        holds(plan, way, WORK)
        edit = smaller(plan, way)
        if edit is not None and way.smallest:
            event(way.kind.name)
            assert possible(edit(plan), WORK / 2).fit is not Fit.MEETS


@SOME
@given(small_feasts(most_dishes=3))
def test_a_plan_that_meets_is_offered_nothing(plan):
    assume(possible(plan, WORK).fit is Fit.MEETS)
    assert ways_out(plan, work=WORK) == ()


# ---- feasts of 84 steps from which something was taken


def with_one_cook(plan: Plan) -> Plan:
    return replace(plan, kitchen=replace(plan.kitchen, cooks=plan.kitchen.cooks[:1]))


@pytest.mark.parametrize(
    ("seed", "taken", "kinds"),
    [
        (3, with_one_cook, {WayKind.HELPER}),
    ],
)
def test_a_large_feast_is_mended(seed, taken, kinds):
    plan = taken(feast(12, seed).plan)
    assert possible(plan, 1.0).fit is not Fit.MEETS
    found = ways_out(plan, work=1.0, kinds=kinds)
    assert found
    for way in found:
        holds(plan, way, 1.0)
