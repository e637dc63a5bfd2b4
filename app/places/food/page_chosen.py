"""Which food the page shows: a dish, a line of its ingredients, one way through the menu; and what may be chosen."""

from __future__ import annotations

from typing import TYPE_CHECKING

from app.places.food.view import FoodView, dishes_there, findings_of, foods_there, limit_lines, stories_of
from app.places.food.words import said
from core.plan.ids import DishId

if TYPE_CHECKING:
    from app.bridge import OpenPlan
    from app.places.food.watching import FoodWatch
    from core.safety import Food, Story


class Chosen:
    """Keeps the choice while the plan changes; where it is gone, another takes its place."""

    def __init__(self, opened: OpenPlan, watch: FoodWatch) -> None:
        self._opened, self._watch = opened, watch
        self.dish: DishId | None = None
        self.line: int | None = None
        self.way = 0

    @property
    def key(self) -> tuple[DishId, int] | None:
        """Return dish and line."""
        return None if self.dish is None or self.line is None else (self.dish, self.line)

    @property
    def food(self) -> Food | None:
        """Return the food chosen."""
        foods = () if self.dish is None else foods_there(self._opened.plan, self.dish)
        return next((each for each in foods if each.line == self.line), None)

    @property
    def stories(self) -> tuple[Story, ...]:
        """Return the stories of the food chosen."""
        food = self.food
        return () if food is None else stories_of(self._watch.report, food)

    def choose(self, dish: DishId | None, item: str) -> None:
        """Choose a dish and its food of a name; without them, what is chosen stays."""
        if dish is None:
            return
        foods = foods_there(self._opened.plan, dish)
        named = [each.line for each in foods if each.item == item]
        if dish == self.dish and not named:
            return
        self.dish = dish
        self.choose_line(named[0] if named else _worst(foods, self._watch))

    def choose_line(self, line: int | None) -> None:
        """Choose a food of the dish, along the way on which it misses a limit."""
        self.line, self.way = line, 0
        food, report = self.food, self._watch.report
        missed = () if food is None else findings_of(report, food)
        for number, story in enumerate(self.stories):
            if any(set(each.steps) <= set(story.path) for each in missed):
                self.way = number
                return

    def mend(self) -> None:
        """Choose something that is there, where what was chosen is gone or nothing was."""
        plan, report = self._opened.plan, self._watch.report
        there = dishes_there(plan)
        if self.dish not in there:
            found = [each.dish for each in report.findings] if report is not None else []
            self.dish = next((each for each in (*found, *there) if each in there), None)
            self.line = None
        if self.dish is not None and self.food is None:
            self.choose_line(_worst(foods_there(plan, self.dish), self._watch))
        if self.way >= len(self.stories):
            self.way = 0

    def view(self) -> FoodView | None:
        """Return what is to be shown; None: the plan has no food."""
        food, report = self.food, self._watch.report
        if food is None:
            return None
        plan, timetable, stories = self._opened.plan, self._opened.timetable, self.stories
        readings = self._watch.readings.of((food.dish, food.line))
        if report is None or timetable is None or not stories:
            return FoodView(plan, food, readings=readings)
        story = stories[self.way]
        steps = set(story.path)
        missed = tuple(each for each in findings_of(report, food) if set(each.steps) <= steps)
        return FoodView(plan, food, story, limit_lines(plan, timetable, report.rules, story), readings, missed)

    # ------------------------------------------------------------ what may be chosen

    def dish_options(self) -> list[tuple[DishId, str]]:
        """Return the dishes that have foods."""
        plan = self._opened.plan
        return [(each, plan.dishes[each].name) for each in dishes_there(plan)]

    def food_options(self) -> list[tuple[int, str]]:
        """Return the dish's foods; those that miss a limit say so."""
        if self.dish is None:
            return []
        report = self._watch.report
        found = []
        for food in foods_there(self._opened.plan, self.dish):
            missed = len(findings_of(report, food))
            words = said("{food} (limits: {count})").format(food=food.item, count=missed) if missed else food.item
            found.append((food.line, words))
        return found

    def way_options(self) -> list[tuple[int, str]]:
        """Return the ways of the food through the menu, by where they end."""
        plan = self._opened.plan
        found: list[tuple[int, str]] = []
        for number, story in enumerate(self.stories):
            last = story.path[-1]
            words = f"{plan.dish_of[last].name}: {plan.steps[last].does}"
            loads = [each for _number, each in found if each.startswith(words)]
            found.append((number, said("{way}, last load").format(way=words) if loads else words))
        return found


def _worst(foods: tuple[Food, ...], watch: FoodWatch) -> int | None:
    """Return the line of the food that misses most, else of the first that a limit asks about, else the first."""
    counts = [(-len(findings_of(watch.report, each)), each.kind is None, each.line) for each in foods]
    return min(counts)[2] if counts else None
