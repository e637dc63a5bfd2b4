"""The fields of a cure, which of them a method asks for, and what the desk says of them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction
from math import floor
from typing import Any

from app.fields import Picked, Spec, Ticked
from app.places.cure.outcome import Mood, Noting, Outcome, Rule, tr
from app.places.cure.typed_cure import (
    LENGTH_IF_ANY,
    PPM,
    share_of,
    understood_share,
    understood_weight,
    weight_of,
)
from core.food.curing import Cure, Ingoing, cure_for, grams, ingoing
from core.food.curing_rules import METHODS, MINIMUM, Sum
from core.food.curing_shares import NITRATE, NITRITE, PUMP, Kind, said_percent
from core.food.curing_time import cure_time, said_cure_time
from core.food.curing_words import CAUTIONS, cautions, cure_lines, said_nitrite, said_target
from core.measures.number import show_decimal
from core.measures.quantity import Quantity

BEGIN: dict[str, Any] = {"method": "dry", "asked": "dose", "skin_on": False}
NEEDED = ("meat", "cure", "target", "nitrite", "pickle", "taken_up")
_TINY = Quantity(Fraction(1, 1000), "g")


def cure_specs() -> list[Spec]:
    """Return all fields of a cure."""
    methods = [(name, f"{each.said[:1].upper()}{each.said[1:]} ({name})") for name, each in METHODS.items()]
    asked = [("dose", tr("what a weight of cure makes")), ("target", tr("how much cure makes so many ppm"))]
    label = tr("From the maker's label: 6.25%, 6.25 or 0.0625. It is never assumed: mixes look alike")
    pump = tr("What the meat takes up, of its own weight")
    return [
        Spec("method", tr("How it is cured"), Picked(lambda: methods), grows=2),
        Spec("asked", tr("To be reckoned"), Picked(lambda: asked), grows=2),
        _weight("meat", tr("Meat, green weight"), tr("As it is before curing"), "1 kg"),
        _share("nitrite", tr("Nitrite in the cure"), NITRITE, label, tr("from its label")),
        _weight("cure", tr("Cure, weight"), tr("The mix with the nitrite in it, weighed"), "2.5 g"),
        Spec("target", tr("Nitrite wanted"), PPM, tr("Ingoing, by the green weight"), "120 ppm"),
        _weight("pickle", tr("Pickle, whole weight"), tr("Water, salt, cure and all that is in it"), "2 kg"),
        _share("taken_up", tr("Pump or pick-up"), PUMP, pump, "10%"),
        _weight("salt", tr("Salt beside the cure"), tr("May stay empty"), tr("none")),
        _share("nitrate", tr("Nitrate in the cure"), NITRATE, label, tr("none")),
        Spec("thick", tr("Thickness"), LENGTH_IF_ANY, tr("Tells how long it lies in the cure"), "4 cm"),
        Spec("skin_on", tr("with its skin"), Ticked(), tr("Bellies with skin: the limit is a tenth less")),
    ]


def cure_keys(chosen: Mapping[str, Any]) -> set[str]:
    """Return the keys of the fields that a method and a question ask for."""
    method = METHODS[chosen["method"]]
    keys = {"method", "asked", "meat", "nitrite", "salt", "nitrate", "thick"}
    keys.add("cure" if chosen["asked"] == "dose" else "target")
    if method.formula is not Sum.MEAT:
        keys.add("pickle")
    if method.formula is Sum.PICK_UP:
        keys.add("taken_up")
    if method.bacon:
        keys.add("skin_on")
    return keys


def cure_outcome(values: Mapping[str, Any]) -> Outcome:
    """Return what the desk says of a cure. Raise Refusal where the values do not go together."""
    method = METHODS[values["method"]]
    targeted = values["asked"] == "target"
    asked = Cure(
        method,
        values["meat"],
        _TINY if targeted else values["cure"],
        values["nitrite"],
        values["nitrate"] or Fraction(0),
        values.get("pickle"),
        values.get("taken_up"),
        values["salt"],
        method.bacon and bool(values["skin_on"]),
    )
    if targeted:
        exact = cure_for(values["target"], asked)
        asked = replace(asked, cure=Quantity(Fraction(floor(grams(exact, "The cure") * 1000), 1000), "g"))
    found = ingoing(asked)
    lines = list(cure_lines(found))
    if targeted:
        lines.insert(1, said_target(found))
    time = () if values["thick"] is None else (said_cure_time(cure_time(values["thick"])),)
    over = found.over or found.nitrate_over
    mood = Mood.OVER if over else Mood.LITTLE if found.under else Mood.PLAIN
    return Outcome(
        _headline(found, targeted),
        mood,
        (*lines, *time),
        cautions(found),
        Rule(found.nitrite, found.limit, MINIMUM if found.least is not None else None),
        None if over else _noting(found, time),
    )


def _headline(found: Ingoing, targeted: bool) -> str:
    ppm, limit = show_decimal(found.nitrite, 2), show_decimal(found.limit)
    if found.over:
        said = tr("OVER THE LIMIT: {ppm} ppm of nitrite, the limit is {limit} ppm. Do not use this dose.")
    elif found.nitrate_over:
        said = tr("OVER THE LIMIT: more nitrate than this method allows. Do not use this dose.")
    elif found.under:
        said = tr("TOO LITTLE TO COUNT ON: {ppm} ppm of nitrite, the published minimum is {least} ppm")
    elif targeted:
        said = tr("{dose} of this cure: {ppm} ppm of nitrite, limit {limit} ppm")
    else:
        said = tr("{ppm} ppm of nitrite go in, limit {limit} ppm")
    return said.format(ppm=ppm, limit=limit, least=show_decimal(MINIMUM), dose=found.asked.cure)


def _noting(found: Ingoing, time: tuple[str, ...]) -> Noting:
    asked = found.asked
    mix = tr("Curing mix with {share} nitrite").format(share=said_percent(asked.nitrite))
    if asked.nitrate:
        mix = tr("{mix} and {share} nitrate").format(mix=mix, share=said_percent(asked.nitrate))
    weighed = [(mix, grams(asked.cure, "The cure"))]
    if asked.salt is not None:
        weighed.append((tr("Salt"), grams(asked.salt, "The salt")))
    doses = "; ".join(f"{name} {show_decimal(amount)} g" for name, amount in weighed)
    of = tr("For {meat} of meat, {method}: {doses}.").format(meat=asked.meat, method=asked.method.said, doses=doses)
    pickle = () if asked.pickle is None else (tr("In {pickle} of pickle in all.").format(pickle=asked.pickle),)
    return Noting(
        tr("Cure, from the curing desk"),
        (
            of,
            *pickle,
            said_nitrite(found),
            f"{found.formula} ({asked.method.source}).",
            *time,
            CAUTIONS[0],
            tr("Reckon it again when the meat weighs otherwise. The maker's label and local rules decide."),
        ),
        tr("for the cure, weighed"),
        tuple(weighed),
    )


def _share(key: str, label: str, kind: Kind, tip: str, empty: str) -> Spec:
    return Spec(key, label, share_of(kind), tip, empty, hint=understood_share)


def _weight(key: str, label: str, tip: str, empty: str) -> Spec:
    return Spec(key, label, weight_of(label), tip, empty, hint=understood_weight)
