"""Volume to weight by ingredient, with the portion weights of core.food.portions; what is not there is refused."""

from __future__ import annotations

import difflib
from dataclasses import dataclass
from fractions import Fraction
from functools import cache

from core.food.portions import FOODS, Portion, Weighed, is_volume
from core.food.sound import in_unit, some
from core.measures.quantity import Quantity
from core.measures.refusal import Refusal, quoted
from core.measures.unit_names import known
from core.measures.units import factor
from core.measures.words import join_words
from core.plan.check_words import short


@dataclass(frozen=True, slots=True)
class Weight:
    """What an amount weighs in g, the food whose row was taken, and that row."""

    grams: Quantity
    food: Weighed
    row: Portion

    @property
    def source(self) -> str:
        """Return where the weight is from: "1 cup of plain flour is 125 g (USDA SR, file WEIGHT, NDB 20081)"."""
        number = f", NDB {self.food.ndb}" if self.food.ndb else ""
        grams = f"{float(self.row.grams):g} g"
        measure = (
            f"1 {self.food.name}"
            if self.row.measure == "piece"
            else f"1 {self.row.measure} of {self.food.name}"
        )
        return f"{measure} is {grams} ({self.food.source}{number})"


def weighed(quantity: Quantity, item: str) -> Weight:
    """Return what an amount of an item weighs, in g, by the row whose measure is nearest to the amount's unit.

    A weight weighs itself. Refuse an unknown item, naming close ones, and a measure that no row of it has.
    """
    amount = some(quantity, item)
    food = food_named(item)
    kind = known(amount.unit).kind
    if kind == "weight":
        grams = in_unit(amount, "g", item)
        return Weight(Quantity(grams, "g"), food, food.portions[0])
    if kind == "volume":
        row = _nearest_volume(food, amount)
        if row is not None:
            return Weight(Quantity(in_unit(amount, row.measure, item) * row.grams, "g"), food, row)
    if kind == "count":
        row = _counted(food, amount.unit)
        if row is not None:
            return Weight(Quantity(amount.amount * row.grams, "g"), food, row)
    measures = join_words([_a(each.measure) for each in food.portions])
    raise Refusal(
        f"{short(item)}: of {food.name} only the weight of {measures} is known; weigh {amount} of it once."
    )


def _a(measure: str) -> str:
    return "one piece" if measure == "piece" else f"a {measure}"


def food_named(item: str) -> Weighed:
    """Return the food that recipes call so; refuse one that is not in the table, naming close ones."""
    found = find_food(item)
    if found is not None:
        return found
    plain = _plain(item)
    if "kosher" in plain:
        raise Refusal(
            f"{quoted(item)}: kosher salt is of two kinds, hollow flakes (2.8 to 3 g a teaspoon) and rolled flakes "
            "(4.8 to 5 g); say kosher salt hollow flakes or kosher salt rolled flakes."
        )
    near = difflib.get_close_matches(plain, _names(), 6, 0.55)
    words = {each for each in plain.split() if len(each) > 2}
    near += [name for name in _names() if words & set(name.split()) and name not in near]
    shown = list(dict.fromkeys(_names()[name].name for name in near))[:4]
    mend = f"close to it are {join_words(shown)}" if shown else "weigh it once"
    raise Refusal(f"The weight of {quoted(item)} by volume or piece is not in the table; {mend}.")


def find_food(item: str) -> Weighed | None:
    """Return the food of the table that an item names, None where there is none."""
    return _names().get(_plain(item))


def density(item: str) -> Fraction | None:
    """Return g per ml of an item, None where the table has no volume of it."""
    food = find_food(item)
    return None if food is None else food.density


def _plain(item: str) -> str:
    """Return a name without capitals, commas and a last plural."""
    words = item.casefold().replace(",", " ").replace("'", "").replace("’", "").split()
    if words and words[-1].endswith("s") and not words[-1].endswith("ss"):
        words[-1] = words[-1][:-1]
    return " ".join(words)


@cache
def _names() -> dict[str, Weighed]:
    return {_plain(name): food for food in FOODS for name in food.names}


def _nearest_volume(food: Weighed, amount: Quantity) -> Portion | None:
    """Return the row of this very measure, else the one nearest in size to the amount."""
    rows = [each for each in food.portions if is_volume(each.measure)]
    size = amount.amount * factor(amount.unit, "ml")

    def off(row: Portion) -> tuple[bool, Fraction]:
        ratio = size / factor(row.measure, "ml")
        return row.measure != amount.unit, max(ratio, 1 / ratio)

    return min(rows, key=off, default=None)


def _counted(food: Weighed, unit: str) -> Portion | None:
    words = {unit, "piece"} if unit in {"", "piece", "egg"} and food.pieces else {unit}
    return next(
        (each for each in food.portions if each.measure in words and not is_volume(each.measure)), None
    )
