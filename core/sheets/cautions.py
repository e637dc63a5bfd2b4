"""The usual cautions at the end of a sheet. It places work; it does not certify food."""

from __future__ import annotations

import re

from core.food.allergens import guest_cautions
from core.plan.kitchen import StationKind
from core.plan.plan import Plan
from core.safety import RuleSet
from core.sheets.contents import allergens_of
from core.sheets.limits import limits_of
from core.sheets.words import plain, shortened

_DONE = (
    "Times say when to look. A probe in the thickest part and your own judgement say when it is done; core "
    "temperatures on this sheet are the ones written in the plan."
)
_RAW = (
    "Raw meat, poultry and fish stand below what is ready to eat, and have boards and knives of their own "
    "(common practice)."
)
_OIL = "Hot oil: pot at most half full, lid beside it, never water on it, never alone (common practice)."
_COALS = (
    "Burning coals and wood: outdoors or under a flue that draws, never in a room, a tent or a garage, not even "
    "while they die down: carbon monoxide has no smell and kills. Never petrol or spirit on them, never alone; "
    "ash stays hot for a day or more (common practice)."
)
_PRESSURE = (
    "Pressure pot: valve clean, no more than two thirds full, never opened before the pressure is gone (its maker's "
    "book goes first; common practice)."
)
_JARS = (
    "Food shut in jars or under oil to keep at room temperature can carry botulism without smell or taste: only by a "
    "tested method of a public food authority, else in the fridge and eaten soon (common practice)."
)
_CURING = (
    "Curing salt with nitrite is weighed for the weight of the meat, never by eye, and below 5 g to the hundredth of a "
    "gram; cured meat is still raw: cook it, or follow a published method throughout (common practice)."
)
_DEFER = (
    "The food-safety code of your country comes before this sheet; for guests at risk, and for curing, canning "
    "and catering, ask somebody licensed."
)
_ASKED = (
    (re.compile(r"\b(?:deep.?fr|fry|frie|fritter|hot oil|frying|sear)", re.IGNORECASE), _OIL),
    (re.compile(r"\b(?:cure|cured|curing|nitrite|saltpetre|prague)", re.IGNORECASE), _CURING),
    (re.compile(r"\bpressure", re.IGNORECASE), _PRESSURE),
    (re.compile(r"\b(?:canning|bottling|seal(?:ed)? jars?|in jars|preserv|confit)", re.IGNORECASE), _JARS),
)
"""Cautions that stand where the plan speaks of it, in any word of a dish, a step or an ingredient."""
_AT_WORK = frozenset({_OIL, _PRESSURE})
_NAME = 40
_OVER_FIRE = frozenset({StationKind.GRILL, StationKind.SMOKER})


def cautions(
    plan: Plan, *, brief: bool = False, at_work: bool = True, limits: bool = True, rules: RuleSet | None = None
) -> tuple[str, ...]:
    """Return the usual cautions, allergens noted, what speaks against dishes for guests, and who has the last word.

    `brief`: without what is said of allergens and guests, for sheets on which nobody is served; `at_work` False:
    without what is said of fire, hot oil and pressure, for sheets beside which nobody cooks; `limits` False: without
    those of cooling and holding, for a sheet that has them. `rules`: whose limits, by default of the plan's set.
    """
    noted: dict[str, list[str]] = {}
    for dish in plan.menu.dishes:
        for allergen in allergens_of(dish):
            noted.setdefault(allergen.casefold(), []).append(shortened(dish.name, _NAME) or dish.id)
    warm = limits_of(plan, rules).told if limits else ""
    warm = f"{warm} Write the temperatures down." if warm else ""
    coals = any(station.is_fire or station.kind in _OVER_FIRE for station in plan.kitchen.stations)
    coals = coals and at_work
    asked = [each for words, each in _ASKED if (at_work or each not in _AT_WORK) and _speaks_of(plan, words)]
    found = list(filter(None, (_DONE, warm, _RAW, _COALS if coals else "", *asked)))
    if brief:
        return (*found, _DEFER)
    if noted:
        pairs = sorted((shortened(name, _NAME), ", ".join(dishes)) for name, dishes in noted.items())
        said = "; ".join(f"{name}: {dishes}" for name, dishes in pairs)
        found.append(
            f"Allergens noted in the plan: {said}. Check every label; a list knows only what it was told."
        )
    else:
        found.append("No allergens are noted in the plan. Ask every guest and check every label.")
    if plan.menu.guests:
        found.append("Guests: " + " ".join(plain(each) for each in guest_cautions(plan)))
    return (*found, _DEFER)


def _speaks_of(plan: Plan, words: re.Pattern[str]) -> bool:
    for dish in plan.menu.dishes:
        said = [dish.name, dish.note, *(each.item for each in dish.ingredients)]
        said += [text for step in dish.steps for text in (step.does, step.note)]
        if any(words.search(each) for each in said):
            return True
    return False
