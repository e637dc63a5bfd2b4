"""Pans and tins as cooks write them: "round 26 cm", "35x25x6 cm", "9x13 in", "GN 1/2-65", "2 of round 20 cm".

Areas are of the inside in cm2 (of gastronorm: of the rim, outer sizes of EN 631 as makers print them). Same depth,
same time: common practice.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction

from core.food.sound import above_zero
from core.food.tins import GASTRONORM, Tin, tin
from core.measures.number import NUMBER, number_value, show_decimal, tidy
from core.measures.refusal import Refusal, quoted

DEPTHS = (20, 40, 65, 100, 150, 200)
"""Depths of gastronorm in mm, from EN 631 as makers print them."""
CLEAR = Fraction(5)
"""cm of air that a pan wants on each side in an oven (about 2 in: common practice)."""

_CM = {"cm": Fraction(1), "mm": Fraction(1, 10), "in": Fraction(254, 100)}
_UNIT = r"(?:cm|centimet(?:re|er)s?|mm|inches|inch|in|\")"
_BY = r"\s*(?:x|by)\s*"


def _side(name: str) -> str:
    """Return the pattern of one side with or without its unit."""
    return rf"(?P<{name}>{NUMBER})\s*{_UNIT}?"


_ROUND = re.compile(
    rf"(?:(?:round|square)\s+)?{_side('across')}(?:{_BY}{_side('deep')})?\s*(?:round|square)?"
)
_SIDES = re.compile(rf"{_side('width')}{_BY}{_side('length')}(?:{_BY}{_side('deep')})?")
_GN = re.compile(r"gn\s*(?P<part>[12]/[1-9])(?:\s*-\s*(?P<deep>[0-9]+)(?:\s*mm)?)?")
_MANY = re.compile(
    r"(?P<count>[0-9]+)\s*(?:of\s+(?=gn|round|square|[0-9])|x?\s*(?=gn|round|square))(?P<rest>.+)"
)
_NOISE = re.compile(r"\b(?:tins?|pans?|dish(?:es)?|trays?|diameter|deep|across|an?)\b|,(?= )")
_SUCH_AS = 'such as "round 26 cm", "35x25x6 cm", "9x13 in" or "GN 1/2-65"'
_LEAST, _MOST = Fraction(4), Fraction(200)
"""cm that a side of a pan may have; it may be less deep."""


@dataclass(frozen=True, slots=True)
class Pan:
    """So many equal pans: the sides of one in cm, its depth in cm (None: not told), its gastronorm name or ""."""

    tin: Tin
    depth: Fraction | None = None
    count: int = 1
    name: str = ""

    @property
    def area(self) -> Fraction:
        """Return cm2 of all of them."""
        return self.tin.area * self.count

    @property
    def holds(self) -> Fraction | None:
        """Return cm3 of all of them to the brim, walls upright; None where the depth is not told."""
        return None if self.depth is None else self.area * self.depth

    @property
    def sides(self) -> tuple[Fraction, Fraction]:
        """Return the longer and the shorter side of one in cm."""
        length = self.tin.width if self.tin.length is None else self.tin.length
        return max(self.tin.width, length), min(self.tin.width, length)


def parse_pan(text: str) -> Pan:
    """Return the pan that a text means; refuse what names no size, no unit, or sides that no pan has."""
    plain = tidy(text).casefold()
    if not plain:
        raise Refusal(f"No pan is written; write one {_SUCH_AS}.")
    said = " ".join(_NOISE.sub(" ", plain).split())
    many = _MANY.fullmatch(said)
    count = 1
    if many is not None:
        count, said = int(many["count"]), many["rest"]
        if not 1 <= count <= 50:
            raise Refusal(f"{quoted(text)}: {count} pans are not for a kitchen; write 1 to 50.")
    return _gastronorm(said, text, count) or _shaped(said, text, count)


def _gastronorm(said: str, text: str, count: int) -> Pan | None:
    if not said.startswith("gn"):
        return None
    met = _GN.fullmatch(said)
    known = met is not None and f"GN {met['part']}" in GASTRONORM
    if met is None or not known:
        raise Refusal(f"{quoted(text)} is no gastronorm size; the sizes are {', '.join(GASTRONORM)}.")
    name = f"GN {met['part']}"
    if met["deep"] is None:
        return Pan(GASTRONORM[name], None, count, name)
    deep = int(met["deep"])
    if deep not in DEPTHS:
        depths = ", ".join(str(each) for each in DEPTHS)
        raise Refusal(f"{quoted(text)}: gastronorm is {depths} mm deep; write one of these, as {name}-65.")
    return Pan(GASTRONORM[name], Fraction(deep, 10), count, f"{name}-{deep}")


def _shaped(said: str, text: str, count: int) -> Pan:
    unit = _unit_of(said, text)
    is_round, is_square = "round" in said, "square" in said
    if is_round or is_square:
        met = _ROUND.fullmatch(said)
        if met is None:
            raise Refusal(f"{quoted(text)} is not a pan's size; write one {_SUCH_AS}.")
        across, deep = _cm(met["across"], unit, text), met["deep"]
        shape = tin(across, across) if is_square else tin(across)
    else:
        met = _SIDES.fullmatch(said)
        if met is None:
            mend = "say round or square, or write two sides" if re.search(NUMBER, said) else "write its sides"
            raise Refusal(f"{quoted(text)} is not a pan's size; {mend}, {_SUCH_AS}.")
        deep = met["deep"]
        shape = tin(_cm(met["width"], unit, text), _cm(met["length"], unit, text))
    return Pan(shape, None if deep is None else _cm(deep, unit, text, Fraction(1, 2)), count)


def _unit_of(said: str, text: str) -> str:
    units = {each[0] for each in re.finditer(rf"(?<![a-z]){_UNIT}(?![a-z])", said)}
    if not re.search(r"[0-9]", said):
        raise Refusal(f"{quoted(text)} names no size; write the sides, {_SUCH_AS}.")
    names = {"in" if each.startswith(("in", '"')) else "mm" if each == "mm" else "cm" for each in units}
    if len(names) != 1:
        raise Refusal(f"{quoted(text)}: write the sides in one unit, cm or in, {_SUCH_AS}.")
    return names.pop()


def _cm(number: str, unit: str, text: str, least: Fraction = _LEAST) -> Fraction:
    side = above_zero(number_value(number), f"A side of {quoted(text)}", "26")
    if not least <= side * _CM[unit] <= _MOST:
        raise Refusal(f"{quoted(text)}: no pan has a side of {show_decimal(side)} {unit}; mend the number.")
    return side * _CM[unit]


def said_pan(pan: Pan) -> str:
    """Return a text that parse_pan reads back: "round 26 cm", "2 of 35x25x6 cm", "GN 1/2-65"."""
    many = f"{pan.count} of " if pan.count > 1 else ""
    if pan.name:
        return f"{many}{pan.name}"
    deep = "" if pan.depth is None else f"x{show_decimal(pan.depth, 2)}"
    width = show_decimal(pan.tin.width, 2)
    if pan.tin.length is None:
        return f"{many}round {width}{deep} cm"
    if pan.tin.square:
        return f"{many}square {width}{deep} cm"
    return f"{many}{width}x{show_decimal(pan.tin.length, 2)}{deep} cm"


def area_ratio(written: Pan, wanted: Pan) -> Fraction:
    """Return by what the food grows so that it stands as deep in the pans wanted as in those written."""
    return wanted.area / written.area


def depth_ratio(written: Pan, wanted: Pan, factor: Fraction) -> Fraction:
    """Return the food's depth over the written one, where so much of the recipe is put into the pans wanted."""
    return factor * written.area / wanted.area


def goes_into(pan: Pan, wide: int, deep: int) -> bool:
    """Tell whether one pan goes into an oven of so many cm inside, turned either way, with air on each side."""
    longer, shorter = pan.sides
    inside = sorted((wide - 2 * CLEAR, deep - 2 * CLEAR), reverse=True)
    return longer <= inside[0] and shorter <= inside[1]
