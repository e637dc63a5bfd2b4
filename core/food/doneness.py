"""How long a piece may take in an oven until its middle is so warm: a published chart first, else heat conduction.

The charts are `roasting`'s. Where a row fits the piece but not its setting, target or start, the row's minutes are
carried over in proportion to the model's; where no row fits, the model alone gives the length between its quickest
and its slowest case. All of it says when to look. A probe in the middle decides.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from enum import StrEnum
from fractions import Fraction
from math import ceil, floor, isfinite, pi

from core.food.heat_flow import Around, Form, Piece, warming
from core.food.heat_flow_foods import DRYING, OVEN, roasting_at, stuff_of
from core.food.roasting import CHART, ROWS, Estimate, Roast, row_for
from core.food.sound import in_unit, some
from core.measures.minutes import show_minutes
from core.measures.number import show_decimal
from core.measures.quantity import Quantity
from core.measures.refusal import Refusal
from core.plan.check_words import short

MODEL = "heat conduction in one piece (Cengel, Heat Transfer), coefficients partly from memory"
PRACTICE = "common practice, from memory"
FRIDGE = 5.0
"""°C of a piece from the fridge, as the charts mean it."""
CHART_CORE = 62.8
POULTRY_CORE = 73.9
GROUND_CORE = 71.1
"""°C (145, 165 and 160 F) to which the charts cook: FoodSafety.gov."""
COOLEST_OVEN = 163
"""°C (325 F): USDA, never roast in a cooler oven."""
TILL_TENDER = 85
"""°C from which on a cut is cooked until tender: common practice."""

_POULTRY = frozenset({"turkey", "chicken", "capon", "hen", "duck", "goose", "poultry"})
_GROUND_WORDS = (
    "ground minced mince burger burgers hamburger hamburgers sausage sausages meatloaf meatball meatballs patty patties"
    " kofta koftas"
)
_GROUND = frozenset(_GROUND_WORDS.split())
_WHOLE = frozenset({"beef", "veal", "lamb", "pork", "ham", "fish", "salmon", "cod", "trout"})
_LONG = frozenset({"loin", "tenderloin", "fillet", "filet"})
_WORD = re.compile(r"[a-z]+")
_CARRIED = 0.1
"""By how much a carried-over row is widened at each end: our choice, for the model's own fault."""
_LONGEST = 24 * 60
_DIAMETERS = 2.5
_QUICK = 1.6
"""A likely piece is a long round of so many diameters, a quick one so much longer: chosen, held against the charts."""
_SLOW_SETTINGS = (100, 135)
_SLOW_ROWS = (("brisket", 60, 90), ("shoulder", 75, 120), ("butt", 75, 120))
"""Minutes a pound of a cut cooked low till tender: common practice, from memory."""


class Basis(StrEnum):
    """What a length rests on."""

    CHART = "chart"
    CARRIED = "chart carried over by the model"
    PRACTICE = "common practice"
    MODEL = "model"


@dataclass(frozen=True, slots=True)
class LengthEstimate:
    """Minutes low, likely and high with what they rest on, a sentence for the cook and the source."""

    estimate: Estimate
    basis: Basis
    said: str


@dataclass(frozen=True, slots=True)
class Roasting:
    """What is asked: a piece by the words of its cut, °C of oven, of the middle wanted and of the piece at first.

    `thickness`: in m at the thickest place; None: told from the weight.
    """

    cut: str
    weight: Quantity
    setting: int
    target: float
    start: float = FRIDGE
    thickness: float | None = None


def length_estimate(
    weight: Quantity,
    cut: str,
    setting: int,
    target: float | None = None,
    start: float = FRIDGE,
    thickness: Quantity | None = None,
) -> LengthEstimate:
    """Return how long a piece may take at an oven setting in °C until its middle is at `target` °C.

    `target` None: the chart's own. `thickness`: a length, where it is known. Refuse weights that are none, ovens not
    hotter than the target and pieces that take more than a day.
    """
    published = chart_core(cut)
    wanted = published if target is None else float(target)
    if wanted is None:
        raise Refusal(f"{short(cut)}: no chart names its core temperature; write the one you want.")
    metres = None
    if thickness is not None:
        metres = float(in_unit(some(thickness, "The thickness"), "mm", "The thickness")) / 1000
    asked = Roasting(cut, some(weight, cut), setting, wanted, float(start), metres)
    _refuse_odd(asked)
    row = row_for(cut, weight, setting)
    as_printed = published is not None and abs(wanted - published) <= 1 and abs(start - FRIDGE) <= 2
    if row is not None and as_printed:
        low, high = row.takes(in_unit(weight, "lb", cut))
        return _answer(asked, Estimate(low, (low + high + 1) // 2, high, CHART), Basis.CHART)
    slow = _low_and_slow(asked)
    if slow is not None:
        return _answer(asked, slow, Basis.PRACTICE)
    row = row or _row_at_any_setting(asked)
    if row is not None:
        return _answer(asked, _carried(asked, row), Basis.CARRIED)
    return _answer(asked, by_model(asked), Basis.MODEL)


def chart_core(cut: str) -> float | None:
    """Return °C to which the charts cook a cut of that name; None where its words name nothing they know."""
    words = _words(cut)
    if words & _POULTRY:
        return POULTRY_CORE
    if words & _GROUND:
        return GROUND_CORE
    return CHART_CORE if words & _WHOLE else None


def by_model(asked: Roasting) -> Estimate:
    """Return what conduction alone says: the quickest, a likely and the slowest shape and oven."""
    quick, likely, slow = pieces_of(asked)
    found = [
        _minutes(asked, quick, roasting_at(asked.setting, OVEN.high, DRYING.low)),
        _minutes(asked, likely, roasting_at(asked.setting)),
        _minutes(asked, slow, roasting_at(asked.setting, OVEN.low, DRYING.high)),
    ]
    low, middle, high = max(1, floor(found[0])), max(1, round(found[1])), max(1, ceil(found[2]))
    return Estimate(low, min(max(low, middle), high), high, MODEL)


def pieces_of(asked: Roasting) -> tuple[Piece, Piece, Piece]:
    """Return the piece as its quickest, a likely and its slowest shape.

    Of a known thickness: a ball, a long round and a slab. Else by weight: a long one, one half as long, a ball.
    """
    stuff, start = stuff_of(asked.cut), asked.start
    if asked.thickness is not None:
        half = asked.thickness / 2
        quick, likely, slow = (
            Piece(half, form.value, stuff, start) for form in (Form.SPHERE, Form.CYLINDER, Form.SLAB)
        )
        return quick, likely, slow
    volume = float(in_unit(asked.weight, "kg", asked.cut)) / stuff.density
    long = _words(asked.cut) & _LONG
    slender = 3 * _DIAMETERS if long else _DIAMETERS

    def round_of(diameters: float) -> Piece:
        return Piece((volume / (2 * pi * diameters)) ** (1 / 3), Form.CYLINDER.value, stuff, start)

    ball = Piece((3 * volume / (4 * pi)) ** (1 / 3), Form.SPHERE.value, stuff, start)
    return round_of(_QUICK * slender), round_of(slender), round_of(_DIAMETERS) if long else ball


def _minutes(asked: Roasting, piece: Piece, oven: Around) -> float:
    curve = warming(piece, (oven,), until=asked.target, longest=_LONGEST)
    found = curve.reaches(asked.target)
    if found is None:
        raise Refusal(
            f"{short(asked.cut)}: by this sum drying holds the middle below {_degrees(asked.target)} at"
            f" {asked.setting} °C for a day. Set the oven hotter, cover the piece, or write a length of your own and"
            " go by the probe."
        )
    return found


def _row_at_any_setting(asked: Roasting) -> Roast | None:
    found = (row_for(asked.cut, asked.weight, row.celsius[0]) for row in ROWS)
    return next((row for row in found if row is not None), None)


def _low_and_slow(asked: Roasting) -> Estimate | None:
    """Return minutes of practice for what is cooked low till tender; there drying, not conduction, sets the pace."""
    if asked.target < TILL_TENDER or not _SLOW_SETTINGS[0] <= asked.setting <= _SLOW_SETTINGS[1]:
        return None
    words = _words(asked.cut)
    pounds = in_unit(asked.weight, "lb", asked.cut)
    for word, least, most in _SLOW_ROWS:
        if word in words:
            low, high = floor(least * pounds), ceil(most * pounds)
            return Estimate(max(1, low), max(1, (low + high + 1) // 2), max(1, high), PRACTICE)
    return None


def _carried(asked: Roasting, row: Roast) -> Estimate:
    """Return a row's minutes in proportion to the model's at the setting, target and start that are asked for."""
    printed = replace(asked, setting=sum(row.celsius) // 2, target=_printed_core(asked), start=FRIDGE)
    _, here, _ = pieces_of(asked)
    _, there, _ = pieces_of(printed)
    grows = _minutes(asked, here, roasting_at(asked.setting)) / _minutes(
        printed, there, roasting_at(printed.setting)
    )
    low, high = (each * grows for each in row.takes(in_unit(asked.weight, "lb", asked.cut)))
    least, most = max(1, floor(low * (1 - _CARRIED))), max(1, ceil(high * (1 + _CARRIED)))
    return Estimate(least, min(max(least, round((low + high) / 2)), most), most, f"{CHART}; {MODEL}")


def _printed_core(asked: Roasting) -> float:
    """Return °C to which a row's piece is cooked; every row names a meat the charts know."""
    core = chart_core(asked.cut)
    assert core is not None, asked.cut
    return core


def _refuse_odd(asked: Roasting) -> None:
    name = short(asked.cut)
    if not (isfinite(asked.target) and isfinite(asked.start)):
        raise Refusal(f"{name}: write the target and the start as numbers of °C.")
    if not 40 <= asked.target <= 98:
        raise Refusal(
            f"{name}: a middle at {_degrees(asked.target)} is no target; write one from 40 to 98 °C."
        )
    if not 60 <= asked.setting <= 300:
        raise Refusal(f"{name}: {asked.setting} °C is no oven setting; write one from 60 to 300 °C.")
    if asked.setting <= asked.target + 2:
        raise Refusal(
            f"{name}: an oven at {asked.setting} °C does not bring the middle to {_degrees(asked.target)};"
            " set it hotter than the target."
        )
    if not -2 <= asked.start <= 30:
        raise Refusal(f"{name} starts at {_degrees(asked.start)}; thaw it first, and write from −2 to 30 °C.")
    if asked.start >= asked.target:
        raise Refusal(f"{name} is as warm as the target before it goes in; correct one of them.")


def _answer(asked: Roasting, found: Estimate, basis: Basis) -> LengthEstimate:
    what = (
        f"{short(asked.cut)}, {asked.weight}, at {asked.setting} °C to {_degrees(asked.target)} in the middle"
    )
    by = {
        Basis.CHART: "by the chart",
        Basis.CARRIED: "by the chart's row, carried over by a sum",
        Basis.PRACTICE: "as cooks reckon",
        Basis.MODEL: "by a sum of heat conduction alone, an estimate with that spread",
    }[basis]
    core = chart_core(asked.cut)
    parts = [
        f"{what}: {said_span(found)} {by} ({found.source}).",
        f"Begin to look after {show_minutes(found.low)}; a probe in the middle of the thickest part decides.",
    ]
    if core is not None and round(asked.target, 1) < core:
        whose = "poultry and ground meat are cooked to it, by whoever eats them"
        if core == CHART_CORE:
            whose = "a target of your own; not for the pregnant, the very young, the old and the ill"
        parts.append(
            f"{_degrees(asked.target)} is below the published {_degrees(core)} (FoodSafety.gov): {whose}."
        )
    if asked.setting < COOLEST_OVEN:
        parts.append(
            f"USDA's charts never set the oven below {COOLEST_OVEN} °C (325 F); lower is a choice of your own."
        )
    if asked.target >= TILL_TENDER:
        parts.append(
            "A cut cooked till tender stands long at one temperature; take the spread as the least there is."
        )
    return LengthEstimate(found, basis, " ".join(parts))


def said_span(found: Estimate) -> str:
    """Return "1 h 55 min to 2 h 5 min, likely 2 h"."""
    if found.low == found.high:
        return show_minutes(found.low)
    return f"{show_minutes(found.low)} to {show_minutes(found.high)}, likely {show_minutes(found.likely)},"


def _degrees(celsius: float) -> str:
    return f"{show_decimal(Fraction(round(celsius * 10), 10), 1)} °C"


def _words(cut: str) -> frozenset[str]:
    return frozenset(_WORD.findall(cut.casefold()))
