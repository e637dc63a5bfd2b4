"""Lengths of time in a sentence: how long, and how the length is meant. Minutes throughout.

Words without a number are common practice, from memory: overnight 8 to 14 h, likely 10; a couple 1 to 3, a few
2 to 5, several 3 to 8; "about" a tenth either side, at least a minute; a month counts 30 days.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction

from core.measures.number import round_half_up
from core.measures.typed_minutes import MOST_MINUTES
from core.plan.step import Span
from core.reading.phrases_text import AMOUNT, ONES, Found, Kind, amount, even
from core.reading.phrases_time_meaning import is_about, is_other, meant

OVERNIGHT = Span(8 * 60, 10 * 60, 14 * 60)

_UNITS = {
    "s": (Fraction(1, 60), r"seconds?|secs?"),
    "min": (Fraction(1), r"minutes?|mins?"),
    "h": (Fraction(60), r"hours?|hrs?|h"),
    "day": (Fraction(24 * 60), r"days?"),
    "week": (Fraction(7 * 24 * 60), r"weeks?|wks?"),
    "month": (Fraction(30 * 24 * 60), r"months?"),
}
_UNIT = "|".join(pattern for _, pattern in _UNITS.values())
_SPELT = [(re.compile(pattern), size) for size, pattern in _UNITS.values()]
_VAGUE = {"couple": (1, 2, 3), "few": (2, 3, 5), "several": (3, 5, 8)}
_SHARE = {"half": Fraction(1, 2), "quarter": Fraction(1, 4), "three": Fraction(3, 4)}

_FROM_TO = rf" ?(?:-+(?![0-9]/[0-9]|(?:{'|'.join(ONES)})\b)|(?<=/[0-9])-+|/) ?| to | or | up to | and "
_COUNTED = (
    rf"(?:(?P<low>{AMOUNT})(?P<to>{_FROM_TO}))?(?P<number>{AMOUNT})(?P<plus>\+)?(?:(?: more| further|"
    rf" extra| additional| full)? ?|-)(?P<unit>{_UNIT}|s(?=\b))\b\.?"
    rf"(?:'|(?P<half> and a (?:half|quarter)\b)|(?:,? and |, | ?)(?P<more>{AMOUNT}) ?(?P<smaller>seconds?|"
    rf"secs?|minutes?|mins?|hours?|hrs?|m)\b\.?)?"
)
_SHARED = (
    r"(?:\b(?:a |one )?(?P<share>half|quarter|three)(?:[- ]quarters?)?(?:[- ]| of )(?:an? )?(?P<whole>hour|"
    r"minute|day)s?\b)"
)
_SINGLE = (
    r"(?:\b(?:an?|another|one|every|each|per)(?: (?:further|extra|additional|full|whole|good|other|final|"
    r"last))? (?P<one>minute|hour|day|week|month)\b"
    rf"(?:(?P<and_part> and (?:a |three )?(?:half|quarters?)\b)|(?P<or_two> or two\b)|"
    rf",? and (?P<odd>{AMOUNT}) ?(?:minutes?|mins?)\b)?)"
)
_LOOSE = (
    rf"(?:\b(?:a )?(?:further )?(?P<vague>couple|few|several)(?: of| more|"
    rf" further)? (?P<vague_unit>{_UNIT})\b)"
)
_NIGHT = r"(?P<night>\bover[ -]?night\b|\ball night\b)|(?P<eve>\bthe (?:day|night) before\b(?! yesterday))"
_SHORT = (
    r"(?:(?<![0-9a-z.,/])(?P<hours>[0-9]{1,2}) ?(?:h|hrs?|hours?) ?(?P<minutes>[0-5][0-9])(?![0-9]|"
    r"[.,/-][0-9]| ?(?:m|g|kg|ml|s|x|cm|%|°)))"
)
_LENGTH = re.compile(f"{_SHORT}|{_SHARED}|{_COUNTED}|{_SINGLE}|{_LOOSE}|{_NIGHT}")
_JOINED = re.compile(r" ?- ?| to | and | or | up to ")
_BETWEEN = re.compile(r"between (?:about )?$")
_DAY = 24 * 60
_PART_OF = {"half": Fraction(1, 2), "quarter": Fraction(1, 4)}


@dataclass(frozen=True, slots=True)
class _Piece:
    """Least, likely and most minutes (exact) of a phrase; `loose`: the words already give a spread."""

    start: int
    end: int
    low: Fraction
    likely: Fraction
    high: Fraction
    loose: bool = False
    at_least: bool = False
    fixed: str = ""


def durations(text: str) -> tuple[Found, ...]:
    """Return every length of time of a text in its order; the value is a Span in whole minutes."""
    plain = even(text)
    found = []
    for piece in _in_one(plain, list(_pieces(plain))):
        if is_other(plain, piece.start, piece.end) or piece.high > MOST_MINUTES:
            continue
        kind = Kind(piece.fixed) if piece.fixed else meant(plain, piece.start, piece.end)
        kind = Kind.LEAST if piece.at_least else kind
        span = _span(piece, is_about(plain, piece.start, piece.end))
        found.append(Found(kind, text[piece.start : piece.end], piece.start, piece.end, span))
    return tuple(found)


def _pieces(plain: str) -> Iterator[_Piece]:
    at = 0
    while met := _LENGTH.search(plain, at):
        piece = _read(met)
        at = met.end() if piece is None else piece.end
        if piece is not None:
            words = plain[piece.start : piece.end]
            yield replace(piece, end=piece.start + len(words.rstrip(" .',")))


def _read(met: re.Match[str]) -> _Piece | None:
    start, end = met.span()
    if met["hours"]:
        return _point(start, end, Fraction(int(met["hours"]) * 60 + int(met["minutes"])))
    if met["night"]:
        low, likely, high = (Fraction(each) for each in (OVERNIGHT.low, OVERNIGHT.likely, OVERNIGHT.high))
        return _Piece(start, end, low, likely, high, loose=True)
    if met["eve"]:
        return _point(start, end, Fraction(_DAY), fixed=Kind.AHEAD)
    if met["share"]:
        return _point(start, end, _SHARE[met["share"]] * _size(met["whole"]))
    if met["vague"]:
        size = _size(met["vague_unit"])
        low, likely, high = (size * each for each in _VAGUE[met["vague"]])
        return _Piece(start, end, low, likely, high, loose=True)
    if met["one"]:
        return _one(met)
    return _counted(met)


def _one(met: re.Match[str]) -> _Piece | None:
    start, end = met.span()
    size = _size(met["one"])
    if met["or_two"]:
        return _Piece(start, end, size, size * Fraction(3, 2), size * 2, loose=True)
    if met["odd"]:
        odd = amount(met["odd"])
        return None if odd is None else _point(start, end, size + odd)
    part = amount("one" + met["and_part"]) if met["and_part"] else None
    return _point(start, end, size * (part or 1))


def _counted(met: re.Match[str]) -> _Piece | None:
    start, end = met.span()
    number, size = amount(met["number"]), _size(met["unit"])
    if number is None:
        return None
    high = number * size
    if met["half"]:
        high += size * _PART_OF[met["half"].rpartition(" ")[2]]
    if met["more"]:
        more = amount(met["more"])
        smaller = _size("min" if met["smaller"] == "m" else met["smaller"])
        if more is None or smaller >= size:
            end = met.start("more")
        else:
            high += more * smaller
    low = amount(met["low"]) if met["low"] else None
    if low is None:
        return _point(start, end, high, at_least=bool(met["plus"]))
    if met["to"] == " and " and not _BETWEEN.search(met.string, 0, start):
        return _point(met.start("number"), end, high)
    least = _below(low, size, high)
    if least is None:
        return _point(met.start("number"), end, high)
    return _Piece(start, end, least, (least + high) / 2, high, loose=True)


def _below(low: Fraction, size: Fraction, high: Fraction) -> Fraction | None:
    """Return the lower end in minutes: in the upper end's unit, else ("45 to 1 hour") in minutes."""
    ends = [low * unit for unit in (size, Fraction(1)) if low * unit < high]
    return ends[0] if ends else None


def _point(start: int, end: int, minutes: Fraction, at_least: bool = False, fixed: str = "") -> _Piece:
    return _Piece(start, end, minutes, minutes, minutes, at_least=at_least, fixed=fixed)


def _size(unit: str) -> Fraction:
    if unit == "s":
        return _UNITS["s"][0]
    return next(size for pattern, size in _SPELT if pattern.fullmatch(unit))


def _in_one(plain: str, pieces: list[_Piece]) -> list[_Piece]:
    """Join two lengths that are the ends of one: "45 minutes to 1 hour", "between 1 day and 2 days"."""
    joined: list[_Piece] = []
    for piece in pieces:
        last = joined[-1] if joined else None
        gap = plain[last.end : piece.start] if last else ""
        points = last is not None and not (last.loose or piece.loose)
        if last and points and _ends_of_one(plain, last, gap) and last.low < piece.low:
            middle = (last.low + piece.high) / 2
            joined[-1] = _Piece(last.start, piece.end, last.low, middle, piece.high, loose=True)
        else:
            joined.append(piece)
    return joined


def _ends_of_one(plain: str, last: _Piece, gap: str) -> bool:
    gap = gap.lstrip(".")
    if gap == " and ":
        return bool(_BETWEEN.search(plain, 0, last.start))
    return bool(_JOINED.fullmatch(gap))


def _span(piece: _Piece, about: bool) -> Span:
    low, likely, high = (_whole(each) for each in (piece.low, piece.likely, piece.high))
    if about and not piece.loose:
        spread = _whole(Fraction(likely, 10))
        return Span(max(likely - spread, 1), likely, likely + spread)
    if piece.low + piece.high == 2 * piece.likely:
        likely = (low + high + 1) // 2
    return Span(low, likely, high)


def _whole(minutes: Fraction) -> int:
    return max(int(round_half_up(minutes)), 1)
