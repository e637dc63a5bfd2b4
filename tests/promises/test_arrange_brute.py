"""What is said to meet meets, and what is said to be impossible is so: against a search that tries every start."""

from dataclasses import replace

from hypothesis import HealthCheck, assume, event, given, settings
from hypothesis import strategies as st

from core.arrange import Effort, Fit, arrange
from core.plan import meaning
from core.plan.kitchen import StationKind
from core.plan.menu import Link
from core.plan.plan import Plan
from core.plan.step import Use, Wait
from core.timetable.clashes import clashes
from tests.support.brute import TooMany, any_timetable
from tests.support.strategies import small_feasts
from tests.support.tries import tries

LITTLE = Effort(work=0.6)
TINY = {"most_dishes": 3, "most_steps": 2, "longest": 4, "opens": -12}
SOME = settings(
    max_examples=tries(50), deadline=None, suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much]
)


@st.composite
def tiny_feasts(draw: st.DrawFn) -> Plan:
    """Draw a feast of few minutes, with more food that keeps its burner than small feasts have."""
    plan = draw(small_feasts(**TINY))
    links = tuple(_on_burner(link) if draw(st.integers(0, 2)) == 0 else link for link in plan.menu.links)
    return replace(plan, menu=replace(plan.menu, links=links))


def _on_burner(link: Link) -> Link:
    return replace(link, wait=Wait(use=Use(StationKind.BURNER)))


def loads_wanted(plan: Plan) -> set[tuple[str, int]]:
    return {
        (step.id, load)
        for dish in plan.menu.dishes
        for step in dish.steps
        for load in range(meaning.load_count(dish, step))
    }


@SOME
@given(small_feasts())
def test_what_meets_has_every_load_and_no_clash(plan):
    outcome = arrange(plan, LITTLE)
    event(outcome.fit.name)
    assert outcome.clashes == clashes(plan, outcome.timetable)
    assert (outcome.fit is Fit.MEETS) == (outcome.clashes == ())
    keys = [each.key for each in outcome.timetable.placed]
    assert set(keys) == loads_wanted(plan)
    assert len(keys) == len(set(keys))


@SOME
@given(tiny_feasts())
def test_what_is_impossible_is_so_for_a_search_of_every_start(plan):
    outcome = arrange(plan, LITTLE)
    if outcome.fit is Fit.MEETS:
        assert clashes(plan, outcome.timetable) == ()
        event("meets")
        return
    try:
        found = any_timetable(plan)
    except TooMany:
        event("too many to try")
        assume(False)
    event("neither finds one" if found is None else "the other search finds one")
    assert found is None or outcome.fit is not Fit.IMPOSSIBLE, found


@SOME
@given(tiny_feasts())
def test_where_a_search_of_every_start_finds_one_so_does_the_scheduler(plan):
    try:
        found = any_timetable(plan)
    except TooMany:
        event("too many to try")
        assume(False)
    if found is None:
        return
    assert clashes(plan, found) == ()
    assert arrange(plan, Effort(work=2.0)).fit is Fit.MEETS
