"""The small feast with something to decide: ways to do a step, lengths with a spread, and decisions already made."""

from __future__ import annotations

from dataclasses import replace

from core.plan.decisions import Choice, LengthOf, Order, Pin
from core.plan.ids import StepId
from core.plan.plan import Plan
from core.plan.step import Alternative, Manner, Span
from tests.app.timeline.feast import the_plan
from tests.support.builders import a_use, at_oven

ROAST, BAKE, BOIL, COOK = (StepId(each) for each in ("pork.roast", "gratin.bake", "beans.boil", "beans.cook"))


def open_plan(**decisions) -> Plan:
    """Return the feast: the pork may take 80 to 110 minutes, the water may be boiled in a kettle."""
    plan = the_plan(**decisions)
    changed = {
        ROAST: {
            "length": Span(80, 90, 110),
            "alternatives": (Alternative("in the hot oven", Span(60, 70, 80), (at_oven(200),)),),
        },
        BOIL: {"alternatives": (Alternative("Boil in the kettle, top up the pot", Span(5, 6, 8), (a_use("burner"),)),)},
        BAKE: {"length": Span(70, 75, 90)},
    }
    dishes = tuple(
        replace(dish, steps=tuple(replace(step, **changed.get(step.id, {})) for step in dish.steps))
        for dish in plan.menu.dishes
    )
    return replace(plan, menu=replace(plan.menu, dishes=dishes))


def decided_plan() -> Plan:
    """Return it with one decision of each kind on one bar or the other."""
    return open_plan(
        pins=(Pin(ROAST, 0, -160), Pin(COOK, 0, None, None, "ann")),
        choices=(Choice(BOIL, 0), Choice(ROAST, 0)),
        lengths=(LengthOf(ROAST, Manner.LIKELY), LengthOf(BAKE, Manner.HIGH)),
        orders=(Order(ROAST, BOIL),),
    )
