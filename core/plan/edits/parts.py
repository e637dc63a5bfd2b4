"""Finding and replacing the parts of a plan that edits work on. Nothing here changes in place."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import replace
from typing import Any, NoReturn, TypeVar

from core.measures.refusal import Refusal, quoted
from core.plan.ids import CookId, DishId, StationId, StepId, VesselId
from core.plan.kitchen import Cook, Station, Vessel
from core.plan.menu import Dish, Link, LinkKind
from core.plan.plan import Plan
from core.plan.step import Step

Thing = TypeVar("Thing")
LinkKey = tuple[StepId, StepId, LinkKind]


def dish_in(plan: Plan, dish: DishId) -> Dish:
    """Return a dish; raise Refusal when it is not in the menu."""
    found = plan.dishes.get(dish)
    return _gone("dish", dish, "menu") if found is None else found


def step_in(plan: Plan, step: StepId) -> Step:
    """Return a step; raise Refusal when it is not in the menu."""
    found = plan.steps.get(step)
    return _gone("step", step, "menu") if found is None else found


def station_in(plan: Plan, station: StationId) -> Station:
    """Return a station; raise Refusal when it is not in the kitchen."""
    found = plan.kitchen.station.get(station)
    return _gone("station", station, "kitchen") if found is None else found


def vessel_in(plan: Plan, vessel: VesselId) -> Vessel:
    """Return a kind of vessel; raise Refusal when it is not in the kitchen."""
    found = plan.kitchen.vessel.get(vessel)
    return _gone("vessel", vessel, "kitchen") if found is None else found


def cook_in(plan: Plan, cook: CookId) -> Cook:
    """Return a cook; raise Refusal when not in the kitchen."""
    found = plan.kitchen.cook.get(cook)
    return _gone("cook", cook, "kitchen") if found is None else found


def link_in(plan: Plan, key: LinkKey) -> Link:
    """Return a link; raise Refusal when it is not in the menu."""
    found = next((link for link in plan.menu.links if link.key == key), None)
    if found is None:
        before, after, kind = key
        raise Refusal(
            f"There is no link {kind} from {quoted(before)} to {quoted(after)} any more; choose another."
        )
    return found


def _gone(what: str, id_: str, where: str) -> NoReturn:
    raise Refusal(f"There is no {what} {quoted(id_)} in the {where} any more; choose one that is there.")


def swapped(
    things: Iterable[Thing], old: Callable[[Thing], bool], new: Callable[[Thing], Thing]
) -> tuple[Thing, ...]:
    """Return things in order, those that `old` picks made new."""
    return tuple(new(each) if old(each) else each for each in things)


def inserted(things: tuple[Thing, ...], thing: Thing, at: int) -> tuple[Thing, ...]:
    """Return things with another one at a place."""
    return (*things[:at], thing, *things[at:])


def moved(things: tuple[Thing, ...], thing: Thing, to: int) -> tuple[Thing, ...]:
    """Return things with one of them at another place, the first or the last where there is no such place."""
    others = tuple(each for each in things if each is not thing)
    return inserted(others, thing, max(0, min(to, len(others))))


def with_menu(plan: Plan, **fields: Any) -> Plan:
    """Return the plan with other dishes or links."""
    return replace(plan, menu=replace(plan.menu, **fields))


def with_dish(plan: Plan, dish: DishId, new: Callable[[Dish], Dish]) -> Plan:
    """Return the plan with one dish made new."""
    return with_menu(plan, dishes=swapped(plan.menu.dishes, lambda each: each.id == dish, new))


def with_steps(plan: Plan, step: StepId, new: Callable[[tuple[Step, ...]], tuple[Step, ...]]) -> Plan:
    """Return the plan with the steps made new of the dish that a step belongs to."""
    step_in(plan, step)
    owner = plan.dish_of[step].id
    return with_dish(plan, owner, lambda dish: replace(dish, steps=new(dish.steps)))


def with_kitchen(plan: Plan, **fields: Any) -> Plan:
    """Return the plan with other stations, vessels, cooks or another kitchen's name."""
    return replace(plan, kitchen=replace(plan.kitchen, **fields))


def with_decisions(plan: Plan, **fields: Any) -> Plan:
    """Return the plan with other decisions."""
    return replace(plan, decisions=replace(plan.decisions, **fields))
