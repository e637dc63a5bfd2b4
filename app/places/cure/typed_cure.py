"""What is typed at the desk: weights, shares of a whole, ppm, stages of a ferment; and what was understood."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction

from app.fields import Typed
from app.fields.typed_text import if_any, optional
from app.places.cure.outcome import tr
from core.food.curing import grams
from core.food.curing_shares import Kind, parse_share, said_percent
from core.measures.number import NUMBER, number_value, read_number, show_decimal, tidy
from core.measures.quantity import Quantity, parse_quantity
from core.measures.refusal import Refusal, quoted

_STAGE = re.compile(
    rf"(?P<degrees>-?{NUMBER}) ?(?:°|º|deg(?:rees?)?)? ?(?P<scale>[cf])[, ]+(?:for )?(?P<hours>{NUMBER}) ?"
    rf"(?P<unit>h|hours?|hrs?|d|days?)(?:[, ]+ph ?(?P<ph>{NUMBER}))?"
)


@dataclass(frozen=True, slots=True)
class TypedStage:
    """A stage as typed: degrees in their scale ("C" or "F"), hours, the pH read at its end."""

    degrees: Fraction
    scale: str
    hours: Fraction
    ph: Fraction | None


def weight_of(what: str) -> Typed:
    """Return how a weight is typed; spoons and litres are refused at the field."""

    def read(text: str) -> Quantity:
        quantity = parse_quantity(text)
        if not quantity.unit:
            raise Refusal(
                tr("{text} has no unit; write g, kg, oz or lb after it, as 1 kg.").format(text=quoted(text))
            )
        grams(quantity, what)
        if quantity.amount <= 0:
            raise Refusal(tr("{what} weighs nothing; write its weight.").format(what=what))
        return quantity

    return Typed(optional(read), if_any(str))


def share_of(kind: Kind) -> Typed:
    """Return how a share is typed: "6.25%", "6.25" or "0.0625"; hundredfold slips are refused at the field."""
    return Typed(optional(lambda text: parse_share(text, kind)), if_any(said_percent))


def read_ppm(text: str) -> Fraction:
    """Return ppm above 0."""
    number = read_number(tidy(text).casefold().removesuffix("ppm").strip())
    if number is None or number <= 0:
        raise Refusal(tr("{text} is no number of ppm; write one such as 120.").format(text=quoted(text)))
    return number


def read_stages(text: str) -> tuple[TypedStage, ...]:
    """Return stages from "24 C for 30 h, pH 5.2; 30 C 12 h"."""
    parts = [each for part in text.split(";") if (each := tidy(part).casefold())]
    if not parts:
        raise Refusal(tr("No stage is written; write one such as 24 C for 30 h, pH 5.2."))
    return tuple(_stage(each) for each in parts)


def show_stages(stages: tuple[TypedStage, ...]) -> str:
    """Return stages as typed."""
    return "; ".join(_shown(each) for each in stages)


def understood_share(share: Fraction) -> str:
    """Return what a share was read as, both ways of writing it."""
    return tr("understood: {percent} (as a fraction {fraction})").format(
        percent=said_percent(share), fraction=show_decimal(share, 6)
    )


def understood_weight(weight: Quantity) -> str:
    """Return a weight in grams where it was typed in another unit."""
    return "" if weight.unit == "g" else f"{show_decimal(grams(weight, 'It'), 2)} g"


PPM = Typed(optional(read_ppm), if_any(lambda ppm: f"{show_decimal(ppm, 2)} ppm"))
LENGTH_IF_ANY = Typed(optional(parse_quantity), if_any(str))
STAGES = Typed(optional(read_stages), if_any(show_stages), wraps=True)


def _stage(text: str) -> TypedStage:
    met = _STAGE.fullmatch(text)
    if met is None:
        raise Refusal(
            tr(
                "{text} is no stage; write the degrees with C or F, the hours, and the pH if it was read: "
                "24 C for 30 h, pH 5.2."
            ).format(text=quoted(text))
        )
    degrees = met["degrees"]
    value = -number_value(degrees[1:]) if degrees.startswith("-") else number_value(degrees)
    hours = number_value(met["hours"]) * (24 if met["unit"].startswith("d") else 1)
    return TypedStage(value, met["scale"].upper(), hours, number_value(met["ph"]) if met["ph"] else None)


def _shown(stage: TypedStage) -> str:
    ph = f", pH {show_decimal(stage.ph, 2)}" if stage.ph is not None else ""
    return f"{show_decimal(stage.degrees, 2)} {stage.scale} for {show_decimal(stage.hours, 2)} h{ph}"
