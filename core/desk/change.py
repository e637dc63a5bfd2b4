"""What a change to the open plan came to, and which things it touched."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from typing import Any, TypeVar

from core.plan.plan import Plan

Thing = TypeVar("Thing")


@dataclass(frozen=True, slots=True)
class Change:
    """The plan before and after, the ids touched, what was done and by whom ("" the cook).

    `touched` holds ids of dishes, steps, stations, vessels and cooks; what concerns the whole plan (plating,
    wishes) is seen by comparing `before` and `after`. `kept_changed`: other days are kept, or another is current.
    """

    before: Plan
    after: Plan
    touched: frozenset[str]
    label: str
    by: str = ""
    timetable_changed: bool = False
    kept_changed: bool = False

    @property
    def plan_changed(self) -> bool:
        """Tell whether the plan is another one (and not only the timetable seen)."""
        return self.before is not self.after and self.before != self.after


def touched(before: Plan, after: Plan) -> frozenset[str]:
    """Return the ids of things that differ: new, gone, changed, linked otherwise or decided otherwise."""
    if before is after:
        return frozenset()
    found = _differing(_dishes(before), _dishes(after)) | _differing(before.steps, after.steps)
    if before.kitchen is not after.kitchen:
        found |= _differing(before.kitchen.station, after.kitchen.station)
        found |= _differing(before.kitchen.vessel, after.kitchen.vessel)
        found |= _differing(before.kitchen.cook, after.kitchen.cook)
    for link in _unlike(before.menu.links, after.menu.links):
        found |= {link.before, link.after}
    old, new = before.decisions, after.decisions
    found |= {pin.step for pin in _unlike(old.pins, new.pins)}
    found |= {each.step for each in _unlike(old.choices, new.choices)}
    found |= {each.step for each in _unlike(old.lengths, new.lengths)}
    for order in _unlike(old.orders, new.orders):
        found |= {order.first, order.then}
    return frozenset(found)


def _dishes(plan: Plan) -> dict[str, object]:
    """Return each dish with the ids of its steps in the place of the steps: these are compared apart."""
    return {
        dish.id: (place, replace(dish, steps=()), tuple(step.id for step in dish.steps))
        for place, dish in enumerate(plan.menu.dishes)
    }


def _differing(old: Mapping[Any, object], new: Mapping[Any, object]) -> set[str]:
    return {str(key) for key in old.keys() | new.keys() if old.get(key) != new.get(key)}


def _unlike(old: Iterable[Thing], new: Iterable[Thing]) -> set[Thing]:
    return set(old) ^ set(new)
