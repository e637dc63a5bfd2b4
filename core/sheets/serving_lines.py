"""The lines of serving: every course with its dishes to tick off at the pass."""

from __future__ import annotations

from collections.abc import Iterator

from core.food.allergens import Why, conflicts
from core.measures.minutes import show_tminus
from core.measures.words import plural
from core.plan.ids import DishId
from core.plan.menu import Dish
from core.plan.plan import Plan
from core.sheets.contents import allergens_in, allergens_of
from core.sheets.lines import Act, Line, Served
from core.sheets.words import clock_at, plain, shortened

__all__ = ["LAST_MINUTES", "allergens_of", "courses", "last_minutes", "serving_lines", "together"]

LAST_MINUTES = 30
"""What begins later before a course than this many minutes is plating's."""
_TOGETHER = 15
"""Minutes within which courses are plated as one."""


def serving_lines(plan: Plan) -> Iterator[Line]:
    """Yield a line for each course, in order of time; the serving time itself is always there."""
    against: dict[DishId, list[str]] = {}
    for each in conflicts(plan):
        if each.why is not Why.DISLIKED:
            against.setdefault(each.dish, []).append(plain(each.guest))
    for course, dishes in courses(plan).items():
        yield Line(
            course,
            clock_at(plan, course),
            show_tminus(course),
            Act.SERVE,
            _said(course, len(dishes)),
            served=tuple(_served(plan, dish, against.get(dish.id, [])) for dish in dishes),
        )


def courses(plan: Plan) -> dict[int, list[Dish]]:
    """Return what is served when, in order of time and then of the menu; the serving time itself is always there."""
    found: dict[int, list[Dish]] = {0: []}
    for dish in plan.menu.dishes:
        if dish.served:
            found.setdefault(dish.course, []).append(dish)
    return dict(sorted(found.items()))


def together(plan: Plan) -> tuple[tuple[int, ...], ...]:
    """Return the times at which something is served, those that are plated as one together."""
    found: list[list[int]] = []
    for course in courses(plan):
        if found and course - found[-1][0] <= _TOGETHER:
            found[-1].append(course)
        else:
            found.append([course])
    return tuple(map(tuple, found))


def last_minutes(plan: Plan) -> tuple[tuple[int, int], ...]:
    """Return the stretches that are the plating sheet's: from half an hour before the first that is plated as one."""
    return tuple((times[0] - LAST_MINUTES, times[-1]) for times in together(plan))


def _said(course: int, dishes: int) -> str:
    said = [plural(dishes, "dish")] if dishes else []
    return ", ".join((["serving time"] if course == 0 else []) + said)


def _served(plan: Plan, dish: Dish, against: list[str]) -> Served:
    name, not_for = plain(dish.name) or dish.id, tuple(dict.fromkeys(against))
    noted, _likely = allergens_in(plan, dish)
    return Served(shortened(dish.code, 8), name, plain(dish.plating), noted, not_for)
