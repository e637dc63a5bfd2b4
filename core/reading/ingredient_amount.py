"""The amount at the head of an ingredient line: numbers, ranges, packs, two measures of the same, sums."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from fractions import Fraction

from core.measures.number import read_number
from core.measures.quantity import Quantity, add, convert
from core.measures.refusal import Refusal
from core.measures.unit_names import SYSTEMS, UNITS
from core.reading.ingredient_words import (
    ABOUT,
    BARE,
    FAT,
    NEEDS_OF,
    NUMBER,
    PACKS,
    PIECE,
    SIZES,
    SPELT,
    UNIT,
    UNIT_OF,
    VAGUE,
)

_BY_CASE = {"T": "tbsp", "Tb": "tbsp", "t": "tsp"}
_NUMBER = re.compile(NUMBER)
_SPELT = re.compile(rf"(?:{'|'.join(sorted(SPELT, key=len, reverse=True))})(?= )", re.IGNORECASE)
_PART = re.compile(
    r"(?:(?P<three>three[- ]quarters)|(?P<quarter>(?:a )?quarter)|(?P<half>half))(?: of)?(?: an?)? ",
    re.IGNORECASE,
)
_PARTS = {"three": Fraction(3, 4), "quarter": Fraction(1, 4), "half": Fraction(1, 2)}
_OF_ONE = re.compile(r" ?of an? | an? ", re.IGNORECASE)
_RANGE = re.compile(r" ?- ?| (?:to|or) ", re.IGNORECASE)
_TIMES = re.compile(r" ?x ?", re.IGNORECASE)
_ABOUT = re.compile(rf"(?:{ABOUT} ?)+", re.IGNORECASE)
_SIZES = re.compile(rf"(?:{SIZES},? )+", re.IGNORECASE)
_VAGUE = re.compile(rf"{VAGUE}\b(?: (?P<unit>[a-z]+))?(?: of)?(?= )", re.IGNORECASE)
_OPEN, _OF = re.compile(r" ?\("), re.compile(r" ?of (?:the )?", re.IGNORECASE)
_OR_ELSE = re.compile(r" ?(?:/|=|or) ?", re.IGNORECASE)
_MORE = re.compile(r" ?(?:plus|and|\+|&) ?| ", re.IGNORECASE)
_GAP = re.compile(r" ?-? ?")


@dataclass(frozen=True, slots=True)
class Amount:
    """Hold what was read: the quantity (None: not to be measured), where it ends, and what went with it.

    `asides` are spans of words that are neither amount nor item; `pieces` so many single pieces of a told
    weight; `doubt` the span of a range of which the greater number was taken (None: no range).
    """

    quantity: Quantity | None
    end: int
    asides: tuple[tuple[int, int], ...] = ()
    pieces: int = 0
    doubt: tuple[int, int] | None = None


@dataclass(frozen=True, slots=True)
class _Count:
    value: Fraction
    end: int
    is_range: bool = False
    is_figure: bool = True


def amount_at(plain: str, at: int, system: str = "us") -> Amount | None:
    """Return the amount that begins at a place of a line (see ingredient.plain_of), None where none does."""
    start = at
    if met := _ABOUT.match(plain, at):
        at = met.end()
    asides = ((start, at),) if at > start else ()
    if piece := _piece(plain, at):
        return replace(piece, asides=(*asides, *piece.asides))
    found = _vague(plain, at) or _counted(plain, at, system) or _bare(plain, at)
    return None if found is None else replace(found, asides=(*asides, *found.asides))


# ---------------------------------------------------------------- numbers


def _count_at(plain: str, at: int) -> _Count | None:
    """Return one number or a range of two, of which the greater is kept."""
    first = _one_number(plain, at)
    if first is None or not (dash := _RANGE.match(plain, first.end)):
        return first
    second = _one_number(plain, dash.end())
    if second is None or second.value <= first.value:
        return first
    return _Count(second.value, second.end, is_range=True)


def _one_number(plain: str, at: int) -> _Count | None:
    if met := _NUMBER.match(plain, at):
        try:
            value = read_number(_joined(met[0]))
        except Refusal:
            return None
        if not value or plain[met.end() : met.end() + 1] in ("%", "°"):
            return None
        return _Count(value, met.end())
    if met := _PART.match(plain, at):
        return _Count(_PARTS[str(met.lastgroup)], met.end() - 1, is_figure=False)
    if met := _SPELT.match(plain, at):
        return _Count(Fraction(SPELT[met[0].casefold()]), met.end(), is_figure=False)
    return None


def _joined(token: str) -> str:
    """Return "1-1/2" as "1 1/2"."""
    return token.replace("-", " ")


# ---------------------------------------------------------------- units


def _unit_at(plain: str, at: int, system: str) -> tuple[str, int] | None:
    """Return the unit that begins at a place, and where it ends."""
    met = UNIT.match(plain, at)
    if met is None:
        return None
    spelling = met["unit"]
    name = _BY_CASE.get(spelling) or UNIT_OF[spelling.casefold()]
    end = met.end()
    if name == "stick" and not FAT.search(plain, end):
        return None
    if name in NEEDS_OF and spelling.casefold() == name and not _OF.match(plain, end):
        return None
    return SYSTEMS[system].get(name, name), end


def _sized_unit(plain: str, at: int, system: str) -> tuple[str, int, tuple[tuple[int, int], ...]] | None:
    """Return a unit with what stands before it: "small bunch", "heaped tbsp"."""
    gap = _GAP.match(plain, at)
    here = gap.end() if gap else at
    if found := _unit_at(plain, here, system):
        return (*found, ())
    met = _SIZES.match(plain, here)
    found = _unit_at(plain, met.end(), system) if met else None
    return (*found, ((here, met.end()),)) if found and met else None


def _measure_at(plain: str, at: int, system: str) -> tuple[Quantity, int] | None:
    """Return a figure with a unit of weight or volume: "400 g", "15-ounce"."""
    count = _count_at(plain, at)
    if count is None or not count.is_figure:
        return None
    gap = _GAP.match(plain, count.end)
    found = _unit_at(plain, gap.end() if gap else count.end, system)
    if found is None or UNITS[found[0]].kind == "count":
        return None
    return Quantity(count.value, found[0]), found[1]


# ---------------------------------------------------------------- amounts


def _counted(plain: str, at: int, system: str) -> Amount | None:
    count = _count_at(plain, at)
    if count is None:
        return None
    doubt = (at, count.end) if count.is_range else None
    if pack := _packs(plain, count, system):
        return replace(pack, doubt=doubt)
    sized = _sized_unit(plain, count.end, system)
    if sized is None:
        return _plain_count(plain, count, doubt)
    unit, end, asides = sized
    quantity = Quantity(count.value, unit)
    quantity, end = _with_more(plain, quantity, end, system)
    end, others = _other_measures(plain, end, system)
    asides += others
    if UNITS[unit].kind != "count" and (box := _container(plain, end, system)):
        asides += ((end, box),)
        end = box
    return Amount(quantity, _past_of(plain, end), asides, 0, doubt)


def _plain_count(plain: str, count: _Count, doubt: tuple[int, int] | None) -> Amount | None:
    """Return a bare number of things: "3 onions"; None where the number belongs to a name ("5-spice")."""
    end = count.end
    if plain[end : end + 1].isalpha() or re.match(r"-[a-z]", plain[end:], re.IGNORECASE):
        return None
    if met := re.match(r" x (?=[a-z])", plain[end:], re.IGNORECASE):
        end += met.end() - 1
    if plain[end:].strip() == "":
        return Amount(Quantity(count.value), end, (), 0, doubt)
    if piece := _piece(plain, end + 1):
        quantity = Quantity(count.value, piece.quantity.unit if piece.quantity else "")
        return Amount(quantity, piece.end, piece.asides, 0, doubt)
    if met := _OF_ONE.match(plain, end):
        return Amount(Quantity(count.value), met.end(), (), 0, doubt)
    return Amount(Quantity(count.value), end, (), 0, doubt)


def _packs(plain: str, count: _Count, system: str) -> Amount | None:
    """Return several of a told weight: "2 x 400 g tins", "1 (14 oz) can", "one 14-ounce can", "a 2 kg leg"."""
    if count.value.denominator != 1:
        return None
    if times := _TIMES.match(plain, count.end):
        at, closed = times.end(), False
    elif bracket := _OPEN.match(plain, count.end):
        at, closed = bracket.end(), True
    elif plain[count.end : count.end + 1] == " ":
        at, closed = count.end + 1, False
    else:
        return None
    if about := _ABOUT.match(plain, at):
        at = about.end()
    each = _measure_at(plain, at, system)
    if each is None:
        return None
    quantity, end = each
    end, others = _other_measures(plain, end, system)
    if closed:
        if plain[end : end + 1] != ")":
            return None
        end += 1
    box = _container(plain, end, system)
    if closed and not box:
        return None
    pieces = 0 if box else int(count.value)
    asides = (*others, (end, box)) if box else others
    return Amount(quantity.times(count.value), _past_of(plain, box or end), asides, pieces)


def _container(plain: str, at: int, system: str) -> int | None:
    """Return where the name of a pack ends, if one stands here."""
    found = _sized_unit(plain, at, system)
    return found[1] if found and found[0] in PACKS else None


def _other_measures(plain: str, end: int, system: str) -> tuple[int, tuple[tuple[int, int], ...]]:
    """Pass over the same amount in other measures: "/2 lb 12 oz", "(about 1 cup)"."""
    asides: list[tuple[int, int]] = []
    while True:
        lead, closing = _OPEN.match(plain, end), True
        if lead is None:
            lead, closing = _OR_ELSE.match(plain, end), False
        if lead is None:
            return end, tuple(asides)
        at = lead.end()
        if about := _ABOUT.match(plain, at):
            at = about.end()
        other = _measure_at(plain, at, system)
        if other is None:
            return end, tuple(asides)
        _quantity, past = _with_more(plain, *other, system)
        if not closing:
            asides.append((lead.end(), past))
        else:
            close = plain.find(")", past)
            if close < 0:
                return end, tuple(asides)
            asides.append((lead.end(), close))
            past = close + 1
        end = past


def _with_more(plain: str, quantity: Quantity, end: int, system: str) -> tuple[Quantity, int]:
    """Add what follows in a unit of the same kind: "1 lb 4 oz", "1 tbsp plus 1 tsp"."""
    while met := _MORE.match(plain, end):
        more = _measure_at(plain, met.end(), system)
        if more is None or UNITS[more[0].unit].kind != UNITS[quantity.unit].kind:
            break
        # of "1 lb 500 g" the second is another measure, not a further one
        bare = met[0] == " "
        if bare and convert(more[0], quantity.unit).amount >= 1:
            break
        quantity, end = add(quantity, more[0]), more[1]
    return quantity, end


def _piece(plain: str, at: int) -> Amount | None:
    """Return a piece whose length is told: "5 cm piece of ginger"."""
    met = PIECE.match(plain, at)
    if met is None:
        return None
    return Amount(Quantity(Fraction(1), "piece"), met.end(), ((met.start("size"), met.end("size")),))


def _bare(plain: str, at: int) -> Amount | None:
    """Return one of a unit that needs no number: "pinch of salt", "small bunch dill"."""
    met = _SIZES.match(plain, at)
    here = met.end() if met else at
    found = _unit_at(plain, here, "us")
    if found is None or found[0] not in BARE or plain[found[1] : found[1] + 1] != " ":
        return None
    asides = ((at, here),) if here > at else ()
    return Amount(Quantity(Fraction(1), found[0]), _past_of(plain, found[1]), asides)


def _vague(plain: str, at: int) -> Amount | None:
    """Return an amount that nobody can weigh: "a few sprigs of mint", "a little oil"."""
    met = _VAGUE.match(plain, at)
    if met is None:
        return None
    end = met.end()
    if (
        met["unit"]
        and met["unit"].casefold() not in UNIT_OF
        and not plain[met.end("unit") :].startswith(" of")
    ):
        end = met.end() if met["unit"] == "of" else met.start("unit") - 1
    past = _past_of(plain, end)
    words = plain[at:past].rstrip()
    return Amount(None, past, ((at, at + len(words.removesuffix(" of"))),))


def _past_of(plain: str, end: int) -> int:
    met = _OF.match(plain, end)
    return met.end() if met else end
