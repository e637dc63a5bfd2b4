"""A plan is a value: menu, kitchen, plating moment and decisions. Edits make new plans; nothing changes in place."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from functools import cached_property
from uuid import uuid4

from core.measures.clock import Moment
from core.plan.decisions import Choice, Decisions, Pin
from core.plan.ids import DishId, StepId
from core.plan.kitchen import Kitchen
from core.plan.menu import Dish, Link, LinkKind, Menu
from core.plan.step import Manner, Step


def new_mark() -> str:
    """Return a mark that no other plan has: a random UUID (RFC 9562, 5.4), in its usual form."""
    return str(uuid4())


@dataclass(frozen=True)
class Plan:
    """Times inside a plan are whole minutes from plating, negative before it.

    `transfer` is the default of putting in and taking out, minutes of a cook at either end.
    `opens` is the offset before which nothing may be placed (None: worked out from the longest chain).
    `mark` is what the plan is known by outside, whatever it is called: a UUID as text (RFC 9562), given once when it
    begins (`new_mark`) and kept through all edits; "": none, it is then known by its name.
    """

    name: str
    plating: Moment
    menu: Menu = Menu()
    kitchen: Kitchen = Kitchen()
    decisions: Decisions = Decisions()
    transfer: int = 1
    opens: int | None = None
    mark: str = ""

    @cached_property
    def dishes(self) -> dict[DishId, Dish]:
        """Dishes by id, in the menu's order."""
        return {each.id: each for each in self.menu.dishes}

    @cached_property
    def steps(self) -> dict[StepId, Step]:
        """Steps by id, in the menu's order."""
        return {step.id: step for dish in self.menu.dishes for step in dish.steps}

    @cached_property
    def dish_of(self) -> dict[StepId, Dish]:
        """The dish that each step belongs to."""
        return {step.id: dish for dish in self.menu.dishes for step in dish.steps}

    @cached_property
    def links_from(self) -> dict[StepId, tuple[Link, ...]]:
        """Links that leave each step, in the menu's order."""
        found: dict[StepId, list[Link]] = {step: [] for step in self.steps}
        for link in self.menu.links:
            found[link.before].append(link)
        return {step: tuple(links) for step, links in found.items()}

    @cached_property
    def links_to(self) -> dict[StepId, tuple[Link, ...]]:
        """Links that reach each step, in the menu's order."""
        found: dict[StepId, list[Link]] = {step: [] for step in self.steps}
        for link in self.menu.links:
            found[link.after].append(link)
        return {step: tuple(links) for step, links in found.items()}

    @cached_property
    def pins(self) -> dict[tuple[StepId, int], Pin]:
        """Pins by step and load."""
        return {(pin.step, pin.load): pin for pin in self.decisions.pins}

    @cached_property
    def choices(self) -> dict[StepId, Choice]:
        """Chosen alternatives by step."""
        return {each.step: each for each in self.decisions.choices}

    @cached_property
    def manners(self) -> dict[StepId, Manner]:
        """Manner of length of the steps that differ from the plan's."""
        return {each.step: each.manner for each in self.decisions.lengths}

    @cached_property
    def last_steps(self) -> frozenset[StepId]:
        """Steps from which nothing follows end to start: what they make is served (or kept)."""
        followed = {link.before for link in self.menu.links if link.kind is LinkKind.END_TO_START}
        return frozenset(step for step in self.steps if step not in followed)

    def wall(self, offset: int) -> datetime:
        """Return the wall-clock time of an offset, in the plan's zone."""
        from core.measures.clock import wall

        return wall(self.plating, offset)
