"""Serving later: everything, or one dish."""

from __future__ import annotations

from core.arrange.ways.case import Case
from core.arrange.ways.easing import Easing, Family
from core.arrange.ways.way import Change, Unit, WayKind
from core.plan.edits import Edit, ServeDishLater, ServeLater
from core.plan.ids import DishId
from core.timetable.timetable import Timetable

_MOST = 4 * 60  # minutes: later than that it is another meal
_DISH_MOST = 2 * 60


def everything_later(case: Case) -> Family:
    """Propose serving everything later."""

    def told(size: int, _timetable: Timetable) -> tuple[Change, ...]:
        return (Change(Unit.OFFSET, 0, size),)

    late = min(_MOST, case.over(case.plan.steps))
    return Family(
        WayKind.SERVE_LATER,
        (Easing(WayKind.SERVE_LATER, ServeLater, told, _MOST, guess=late, later=True, rough=True),),
    )


def dishes_later(case: Case) -> Family:
    """Propose serving one of the dishes in the trouble later."""
    found = tuple(_dish(case, dish) for dish in case.dishes)
    return Family(WayKind.DISH_LATER, found)


def _dish(case: Case, dish: DishId) -> Easing:
    plan = case.plan
    course = plan.dishes[dish].course
    last = [step.id for step in plan.dishes[dish].steps if step.id in plan.last_steps]

    def make(size: int) -> Edit:
        return ServeDishLater(dish, size)

    def told(size: int, _timetable: Timetable) -> tuple[Change, ...]:
        return (Change(Unit.OFFSET, course, course + size, dish=dish),)

    def needs(timetable: Timetable) -> int:
        ends = [each.end for step in last for each in timetable.loads_of.get(step, ())]
        return max(ends, default=course) - course

    own = [step.id for step in plan.dishes[dish].steps]
    guess = min(_DISH_MOST, case.over(own) or case.over(plan.steps))
    return Easing(WayKind.DISH_LATER, make, told, _DISH_MOST, guess, needs, rough=True)
