"""The menu: dishes with their ingredients, the links between steps, the guests and what is in the house."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction

from core.measures.quantity import Quantity
from core.plan.food import Arrival, FoodKind
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
    """One line of a dish's ingredients. `quantity` None: to taste. `per_kg_of` names another ingredient's item.

    `pieces`: the amount is so many single pieces that are cooked whole (a roast, a bird); 0: it is not.
    `food` and `arrives`: its kind and how it comes (None: not told); `thick`: mm of one piece, 0: not told.
    """

    item: str
    quantity: Quantity | None = None
    preparation: str = ""
    step: StepId | None = None
    aisle: str = ""
    on_hand: bool = False
    allergens: tuple[str, ...] = ()
    per_kg_of: str = ""
    pieces: int = 0
    food: FoodKind | None = None
    arrives: Arrival | None = None
    thick: int = 0


@dataclass(frozen=True, slots=True)
class Dish:
    """A dish: for whom, when it is served relative to plating (minutes), how long it keeps, its steps in order.

    `served` False: a component that other dishes use; it has no serving of its own. `scale`: how much of the
    recipe is made (None: servings wanted over servings written for). `pan` is the tin that the recipe is written
    for, `pan_wanted` the one it is made in, in words ("round 26 cm", "35x25x6 cm", "GN 1/2-65").
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
    scale: Fraction | None = None
    pan: str = ""
    pan_wanted: str = ""

    @property
    def factor(self) -> Fraction:
        """Return how much of the recipe is made: the scale, else servings wanted over servings written for."""
        return Fraction(self.wanted, self.written_for) if self.scale is None else self.scale


@dataclass(frozen=True, slots=True)
class Stock:
    """What the house knows of an item: how much is there (None: not told), and how the shop sells it.

    `pack` is what one pack holds, as bought (None: sold by any amount); `usable` the share of it that is left
    after trimming; `keeps` the days that it stays fresh once bought (None: long).
    """

    item: str
    in_store: Quantity | None = None
    pack: Quantity | None = None
    sold_as: str = "pack"
    usable: Fraction = Fraction(1)
    aisle: str = ""
    keeps: int | None = None


@dataclass(frozen=True, slots=True)
class Guest:
    """A guest, or `count` alike: allergies (names of `core.food.allergens`), what they do not like.

    `at_risk` says why illness from food would be worse for them ("pregnant"); "": nothing is known.
    """

    name: str
    count: int = 1
    allergies: tuple[str, ...] = ()
    aversions: tuple[str, ...] = ()
    at_risk: str = ""


@dataclass(frozen=True, slots=True)
class Menu:
    """Dishes in the cook's order, all links, what the house knows of items, guests.

    `covers`: how many sit down (None: not told).
    """

    dishes: tuple[Dish, ...] = ()
    links: tuple[Link, ...] = ()
    stocks: tuple[Stock, ...] = ()
    guests: tuple[Guest, ...] = ()
    covers: int | None = None
