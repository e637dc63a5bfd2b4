"""What all checks share: plan, timetable, rules, stories, and how sentences name things."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from fractions import Fraction
from functools import cached_property

from core.measures.minutes import show_minutes
from core.measures.number import show_decimal
from core.plan.check_words import short
from core.plan.food import FoodKind
from core.plan.ids import StepId
from core.plan.plan import Plan
from core.safety.finding import Finding, FoodWay, Level
from core.safety.foods import Food
from core.safety.rules import COOKED, PERISHABLE, RAW_ANIMAL, Measure, Rule, RuleSet
from core.safety.story import Story, Stretch
from core.timetable import naming
from core.timetable.facts import Facts
from core.timetable.timetable import Timetable


@dataclass
class Case:
    """One plan and timetable under one set of rules. `untold` gathers what could not be judged."""

    plan: Plan
    timetable: Timetable
    rules: RuleSet
    stories: tuple[Story, ...]
    untold: dict[str, None] = field(default_factory=dict)

    @cached_property
    def facts(self) -> Facts:
        """The plan as sentences name it."""
        return Facts(self.plan)

    @cached_property
    def at_risk(self) -> tuple[str, ...]:
        """The guests for whom illness from food would be worse."""
        return tuple(guest.name for guest in self.plan.menu.guests if guest.at_risk)

    def rows(self, measure: Measure, food: Food, cooked: bool = False) -> Iterator[Rule]:
        """Yield the rows of a measure that hold for a food as it is."""
        for rule in self.rules.by_measure[measure]:
            if food.kind is None or food.kind is FoodKind.KEEPS:
                continue
            groups = (
                {PERISHABLE} | ({COOKED} if cooked else set()) | ({RAW_ANIMAL} if food.raw_animal else set())
            )
            if rule.names(food.kind) or groups & set(rule.foods):
                yield rule

    def clock(self, at: int) -> str:
        """Return the wall-clock time of a minute, with its day."""
        return naming.clock(self.facts, at)

    def step(self, step: StepId) -> str:
        """Return a step as sentences name it."""
        return self.facts.words.step(step)

    def name(self, food: Food) -> str:
        """Return a food as sentences name it."""
        return f"{naming.capital(short(food.item))} ({self.facts.words.dish(food.dish)})"

    def finding(
        self,
        rule: Rule,
        story: Story,
        stretches: tuple[Stretch, ...],
        over: tuple[Fraction | int, str],
        sentence: str,
        ways: tuple[FoodWay, ...] = (),
        *,
        level: Level = Level.OVER,
    ) -> Finding:
        """Return a finding over some stretches of a story, by so much of a unit; its sentence is given its source."""
        food = story.food
        guess = f" It is taken for {food.kind} by its name; say so if it is not." if food.proposed else ""
        steps = tuple(dict.fromkeys(each.step for each in stretches))
        if rule.advice:
            level = Level.CAUTION
        return Finding(
            rule,
            level,
            self.plan.dish_of[steps[-1]].id,
            (food.item,),
            steps,
            stretches[0].start,
            stretches[-1].end,
            Fraction(over[0]),
            over[1],
            f"{sentence} ({rule.source}).{guess}",
            food.proposed,
            ways,
        )

    def ask(self, sentence: str) -> None:
        """Note what could not be judged."""
        self.untold[sentence] = None


def said(minutes: int) -> str:
    """Return minutes in words."""
    return show_minutes(minutes)


def degrees(celsius: Fraction | int) -> str:
    """Return "62.8 °C"."""
    return f"{show_decimal(Fraction(celsius), 1)} °C"
