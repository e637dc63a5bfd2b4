"""The edit that puts a usual run of steps into a dish."""

from __future__ import annotations

from dataclasses import dataclass, replace

from core.measures.refusal import Refusal
from core.plan.blocks import BlockKind, links_of, steps_of
from core.plan.blocks_usual import BLOCKS
from core.plan.check_words import Words
from core.plan.edits.edit import Edit
from core.plan.edits.parts import dish_in, step_in, with_dish, with_menu
from core.plan.edits.said import Said
from core.plan.ids import DishId, StepId, dish_part
from core.plan.menu import Dish, Link, LinkKind
from core.plan.plan import Plan
from core.plan.step import Step


@dataclass(frozen=True, slots=True)
class AddBlock(Edit):
    """Add a usual run of steps to a dish, as one undo step: right after one of its steps, or last.

    After a step, the run follows it by a link, and what followed that step in the dish follows the run. Last
    (`after` None), it is linked to nothing yet. A link that brings a by-product stays where it was.
    """

    dish: DishId
    block: BlockKind
    after: StepId | None = None

    def said(self, words: Said) -> str:
        """Return what is done."""
        return f"Add “{self.block}” to {words.dish(self.dish)}"

    def new_steps(self, plan: Plan) -> tuple[Step, ...]:
        """Return the steps that the dish gets."""
        return steps_of(BLOCKS[self.block], dish_in(plan, self.dish))

    def change(self, plan: Plan) -> Plan:
        """Return the plan with the run."""
        dish = dish_in(plan, self.dish)
        at = self._place(plan, dish)
        new = self.new_steps(plan)
        changed = with_dish(
            plan, self.dish, lambda each: replace(each, steps=(*each.steps[:at], *new, *each.steps[at:]))
        )
        passed = tuple(self._passed_on(link, new[-1].id) for link in plan.menu.links)
        return with_menu(changed, links=(*passed, *links_of(BLOCKS[self.block], new, self.after)))

    def _place(self, plan: Plan, dish: Dish) -> int:
        """Return how many of the dish's steps come before the run."""
        if self.after is None:
            return len(dish.steps)
        ids = [step.id for step in dish.steps]
        if step_in(plan, self.after).id not in ids:
            words = Words(plan)
            raise Refusal(
                f"{words.step(self.after)} is no step of {words.dish(self.dish)}; choose one of its own steps."
            )
        return ids.index(self.after) + 1

    def _passed_on(self, link: Link, last: StepId) -> Link:
        """Return a link as it is once the run stands between."""
        inside = link.before == self.after and dish_part(link.after) == self.dish
        if inside and link.kind is LinkKind.END_TO_START and link.brings is None:
            return replace(link, before=last)
        return link
