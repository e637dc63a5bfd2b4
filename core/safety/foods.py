"""The foods of a plan: each line of ingredients that a limit may ask about, with what is told or proposed of it."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from core.measures.quantity import Quantity, convert
from core.measures.refusal import Refusal
from core.plan.food import Arrival, FoodKind
from core.plan.ids import DishId, StepId
from core.plan.menu import Dish, Ingredient, LinkKind
from core.plan.plan import Plan
from core.safety.proposals import proposed_kind

RAW_ANIMALS = frozenset(
    {
        FoodKind.POULTRY,
        FoodKind.GROUND_POULTRY,
        FoodKind.GROUND_MEAT,
        FoodKind.CUBED_MEAT,
        FoodKind.WHOLE_CUT,
        FoodKind.FISH,
        FoodKind.SHELLFISH,
        FoodKind.EGGS,
    }
)
SPOILS_COOKED = frozenset({FoodKind.PRODUCE, FoodKind.GRAIN})
"""What spoils only once it was heated."""


@dataclass(frozen=True, slots=True)
class Food:
    """One line of a dish's ingredients from the step that it goes into.

    `kind` None: not told and not to be guessed; `proposed`: guessed from the name. `grams`: as much as is made (None:
    no weight or volume is written; a millilitre counts as a gram); `piece`: grams of one piece. `line` counts from 0.
    """

    dish: DishId
    line: int
    item: str
    kind: FoodKind | None
    proposed: bool
    step: StepId
    grams: Fraction | None
    piece: Quantity | None
    arrives: Arrival | None
    thick: int

    @property
    def raw_animal(self) -> bool:
        """Tell whether it is raw meat, poultry, fish, shellfish or eggs when it comes."""
        return self.kind in RAW_ANIMALS


def foods_of(plan: Plan) -> tuple[Food, ...]:
    """Return the foods of all dishes in the menu's order; what another dish brings is that dish's."""
    found: list[Food] = []
    for dish in plan.menu.dishes:
        if dish.steps:
            brought = _brought(plan, dish)
            for line, each in enumerate(dish.ingredients):
                if not _is_brought(each, brought):
                    found.append(_food(dish, line, each))
    return tuple(found)


def _food(dish: Dish, line: int, each: Ingredient) -> Food:
    kind = each.food if each.food is not None else proposed_kind(each.item)
    piece = None
    if each.quantity is not None and not each.quantity.to_taste and not each.per_kg_of:
        share = Fraction(1, each.pieces) if each.pieces else dish.factor
        piece = Quantity(each.quantity.amount * share, each.quantity.unit)
    grams = None if each.quantity is None or each.per_kg_of else grams_of(each.quantity)
    return Food(
        dish.id,
        line,
        each.item,
        kind,
        each.food is None and kind is not None,
        each.step or dish.steps[0].id,
        None if grams is None else grams * dish.factor,
        piece,
        each.arrives,
        each.thick,
    )


def grams_of(quantity: Quantity) -> Fraction | None:
    """Return grams of a weight, or of a volume at a gram a millilitre; None: it is neither."""
    if quantity.to_taste:
        return None
    for unit in ("g", "ml"):
        try:
            return convert(quantity, unit).amount
        except Refusal:
            continue
    return None


def _brought(plan: Plan, dish: Dish) -> set[str]:
    """Return the names of what links bring into a dish from others."""
    found = set()
    for step in dish.steps:
        for link in plan.links_to[step.id]:
            made = plan.steps[link.before].yields
            if (
                plan.dish_of[link.before].id != dish.id
                and link.kind is LinkKind.END_TO_START
                and made is not None
            ):
                found.add(made.item.casefold())
    return found


def _is_brought(each: Ingredient, brought: set[str]) -> bool:
    return each.item.casefold() in brought
