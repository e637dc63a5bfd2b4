"""Edits of dishes: add, rename, change, move, copy, remove."""

from __future__ import annotations

from dataclasses import dataclass, fields, replace
from typing import Any

from core.plan.edits.edit import Edit
from core.plan.edits.parts import dish_in, inserted, moved, with_decisions, with_dish, with_menu
from core.plan.edits.said import Said
from core.plan.edits.strays import without_strays
from core.plan.ids import DishId, StepId, fresh, local_part, step_id
from core.plan.menu import Dish, Link
from core.plan.plan import Plan

_CHANGEABLE = frozenset(each.name for each in fields(Dish)) - {"id", "steps"}
_SPOKEN = {
    "name": "the name of",
    "code": "the letters of",
    "written_for": "the servings of",
    "wanted": "the servings of",
    "course": "the course of",
    "served": "whether to serve",
    "keep": "how long to keep",
    "ingredients": "the ingredients of",
    "allergens": "the allergens of",
    "plating": "the plating of",
    "note": "the note on",
    "scale": "how much to make of",
    "pan": "the tin of",
    "pan_wanted": "the tin of",
}


@dataclass(frozen=True, slots=True)
class AddDish(Edit):
    """Put a dish, and links of its steps, on the menu: after another one, or last."""

    dish: Dish
    links: tuple[Link, ...] = ()
    after: DishId | None = None

    def said(self, words: Said) -> str:
        """Return what is done."""
        return f"Add {words.name(self.dish.name)}"

    def change(self, plan: Plan) -> Plan:
        """Return the plan with the dish."""
        dishes = plan.menu.dishes
        at = len(dishes) if self.after is None else dishes.index(dish_in(plan, self.after)) + 1
        return with_menu(plan, dishes=inserted(dishes, self.dish, at), links=(*plan.menu.links, *self.links))


@dataclass(frozen=True, slots=True)
class RenameDish(Edit):
    """Give a dish another name; its id stays."""

    dish: DishId
    name: str

    def said(self, words: Said) -> str:
        """Return what is done."""
        return f"Rename {words.dish(self.dish)} to {words.name(self.name)}"

    def change(self, plan: Plan) -> Plan:
        """Return the plan with the name."""
        dish_in(plan, self.dish)
        return with_dish(plan, self.dish, lambda dish: replace(dish, name=self.name))


@dataclass(frozen=True, slots=True)
class ChangeDish(Edit):
    """Change what is written about a dish, steps apart: `ChangeDish.of("gratin", wanted=12)`."""

    dish: DishId
    fields: tuple[tuple[str, Any], ...]

    @classmethod
    def of(cls, dish: DishId, **changed: Any) -> ChangeDish:
        """Return the edit that gives a dish these fields; raise TypeError for one that it cannot change."""
        strange = set(changed) - _CHANGEABLE
        if strange:
            raise TypeError(f"ChangeDish cannot change {', '.join(sorted(strange))}")
        return cls(dish, tuple(changed.items()))

    def said(self, words: Said) -> str:
        """Return what is done."""
        what = f"{_SPOKEN[self.fields[0][0]]} " if len(self.fields) == 1 else ""
        return f"Change {what}{words.dish(self.dish)}"

    def change(self, plan: Plan) -> Plan:
        """Return the plan with the fields, without pins at loads that are no longer cooked."""
        dish_in(plan, self.dish)
        return without_strays(with_dish(plan, self.dish, lambda dish: replace(dish, **dict(self.fields))))


@dataclass(frozen=True, slots=True)
class MoveDish(Edit):
    """Put a dish at another place of the menu, counted from 0."""

    dish: DishId
    to: int

    def said(self, words: Said) -> str:
        """Return what is done."""
        return f"Move {words.dish(self.dish)} in the menu"

    def change(self, plan: Plan) -> Plan:
        """Return the plan with the dishes in another order."""
        return with_menu(plan, dishes=moved(plan.menu.dishes, dish_in(plan, self.dish), self.to))


@dataclass(frozen=True, slots=True)
class CopyDish(Edit):
    """Add a copy right after a dish: new ids, links among its own steps, chosen ways and lengths; no pins."""

    dish: DishId
    name: str = ""

    def said(self, words: Said) -> str:
        """Return what is done."""
        return f"Copy {words.dish(self.dish)}"

    def new_id(self, plan: Plan) -> DishId:
        """Return the id that the copy gets."""
        return DishId(fresh(self.name or self.dish, plan.dishes))

    def change(self, plan: Plan) -> Plan:
        """Return the plan with the copy."""
        dish = dish_in(plan, self.dish)
        new = self.new_id(plan)
        ids = {step.id: step_id(new, local_part(step.id)) for step in dish.steps}
        copy = replace(
            dish,
            id=new,
            name=self.name or f"{dish.name} (copy)",
            code="",
            steps=tuple(replace(step, id=ids[step.id]) for step in dish.steps),
            ingredients=tuple(
                each if each.step is None else replace(each, step=ids.get(each.step))
                for each in dish.ingredients
            ),
        )
        links = tuple(
            replace(link, before=ids[link.before], after=ids[link.after])
            for link in plan.menu.links
            if link.before in ids and link.after in ids
        )
        return _with_own_decisions(AddDish(copy, links, self.dish).change(plan), ids)


def _with_own_decisions(plan: Plan, ids: dict[StepId, StepId]) -> Plan:
    """Return the plan with the ways and lengths chosen for the old steps chosen for the new ones, too."""
    decisions = plan.decisions
    choices = (replace(each, step=ids[each.step]) for each in decisions.choices if each.step in ids)
    lengths = (replace(each, step=ids[each.step]) for each in decisions.lengths if each.step in ids)
    return with_decisions(
        plan, choices=(*decisions.choices, *choices), lengths=(*decisions.lengths, *lengths)
    )


@dataclass(frozen=True, slots=True)
class RemoveDish(Edit):
    """Take a dish off the menu, with the links, pins, choices, lengths and orders of its steps."""

    dish: DishId

    def said(self, words: Said) -> str:
        """Return what is done."""
        return f"Remove {words.dish(self.dish)}"

    def change(self, plan: Plan) -> Plan:
        """Return the plan without the dish."""
        gone = {step.id for step in dish_in(plan, self.dish).steps}
        dishes = tuple(each for each in plan.menu.dishes if each.id != self.dish)
        links = tuple(link for link in plan.menu.links if link.before not in gone and link.after not in gone)
        return without_strays(with_menu(plan, dishes=dishes, links=links))
