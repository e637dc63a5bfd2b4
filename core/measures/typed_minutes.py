"""Reads a length of time as people type it. The public door is minutes.py."""

import re
from fractions import Fraction
from itertools import pairwise

from core.measures.number import NUMBER, number_value, round_half_up
from core.measures.refusal import Refusal, quoted

MOST_MINUTES = 366 * 24 * 60
"""The longest time a plan holds: 366 days, in minutes."""

_IN_MINUTES = {
    "week": Fraction(7 * 24 * 60),
    "day": Fraction(24 * 60),
    "h": Fraction(60),
    "min": Fraction(1),
    "s": Fraction(1, 60),
}
_SPELLINGS = {
    "week": ("w", "wk", "wks", "week", "weeks"),
    "day": ("d", "day", "days"),
    "h": ("h", "hr", "hrs", "hour", "hours"),
    "min": ("m", "min", "mins", "minute", "minutes", "'"),
    "s": ("s", "sec", "secs", "second", "seconds"),
}
UNIT_OF = {spelling: unit for unit, spellings in _SPELLINGS.items() for spelling in spellings}
_MOST_AFTER = {("day", "h"): 23, ("h", "min"): 59, ("min", "s"): 59}
_ONE_NAMES = {"h": "hour", "min": "minute"}
_NAMES = {"week": "weeks", "day": "days", "h": "hours", "min": "minutes", "s": "seconds"}

_COUNT_WORDS = (
    *("one", "two", "three", "four", "five", "six"),
    *("seven", "eight", "nine", "ten", "eleven", "twelve"),
)
_PHRASES = [
    (re.compile(r"\bthree[- ]quarters of an hour\b"), "3/4 h"),
    (re.compile(r"\b(?:a )?quarter (?:of )?an hour\b"), "1/4 h"),
    (re.compile(r"\b(?:half an|a half|half) hour\b"), "1/2 h"),
    (re.compile(r"\bhalf a day\b"), "1/2 day"),
    (re.compile(r"\b(an?|one) (hour|day) and a half\b"), r"1 1/2 \2"),
    (re.compile(r"\b(\w+) and a half (hours|days)\b"), r"\1 1/2 \2"),
    (re.compile(r"\ban?(?= (?:hour|day|minute|week)\b)"), "1"),
    *((re.compile(rf"\b{word}\b"), str(count)) for count, word in enumerate(_COUNT_WORDS, 1)),
]
_UNFIXED = ("overnight", "over night", "all night", "all day", "a while", "until")

_ISO = re.compile(
    r"p(?:(?P<week>[0-9]+)w|(?:(?P<month>[0-9]+)[ym])*(?:(?P<day>[0-9]+)d)?"
    r"(?P<time>t(?:(?P<h>[0-9]+(?:[.,][0-9]+)?)h)?(?:(?P<min>[0-9]+(?:[.,][0-9]+)?)m)?"
    r"(?:(?P<s>[0-9]+(?:[.,][0-9]+)?)s)?)?)"
)
_COLON = re.compile(
    r"(?:(?P<day>[0-9]+) ?(?:d|days?),? )?(?P<h>[0-9]+):(?P<min>[0-9]{2})(?: ?(?:h|hrs?|hours?))?"
)
_PIECE = re.compile(rf"[ ,]*(?:(?:and|&) )?(?P<number>{NUMBER}) ?(?P<unit>[a-z']*)\.?")

Piece = tuple[Fraction, str]


def read_minutes(text: str, plain: str, bare_unit: str = "min") -> int:
    """Return the whole minutes of plain (tidy, unsigned, casefolded); a number alone is in bare_unit.

    The text is what a Refusal quotes.
    """
    if not plain.strip():
        raise Refusal("A length of time is missing; write one such as 45 or 1 h 20.")
    for word in _UNFIXED:
        if plain.startswith(word):
            raise Refusal(f"{quoted(text)} is a different length for every cook; write hours, such as 10 h.")
    if plain.startswith("p"):
        return _whole(text, _total(_iso_pieces(text, plain)))
    if met := _COLON.fullmatch(plain):
        named = {unit: met[unit] for unit in ("day", "h", "min")}
        pieces = [(Fraction(number), unit) for unit, number in named.items() if number is not None]
    else:
        pieces = _typed_pieces(text, plain, bare_unit)
    _check_order(text, pieces)
    return _whole(text, _total(pieces))


def _typed_pieces(text: str, plain: str, bare_unit: str) -> list[Piece]:
    for pattern, written in _PHRASES:
        plain = pattern.sub(written, plain)
    pieces: list[Piece] = []
    at = 0
    while at < len(plain):
        met = _PIECE.match(plain, at)
        if met is None:
            raise _unreadable(text)
        token, spelling = met["number"], met["unit"]
        value = number_value(token)
        if spelling and spelling not in UNIT_OF:
            raise Refusal(f"{quoted(text)}: {quoted(spelling)} is no length of time; write min, h or days.")
        alone = met.span() == (0, len(plain))
        unit = UNIT_OF[spelling] if spelling else _unit_meant(text, token, pieces, bare_unit if alone else "")
        pieces.append((value, unit))
        at = met.end()
    return pieces


def _unit_meant(text: str, token: str, before: list[Piece], bare_unit: str) -> str:
    whole = token.isdigit()
    if bare_unit and (whole or bare_unit != "min"):
        return bare_unit
    if whole and before and before[-1][1] == "h":
        return "min"
    if bare_unit or before:
        raise Refusal(f"{quoted(text)} does not say what the {token} is; write {token} h or {token} min.")
    raise _unreadable(text)


def _iso_pieces(text: str, plain: str) -> list[Piece]:
    met = _ISO.fullmatch(plain)
    if met is None or plain.endswith(("p", "t")):
        raise _unreadable(text)
    if met["month"]:
        raise Refusal(f"{quoted(text)} counts months or years; for minutes write a T first, as in PT25M.")
    return [(number_value(met[unit]), unit) for unit in _IN_MINUTES if met[unit]]


def _total(pieces: list[Piece]) -> Fraction:
    return sum((value * _IN_MINUTES[unit] for value, unit in pieces), Fraction(0))


def _check_order(text: str, pieces: list[Piece]) -> None:
    for (_, larger), (value, unit) in pairwise(pieces):
        if _IN_MINUTES[unit] >= _IN_MINUTES[larger]:
            raise Refusal(f"{quoted(text)}: write the largest unit first and each once, such as 1 h 20 min.")
        most = _MOST_AFTER.get((larger, unit))
        if most is not None and value > most:
            after = f"{_NAMES[unit]} after the {_ONE_NAMES.get(larger, larger)} go to {most}"
            raise Refusal(f"{quoted(text)}: {after}; write {_mend(_total(pieces))}.")


def _mend(total: Fraction) -> str:
    minutes = int(round_half_up(total))
    hours, rest = divmod(minutes, 60)
    days, left = divmod(hours, 24)
    if rest == 0 and days:
        return f"{days}d {left}h or {hours} h"
    return f"{hours}h{rest:02} or {minutes} min"


def _whole(text: str, total: Fraction) -> int:
    if total > MOST_MINUTES:
        raise Refusal(f"{quoted(text)} is longer than a year; a plan holds up to 366 days.")
    # Part minutes go to the nearest, but what takes time is never planned as taking none.
    return max(int(round_half_up(total)), 1 if total > 0 else 0)


def _unreadable(text: str) -> Refusal:
    return Refusal(f"{quoted(text)} is not a length of time; write 45, 45 min, 1h20, 1:20, 1.5 h or 2 days.")
