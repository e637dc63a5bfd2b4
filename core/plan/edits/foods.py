"""Edits of what is known of foods: kinds, the kitchen's warmth, what a step does to its food, the rules chosen."""

from __future__ import annotations

from dataclasses import dataclass, replace

from core.measures.refusal import Refusal
from core.plan.edits.edit import Edit
from core.plan.edits.parts import dish_in, step_in, with_decisions, with_dish, with_kitchen, with_steps
from core.plan.edits.said import Said
from core.plan.food import Arrival, FoodCare, FoodKind
from core.plan.ids import DishId, StepId
from core.plan.plan import Plan


@dataclass(frozen=True, slots=True)
class TellFood(Edit):
    """Say of which kind an ingredient is, how it comes and how thick a piece is; `line` counts from 0."""

    dish: DishId
    line: int
    food: FoodKind | None
    arrives: Arrival | None = None
    thick: int = 0

    def said(self, words: Said) -> str:
        """Return what is done."""
        return f"Say what kind of food is in {words.dish(self.dish)}"

    def change(self, plan: Plan) -> Plan:
        """Return the plan that knows it; refuse a line that is not there."""
        dish = dish_in(plan, self.dish)
        if not 0 <= self.line < len(dish.ingredients):
            raise Refusal("That line of ingredients is not there any more; choose one that is there.")
        told = replace(dish.ingredients[self.line], food=self.food, arrives=self.arrives, thick=self.thick)
        lines = (*dish.ingredients[: self.line], told, *dish.ingredients[self.line + 1 :])
        return with_dish(plan, self.dish, lambda each: replace(each, ingredients=lines))


@dataclass(frozen=True, slots=True)
class TellCare(Edit):
    """Say what a step does to its food and how that lies while it cools; None: told from place, heat and words."""

    step: StepId
    food: FoodCare | None

    def said(self, words: Said) -> str:
        """Return what is done."""
        return f"Say what becomes of the food in {words.step(self.step)}"

    def change(self, plan: Plan) -> Plan:
        """Return the plan that knows it."""
        new = replace(step_in(plan, self.step), food=self.food)
        return with_steps(
            plan, self.step, lambda steps: tuple(new if each.id == self.step else each for each in steps)
        )


@dataclass(frozen=True, slots=True)
class SetRoom(Edit):
    """Say how warm the kitchen is, in °C; None: not told."""

    celsius: int | None

    def said(self, _words: Said) -> str:
        """Return what is done."""
        return "Say how warm the kitchen is"

    def change(self, plan: Plan) -> Plan:
        """Return the plan that knows it."""
        return with_kitchen(plan, room=self.celsius)


@dataclass(frozen=True, slots=True)
class ChooseRules(Edit):
    """Choose the set of food rules by its id; "": that of home cooks."""

    rules: str

    def said(self, _words: Said) -> str:
        """Return what is done."""
        return "Choose the food rules"

    def change(self, plan: Plan) -> Plan:
        """Return the plan with the choice."""
        return with_decisions(plan, rules=self.rules)
