"""Limits on ingoing nitrite and nitrate by curing method, as published, each with its section.

Limits are parts per million of sodium nitrite, ingoing, by the green weight of the meat: US 9 CFR 424.21(c), 424.22(b);
FSIS Directive 7620.3, Processing Inspectors' Calculations Handbook (rev. 1995), chapter 3. Other countries differ.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction

from core.measures.refusal import Refusal, quoted
from core.measures.words import join_words

HANDBOOK = "FSIS Directive 7620.3, Processing Inspectors' Calculations Handbook (rev. 1995), chapter 3"
MINIMUM = Fraction(120)
MINIMUM_SOURCE = (
    "FSIS Directive 7620.3: ingoing in cured product kept refrigerated, unless otherwise made safe"
)
SKIN_ON_CUT = Fraction(10, 100)
SKIN_ON_SOURCE = "FSIS Directive 7620.3: for bellies with their skin the limit is a tenth less"
_REGULATION = "9 CFR 424.21(c)"
_BACON = "9 CFR 424.22(b)"


class Sum(StrEnum):
    """Which of the handbook's formulas a method goes by."""

    MEAT = "cure on meat"
    PICK_UP = "share of the pickle taken up"
    EQUILIBRIUM = "meat and pickle come to equilibrium"


@dataclass(frozen=True, slots=True)
class Method:
    """A way to cure: its word, its formula, its limits in ppm of sodium nitrite and of nitrate, their source.

    `nitrate` None: none may be used. `note`: what else the row asks for.
    """

    name: str
    said: str
    formula: Sum
    limit: Fraction
    source: str
    nitrate: Fraction | None = None
    nitrate_source: str = ""
    note: str = ""

    @property
    def bacon(self) -> bool:
        """Tell whether it is for bellies."""
        return self.name.startswith("bacon")


def _ppm(ounces: str) -> Fraction:
    """Return ppm of so many ounces on 100 lb."""
    return Fraction(ounces) / (100 * 16) * 1_000_000


_NITRATE = f"{_REGULATION}, nitrate"
_NITRATE_PICKLE = f"{_NITRATE}: 7 lb to 100 gal pickle; as 700 ppm from memory"
_NO_NITRATE = "9 CFR 424.21(c), 424.22(b): no nitrate in bacon"
_WITH = "with 550 ppm sodium ascorbate or erythorbate"

METHODS = {
    each.name: each
    for each in (
        Method(
            "comminuted",
            "ground or chopped meat",
            Sum.MEAT,
            Fraction(156),
            f"{_REGULATION}; {HANDBOOK}",
            _ppm("2.75"),
            _NITRATE,
        ),
        Method(
            "dry",
            "dry cure rubbed on whole pieces",
            Sum.MEAT,
            Fraction(625),
            f"{_REGULATION}; {HANDBOOK}",
            _ppm("3.5"),
            _NITRATE,
        ),
        Method(
            "pumped",
            "pickle pumped or massaged in",
            Sum.PICK_UP,
            Fraction(200),
            f"{_REGULATION}; {HANDBOOK}",
            Fraction(700),
            _NITRATE_PICKLE,
        ),
        Method(
            "immersion-pickup",
            "laid in pickle, by what is taken up",
            Sum.PICK_UP,
            Fraction(200),
            f"{_REGULATION}; {HANDBOOK}",
            Fraction(700),
            _NITRATE_PICKLE,
        ),
        Method(
            "immersion-equilibrium",
            "laid in pickle until both are alike",
            Sum.EQUILIBRIUM,
            Fraction(200),
            f"{_REGULATION}; {HANDBOOK}",
            Fraction(700),
            _NITRATE_PICKLE,
        ),
        Method(
            "bacon-dry",
            "belly, dry cured",
            Sum.MEAT,
            Fraction(200),
            f"{_BACON}; {HANDBOOK}",
            None,
            _NO_NITRATE,
        ),
        Method(
            "bacon-pumped",
            "belly, pumped or massaged",
            Sum.PICK_UP,
            Fraction(120),
            f"{_BACON}(1); {HANDBOOK}",
            None,
            _NO_NITRATE,
            _WITH,
        ),
        Method(
            "bacon-pickup",
            "belly laid in pickle, by what is taken up",
            Sum.PICK_UP,
            Fraction(120),
            f"{_BACON}; {HANDBOOK}",
            None,
            _NO_NITRATE,
        ),
        Method(
            "bacon-equilibrium",
            "belly laid in pickle until both are alike",
            Sum.EQUILIBRIUM,
            Fraction(120),
            f"{_BACON}; {HANDBOOK}",
            None,
            _NO_NITRATE,
        ),
    )
}
"""By name."""


def method_named(name: str) -> Method:
    """Return the method of that name; refuse another word with the names there are."""
    plain = "-".join(name.casefold().replace("-", " ").split())
    if (found := METHODS.get(plain)) is None:
        raise Refusal(f"{quoted(name)} is no curing method here; write one of {join_words(list(METHODS))}.")
    return found
