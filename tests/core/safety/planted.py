"""Small plans and timetables for the food checks: steps in a chain at given times, in given places."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise
from typing import Any

from core.measures.quantity import parse_quantity
from core.plan.food import FoodKind
from core.plan.ids import StationId, StepId
from core.plan.kitchen import Kitchen, Station, StationKind
from core.plan.menu import Dish, Ingredient, Link
from core.plan.plan import Plan
from core.plan.step import Step
from core.safety.checking import food_report
from core.safety.finding import Finding, Report
from core.safety.rules import RuleSet
from core.safety.rules_there import chosen_rules
from core.timetable.timetable import Placed, Spot, Stay, Timetable
from tests.support.builders import a_dish, a_kitchen, a_link, a_plan

HOME = chosen_rules("us-home")
CODE = chosen_rules("us-establishment")
UK = chosen_rules("uk")

BOARD = Station(StationId("board"), "Board", StationKind.ROOM, 1)
DRAWER = Station(StationId("drawer"), "Warm drawer", StationKind.WARM_DRAWER, 2)
COLD_BOX = Station(StationId("box"), "Cool box", StationKind.COLD_COUNTER, 2, keeps_at=9)


def food(item: str, kind: FoodKind | None, quantity: str = "1 kg", **fields: Any) -> Ingredient:
    """Return a line of ingredients of a told kind."""
    return Ingredient(item, parse_quantity(quantity), food=kind, **fields)


def dish(id: str, what: Ingredient, *steps: Step, **fields: Any) -> Dish:  # noqa: A002
    """Return a dish of one food."""
    return a_dish(id, *steps, ingredients=(what,), **fields)


def kitchen(*more: Station) -> Kitchen:
    """Return a kitchen with a board for one thing, a warm drawer and a cool box that is not cold enough."""
    return a_kitchen(BOARD, DRAWER, COLD_BOX, *more)


def at(step: str, start: int, length: int, where: str = "", setting: int | None = None) -> Placed:
    """Return a step at its time; `where`: "fridge/0" for a shelf."""
    spots: tuple[Spot, ...] = ()
    if where:
        station, _, shelf = where.partition("/")
        spots = (Spot(StationId(station), 1, int(shelf) if shelf else None),)
    return Placed(StepId(step), start, length, 0, spots, setting)


def stay(
    before: str, after: str | None, start: int, end: int, where: str, setting: int | None = None
) -> Stay:
    """Return food that waits in a place."""
    station, _, shelf = where.partition("/")
    spots = (Spot(StationId(station), 1, int(shelf) if shelf else None),)
    return Stay(
        StepId(before), None if after is None else StepId(after), start, end, spots=spots, setting=setting
    )


def plan_of(*dishes: Dish, links: tuple[Link, ...] = (), **fields: Any) -> Plan:
    """Return a plan of these dishes in the usual kitchen."""
    return a_plan(*dishes, links=links, kitchen=fields.pop("kitchen", kitchen()), **fields)


def report(
    plan: Plan, *placed: Placed, stays: tuple[Stay, ...] = (), rules: RuleSet = HOME, **fields: Any
) -> Report:
    """Return what a set finds."""
    return food_report(plan, Timetable(placed, stays, **fields), rules)


def ids(found: Report) -> list[str]:
    """Return the ids of the rows that are missed, sorted."""
    return sorted(each.rule.id for each in found.findings)


def only(found: Report) -> Finding:
    """Return the one finding."""
    assert len(found.findings) == 1, [each.sentence for each in found.findings]
    return found.findings[0]


def with_room(plan: Plan, room: int) -> Plan:
    """Return the plan in a kitchen so warm."""
    return replace(plan, kitchen=replace(plan.kitchen, room=room))


def told(what: Ingredient, *steps: tuple[Step, Placed], rules: RuleSet = HOME, **fields: object) -> Report:
    """Return what is found of one food that goes through steps in a chain."""
    chain = [step for step, _placed in steps]
    links = tuple(a_link(one.id, other.id) for one, other in pairwise(chain))
    more = fields.pop("more", ())
    plan = plan_of(dish("x", what, *chain, **fields), links=links, kitchen=kitchen(*more))  # type: ignore[misc,arg-type]
    return report(plan, *(placed for _step, placed in steps), rules=rules)
