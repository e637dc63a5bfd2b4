"""From a plan to the tables of its text."""

from __future__ import annotations

from core.intake.text.decisions import decisions_out
from core.intake.text.dishes import dish_out, step_name
from core.intake.text.follows import after_out, link_out
from core.intake.text.guests import guest_out
from core.intake.text.kitchen import cook_out, station_out, vessel_out
from core.intake.text.places import Typed, celsius_out
from core.intake.text.scalars import minutes_out, moment_out, offset_out
from core.intake.text.steps import step_out
from core.intake.text.stocks import stock_out
from core.intake.text.waits import wait_out
from core.plan.ids import StepId, local_part
from core.plan.kitchen import Kitchen
from core.plan.menu import Dish, Link, LinkKind, Menu
from core.plan.plan import Plan
from core.plan.step import Wait


def tables_of(plan: Plan) -> Typed:
    """Return the tables of a plan, in the order in which a person reads them."""
    found: Typed = {"name": plan.name, "plating": moment_out(plan.plating)}
    if plan.mark:
        found["mark"] = plan.mark
    if plan.kitchen.name != Kitchen().name:
        found["kitchen"] = plan.kitchen.name
    if plan.kitchen.walk != Kitchen().walk:
        found["walk"] = minutes_out(plan.kitchen.walk)
    if plan.kitchen.room is not None:
        found["room"] = celsius_out(plan.kitchen.room)
    if plan.transfer != 1:
        found["transfer"] = minutes_out(plan.transfer)
    if plan.opens is not None:
        found["opens"] = offset_out(plan.opens)
    found |= _house(plan.menu)
    if decided := decisions_out(plan.decisions, plan.steps):
        found["decisions"] = decided
    found |= _kitchen(plan.kitchen)
    by_step, apart = shared_out(plan)
    if plan.menu.dishes:
        found["dish"] = {str(dish.id): _dish(dish, by_step) for dish in plan.menu.dishes}
    if apart:
        found["link"] = [link_out(link) for link in apart]
    return found


def _house(menu: Menu) -> Typed:
    found: Typed = {} if menu.covers is None else {"covers": menu.covers}
    if menu.guests:
        found["guest"] = [guest_out(each) for each in menu.guests]
    if menu.stocks:
        found["stock"] = [stock_out(each) for each in menu.stocks]
    return found


def _kitchen(kitchen: Kitchen) -> Typed:
    found: Typed = {}
    if kitchen.stations:
        found["station"] = {str(each.id): station_out(each) for each in kitchen.stations}
    if kitchen.vessels:
        found["vessel"] = {str(each.id): vessel_out(each) for each in kitchen.vessels}
    if kitchen.cooks:
        found["cook"] = {str(each.id): cook_out(each) for each in kitchen.cooks}
    return found


def shared_out(plan: Plan) -> tuple[dict[StepId, list[Link]], tuple[Link, ...]]:
    """Return the links that each step says itself, and those written apart.

    A reader takes the links step by step in the menu's order; from the first link out of that order on,
    all are written apart, so that their order is kept.
    """
    rank = {step: number for number, step in enumerate(plan.steps)}
    by_step: dict[StepId, list[Link]] = {step: [] for step in plan.steps}
    latest = 0
    for number, link in enumerate(plan.menu.links):
        if rank[link.after] < latest:
            return by_step, plan.menu.links[number:]
        latest = rank[link.after]
        by_step[link.after].append(link)
    return by_step, ()


def _dish(dish: Dish, by_step: dict[StepId, list[Link]]) -> Typed:
    found = dish_out(dish)
    steps: Typed = {}
    above: StepId | None = None
    for step in dish.steps:
        table = step_out(step)
        links = by_step[step.id]
        if above is not None and links and (links[0].before, links[0].kind) == (above, LinkKind.END_TO_START):
            chain, *links = links
            if (chain.least, chain.most, chain.wait, chain.brings) != (0, None, Wait(), None):
                steps[local_part(above)]["wait"] = wait_out(chain.least, chain.most, chain.wait, chain.brings)
            if links:
                table["also_after"] = [after_out(link, step_name(link.before, dish.id)) for link in links]
        elif links or above is not None:
            table["after"] = [after_out(link, step_name(link.before, dish.id)) for link in links]
        steps[local_part(step.id)] = table
        above = step.id
    if steps:
        found["step"] = steps
    return found
