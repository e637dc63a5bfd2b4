"""An amount with a unit, exact under scaling, with a text that reads back the same."""

import re
from dataclasses import dataclass
from fractions import Fraction

from core.measures.number import NUMBER, exact_text, number_value, tidy
from core.measures.refusal import Refusal, quoted
from core.measures.unit_names import SYSTEMS, unit_named, worded
from core.measures.units import factor

_TO_TASTE = "to taste"
_ONE = re.compile(rf"(?P<number>{NUMBER})(?![0-9.,/]) ?(?P<unit>[^0-9]*)")
_SEVERAL = re.compile(rf"{NUMBER} ?[^0-9/.,-]*(?: ?- ?| to | or ){NUMBER}.*")
_TIMES = re.compile(rf"{NUMBER} ?x ?{NUMBER}.*")


@dataclass(frozen=True, slots=True)
class Quantity:
    """Hold an exact amount of a unit of unit_names ("" for a bare count), or "to taste" with no amount.

    Nothing is checked here: what parse_quantity makes is sound, and a plan's own checks judge the rest.
    """

    amount: Fraction
    unit: str = ""
    to_taste: bool = False

    def times(self, scale: Fraction | int) -> "Quantity":
        """Return so many times this, exact; to taste stays to taste."""
        return self if self.to_taste else Quantity(self.amount * scale, self.unit)

    def as_text(self) -> str:
        """Return plain text that parse_quantity reads back exactly: "1.5 cups", "1 1/3 tsp", "to taste"."""
        return (
            _TO_TASTE
            if self.to_taste
            else f"{exact_text(self.amount)} {worded(self.unit, self.amount)}".rstrip()
        )

    def __str__(self) -> str:
        """Return what as_text does."""
        return self.as_text()


TO_TASTE = Quantity(Fraction(0), "", to_taste=True)


def parse_quantity(text: str, system: str = "us") -> Quantity:
    """Return the Quantity of "1 1/2 cups", "½ tsp", "500 g", "2,5 dl", "3", "3 cloves" or "to taste".

    A comma before exactly three digits groups thousands. The system (unit_names.SYSTEMS) says whose
    spoons, cups and pints plain ones are. Raise Refusal for ranges, unknown units and anything else.
    """
    if system not in SYSTEMS:
        raise ValueError(f"unknown system of units: {system}")
    plain = re.sub(r"^[Aa]n? ", "1 ", tidy(text))
    if plain.casefold() == _TO_TASTE:
        return TO_TASTE
    if not plain:
        raise Refusal("No amount is written; write one such as 500 g, 1 1/2 cups, 3 cloves or to taste.")
    if plain.startswith("-"):
        raise Refusal(f"{quoted(text)}: an amount cannot be less than 0; leave the minus out.")
    if _SEVERAL.fullmatch(plain):
        raise Refusal(f"{quoted(text)} gives two amounts; write the one you will measure.")
    if _TIMES.fullmatch(plain):
        raise Refusal(f"{quoted(text)} is a sum; write its total, or the number of packs alone.")
    met = _ONE.fullmatch(plain)
    if met is None:
        raise Refusal(f"{quoted(text)} is not an amount; write a number and a unit, as 500 g or 1 1/2 cups.")
    return Quantity(number_value(met["number"]), unit_named(met["unit"], system))


def convert(quantity: Quantity, unit: str) -> Quantity:
    """Return the same amount in another unit, exact; refuse weight to volume, counts and to taste."""
    if quantity.to_taste:
        raise Refusal("What is added to taste has no amount to convert; write an amount first.")
    wanted = unit_named(unit)
    return Quantity(quantity.amount * factor(quantity.unit, wanted), wanted)


def add(first: Quantity, second: Quantity) -> Quantity:
    """Return the sum in the unit of the first, exact; refuse amounts that do not compare."""
    if first.to_taste and second.to_taste:
        return first
    if first.to_taste or second.to_taste:
        raise Refusal("An amount and something to taste have no sum; keep both lines.")
    return Quantity(first.amount + second.amount * factor(second.unit, first.unit), first.unit)
