"""Edits of steps: add, change, move inside the dish, copy, remove."""

from __future__ import annotations

from dataclasses import dataclass, replace

from core.plan.edits.edit import Edit
from core.plan.edits.parts import dish_in, inserted, moved, step_in, with_dish, with_menu, with_steps
from core.plan.edits.said import Said
from core.plan.edits.strays import without_strays
from core.plan.ids import DishId, StepId, dish_part, fresh, local_part, step_id
from core.plan.menu import Dish, Link, LinkKind
from core.plan.plan import Plan
from core.plan.step import Step


def new_step_id(dish: Dish, does: str) -> StepId:
    """Return an id for a new step of a dish, made from what is done."""
    return step_id(dish.id, fresh(does, {local_part(step.id) for step in dish.steps}))


@dataclass(frozen=True, slots=True)
class AddStep(Edit):
    """Add a step to a dish: right after another one of its steps, or last.

    `chained`: it also follows that step by a link, and what followed that step in the dish now follows it.
    """

    dish: DishId
    step: Step
    after: StepId | None = None
    chained: bool = False
    links: tuple[Link, ...] = ()

    def said(self, words: Said) -> str:
        """Return what is done."""
        return f"Add {words.name(self.step.does)} to {words.dish(self.dish)}"

    def change(self, plan: Plan) -> Plan:
        """Return the plan with the step."""
        dish = dish_in(plan, self.dish)
        at = len(dish.steps)
        if self.after is not None:
            step_in(plan, self.after)
            at = next((n for n, each in enumerate(dish.steps, 1) if each.id == self.after), at)
        changed = with_dish(
            plan, self.dish, lambda each: replace(each, steps=inserted(each.steps, self.step, at))
        )
        links = plan.menu.links
        if self.chained and self.after is not None:
            links = (*(self._passed_on(link) for link in links), Link(self.after, self.step.id))
        return with_menu(changed, links=(*links, *self.links))

    def _passed_on(self, link: Link) -> Link:
        """Return a link as it is once the new step stands between."""
        inside = dish_part(link.after) == self.dish
        if link.before == self.after and inside and link.kind is LinkKind.END_TO_START:
            return replace(link, before=self.step.id)
        return link


@dataclass(frozen=True, slots=True)
class ChangeStep(Edit):
    """Put another step in a step's place; the id stays, whatever id the replacement bears."""

    step: StepId
    replacement: Step

    def said(self, words: Said) -> str:
        """Return what is done."""
        return f"Change {words.step(self.step)}"

    def change(self, plan: Plan) -> Plan:
        """Return the plan with the replacement, without decisions about ways or loads that are gone."""
        new = replace(self.replacement, id=self.step)
        return without_strays(
            with_steps(
                plan, self.step, lambda steps: tuple(new if each.id == self.step else each for each in steps)
            )
        )


@dataclass(frozen=True, slots=True)
class MoveStepInDish(Edit):
    """Put a step at another place among its dish's steps, counted from 0; links stay as they are."""

    step: StepId
    to: int

    def said(self, words: Said) -> str:
        """Return what is done."""
        return f"Move {words.step(self.step)} in the dish"

    def change(self, plan: Plan) -> Plan:
        """Return the plan with the steps in another order."""
        step = step_in(plan, self.step)
        return with_steps(plan, self.step, lambda steps: moved(steps, step, self.to))


@dataclass(frozen=True, slots=True)
class CopyStep(Edit):
    """Add a copy right after a step, with a new id; it has no links, pins or choices yet."""

    step: StepId

    def said(self, words: Said) -> str:
        """Return what is done."""
        return f"Copy {words.step(self.step)}"

    def new_id(self, plan: Plan) -> StepId:
        """Return the id that the copy gets."""
        step_in(plan, self.step)
        return new_step_id(plan.dish_of[self.step], local_part(self.step))

    def change(self, plan: Plan) -> Plan:
        """Return the plan with the copy."""
        copy = replace(step_in(plan, self.step), id=self.new_id(plan))
        return AddStep(plan.dish_of[self.step].id, copy, self.step).change(plan)


@dataclass(frozen=True, slots=True)
class RemoveStep(Edit):
    """Take a step out, with its links, pins, choices, lengths and orders.

    `joined`: what followed it now follows what it followed, so that a chain stays one.
    """

    step: StepId
    joined: bool = False

    def said(self, words: Said) -> str:
        """Return what is done."""
        return f"Remove {words.step(self.step)}"

    def change(self, plan: Plan) -> Plan:
        """Return the plan without the step."""
        owner = plan.dish_of[step_in(plan, self.step).id].id
        changed = with_dish(plan, owner, self._without)
        kept = tuple(link for link in plan.menu.links if self.step not in (link.before, link.after))
        links = (*kept, *self._joining(plan, kept)) if self.joined else kept
        return without_strays(with_menu(changed, links=links))

    def _without(self, dish: Dish) -> Dish:
        return replace(
            dish,
            steps=tuple(each for each in dish.steps if each.id != self.step),
            ingredients=tuple(
                replace(each, step=None) if each.step == self.step else each for each in dish.ingredients
            ),
        )

    def _joining(self, plan: Plan, kept: tuple[Link, ...]) -> tuple[Link, ...]:
        """Return links from what came before the step to what came after it, that are not there yet."""
        chain = [link for link in plan.menu.links if link.kind is LinkKind.END_TO_START]
        there = {link.key for link in kept}
        joins = (
            Link(one.before, other.after, wait=one.wait)
            for one in chain
            if one.after == self.step
            for other in chain
            if other.before == self.step and other.after != one.before
        )
        return tuple(link for link in joins if link.key not in there)
