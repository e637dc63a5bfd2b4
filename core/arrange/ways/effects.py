"""What a way out comes to, read off its timetable."""

from __future__ import annotations

from core.arrange.ways.way import Effect
from core.plan.plan import Plan
from core.timetable.timetable import Timetable


def effect_of(plan: Plan, eased: Plan, timetable: Timetable, later: int, before: Timetable) -> Effect:
    """Return the effect of a timetable of the plan `eased`; offsets become those of `plan`, `later` minutes less."""
    starts = [each.start for each in timetable.placed] + [each.start for each in timetable.heatings]
    served = [eased.dish_of[each.step].course for each in timetable.placed if each.step in eased.last_steps]
    old = {each.key: each.start for each in before.placed}
    moved = dict.fromkeys(
        each.step for each in timetable.placed if old.get(each.key, each.start) != each.start + later
    )
    lost = tuple(step for step in plan.steps if step not in eased.steps)
    return Effect(
        min(starts, default=0) + later,
        max(served, default=0) + later,
        tuple(moved),
        lost,
        _wanted(plan, set(lost)),
    )


def _wanted(plan: Plan, lost: set[str]) -> tuple[str, ...]:
    """Return what steps that are gone would have brought to steps that stay: by-products, components."""
    found = []
    for link in plan.menu.links:
        dish, made = plan.dish_of[link.before], plan.steps[link.before].yields
        brings = made is not None or link.brings is not None or not dish.served
        if brings and link.before in lost and link.after not in lost:
            found.append(dish.name if made is None else made.item)
    return tuple(dict.fromkeys(found))
