"""Leaving out a dish, or a step that is work alone: nothing that cooks, cools, rests or brings something."""

from __future__ import annotations

from core.arrange.ways.case import Case
from core.arrange.ways.easing import Easing, Family
from core.arrange.ways.way import Change, Unit, WayKind
from core.plan.edits import RemoveDish, RemoveStep
from core.plan.ids import DishId, StepId
from core.plan.kitchen import StationKind
from core.plan.step import Attention
from core.timetable.timetable import Timetable


def dishes_left_out(case: Case) -> Family:
    """Propose to leave out one of the dishes in the trouble; what it would have brought others is then wanted."""
    dishes = [dish for dish in case.dishes if _may_go(case, dish)] if len(case.plan.dishes) > 1 else []
    return Family(WayKind.LEAVE_OUT_DISH, tuple(_dish(case, dish) for dish in dishes))


def _may_go(case: Case, dish: DishId) -> bool:
    """Tell whether nothing of a dish is done or under way, and it is served or what it brings can be bought."""
    the_dish = case.plan.dishes[dish]
    own = {step.id for step in the_dish.steps}
    needed = [link for link in case.plan.menu.links if link.before in own and link.after not in own]
    bought = bool(needed) and all(
        link.brings is not None or case.step(link.before).yields is not None for link in needed
    )
    return bool(own) and all(case.open(step) for step in own) and (the_dish.served or bought)


def _dish(case: Case, dish: DishId) -> Easing:
    the_dish = case.plan.dishes[dish]

    def told(_size: int, _timetable: Timetable) -> tuple[Change, ...]:
        return (Change(Unit.NOTHING, 1, 0, dish=dish),)

    feeds = sum(
        1
        for link in case.plan.menu.links
        if case.plan.dish_of[link.before].id == dish != case.plan.dish_of[link.after].id
    )
    weight = float(the_dish.wanted + 20 * feeds)
    return Easing(WayKind.LEAVE_OUT_DISH, lambda _size: RemoveDish(dish), told, weight=lambda _size: weight)


def steps_left_out(case: Case) -> Family:
    """Propose to leave out a step of handwork near the trouble."""
    found = tuple(_step(each) for each in case.steps if _handwork(case, each))
    return Family(WayKind.LEAVE_OUT_STEP, found)


def _handwork(case: Case, step: StepId) -> bool:
    """Tell whether a step is work at the worktop at the end of its dish, served without it if need be."""
    the_step = case.step(step)
    done, dish = the_step.doneness, case.plan.dish_of[step]
    return (
        the_step.attention is Attention.HANDS_ON
        and all(use.kind is StationKind.ROOM for use in the_step.uses)
        and not the_step.alternatives
        and the_step.yields is None
        and (done is None or (done.core is None and done.rest is None))
        and len(dish.steps) > 1
        and the_step.hands == 1
        and all(link.brings is None for link in case.plan.links_from[step])
        and bool(case.plan.links_to[step])
        and all(case.plan.dish_of[link.before] is dish for link in case.plan.links_to[step])
        and all(case.plan.dish_of[link.after] is not dish for link in case.plan.links_from[step])
    )


def _step(step: StepId) -> Easing:
    def told(_size: int, _timetable: Timetable) -> tuple[Change, ...]:
        return (Change(Unit.NOTHING, 1, 0, step=step),)

    return Easing(WayKind.LEAVE_OUT_STEP, lambda _size: RemoveStep(step, joined=True), told)
