"""Ingoing nitrite and nitrate of a cure, against the published limit of its method. Exact; every sum shows its numbers.

Formulas: FSIS Directive 7620.3 (Processing Inspectors' Calculations Handbook, rev. 1995), chapter 3, with "%" entered
as a fraction. The base is the green weight of the meat, not the finished batch. Which share of the cure is nitrite is
asked for, never assumed: mixes of 6.25, 5.88, 0.6 per cent and others look alike.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction
from math import ceil, floor

from core.food.curing_rules import MINIMUM, SKIN_ON_CUT, Method, Sum
from core.food.curing_shares import NITRATE, NITRITE, PUMP, checked_share
from core.food.sound import some
from core.measures.number import round_half_up, show_decimal
from core.measures.quantity import Quantity, convert
from core.measures.refusal import Refusal
from core.measures.unit_names import known

_MILLION = 1_000_000
_GRAIN = 1000
"""Doses are given to a thousandth of a gram."""


@dataclass(frozen=True, slots=True)
class Cure:
    """What is cured and with what.

    `nitrite`, `nitrate`: shares (0 to 1) of the cure as sodium salts. `pickle`: the whole pickle's weight, cure and
    salt in it. `taken_up`: pump or pick-up, a share of the green weight. `salt`: beside the cure. `skin_on`: bellies.
    """

    method: Method
    meat: Quantity
    cure: Quantity
    nitrite: Fraction
    nitrate: Fraction = Fraction(0)
    pickle: Quantity | None = None
    taken_up: Fraction | None = None
    salt: Quantity | None = None
    skin_on: bool = False


@dataclass(frozen=True, slots=True)
class Ingoing:
    """What a cure brings in, in ppm and as shares, the limits it is held against, and the sums with their numbers.

    `most`, `least`: g of cure at the limit (rounded down) and at the minimum (rounded up; None: the limit is lower).
    """

    asked: Cure
    nitrite: Fraction
    limit: Fraction
    formula: str
    nitrate: Fraction
    nitrate_limit: Fraction | None
    nitrate_formula: str
    salt: Fraction
    salt_formula: str
    most: Fraction
    least: Fraction | None

    @property
    def over(self) -> bool:
        """Tell whether nitrite is above the limit; compared in whole ppm, as the limits are printed."""
        return round_half_up(self.nitrite) > self.limit

    @property
    def nitrate_over(self) -> bool:
        """Tell whether nitrate is above its limit, or there though none may be."""
        if not self.asked.nitrate:
            return False
        return self.nitrate_limit is None or round_half_up(self.nitrate) > round_half_up(self.nitrate_limit)

    @property
    def under(self) -> bool:
        """Tell whether nitrite is below the published minimum; never where the limit itself is lower."""
        return self.least is not None and round_half_up(self.nitrite) < MINIMUM


def ingoing(asked: Cure) -> Ingoing:
    """Return what a cure brings in; refuse what is missing, odd or no weight, and shares that are never met."""
    _refuse_odd(asked)
    method, per_gram = asked.method, _for_a_gram(asked)
    cure = grams(asked.cure, "The cure")
    limit = method.limit * (1 - SKIN_ON_CUT) if asked.skin_on else method.limit
    salt = grams(asked.salt, "The salt") if asked.salt else Fraction(0)
    salt += cure * (1 - asked.nitrite - asked.nitrate)
    dose = per_gram * asked.nitrite * _MILLION
    return Ingoing(
        asked,
        cure * dose,
        limit,
        _formula(asked, cure, asked.nitrite),
        cure * per_gram * asked.nitrate * _MILLION,
        method.nitrate,
        _formula(asked, cure, asked.nitrate) if asked.nitrate else "",
        salt * per_gram,
        _salt_formula(asked, salt, per_gram),
        Fraction(floor(limit / dose * _GRAIN), _GRAIN),
        Fraction(ceil(MINIMUM / dose * _GRAIN), _GRAIN) if limit >= MINIMUM else None,
    )


def cure_for(target: Fraction | int, asked: Cure) -> Quantity:
    """Return g of cure that bring in so many ppm of nitrite, exact; what `asked` says of the cure's weight is not read.

    The pickle's weight counts with the cure in it. Refuse targets above the method's limit.
    """
    some_cure = replace(asked, cure=Quantity(Fraction(1, 1000), "g"))
    limit = ingoing(some_cure).limit
    if not 0 < target <= limit:
        raise Refusal(
            f"The target is {show_decimal(Fraction(target))} ppm; write more than 0 and at most"
            f" {show_decimal(limit)} ppm, the limit for {asked.method.said} ({asked.method.source})."
        )
    amount = Fraction(target) / (_for_a_gram(some_cure) * asked.nitrite * _MILLION)
    found = replace(asked, cure=Quantity(amount, "g"))
    _refuse_odd(found)
    return found.cure


def grams(quantity: Quantity, what: str) -> Fraction:
    """Return g of a weight, exact; refuse spoons, litres and counts: a cure is weighed."""
    if known(some(quantity, what).unit).kind != "weight":
        raise Refusal(
            f"{what} is “{quantity}”: weigh it and write g, kg, oz or lb; a spoon or a litre is no dose."
        )
    return convert(quantity, "g").amount


def _for_a_gram(asked: Cure) -> Fraction:
    """Return what a gram of anything in the cure or the pickle is of what it ends up in."""
    meat = grams(asked.meat, "The meat")
    if asked.method.formula is Sum.MEAT:
        return 1 / meat
    pickle = _pickle(asked)
    if asked.method.formula is Sum.EQUILIBRIUM:
        return 1 / (meat + pickle)
    assert asked.taken_up is not None
    return asked.taken_up / pickle


def _pickle(asked: Cure) -> Fraction:
    assert asked.pickle is not None
    return grams(asked.pickle, "The pickle")


def _over(asked: Cure) -> str:
    meat = f"{_number(grams(asked.meat, 'The meat'))} g meat"
    if asked.method.formula is Sum.MEAT:
        return meat
    pickle = f"{_number(_pickle(asked))} g pickle"
    return f"({meat} + {pickle})" if asked.method.formula is Sum.EQUILIBRIUM else pickle


def _formula(asked: Cure, cure: Fraction, share: Fraction) -> str:
    """Return "ppm = 2.5 g cure × 0.0625 × 1000000 / 1000 g meat = 156.25"."""
    pumped = f" × {_number(asked.taken_up)} taken up" if asked.taken_up is not None else ""
    ppm = cure * share * _for_a_gram(asked) * _MILLION
    return f"ppm = {_number(cure)} g cure × {_number(share)}{pumped} × 1000000 / {_over(asked)} = {_number(ppm, 2)}"


def _salt_formula(asked: Cure, salt: Fraction, per_gram: Fraction) -> str:
    pumped = f" × {_number(asked.taken_up)} taken up" if asked.taken_up is not None else ""
    percent = _number(salt * per_gram * 100, 2)
    return f"per cent = {_number(salt)} g salt{pumped} × 100 / {_over(asked)} = {percent}"


def _number(value: Fraction, places: int = 5) -> str:
    return show_decimal(value, places)


def _refuse_odd(asked: Cure) -> None:
    checked_share(asked.nitrite, NITRITE)
    if asked.nitrate:
        checked_share(asked.nitrate, NITRATE)
    if asked.nitrite + asked.nitrate > 1:
        raise Refusal("Nitrite and nitrate are more than the whole cure; read the maker's label again.")
    method = asked.method
    _refuse_odd_pickle(asked)
    meat, cure = grams(asked.meat, "The meat"), grams(asked.cure, "The cure")
    if cure >= meat:
        raise Refusal(
            f"The cure weighs {asked.cure} and the meat {asked.meat}: more cure than meat; are the two exchanged?"
        )
    if asked.salt is not None and grams(asked.salt, "The salt") >= meat + (
        _pickle(asked) if asked.pickle else 0
    ):
        raise Refusal(f"The salt weighs {asked.salt}, more than what it goes into; correct one of them.")
    if asked.skin_on and not method.bacon:
        raise Refusal(
            f"Skin on counts for bellies; leave it out, or choose a bacon method instead of {method.name}."
        )


def _refuse_odd_pickle(asked: Cure) -> None:
    name, formula = asked.method.name, asked.method.formula
    if formula is Sum.MEAT:
        if asked.pickle is not None or asked.taken_up is not None:
            raise Refusal(
                f"The method {name} has no pickle; leave pickle and pump out, or choose another method."
            )
        return
    if asked.pickle is None:
        raise Refusal(
            f"The method {name} wants the weight of the whole pickle, cure and salt in it; weigh it."
        )
    if formula is Sum.PICK_UP and asked.taken_up is None:
        raise Refusal(
            f"The method {name} wants the pump or pick-up, such as 10%: what the meat gains, of its weight."
        )
    if formula is Sum.EQUILIBRIUM and asked.taken_up is not None:
        raise Refusal(f"The method {name} has no pump or pick-up; leave it out, or choose pumped.")
    if asked.taken_up is not None:
        checked_share(asked.taken_up, PUMP)
    inside = grams(asked.cure, "The cure") + (grams(asked.salt, "The salt") if asked.salt else 0)
    if inside >= _pickle(asked):
        raise Refusal(
            f"The pickle weighs {asked.pickle} and the cure and salt in it as much or more;"
            " write the weight of the whole pickle, water and all."
        )
