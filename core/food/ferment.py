"""Fermented sausage by degree-hours: how long it may take to its pH while warm enough for what must not grow.

Degree-hours are the degrees above a base times hours, added up until the pH is reached; the budget falls with the
hottest temperature met. US: above 60 F, 1200 F.h below 90 F, 1000 from 90 to 100 F, 900 above (the last two from
memory). Canadian: above 15.6 °C, 665 C.h below 33 °C, 555 from 33 to 37 °C, 500 above. Both to pH 5.3.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction

from core.food.cooling_rules import Scale
from core.measures.number import show_decimal
from core.measures.refusal import Refusal

TARGET = Fraction("5.3")
"""The pH that both rules ask for."""


@dataclass(frozen=True, slots=True)
class Budget:
    """Degree-hours that may be spent where the hottest temperature is at most `upto` (None: hotter than all)."""

    upto: Fraction | None
    below: bool
    allowed: Fraction
    source: str

    def holds_at(self, hottest: Fraction) -> bool:
        """Tell whether it is for such a hottest temperature."""
        return self.upto is None or hottest < self.upto or (not self.below and hottest == self.upto)


@dataclass(frozen=True, slots=True)
class DegreeHours:
    """A rule: its scale, the base above which degrees count, its budgets from cool to hot.

    `less_than`: the budget itself is already too much.
    """

    name: str
    scale: Scale
    above: Fraction
    budgets: tuple[Budget, ...]
    less_than: bool = False

    def budget(self, hottest: Fraction) -> Budget:
        """Return the budget for a hottest temperature in the rule's scale."""
        return next(each for each in self.budgets if each.holds_at(hottest))


_US, _CANADA = "US degree-hour rule for fermented sausage", "Canadian degree-hour rule for fermented sausage"
US = DegreeHours(
    _US,
    Scale.FAHRENHEIT,
    Fraction(60),
    (
        Budget(Fraction(90), True, Fraction(1200), _US),
        Budget(Fraction(100), False, Fraction(1000), f"{_US}, from memory"),
        Budget(None, False, Fraction(900), f"{_US}, from memory"),
    ),
    less_than=True,
)
CANADA = DegreeHours(
    _CANADA,
    Scale.CELSIUS,
    Fraction("15.6"),
    (
        Budget(Fraction(33), True, Fraction(665), _CANADA),
        Budget(Fraction(37), False, Fraction(555), _CANADA),
        Budget(None, False, Fraction(500), _CANADA),
    ),
)


@dataclass(frozen=True, slots=True)
class Stage:
    """Some hours at one temperature, in the rule's scale; `ph` read at its end, None: not read."""

    degrees: Fraction
    hours: Fraction
    ph: Fraction | None = None


class Stand(StrEnum):
    """How a ferment stands."""

    MET = "pH reached within the degree-hours"
    OVER = "over the degree-hours"
    OPEN = "still fermenting within them"


@dataclass(frozen=True, slots=True)
class Ferment:
    """Degree-hours spent until the pH was first read (or until now), of how many; the sum; hours left at the last heat.

    `left` None: it does not count, the last heat is not above the base.
    """

    rule: DegreeHours
    stand: Stand
    spent: Fraction
    budget: Budget
    formula: str
    left: Fraction | None


def hours_allowed(degrees: Fraction | int, rule: DegreeHours) -> Fraction:
    """Return hours until the budget is spent at one temperature in the rule's scale; refuse what does not count."""
    heat = _sound(Fraction(degrees), rule)
    if heat <= rule.above:
        raise Refusal(
            f"{_deg(heat, rule)} is not above {_deg(rule.above, rule)}, where degree-hours begin; write a warmer one."
        )
    return rule.budget(heat).allowed / (heat - rule.above)


def ferment(stages: Sequence[Stage], rule: DegreeHours) -> Ferment:
    """Return how a ferment stands after its stages, in order; refuse none, odd heats, hours and pH.

    All hours of the stage at whose end the pH was read count, even if it was reached within it.
    """
    if not stages:
        raise Refusal("Write the temperature and the hours of the fermentation, stage by stage.")
    counted: list[Stage] = []
    for stage in stages:
        _sound(stage.degrees, rule)
        if not 0 < stage.hours <= 24 * 60:
            raise Refusal(
                f"A stage of {show_decimal(stage.hours)} h is none; write more than 0 h, at most 60 days."
            )
        if stage.ph is not None and not 3 <= stage.ph <= 8:
            raise Refusal(
                f"A pH of {show_decimal(stage.ph)} is none of meat; calibrate the meter and read it again."
            )
        counted.append(stage)
        if stage.ph is not None and stage.ph <= TARGET:
            break
    hottest = max(stage.degrees for stage in counted)
    budget = rule.budget(hottest)
    parts = [(max(Fraction(0), stage.degrees - rule.above), stage.hours) for stage in counted]
    spent = sum((over * hours for over, hours in parts), Fraction(0))
    last = counted[-1]
    reached = last.ph is not None and last.ph <= TARGET
    over = spent >= budget.allowed if rule.less_than else spent > budget.allowed
    stand = Stand.OVER if over else Stand.MET if reached else Stand.OPEN
    warm = last.degrees - rule.above
    left = max(Fraction(0), budget.allowed - spent) / warm if warm > 0 else None
    return Ferment(rule, stand, spent, budget, _formula(counted, rule, spent), left)


CAUTIONS = (
    "Over the degree-hours: do not taste or sell it; your local food code says what becomes of it.",
    "Starter culture, cure and acid as in a published method; read the pH with a calibrated meter, write each reading.",
    "pH alone makes nothing keep: drying and cold follow. Licensed practice decides.",
)


def ferment_lines(found: Ferment) -> tuple[str, ...]:
    """Return what a ferment's sum says, with its formula, its source and the cautions."""
    unit = f"{found.rule.scale.value}·h"
    allowed, spent = show_decimal(found.budget.allowed), show_decimal(found.spent, 1)
    sign = "less than" if found.rule.less_than else "at most"
    lines = [f"{spent} {unit} of {sign} {allowed}: {found.stand.value}, to pH {show_decimal(TARGET)}."]
    if found.stand is Stand.OPEN and found.left is not None:
        lines.append(f"At the last temperature the pH must be read within {show_decimal(found.left, 1)} h.")
    lines.append(f"Formula: {found.formula} ({found.budget.source}).")
    return (*lines, *CAUTIONS)


def _formula(stages: Sequence[Stage], rule: DegreeHours, spent: Fraction) -> str:
    base = show_decimal(rule.above)
    parts = [
        f"({show_decimal(stage.degrees)} − {base}) × {show_decimal(stage.hours)}"
        for stage in stages
        if stage.degrees > rule.above
    ]
    return f"degree-hours = {' + '.join(parts) or '0'} = {show_decimal(spent, 2)}"


def _sound(degrees: Fraction, rule: DegreeHours) -> Fraction:
    coldest, hottest = (30, 130) if rule.scale is Scale.FAHRENHEIT else (-1, 54)
    if not coldest <= degrees <= hottest:
        raise Refusal(
            f"Nothing ferments at {_deg(degrees, rule)}; write {coldest} to {hottest} {rule.scale.value}"
            f" for the {rule.name}."
        )
    return degrees


def _deg(degrees: Fraction, rule: DegreeHours) -> str:
    return f"{show_decimal(degrees)} {rule.scale.value}"
