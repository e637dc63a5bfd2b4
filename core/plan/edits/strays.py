"""After something was taken out: the decisions about it go too."""

from __future__ import annotations

from dataclasses import replace

from core.plan import meaning
from core.plan.check_decisions import loads_known, station_fits
from core.plan.decisions import Decisions, Pin
from core.plan.plan import Plan


def without_strays(plan: Plan) -> Plan:
    """Return the plan without pins, choices, lengths and orders about what is not there (any more).

    Stations that are gone leave what vessels are said to fit; one that fitted nothing else fits anywhere again.
    """
    plan = _without_lost_fits(plan)
    decisions = plan.decisions
    steps = plan.steps
    choices = tuple(
        each
        for each in decisions.choices
        if each.step in steps and 0 <= each.way <= len(steps[each.step].alternatives)
    )
    plan = _decided(plan, replace(decisions, choices=choices))
    pins = (_still_true(plan, pin) for pin in decisions.pins)
    return _decided(
        plan,
        replace(
            plan.decisions,
            pins=tuple(pin for pin in pins if pin is not None),
            lengths=tuple(each for each in decisions.lengths if each.step in steps),
            orders=tuple(each for each in decisions.orders if each.first in steps and each.then in steps),
        ),
    )


def _without_lost_fits(plan: Plan) -> Plan:
    there = plan.kitchen.station
    vessels = tuple(
        replace(each, fits=kept) if (kept := tuple(filter(there.get, each.fits))) != each.fits else each
        for each in plan.kitchen.vessels
    )
    if vessels == plan.kitchen.vessels:
        return plan
    return replace(plan, kitchen=replace(plan.kitchen, vessels=vessels))


def _decided(plan: Plan, decisions: Decisions) -> Plan:
    return plan if decisions == plan.decisions else replace(plan, decisions=decisions)


def _still_true(plan: Plan, pin: Pin) -> Pin | None:
    """Return what of a pin can still be kept."""
    step = plan.steps.get(pin.step)
    if step is None:
        return None
    dish = plan.dish_of[pin.step]
    if loads_known(dish, step) and pin.load >= meaning.load_count(dish, step):
        return None
    station = pin.station if station_fits(plan, step, pin) else None
    cook = pin.cook if pin.cook in plan.kitchen.cook else None
    kept = replace(pin, station=station, cook=cook)
    return None if (kept.start, kept.station, kept.cook) == (None, None, None) else kept
