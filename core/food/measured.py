"""What a cook can measure: the marks of scales, jugs, spoons and cups, and the nearest one to an amount.

Scaling is exact; only what is shown is taken to a mark. By weight a mark is within 5 % of the amount from 1 g on
(within 1/9 from 1/2 oz on); by volume within 1/7 from 1 tsp or 5 ml on; below that, down to 1/8 tsp, 1.25 ml and
1/8 oz, within 1/3. Less than the smallest mark stays as it is: weigh it on a fine scale or make more. Eggs and what
comes in whole pieces are at least one. Curing salts are never rounded. The marks are common practice.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from math import ceil, floor

from core.food.scaling import Grows, usual_growth
from core.food.sound import sound
from core.measures.number import round_half_up, show_fraction
from core.measures.quantity import Quantity
from core.measures.quantity_show import show_quantity
from core.measures.unit_names import known, worded
from core.measures.units import factor

WEIGHT_WITHIN, OUNCE_WITHIN, VOLUME_WITHIN, SMALL_WITHIN = (
    Fraction(1, 20),
    Fraction(1, 9),
    Fraction(1, 7),
    Fraction(1, 3),
)
"""Greatest relative errors; see the head of this file for where each holds."""

_ENDLESS = Fraction(10**9)
_DOSED = frozenset({"cure", "curing", "nitrite", "nitrate", "saltpetre", "saltpeter", "prague"})
_WORD = re.compile(r"[a-z]+")


@dataclass(frozen=True, slots=True)
class Rung:
    """Marks of one unit: every `step` from `least` to `most`."""

    unit: str
    least: Fraction
    most: Fraction
    step: Fraction


def _rungs(unit: str, *parts: tuple[str, str, str]) -> tuple[Rung, ...]:
    """Return rungs from (least, most, step) in plain numbers; most "" has no end."""
    return tuple(
        Rung(unit, Fraction(least), Fraction(most) if most else _ENDLESS, Fraction(step))
        for least, most, step in parts
    )


_HEAVY = (("250", "1000", "10"), ("1000", "2500", "25"), ("2500", "10000", "50"), ("10000", "", "100"))
_GRAMS = _rungs("g", ("1", "5", "1/10"), ("5", "10", "1/2"), ("10", "50", "1"), ("50", "250", "5"), *_HEAVY)
_MILLILITRES = _rungs("ml", ("5/4", "10", "5/4"), ("10", "20", "5/2"), ("20", "250", "5"), *_HEAVY)
_OUNCES = (("1/8", "1", "1/8"), ("1", "4", "1/4"), ("4", "32", "1/2"))
_COUNT = (
    *(("1/8", "1/4", "1/8"), ("1/4", "2", "1/4"), ("1/3", "2", "1/3")),
    *(("2", "5", "1/2"), ("5", "", "1")),
)
_TSP = (("1/8", "1", "1/8"), ("1", "2", "1/4"), ("2", "4", "1/2"), ("4", "6", "1"))
_TBSP = (("1", "4", "1/2"), ("4", "8", "1"))
_CUP = (
    *(("1/4", "4", "1/4"), ("1/3", "4", "1/3"), ("4", "10", "1/2")),
    ("10", "", "1"),
)
_QUARTERS = (("1/4", "8", "1/4"), ("8", "", "1/2"))


def _spoons(tsp: str, tbsp: str, cup: str) -> tuple[Rung, ...]:
    return (*_rungs(tsp, *_TSP), *_rungs(tbsp, *_TBSP), *_rungs(cup, *_CUP))


_US, _METRIC = _spoons("tsp", "tbsp", "cup"), _spoons("metric tsp", "metric tbsp", "metric cup")
_AU, _UK = _spoons("metric tsp", "AU tbsp", "metric cup"), _spoons("metric tsp", "metric tbsp", "UK cup")
_LABEL = _spoons("label tsp", "label tbsp", "label cup")
_POUNDS = _rungs("lb", ("2", "", "1/4"))
_LADDERS: dict[str, tuple[Rung, ...]] = {
    **dict.fromkeys(("mg", "g", "kg"), _GRAMS),
    **dict.fromkeys(("ml", "cl", "dl", "l"), _MILLILITRES),
    **dict.fromkeys(("tsp", "tbsp", "cup"), _US),
    **dict.fromkeys(("metric tsp", "metric tbsp", "metric cup"), _METRIC),
    **dict.fromkeys(("label tsp", "label tbsp", "label cup"), _LABEL),
    "AU tbsp": _AU,
    "UK cup": _UK,
    **{unit: (*_rungs(unit, *_QUARTERS), *_US) for unit in ("fl oz", "pint", "quart", "gallon")},
    **{unit: (*_rungs(unit, ("1/2", "3", "1/2")), *_US) for unit in ("pinch", "dash")},
    "label fl oz": (*_rungs("label fl oz", *_QUARTERS), *_LABEL),
    **{
        unit: (*_rungs(unit, *_QUARTERS), *_UK)
        for unit in ("UK fl oz", "UK gill", "UK pint", "UK quart", "UK gallon")
    },
    "oz": (*_rungs("oz", *_OUNCES), *_POUNDS),
    "lb": (*_rungs("oz", *_OUNCES), *_rungs("lb", ("1/4", "2", "1/4")), *_POUNDS),
    "stick": (*_rungs("stick", *_QUARTERS), *_rungs("oz", *_OUNCES), *_POUNDS),
    "label oz": _rungs("label oz", *_OUNCES, ("32", "", "4")),
    "mm": _rungs("mm", ("1", "20", "1"), ("20", "", "5")),
    "cm": _rungs("cm", ("1/2", "5", "1/2"), ("5", "", "1")),
    "inch": _rungs("inch", ("1/8", "1", "1/8"), ("1", "4", "1/4"), ("4", "", "1/2")),
}


def ladder(unit: str) -> tuple[Rung, ...]:
    """Return the marks for amounts written in a unit, the smallest unit first."""
    return _LADDERS.get(unit) or _rungs(unit, *_COUNT)


def dosed(item: str) -> bool:
    """Tell whether an item is a dose that must not be rounded: a curing salt."""
    words = set(_WORD.findall(item.casefold()))
    return bool(_DOSED & words) or ({"pink", "salt"} <= words and "himalayan" not in words)


def measured(quantity: Quantity, item: str = "", grows: Grows | None = None) -> Quantity:
    """Return the nearest amount that a cook can measure, perhaps in another spoon; a tie goes up.

    Raise Refusal for an amount below 0 and an unknown unit.
    """
    written = sound(quantity, item or "The amount")
    if written.to_taste or written.amount == 0 or dosed(item):
        return written
    own = known(written.unit).name
    if (grows or usual_growth(item, written)) is Grows.WHOLE and known(own).kind == "count":
        return Quantity(max(Fraction(1), round_half_up(written.amount)), own)
    size = written.amount * _size(own)
    marks = [mark for rung in ladder(own) for mark in _marks_near(rung, size)]
    if size < min(mark.amount * _size(mark.unit) for mark in marks):
        return written
    found = min(marks, key=lambda mark: _preference(mark, size, own))
    if found.unit in ("g", "ml") and own in ("mg", "kg", "cl", "dl", "l"):
        return Quantity(found.amount * factor(found.unit, own), own)
    return found


def _preference(mark: Quantity, size: Fraction, own: str) -> tuple[Fraction, Fraction, bool, Fraction]:
    there = mark.amount * _size(mark.unit)
    return abs(there - size), -there, mark.unit != own, -_size(mark.unit)


def _marks_near(rung: Rung, size: Fraction) -> list[Quantity]:
    """Return the marks of a rung on either side of a size, or its end where the size lies outside."""
    amount = min(max(size / _size(rung.unit), rung.least), rung.most)
    steps = amount / rung.step
    ends = {floor(steps) * rung.step, ceil(steps) * rung.step}
    return [Quantity(end, rung.unit) for end in ends if rung.least <= end <= rung.most]


@cache
def _size(unit: str) -> Fraction:
    """Return a unit in g, ml, mm, or 1 for a count."""
    into = {"weight": "g", "volume": "ml", "length": "mm"}.get(known(unit).kind)
    return Fraction(1) if into is None else factor(unit, into)


def show_measured(quantity: Quantity, item: str = "") -> str:
    """Return a measured amount in its own measures: "⅓ cup", "1.25 kg", "3 eggs", of a cure the exact text."""
    if quantity.to_taste or dosed(item):
        return quantity.as_text()
    if quantity.unit in ("mg", "g", "kg", "ml", "cl", "dl", "l", "mm", "cm"):
        return show_quantity(quantity)
    if quantity.amount < min(rung.least for rung in ladder(quantity.unit) if rung.unit == quantity.unit):
        return show_quantity(quantity)
    return f"{show_fraction(quantity.amount)} {worded(quantity.unit, quantity.amount)}".rstrip()
