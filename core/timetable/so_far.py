"""The day so far, read for judging: what stands as a fact, what was dropped, and the plan that is left."""

from __future__ import annotations

from dataclasses import replace

from core.plan.day import Day, Fact, State
from core.plan.ids import StepId
from core.plan.meaning import load_count
from core.plan.plan import Plan

LONG_AGO = -(10**15)
"""Now, where no day is given: nothing lies before it."""

Key = tuple[StepId, int]


def known_loads(plan: Plan, day: Day | None) -> dict[Key, Fact]:
    """Return the facts about loads that are done or under way; those about nothing in the plan are left out."""
    if day is None:
        return {}
    return {
        key: fact
        for key, fact in day.of.items()
        if fact.state is not State.DROPPED and fact.step in plan.steps
    }


def dropped_loads(plan: Plan, day: Day | None) -> frozenset[Key]:
    """Return the loads that were dropped, of steps of the plan."""
    if day is None:
        return frozenset()
    return frozenset(
        key for key, fact in day.of.items() if fact.state is State.DROPPED and fact.step in plan.steps
    )


def without_dropped(plan: Plan, day: Day | None) -> Plan:
    """Return the plan without the steps of which all loads were dropped, and without their links."""
    loads: dict[StepId, int] = {}
    for step, load in dropped_loads(plan, day):
        if 0 <= load < load_count(plan.dish_of[step], plan.steps[step]):
            loads[step] = loads.get(step, 0) + 1
    gone = {step for step, some in loads.items() if some == load_count(plan.dish_of[step], plan.steps[step])}
    if not gone:
        return plan
    dishes = tuple(
        replace(dish, steps=tuple(step for step in dish.steps if step.id not in gone))
        for dish in plan.menu.dishes
    )
    links = tuple(link for link in plan.menu.links if link.before not in gone and link.after not in gone)
    return replace(plan, menu=replace(plan.menu, dishes=dishes, links=links))
