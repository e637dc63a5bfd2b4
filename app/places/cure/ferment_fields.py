"""The fields of a fermentation by degree-hours, and what the desk says of them."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from typing import Any

from app.fields import Picked, Spec
from app.places.cure.outcome import Mood, Noting, Outcome, tr
from app.places.cure.typed_cure import STAGES, TypedStage
from core.food.cooling_rules import Scale
from core.food.ferment import CANADA, CAUTIONS, US, DegreeHours, Ferment, Stage, Stand, ferment, ferment_lines
from core.measures.heat import celsius_of, fahrenheit_of
from core.measures.number import show_decimal

BEGIN: dict[str, Any] = {"rule": "us"}
NEEDED = ("stages",)
_RULES: dict[str, DegreeHours] = {"us": US, "canada": CANADA}


def ferment_specs() -> list[Spec]:
    """Return all fields of a fermentation."""
    rules = [(key, rule.name) for key, rule in _RULES.items()]
    stages = tr("Degrees, hours and the pH at their end where it was read, with semicolons between stages")
    such = "24 C for 30 h, pH 5.4; 30 C for 8 h"
    return [
        Spec("rule", tr("By which rule"), Picked(lambda: rules), grows=2),
        Spec("stages", tr("Stages, one after the other"), STAGES, stages, such, grows=2),
    ]


def ferment_outcome(values: Mapping[str, Any]) -> Outcome:
    """Return what the desk says of a fermentation. Raise Refusal for odd stages."""
    rule = _RULES[values["rule"]]
    found = ferment([_in_scale(each, rule) for each in values["stages"]], rule)
    said = ferment_lines(found)
    lines = said[: len(said) - len(CAUTIONS)]
    if found.stand is Stand.OVER:
        return Outcome(_headline(found), Mood.OVER, lines, CAUTIONS)
    noting = Noting(tr("Fermentation, from the curing desk"), (*lines, *CAUTIONS), "")
    return Outcome(_headline(found), lines=lines, cautions=CAUTIONS, noting=noting)


def _headline(found: Ferment) -> str:
    unit = f"{found.rule.scale.value}·h"
    spent, allowed = show_decimal(found.spent, 1), show_decimal(found.budget.allowed)
    said = {
        Stand.OVER: tr("OVER THE DEGREE-HOURS: {spent} of {allowed} {unit}. Do not taste or sell it."),
        Stand.MET: tr("The pH was reached after {spent} of {allowed} {unit}"),
        Stand.OPEN: tr("Still fermenting: {spent} of {allowed} {unit} are spent, the pH is not reached"),
    }[found.stand]
    return said.format(spent=spent, allowed=allowed, unit=unit)


def _in_scale(stage: TypedStage, rule: DegreeHours) -> Stage:
    """Return a stage in the rule's scale, exact."""
    degrees: Fraction = stage.degrees
    if stage.scale == "C" and rule.scale is Scale.FAHRENHEIT:
        degrees = fahrenheit_of(degrees)
    elif stage.scale == "F" and rule.scale is Scale.CELSIUS:
        degrees = celsius_of(degrees)
    return Stage(degrees, stage.hours, stage.ph)
