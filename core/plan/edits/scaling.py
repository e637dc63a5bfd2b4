"""Edits of how much is made of a dish, and in which tin."""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction

from core.measures.number import show_decimal
from core.plan.edits.edit import Edit
from core.plan.edits.parts import dish_in, with_dish
from core.plan.edits.said import Said
from core.plan.edits.strays import without_strays
from core.plan.ids import DishId
from core.plan.plan import Plan


@dataclass(frozen=True, slots=True)
class SetDishScale(Edit):
    """Make so much of a dish's recipe; None: as much as the servings wanted ask for."""

    dish: DishId
    scale: Fraction | None

    def said(self, words: Said) -> str:
        """Return what is done."""
        if self.scale is None:
            return f"Make {words.dish(self.dish)} for its servings"
        return f"Make {show_decimal(self.scale, 2)} times {words.dish(self.dish)}"

    def change(self, plan: Plan) -> Plan:
        """Return the plan with the scale, without pins at loads that are no longer cooked."""
        dish_in(plan, self.dish)
        return without_strays(with_dish(plan, self.dish, lambda dish: replace(dish, scale=self.scale)))


@dataclass(frozen=True, slots=True)
class SetDishPans(Edit):
    """Say for which tin a dish's recipe is written and in which it is made ("round 26 cm"; "": none).

    How much is made stays as it is: what another tin asks for is a sum (`core.food`) and an edit of its own.
    """

    dish: DishId
    pan: str
    pan_wanted: str = ""

    def said(self, words: Said) -> str:
        """Return what is done."""
        if self.pan_wanted:
            return f"Make {words.dish(self.dish)} in {words.name(self.pan_wanted)}"
        return f"Change the tin of {words.dish(self.dish)}"

    def change(self, plan: Plan) -> Plan:
        """Return the plan with the tins."""
        dish_in(plan, self.dish)
        return with_dish(
            plan, self.dish, lambda dish: replace(dish, pan=self.pan, pan_wanted=self.pan_wanted)
        )
