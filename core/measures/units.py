"""The one pint registry, made when the first quantity in a rarer unit is converted, and exact factors out of it."""

import logging
from collections.abc import Callable
from fractions import Fraction
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING

from core.measures.refusal import Refusal
from core.measures.unit_names import Unit, known

if TYPE_CHECKING:
    import pint

_log = logging.getLogger(__name__)

# "pinch" alone would be a pico-inch to the registry, hence the longer names.
_KITCHEN = """
kitchen_stick = pound / 4
kitchen_dash = teaspoon / 8
kitchen_pinch = teaspoon / 16
metric_teaspoon = 5 milliliter
metric_tablespoon = 15 milliliter
metric_cup = 250 milliliter
australian_tablespoon = 20 milliliter
label_teaspoon = 5 milliliter
label_tablespoon = 15 milliliter
label_fluid_ounce = 30 milliliter
label_cup = 240 milliliter
label_ounce = 28 gram
""".strip()
"""Butter stick, dash and pinch: common practice. label_: 21 CFR 101.9(b)(5)(viii). The rest: trade spoons."""


_PLAIN = {
    "mg": Fraction(1, 1000), "g": Fraction(1), "kg": Fraction(1000), "mm": Fraction(1), "cm": Fraction(10),
    "ml": Fraction(1), "cl": Fraction(10), "dl": Fraction(100), "l": Fraction(1000),
    "tsp": Fraction("4.92892159375"), "tbsp": Fraction("14.78676478125"),
}  # fmt: skip
"""What most plans are written in, in g, ml or mm, for which no registry need be loaded. Metric prefixes: SI Brochure,
9th edition, table 7. Spoons: a gallon of 231 cubic inches has 768 teaspoons (NIST Handbook 44, appendix C).
"""


@cache
def registry() -> "pint.UnitRegistry[Fraction]":
    """Return the registry, in exact fractions, kitchen units defined; made once.

    Its parsed definitions are kept in the user's cache directory, where that can be written and read.
    """
    folder = cache_folder()
    if folder is not None:
        try:
            return _make(folder)
        except Exception:  # noqa: BLE001 - a spoilt cache fails in any way its pickles please
            _log.info("unit cache not usable; units are read afresh")
    return _make(None)


def _make(folder: Path | None) -> "pint.UnitRegistry[Fraction]":
    import pint

    made: pint.UnitRegistry[Fraction] = pint.UnitRegistry(non_int_type=Fraction, cache_folder=folder)
    made.load_definitions(_KITCHEN.splitlines())
    return made


def cache_folder() -> Path | None:
    """Return the folder for parsed definitions, None where it cannot be written."""
    import platformdirs

    folder = Path(platformdirs.user_cache_dir("cookday", appauthor=False)) / "units"
    try:
        folder.mkdir(parents=True, exist_ok=True)
        probe = folder / "probe"
        probe.write_bytes(b"")
        probe.unlink()
    except OSError:
        return None
    return folder


@cache
def factor(unit: str, other: str) -> Fraction:
    """Return how many of other make one unit, exact; refuse kinds that do not compare."""
    if unit == other:
        return Fraction(1)
    one, two = known(unit), known(other)
    if one.kind != two.kind or one.kind == "count":
        raise Refusal(_unlike(one, two))
    if unit in _PLAIN and other in _PLAIN:
        return _PLAIN[unit] / _PLAIN[other]
    convert: Callable[..., Fraction] = registry().convert
    return Fraction(convert(Fraction(1), one.registered, two.registered))


def _unlike(one: Unit, two: Unit) -> str:
    if {one.kind, two.kind} == {"weight", "volume"}:
        weight, volume = (one, two) if one.kind == "weight" else (two, one)
        mend = f"weigh one {volume.name} of this food, or write both in the same kind of unit."
        return f"{weight.name} is a weight and {volume.name} a volume; {mend}"
    first, second = (each.many or "a plain number" for each in (one, two))
    return f"{first} cannot be turned into {second}; write both in the same unit.".capitalize()
