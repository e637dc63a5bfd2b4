"""Promises of the desk: undo brings back what was, redo what came of it, and the keeper has it all."""

from __future__ import annotations

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from core.desk import Desk
from core.desk.change import touched
from core.measures.refusal import Refusal
from core.plan.check import problems
from core.plan.plan import Plan
from core.timetable.timetable import Placed, Timetable
from tests.support.random_edits import edits_for
from tests.support.strategies import plans


class Copy:
    """Keeps the latest plan, and refuses to keep on from another than the latest."""

    def __init__(self, plan: Plan) -> None:
        self.plan = plan

    def save(self, before: Plan, after: Plan) -> None:
        assert before == self.plan
        assert after != before
        self.plan = after


def some_timetable(plan: Plan, start: int) -> Timetable:
    return Timetable(tuple(Placed(step.id, start, step.length.likely) for step in plan.steps.values()))


@settings(max_examples=80, suppress_health_check=[HealthCheck.too_slow])
@given(st.data(), plans(most_dishes=2, most_steps=3), st.booleans())
def test_undo_brings_back_every_state_and_redo_too(data: st.DataObject, plan: Plan, seen: bool) -> None:
    keeper = Copy(plan)
    desk = Desk(plan, keeper, some_timetable(plan, -60) if seen else None)
    states = [(desk.plan, desk.timetable)]
    for number in range(data.draw(st.integers(1, 5))):
        if data.draw(st.integers(0, 3)) == 2:
            desk.show(some_timetable(desk.plan, -number))
        else:
            try:
                change = desk.apply(data.draw(edits_for(desk.plan)))
            except Refusal:
                continue
            assert change.touched == touched(states[-1][0], desk.plan)
        desk.settle()
        if (desk.plan, desk.timetable) != states[-1]:
            states.append((desk.plan, desk.timetable))
        assert problems(desk.plan) == ()
        assert keeper.plan == desk.plan
        known = {placed.step for placed in desk.timetable.placed} if desk.timetable else set()
        assert known <= desk.plan.steps.keys()
    for state in reversed(states[:-1]):
        desk.undo()
        assert (desk.plan, desk.timetable) == state
        assert keeper.plan == desk.plan
    assert not desk.can_undo
    for state in states[1:]:
        desk.redo()
        assert (desk.plan, desk.timetable) == state
        assert keeper.plan == desk.plan
    assert not desk.can_redo
