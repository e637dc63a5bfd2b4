"""Patterns of single values inside a line: numbers, lengths of time, temperatures."""

from __future__ import annotations

import re

_SAME_LENGTH = str.maketrans(
    {
        **dict.fromkeys("‐‑‒–—−", "-"),
        **dict.fromkeys("\u00a0\u2009\u202f\t", " "),
        **dict.fromkeys("’′", "'"),
        "⁄": "/",
        "×": "x",
        "º": "°",
    }
)

COUNTS = {
    word: number
    for number, word in enumerate(
        ("one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten"), 1
    )
}
COUNT = rf"(?:\d{{1,6}}|(?:{'|'.join(COUNTS)})\b)"

_SIGNS = "½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅐⅛⅜⅝⅞⅑⅒"
N = rf"(?:\d+ \d+/\d+|\d+/[2348](?![\d/])|\d+(?:[.,]\d+)?(?: ?[{_SIGNS}])?|[{_SIGNS}])"
"""A number: 45, 1 1/2, 1½, 2.5."""

_END = r"(?![\w°])"
_WEEK, _DAY = rf"(?:weeks?|wks?){_END}", rf"(?:days?|d){_END}"
_HOUR, _MINUTE = rf"(?:hours?|hrs?|hr|h){_END}", rf"(?:minutes?|mins?|m|'){_END}"
_SECOND = rf"(?:seconds?|secs?|s){_END}"
_AND = rf" (?:and )?{N} ?"
_LARGEST_FIRST = (
    rf"{N} ?{_HOUR}(?:{_AND}{_MINUTE})?|{N} ?{_MINUTE}(?:{_AND}{_SECOND})?|{N} ?{_SECOND}"
    rf"|{N} ?{_DAY}(?:{_AND}{_HOUR})?(?:{_AND}{_MINUTE})?|{N} ?{_WEEK}(?:{_AND}{_DAY})?"
)
_HALVES = (
    r"(?:half an hour|(?:a )?quarter of an hour|three[- ]quarters of an hour|an hour and a half|(?:an|one) hour"
    r"|a day|a week)"
)
_HOURS_AND = (
    r"\d+ ?h(?:ours?|rs?)? ?\d\d(?= ?(?:,|/|-|$|to\b))|\d+h\d\d?(?![\w°])|\d+:\d\d(?: ?h(?![\w]))?(?![\d:])"
)
ONE_TIME = rf"(?:{_HALVES}|{_HOURS_AND}|{_LARGEST_FIRST})"
"""One length of time that says its unit."""

_TIME = rf"(?:{ONE_TIME}|{N})"
_UNTIL_NOW = (
    r"(?! ?(?:°|%|[CFx]\b|cm2?\b|mm\b|k?g\b|[mc]?l\b|oz\b|lb\b|k?w\b|per cent|degrees?\b))(?![\w°])"
    r"(?! ?[-/] ?\d)"
)
TIMES = (
    rf"{_TIME}(?:(?: ?- ?| ?/ ?| ?\.\.\.? ?| to ){_TIME}){{0,2}}(?: ?(?:±|\+/-|\+-) ?{_TIME})?{_UNTIL_NOW}"
)
"""One, two or three lengths of time; the units may be left out."""
TIME = rf"{_TIME}{_UNTIL_NOW}"
"""One length of time; the unit may be left out."""

_SCALE = (
    r"(?: ?(?:°|deg(?:rees?)?\.?))? ?(?:[CF]\b|celsius|fahrenheit|centigrade)|°(?! ?\w)"
    r"| ?deg(?:rees?)?\b(?! ?[CF]\b)"
)
_DEGREES = r"(?<![\w])-?\d+(?:[.,]\d+)?"
_MORE = rf"(?:(?:{_SCALE})?(?: ?- ?| ?/ ?| to )-?\d+(?:[.,]\d+)?){{0,2}}"
_SPREAD = r"(?:±|\+/-|\+-) ?\d+"
HEAT = (
    rf"(?:(?:fan|convection) ?)?{_DEGREES}(?:{_MORE}(?:{_SCALE})(?: ?{_SPREAD}(?:{_SCALE})?)?| ?{_SPREAD}(?:{_SCALE}))"
    rf"(?: ?(?:fan|convection)\b)?(?![\w°])|(?:fan|convection) ?\d{{2,3}}(?![\w°])"
    rf"|(?<![\w])\d{{3}} ?(?:fan|convection)\b"
    rf"|gas ?(?:mark ?)?{N}(?: ?(?:-|to) ?{N})?(?![\w])"
)
"""A temperature or a range of it; it names its scale."""
ONE_HEAT = rf"-?\d+(?:[.,]\d+)?(?:{_SCALE})(?![\w°])"
"""A temperature with its scale."""

QUOTED = r'"(?:[^"]|"")*"'


def evened(text: str) -> str:
    """Return a text of the same length with plain dashes, spaces, primes and crosses."""
    return text.translate(_SAME_LENGTH)


def unquoted(text: str) -> str:
    """Return what stands in quotes, or the text without spaces round it."""
    plain = text.strip()
    if len(plain) >= 2 and plain[0] == plain[-1] == '"':
        return plain[1:-1].replace('""', '"')
    return plain


def in_quotes(text: str) -> str:
    """Return a text in quotes, so that a line takes it as words."""
    return '"' + text.replace('"', '""') + '"'


def count_in(text: str) -> int:
    """Return the number that matches COUNT."""
    return COUNTS.get(text.casefold(), 0) or int(text)


def word_set(text: str) -> frozenset[str]:
    """Return the words of a text."""
    return frozenset(text.split())


def pattern(text: str) -> re.Pattern[str]:
    """Return a pattern that looks at no capitals."""
    return re.compile(text, re.IGNORECASE)
