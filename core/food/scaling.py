"""Scaling the ingredients of a dish: most grow with the servings, a few do not.

By weight, times servings wanted over servings written for: common practice. Strong seasonings above double
start at 75 to 80 % of the multiplied amount and are tasted; eggs are whole; raising agents grow straight up
to three times: common practice, the figures from memory. A salt that is weighed stays in its ratio; one
measured by the spoon is tasted.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction

from core.food.sound import above_zero, in_unit, sound
from core.measures.number import round_half_up
from core.measures.quantity import TO_TASTE, Quantity
from core.measures.refusal import Refusal
from core.measures.unit_names import UNITS, known
from core.plan.check_words import short
from core.plan.menu import Dish, Ingredient

TASTE_ABOVE = Fraction(2)
"""Above this factor strong seasonings start low."""
START_LOW, START_HIGH = Fraction(75, 100), Fraction(80, 100)
RAISING_UP_TO = Fraction(3)

_STRONG = frozenset({
    *("chilli", "chillies", "chili", "chilies", "chiles", "cayenne", "harissa", "wasabi", "horseradish"),
    *("cinnamon", "nutmeg", "mace", "allspice", "cardamom", "anise", "saffron", "cumin", "turmeric"),
    *("paprika", "curry", "juniper", "fenugreek", "asafoetida", "sumac"),
})  # fmt: skip
_STRONG_LAST = frozenset({
    *("wine", "brandy", "cognac", "rum", "whisky", "whiskey", "sherry", "port", "vermouth", "kirsch"),
    *("liqueur", "marsala", "madeira", "vodka", "gin"),
})  # fmt: skip
_RAISING = frozenset({"yeast", "soda", "ammonia"})
_EGGS = frozenset({"egg", "eggs", "yolk", "yolks"})
_NO_EGG = frozenset({"noodle", "noodles", "plant", "plants", "pasta", "substitute"})
_WORD = re.compile(r"[a-z]+")


class Grows(StrEnum):
    """How an ingredient grows with the servings."""

    STRAIGHT = "with the servings"
    BY_TASTE = "start low and taste"
    WHOLE = "in whole pieces"
    RAISING = "straight up to three times"


@dataclass(frozen=True, slots=True)
class Scaled:
    """An ingredient for the servings wanted. `exact` is the straight multiple, never rounded.

    `start`: the least and the most to begin with, where it must be tasted. `whole`: pieces to take.
    `unsure`: a raising agent beyond three times, for which the straight multiple is too simple.
    """

    item: str
    grows: Grows
    factor: Fraction
    exact: Quantity
    start: tuple[Quantity, Quantity] | None = None
    whole: int | None = None

    @property
    def unsure(self) -> bool:
        """Tell whether the baker's own table should be asked."""
        return self.grows is Grows.RAISING and self.factor > RAISING_UP_TO

    @property
    def measured(self) -> Quantity:
        """Return what to have ready: whole pieces where it comes in those, else the straight multiple."""
        return self.exact if self.whole is None else Quantity(Fraction(self.whole), self.exact.unit)


def usual_growth(item: str, quantity: Quantity) -> Grows:
    """Return how an ingredient of this name usually grows; a proposal, the cook may say otherwise."""
    words = _WORD.findall(item.casefold().partition(",")[0])
    last = words[-1] if words else ""
    kind = UNITS[quantity.unit].kind if quantity.unit in UNITS else "count"
    if _EGGS & {*words, *quantity.unit.split()} and not _NO_EGG & set(words) and kind == "count":
        return Grows.WHOLE
    if _RAISING & set(words) or words[-2:] == ["baking", "powder"]:
        return Grows.RAISING
    salted = last == "salt" and kind != "weight"
    if salted or last in _STRONG_LAST or _STRONG & set(words):
        return Grows.BY_TASTE
    return Grows.STRAIGHT


def scaled(
    item: str, quantity: Quantity | None, factor: Fraction | int, grows: Grows | None = None
) -> Scaled:
    """Return an ingredient times a factor; `grows` None: as usual for its name; no quantity: to taste.

    Raise Refusal for a factor or an amount that cannot be, and for an unknown unit.
    """
    times = above_zero(factor, "The factor of scaling", "2 or 1/2")
    written = sound(TO_TASTE if quantity is None else quantity, item)
    if written.to_taste:
        return Scaled(item, grows or Grows.STRAIGHT, times, TO_TASTE)
    grows = grows or usual_growth(item, written)
    exact = written.times(times)
    start = None
    if grows is Grows.BY_TASTE and times > TASTE_ABOVE:
        start = (exact.times(START_LOW), exact.times(START_HIGH))
    return Scaled(item, grows, times, exact, start, _whole(exact) if grows is Grows.WHOLE else None)


def _whole(exact: Quantity) -> int:
    """Return the nearest count of pieces, a half going up; never none of something."""
    return max(int(round_half_up(exact.amount)), 1 if exact.amount > 0 else 0)


def spooned(unit: str) -> bool:
    """Tell whether a unit is counted out, or measured by spoons and cups: no weight, no metric volume."""
    return known(unit).kind != "weight" and unit not in ("ml", "cl", "dl", "l")


def by_the_spoon(quantity: Quantity) -> Quantity:
    """Return a first amount as it is measured: halves of a spoon or cup from 2 up, quarters below.

    Weights stay as they are, and so does what is less than a quarter.
    """
    if not spooned(quantity.unit):
        return quantity
    step = Fraction(1, 2) if quantity.amount >= 2 else Fraction(1, 4)
    near = round_half_up(quantity.amount, step)
    return Quantity(near, quantity.unit) if near else quantity


def scaled_dish(
    dish: Dish, wanted: int | None = None, factor: Fraction | int | None = None
) -> tuple[Scaled, ...]:
    """Return a dish's ingredients in their order, for the servings wanted or times a factor (None: the dish's own).

    What is written per kilogram of another ingredient comes to that ingredient's kilograms times the rule.
    """
    if factor is None:
        factor = dish.factor if wanted is None else Fraction(wanted, dish.written_for)
    return tuple(scaled(each.item, written_amount(dish, each), factor) for each in dish.ingredients)


def written_amount(dish: Dish, line: Ingredient) -> Quantity | None:
    """Return what a line comes to for the servings written; None: to taste. Refuse what cannot be weighed."""
    return _written(dish, line, frozenset())


def _written(dish: Dish, line: Ingredient, asked: frozenset[str]) -> Quantity | None:
    if line.quantity is None or not line.per_kg_of:
        return line.quantity
    name = f"{short(line.item)} of {short(dish.name)}"
    others = [each for each in dish.ingredients if each.item == line.per_kg_of]
    if not others or line.per_kg_of in asked:
        raise Refusal(
            f"{name} is weighed by the kilogram of {short(line.per_kg_of)}; name another ingredient of it."
        )
    kilograms = Fraction(0)
    for each in others:
        amount = _written(dish, each, asked | {line.item, line.per_kg_of})
        if amount is None or amount.to_taste:
            raise Refusal(
                f"{name} is weighed by the kilogram of {short(each.item)}, which has no weight; write one."
            )
        kilograms += in_unit(amount, "kg", f"{name}, by the kilogram of {short(each.item)}")
    return line.quantity.times(kilograms)
