"""What the page of one food shows, as values: stories, the band, limits as lines with names, readings, findings."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise
from typing import TYPE_CHECKING

from app.places.food.readings import Reading
from app.places.food.words import said
from core.plan.ids import DishId
from core.plan.plan import Plan
from core.safety.band import BandPoint, band
from core.safety.case import Case
from core.safety.foods import Food, foods_of
from core.safety.rules import Measure, RuleSet
from core.safety.story import Story
from core.timetable.timetable import Timetable

if TYPE_CHECKING:
    from core.safety import Finding, Report


@dataclass(frozen=True, slots=True)
class LimitLine:
    """A limit as a line at so many °C, its name, and where it is from."""

    celsius: float
    name: str
    source: str


@dataclass(frozen=True)
class FoodView:
    """One food of a plan along one way; `story` None: nothing of it can be judged."""

    plan: Plan
    food: Food
    story: Story | None = None
    limits: tuple[LimitLine, ...] = ()
    readings: tuple[Reading, ...] = ()
    findings: tuple[Finding, ...] = ()

    @cached_property
    def band(self) -> tuple[BandPoint, ...]:
        """What temperature it may have, point by point."""
        return () if self.story is None else band(self.story)

    @property
    def span(self) -> tuple[int, int]:
        """Return the first and last minute of its story and readings."""
        times = [each.at for each in self.readings]
        if self.story is not None and self.story.stretches:
            times += [self.story.stretches[0].start, self.story.stretches[-1].end]
        return (min(times), max(times)) if times else (-60, 0)

    @property
    def celsius(self) -> tuple[float, float]:
        """Return the lowest and highest °C to show, a little room around them."""
        found = [value for point in self.band for value in (point.low, point.high)]
        found += [float(each.celsius) for each in self.readings]
        found += [each.celsius for each in self.limits]
        low, high = min(found, default=0.0), max(found, default=100.0)
        return min(low, 0.0) - 5, max(high, 40.0) + 8

    def near(self, minute: float) -> tuple[float, float] | None:
        """Return the band at a minute; None outside it."""
        points = self.band
        for one, other in pairwise(points):
            if one.at <= minute <= other.at and other.at > one.at:
                share = (minute - one.at) / (other.at - one.at)
                return one.low + (other.low - one.low) * share, one.high + (other.high - one.high) * share
        return None


def foods_there(plan: Plan, dish: DishId) -> tuple[Food, ...]:
    """Return a dish's foods."""
    return tuple(food for food in foods_of(plan) if food.dish == dish)


def dishes_there(plan: Plan) -> tuple[DishId, ...]:
    """Return the dishes that have foods."""
    return tuple(dict.fromkeys(food.dish for food in foods_of(plan)))


def stories_of(report: Report | None, food: Food) -> tuple[Story, ...]:
    """Return the stories of a food, one for each way through the menu and end of its loads."""
    if report is None:
        return ()
    return tuple(each for each in report.stories if each.food == food and each.stretches)


def findings_of(report: Report | None, food: Food) -> tuple[Finding, ...]:
    """Return the limits that a food misses, wherever it came to."""
    if report is None:
        return ()
    steps = {step for story in stories_of(report, food) for step in story.path}
    return tuple(each for each in report.findings if food.item in each.foods and set(each.steps) & steps)


def limit_lines(plan: Plan, timetable: Timetable, rules: RuleSet, story: Story) -> tuple[LimitLine, ...]:
    """Return the limits of a set that concern a food's story, by °C from the highest."""
    case = Case(plan, timetable, rules, (story,))
    cooked = story.cooked_at is not None or any(each.cooked for each in story.stretches)
    found: dict[tuple[float, str], LimitLine] = {}
    for measure, name in _NAMES.items():
        if measure is Measure.REHEAT and not story.reheated:
            continue
        for rule in case.rows(measure, story.food, cooked):
            values = rule.values
            there = values.least if measure is not Measure.COLD_HOLD else values.most
            if there is None and values.holds:
                there = values.holds[-1].at
            if there is not None:
                line = LimitLine(float(there.celsius), said(name), str(rule.source))
                found.setdefault((line.celsius, line.name), line)
    if cooked:
        for rule in case.rows(Measure.COOL, story.food, cooked):
            for stage in rule.values.stages:
                name = said("cooling: within {hours} h").format(hours=f"{stage.minutes / 60:g}")
                line = LimitLine(float(stage.limit.celsius), name, str(rule.source))
                found.setdefault((line.celsius, line.name), line)
    return tuple(sorted(found.values(), key=lambda each: -each.celsius))


def merged(lines: Iterable[LimitLine]) -> tuple[LimitLine, ...]:
    """Return lines of which those at one temperature are one, with all their names."""
    by: dict[float, list[LimitLine]] = {}
    for line in lines:
        by.setdefault(line.celsius, []).append(line)
    return tuple(
        LimitLine(celsius, ", ".join(dict.fromkeys(each.name for each in there)), there[0].source)
        for celsius, there in by.items()
    )


_NAMES = {
    Measure.CORE: "core",
    Measure.REHEAT: "reheating",
    Measure.HOT_HOLD: "hot holding",
    Measure.COLD_HOLD: "cold holding",
}
