"""Shows a quantity as a cook would measure it: sensible units, numbers that spoons and scales have.

The figures are rounded (see show_quantity); a dose that matters, such as a cure, is shown exactly
with Quantity.as_text instead.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import floor

from core.measures.number import exact_text, round_half_up, show_decimal, show_fraction
from core.measures.quantity import Quantity, convert
from core.measures.unit_names import UNITS, worded

SHOWN_IN = ("metric", "us")

_QUARTERS = tuple(Fraction(part, 4) for part in range(4))
_EIGHTHS = tuple(Fraction(part, 8) for part in range(8))
_HALVES = (Fraction(0), Fraction(1, 2))
_THIRDS_TOO = tuple(sorted({*_QUARTERS, Fraction(1, 3), Fraction(2, 3)}))

_CLOSE = Fraction(3, 100)  # a rounder number may be so far off before a smaller measure is taken
_NO_SPOON = Fraction(5, 100)  # a weight or length further off than this is shown in decimals instead


@dataclass(frozen=True)
class _Measure:
    """Hold a measure at hand: its unit, the parts of one it has, and between which amounts it is used."""

    unit: str
    parts: tuple[Fraction, ...]
    least: Fraction
    most: Fraction
    only_as_written: bool = False


_SPOONS = (
    _Measure("tbsp", _HALVES, Fraction(1), Fraction(15)),
    _Measure("tsp", _EIGHTHS, Fraction(1, 8), Fraction(12)),
)
_US_VOLUMES = (
    _Measure("gallon", _QUARTERS, Fraction(1), Fraction(1000)),
    _Measure("quart", _QUARTERS, Fraction(1), Fraction(8)),
    _Measure("pint", _QUARTERS, Fraction(1, 2), Fraction(8), only_as_written=True),
    _Measure("cup", _THIRDS_TOO, Fraction(1, 4), Fraction(16)),
    _Measure("cup", _EIGHTHS, Fraction(1, 4), Fraction(16)),
    _Measure("fl oz", _QUARTERS, Fraction(1, 2), Fraction(64), only_as_written=True),
    *_SPOONS,
)
_US_WEIGHTS = (
    _Measure("lb", _QUARTERS, Fraction(1), Fraction(1000)),
    _Measure("stick", _QUARTERS, Fraction(1, 4), Fraction(8), only_as_written=True),
    _Measure("oz", _HALVES, Fraction(4), Fraction(32)),
    _Measure("oz", _EIGHTHS, Fraction(1, 8), Fraction(4)),
)
_US_LENGTHS = (_Measure("inch", _EIGHTHS, Fraction(1, 8), Fraction(1000)),)
_US = {"volume": _US_VOLUMES, "weight": _US_WEIGHTS, "length": _US_LENGTHS}
# A pinch is not measured, and spoons measure alike in a metric kitchen: both are kept as written.
_KEPT_ANYWHERE = {"pinch": 4, "dash": 4}
_KEPT = {**_KEPT_ANYWHERE, "tsp": 12, "tbsp": 4, "metric tsp": 12, "metric tbsp": 4, "AU tbsp": 4}
_METRIC = {"volume": ("ml", "l"), "weight": ("g", "kg"), "length": ("mm", "cm")}


def show_quantity(quantity: Quantity, system: str = "metric") -> str:
    """Return "450 g", "1.25 l", "1½ cups", "3 cloves" in metric or us measures, rounded as cooks do.

    Whole grams, millilitres and tenths below 10 stay as they are. Else the figure is within 2.5 % in
    metric; in us within 5 % by weight and 6 % by volume, or at the nearest 1/8 tsp.
    """
    if system not in SHOWN_IN:
        raise ValueError(f"unknown system to show a quantity in: {system}")
    kind = UNITS[quantity.unit].kind if quantity.unit in UNITS else "count"
    if quantity.to_taste or quantity.amount <= 0:
        return quantity.as_text()
    if kind == "count":
        return _worded(_nearest(quantity.amount, _THIRDS_TOO), quantity)
    kept = _KEPT if system == "metric" else _KEPT_ANYWHERE
    if quantity.amount <= kept.get(quantity.unit, 0):
        return _in_spoons(quantity)
    return _in_metric(quantity, kind) if system == "metric" else _in_measures(quantity, _US[kind])


def _in_spoons(quantity: Quantity) -> str:
    if quantity.unit in ("tsp", "tbsp"):
        return _in_measures(quantity, _SPOONS)
    return _worded(_nearest(quantity.amount, _QUARTERS), quantity)


def _worded(amount: Fraction, quantity: Quantity) -> str:
    if not amount:
        return f"{_first_figures(quantity.amount)} {quantity.unit}".rstrip()
    return f"{show_fraction(amount)} {worded(quantity.unit, amount)}".rstrip()


def _nearest(amount: Fraction, parts: Sequence[Fraction]) -> Fraction:
    below = floor(amount)
    marks = [*(below + part for part in parts), Fraction(below + 1)]
    return min(marks, key=lambda mark: abs(mark - amount))


def _in_measures(quantity: Quantity, measures: Sequence[_Measure]) -> str:
    best: tuple[Fraction, Quantity] | None = None
    for measure in _in_turn(quantity, measures):
        there = convert(quantity, measure.unit)
        shown = _nearest(there.amount, measure.parts)
        if not measure.least <= shown <= measure.most:
            continue
        off = abs(shown - there.amount) / there.amount
        if best is None or off < best[0]:
            best = off, Quantity(shown, measure.unit)
        if off <= _CLOSE:
            break
    if best is None or (best[0] > _NO_SPOON and measures[-1] not in _SPOONS):
        smallest = convert(quantity, measures[-1].unit)
        return f"{_first_figures(smallest.amount)} {smallest.unit}"
    return _worded(best[1].amount, best[1])


def _in_turn(quantity: Quantity, measures: Sequence[_Measure]) -> list[_Measure]:
    """Return the measure as written first, then the others from the largest down."""
    own = [measure for measure in measures if measure.unit == quantity.unit]
    return own + [measure for measure in measures if measure not in own and not measure.only_as_written]


def _in_metric(quantity: Quantity, kind: str) -> str:
    small, large = _METRIC[kind]
    there = convert(quantity, small)
    shown = there.amount if _is_plain(there.amount) else _round_metric(there.amount)
    each = 10 if small == "mm" else 1000
    if shown >= each:
        return f"{exact_text(shown / each)} {large}"
    return f"{_first_figures(shown) if shown < 1 else exact_text(shown)} {small}"


def _is_plain(amount: Fraction) -> bool:
    """Say whether a scale shows it as it is: a whole number, or tenths below 10."""
    return amount.denominator == 1 or (amount < 10 and (amount * 10).denominator == 1)


def _round_metric(amount: Fraction) -> Fraction:
    """Return the nearest figure of steps that stay within 2.5 % of the amount."""
    if amount < 1:
        return Fraction(_first_figures(amount))  # of less than one, its first figures
    for below, step in ((2, "0.05"), (10, "0.1"), (20, "0.5"), (100, "1"), (1000, "5"), (10000, "10")):
        if amount < below:
            return round_half_up(amount, Fraction(step))
    return round_half_up(amount, 100)


def _first_figures(amount: Fraction) -> str:
    """Return a small amount to two or three figures, at most 2.5 % off."""
    places = 1
    while amount * 10**places < 20:
        places += 1
    return show_decimal(amount, places)
