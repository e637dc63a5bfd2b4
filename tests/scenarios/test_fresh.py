"""What a cook sees of freshness without having said any limit."""

from __future__ import annotations

from core.plan.step import Keep
from tests.scenarios.arranged import SERVED, times
from tests.support.builders import a_bench, a_dish, a_kitchen, a_plan, a_step, chained, hands_off


def test_carved_meat_without_a_limit_is_not_left_to_stand_for_a_calmer_hour():
    # carving in the last three quarters of an hour is less calm, but meat carved at 18:05 is cold at 19:00
    steps = (hands_off("roast.roast", 90), hands_off("roast.rest", 20), a_step("roast.carve", minutes=10))
    plan = a_plan(
        a_dish("roast", *steps), links=chained(*steps), kitchen=a_kitchen(), plating=SERVED, transfer=0
    )
    assert times(plan)["roast.carve"] == "18:50"


def test_what_keeps_for_days_is_made_in_a_calmer_hour():
    plan = a_bench(a_step("sauce.stir", minutes=10, keeps=Keep(3000)), plating=SERVED, transfer=0)
    assert times(plan)["sauce.stir"] == "18:05"
