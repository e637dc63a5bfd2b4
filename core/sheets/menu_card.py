"""The menu card for the table: the dishes by course with their allergens, for the guests to read.

What the plan knows of single guests is for the kitchen's sheets and stays off this card: it would tell the whole table.
"""

from __future__ import annotations

from dataclasses import dataclass

from core.plan.menu import Dish
from core.plan.plan import Plan
from core.sheets.contents import allergens_in
from core.sheets.words import clock_at, full_date, plain

REMARK = (
    "Allergens as the kitchen noted them; “likely” is usual of an ingredient and not checked. A dish without a line "
    "is one of which nothing was noted, not one that is free of them: please ask."
)
_TOGETHER = 15
"""Minutes within which dishes come to the table as one course."""


@dataclass(frozen=True, slots=True)
class CardDish:
    """A dish, the allergens noted of all that is in it, and those that are likely but not noted."""

    dish: str
    contains: tuple[str, ...]
    likely: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class CardCourse:
    """What comes to the table together, and when."""

    clock: str
    dishes: tuple[CardDish, ...]


@dataclass(frozen=True, slots=True)
class MenuCard:
    """The card: the plan's name, when, the courses."""

    name: str
    day: str
    courses: tuple[CardCourse, ...]


def menu_card(plan: Plan) -> MenuCard:
    """Return the card; work that is no food (laying the table) is left out."""
    served = [each for each in plan.menu.dishes if each.served and (each.ingredients or each.plating.strip())]
    if not served:  # a plan of bare steps: then all are dishes
        served = [each for each in plan.menu.dishes if each.served]
    courses: list[tuple[int, list[Dish]]] = []
    for dish in sorted(served, key=lambda each: each.course):
        if courses and dish.course - courses[-1][0] <= _TOGETHER:
            courses[-1][1].append(dish)
        else:
            courses.append((dish.course, [dish]))
    return MenuCard(
        plain(plan.name),
        full_date(plan.wall(0)).rpartition(",")[0],
        tuple(
            CardCourse(clock_at(plan, at), tuple(_card_dish(plan, each) for each in _in_order(plan, dishes)))
            for at, dishes in courses
        ),
    )


def _in_order(plan: Plan, dishes: list[Dish]) -> list[Dish]:
    order = list(plan.dishes)
    return sorted(dishes, key=lambda each: order.index(each.id))


def _card_dish(plan: Plan, dish: Dish) -> CardDish:
    contains, likely = allergens_in(plan, dish)
    return CardDish(plain(dish.name) or dish.id, contains, likely)
