"""Whatever plan and timetable: the food checks answer, in whole sentences, and what they offer is a plan."""

from __future__ import annotations

from dataclasses import replace

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from core.measures.refusal import Refusal
from core.plan.check import problems
from core.plan.food import FoodKind
from core.plan.menu import Dish
from core.plan.plan import Plan
from core.safety.band import band
from core.safety.checking import food_report
from core.safety.rules_there import shipped_rules
from core.timetable.timetable import Placed, Spot, Timetable
from tests.support.random_plans import plans
from tests.support.tries import tries

_DAY = 24 * 60
_SLOW = (HealthCheck.too_slow, HealthCheck.data_too_large)


@st.composite
def told(draw: st.DrawFn) -> tuple[Plan, Timetable]:
    """Draw a plan whose foods are told, and a timetable of any sort."""
    plan = draw(plans())

    def known(dish: Dish) -> Dish:
        lines = tuple(replace(each, food=draw(st.sampled_from(FoodKind))) for each in dish.ingredients)
        return replace(dish, ingredients=lines)

    plan = replace(plan, menu=replace(plan.menu, dishes=tuple(known(each) for each in plan.menu.dishes)))
    placed = []
    for step in plan.steps.values():
        for load in range(draw(st.integers(0, 2))):
            spots = tuple(
                Spot(draw(st.sampled_from(there)).id, 1, draw(st.sampled_from((None, 0, 1))))
                for use in step.uses
                if (there := plan.kitchen.of_kind(use.kind))
            )
            start, length = draw(st.integers(-9 * _DAY, _DAY)), draw(st.integers(0, 3 * _DAY))
            placed.append(Placed(step.id, start, length, load, spots, draw(st.sampled_from((None, 50, 180)))))
    return plan, Timetable(tuple(placed))


@settings(max_examples=tries(40), suppress_health_check=_SLOW)
@given(told(), st.sampled_from(shipped_rules()))
def test_every_answer_is_whole(case: tuple[Plan, Timetable], rules: object) -> None:
    plan, timetable = case
    report = food_report(plan, timetable, rules)  # type: ignore[arg-type]  # a rule set
    for each in report.findings:
        assert each.start <= each.end
        assert each.over >= 0
        assert each.sentence.endswith((".", "not."))
        assert set(each.steps) <= set(plan.steps)
        assert each.dish in plan.dishes
        for way in each.ways:
            assert way.sentence.endswith(".")
            if way.edit is not None:
                try:
                    changed = way.edit.change(plan)
                except Refusal:
                    continue
                assert set(problems(changed)) <= set(problems(plan))
    for story in report.stories:
        points = band(story)
        assert all(one.low <= one.high for one in points)


@settings(max_examples=tries(10), suppress_health_check=_SLOW)
@given(told())
def test_the_same_question_has_the_same_answer(case: tuple[Plan, Timetable]) -> None:
    assert food_report(*case, shipped_rules()[0]).findings == food_report(*case, shipped_rules()[0]).findings
