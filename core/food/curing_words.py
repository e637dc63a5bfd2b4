"""What the curing desk says: the sum with its numbers, the limit and its source, the cautions. Never more than that."""

from __future__ import annotations

from fractions import Fraction
from math import floor

from core.food.curing import Ingoing, grams
from core.food.curing_rules import HANDBOOK, MINIMUM, MINIMUM_SOURCE, SKIN_ON_SOURCE
from core.food.curing_shares import said_percent
from core.measures.number import show_decimal

CAUTIONS = (
    "Weigh the cure: on a scale that shows 0.1 g, doses under 5 g on one that shows 0.01 g.",
    "Keep it apart from table salt, marked, out of children's reach.",
    "Never in food for infants and young children (9 CFR 424.21(c), from memory).",
    "Follow the maker's label; where it and this sum differ, use neither until you know why.",
    "Your local food code and licensed practice decide; to sell cured meat takes a licence.",
)
"""With every result that has nitrite in it."""
PURE_CAUTION = (
    "Pure nitrite: a few grams can kill. At home use a mix made for curing, coloured and diluted with salt."
)
RAW_CAUTION = (
    "Cured meat is still raw: cook it to its core temperature, unless a published method for eating it uncooked was"
    " followed throughout (USDA FSIS, from memory)."
)
BOTULISM_CAUTION = (
    "The sum says nothing of time, temperature, acidity or dryness, which a cured product needs as well;"
    " follow a published method."
)


def cure_lines(found: Ingoing) -> tuple[str, ...]:
    """Return a cure's result: nitrite with its limit and formula, nitrate, salt, doses. `cautions` go with it."""
    asked = found.asked
    lines = [
        f"Cure with {said_percent(asked.nitrite)} nitrite"
        + (f" and {said_percent(asked.nitrate)} nitrate" if asked.nitrate else "")
        + f", {asked.method.said}.",
        said_nitrite(found),
        f"Formula: {found.formula} ({HANDBOOK}; by the green weight of the meat).",
        f"Limit: {asked.method.source}" + (f"; {SKIN_ON_SOURCE}." if asked.skin_on else "."),
    ]
    if asked.method.note:
        lines.append(f"The rule asks for more: {asked.method.note}.")
    lines += _nitrate_lines(found)
    salt = said_percent(_hundredths(found.salt))
    lines.append(f"Salt: {salt}. Formula: {found.salt_formula} (the rest of the cure counted as salt).")
    lines.append(said_doses(found))
    return tuple(lines)


def said_target(found: Ingoing) -> str:
    """Return the dose that makes the ppm that were asked for, to a thousandth of a gram, rounded down."""
    dose = Fraction(floor(grams(found.asked.cure, "The cure") * 1000), 1000)
    return f"For {show_decimal(found.nitrite, 2)} ppm: {show_decimal(dose)} g of this cure."


def said_nitrite(found: Ingoing) -> str:
    """Return the ingoing nitrite and how it stands to the limit and the minimum."""
    ppm, limit = show_decimal(found.nitrite, 2), show_decimal(found.limit)
    said = f"Ingoing nitrite: {ppm} ppm as sodium nitrite; limit {limit} ppm"
    if found.over:
        return f"{said}. OVER THE LIMIT by {show_decimal(found.nitrite - found.limit, 2)} ppm: do not use this dose."
    said += ", not exceeded (compared in whole ppm)."
    if found.under:
        said += (
            f" Below the minimum of {show_decimal(MINIMUM)} ppm ({MINIMUM_SOURCE}): too little to count on."
        )
    return said


def said_doses(found: Ingoing) -> str:
    """Return g of this cure at the minimum, where it has one of its own, and at the limit."""
    least = ""
    if found.least is not None and found.limit > MINIMUM:
        least = f"{show_decimal(found.least)} g make the {show_decimal(MINIMUM)} ppm of the minimum and "
    most = f"{show_decimal(found.most)} g {'' if least else 'make '}the {show_decimal(found.limit)} ppm of the limit"
    return f"Of this cure {least}{most}, all else as given."


def cautions(found: Ingoing) -> tuple[str, ...]:
    """Return what has to stand beside every such sum."""
    pure = (PURE_CAUTION,) if found.asked.nitrite + found.asked.nitrate > Fraction(1, 2) else ()
    return (*pure, *CAUTIONS, RAW_CAUTION, BOTULISM_CAUTION)


def _nitrate_lines(found: Ingoing) -> list[str]:
    method = found.asked.method
    if not found.asked.nitrate:
        return []
    ppm = show_decimal(found.nitrate, 2)
    if found.nitrate_limit is None:
        return [
            f"Ingoing nitrate: {ppm} ppm. NONE IS ALLOWED here ({method.nitrate_source}): take a cure without it."
        ]
    limit = show_decimal(found.nitrate_limit, 2)
    stands = "OVER THE LIMIT: do not use this dose" if found.nitrate_over else "not exceeded"
    return [
        f"Ingoing nitrate: {ppm} ppm as sodium nitrate; limit {limit} ppm, {stands} ({method.nitrate_source}).",
        f"Formula: {found.nitrate_formula}.",
    ]


def _hundredths(share: Fraction) -> Fraction:
    """Return a share to a hundredth of a per cent."""
    return Fraction(round(share * 10_000), 10_000)
