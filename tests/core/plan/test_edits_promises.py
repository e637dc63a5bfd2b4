"""Promises of every edit: it changes nothing in place, keeps a valid plan valid, does the same each time."""

from __future__ import annotations

from copy import deepcopy

from hypothesis import HealthCheck, event, given, settings
from hypothesis import strategies as st

from core.measures.refusal import Refusal
from core.plan.check import problems
from core.plan.edits import Edit
from core.plan.plan import Plan
from tests.support.random_edits import edits_for
from tests.support.random_faults import broken_plans
from tests.support.strategies import plans


@settings(max_examples=150, suppress_health_check=[HealthCheck.too_slow])
@given(st.data(), plans(most_dishes=3, most_steps=3))
def test_an_edit_of_a_valid_plan_gives_a_valid_plan_or_a_refusal(data: st.DataObject, plan: Plan) -> None:
    before = deepcopy(plan)
    edit = data.draw(edits_for(plan))
    after = made(edit, plan)
    if isinstance(after, Refusal):
        event("refused")
        assert after.text.endswith(".")
    else:
        event(type(edit).__name__)
        assert problems(after) == ()
        assert edit(plan) == after
    assert plan == before
    assert hash(edit) == hash(deepcopy(edit))
    for label in (edit.label_in(plan), edit.label):
        assert label
        assert "\n" not in label


@settings(max_examples=150, suppress_health_check=[HealthCheck.too_slow])
@given(st.data(), broken_plans())
def test_an_edit_of_a_broken_plan_is_made_or_refused_and_never_fails(data: st.DataObject, plan: Plan) -> None:
    edit = data.draw(edits_for(plan))
    after = made(edit, plan)
    if isinstance(after, Refusal):
        assert after.text.endswith(".")
    else:
        assert edit.label_in(plan)
        assert isinstance(problems(after), tuple)


def made(edit: Edit, plan: Plan) -> Plan | Refusal:
    """Return what comes of an edit, its refusal too."""
    try:
        return edit(plan)
    except Refusal as refused:
        return refused
