"""The menu: dishes with their ingredients, and the links between steps."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction

from core.measures.quantity import Quantity
from core.plan.ids import DishId, StepId
from core.plan.step import Keep, Step, Wait


class LinkKind(StrEnum):
    """What of the earlier step binds what of the later one."""

    END_TO_START = "end to start"
    START_TO_START = "start to start"
    END_TO_END = "end to end"


@dataclass(frozen=True, slots=True)
class Link:
    """`after` follows `before` not sooner than `least` and not later than `most` minutes (None: no limit).

    `wait` says how the food waits in between. `brings` is what a by-product link carries.
    A link is known by its two steps and its kind.
    """

    before: StepId
    after: StepId
    least: int = 0
    most: int | None = None
    kind: LinkKind = LinkKind.END_TO_START
    wait: Wait = Wait()
    brings: Quantity | None = None

    @property
    def key(self) -> tuple[StepId, StepId, LinkKind]:
        """Return what the link is known by."""
        return (self.before, self.after, self.kind)


@dataclass(frozen=True, slots=True)
class Ingredient:
    """One line of a dish's ingredients. `quantity` None: to taste. `per_kg_of` names another ingredient's item."""

    item: str
    quantity: Quantity | None = None
    preparation: str = ""
    step: StepId | None = None
    aisle: str = ""
    on_hand: bool = False
    allergens: tuple[str, ...] = ()
    per_kg_of: str = ""


@dataclass(frozen=True, slots=True)
class Dish:
    """A dish: for whom, when it is served relative to plating (minutes), how long it keeps, its steps in order.

    `served` False: a component that other dishes use; it has no serving of its own.
    """

    id: DishId
    name: str
    steps: tuple[Step, ...] = ()
    code: str = ""
    written_for: int = 4
    wanted: int = 4
    course: int = 0
    served: bool = True
    keep: Keep = Keep()
    ingredients: tuple[Ingredient, ...] = ()
    allergens: tuple[str, ...] = ()
    plating: str = ""
    note: str = ""

    @property
    def factor(self) -> Fraction:
        """Return servings wanted over servings written for."""
        return Fraction(self.wanted, self.written_for)


@dataclass(frozen=True, slots=True)
class Menu:
    """Dishes in the cook's order, and all links."""

    dishes: tuple[Dish, ...] = ()
    links: tuple[Link, ...] = ()
