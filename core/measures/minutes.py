"""Lengths of time: whole minutes, read as typed and shown as "1 h 20 min". Also T-minus."""

import re

from core.measures.number import NUMBER, tidy
from core.measures.refusal import Refusal, quoted
from core.measures.typed_minutes import UNIT_OF, read_minutes
from core.measures.words import plural

_MINUTES_IN_DAY = 24 * 60
_HOURS_UNTIL = 2 * _MINUTES_IN_DAY  # cures and proofs are spoken of as 24 h and 36 h; days start at two
_PLUS_MINUS = re.compile(r"(.+?) ?(?:±|\+/-|\+-) ?(.+)")
_SPLITTERS = (
    re.compile(r" +/ *| */ +"),
    re.compile(r" ?(?:\.\.+|…) ?"),
    re.compile(r" ?- ?| to "),
)
_TWO_SLASHES = re.compile(r"[^/]+/[^/]+/[^/]+")
_ONE_SLASH = re.compile(r"([^/]+)/([^/]+)")
_FRACTION_UNDERS = re.compile(r"[2348](?![0-9])")
_NUMBER = re.compile(NUMBER)
_FIRST_UNIT = re.compile(r"[0-9] ?([a-z']+)")


def parse_minutes(text: str) -> int:
    """Return whole minutes from "90", "1h20", "1:20", "1 1/2 h", "2d 3h", "half an hour", "PT1H20M".

    A number alone is minutes. Part minutes go to the nearest, never from something to 0. A leading
    minus gives a negative length, as offsets need. Raise Refusal for anything else.
    """
    plain = tidy(text).casefold() or " "
    sign = -1 if plain[0] == "-" else 1
    return sign * read_minutes(text, plain[1:].lstrip() if plain[0] in "+-" else plain)


def parse_span(text: str) -> tuple[int, int, int]:
    """Return (low, likely, high) minutes from "45", "45-50", "16h/20h/24h", "40..50..60" or "90 ±10".

    Of two numbers the likely one is the middle, rounded up at a half. A number without a unit takes
    the unit of the next part where that keeps the order, else it is minutes: "2-3 h" is hours,
    "240/480/48 h" begins with minutes. Raise Refusal when the order is wrong.
    """
    plain = tidy(text).casefold()
    if plain.startswith("-"):
        raise Refusal(f"{quoted(text)}: a length of time cannot be less than 0; leave the minus out.")
    if met := _PLUS_MINUS.fullmatch(plain):
        return _around(text, met[1], met[2])
    parts = _parts(plain)
    if len(parts) > 3:
        raise Refusal(f"{quoted(text)} has {len(parts)} lengths; write one, two, or least, likely and most.")
    minutes = _in_order(text, parts)
    if len(minutes) == 2:
        minutes.insert(1, (sum(minutes) + 1) // 2)
    return minutes[0], minutes[len(minutes) // 2], minutes[-1]


def _around(text: str, middle: str, spread: str) -> tuple[int, int, int]:
    if spread.endswith("%"):
        raise Refusal(f"{quoted(text)}: write the spread as a time, such as 90 ±10.")
    likely, by = _in_minutes(text, [middle, spread], "next")
    if by > likely:
        raise Refusal(f"{quoted(text)}: the spread is longer than the time itself; write a smaller one.")
    return likely - by, likely, likely + by


def _parts(plain: str) -> list[str]:
    for splitter in _SPLITTERS:
        if len(parts := splitter.split(plain)) > 1:
            return parts
    if _TWO_SLASHES.fullmatch(plain):
        return plain.split("/")
    one = _ONE_SLASH.fullmatch(plain)
    if one and not _FRACTION_UNDERS.match(one[2]):
        return plain.split("/")
    return [plain]


def _in_order(text: str, parts: list[str]) -> list[int]:
    for rule in ("next", "minutes", "shared"):
        minutes = _in_minutes(text, parts, rule)
        if minutes == sorted(minutes):
            return minutes
    raise Refusal(f"{quoted(text)}: write the least first, then the likely, then the most, such as 40/50/60.")


def _in_minutes(text: str, parts: list[str], rule: str) -> list[int]:
    units: list[str | None] = [_unit_in(part) for part in parts]
    minutes = []
    for at, part in enumerate(parts):
        unit = "min"
        if _NUMBER.fullmatch(part) and rule != "minutes":
            after = [found for found in units[at:] if found]
            before = [found for found in reversed(units[:at]) if found] if rule == "shared" else []
            unit = [*after, *before, "min"][0]
        minutes.append(read_minutes(text if len(parts) == 1 else part, part, unit))
    return minutes


def _unit_in(part: str) -> str | None:
    met = _FIRST_UNIT.search(part)
    return UNIT_OF.get(met[1]) if met else None


def show_minutes(minutes: int) -> str:
    """Return "45 min", "1 h 20 min", "36 h", from two days on "2 days 3 h"; a real minus sign below 0."""
    sign = "−" if minutes < 0 else ""
    left = abs(minutes)
    pieces = []
    if left >= _HOURS_UNTIL:
        days, left = divmod(left, _MINUTES_IN_DAY)
        pieces.append(plural(days, "day"))
    hours, left = divmod(left, 60)
    pieces += [f"{hours} h"] if hours else []
    pieces += [f"{left} min"] if left or not pieces else []
    return sign + " ".join(pieces)


def show_span(low: int, likely: int, high: int) -> str:
    """Return "45 min" when all are equal, else "40 / 50 / 60 min" or "16 h / 20 h / 24 h"."""
    if low == likely == high:
        return show_minutes(likely)
    if low >= 0 and high < 60:
        return f"{low} / {likely} / {high} min"
    return " / ".join(show_minutes(each) for each in (low, likely, high))


def show_tminus(offset: int) -> str:
    """Return an offset from plating in minutes as "T-1:02", "T", "T+0:15"; from a day on "T-2d 5:00"."""
    if offset == 0:
        return "T"
    days, left = divmod(abs(offset), _MINUTES_IN_DAY)
    hours, minutes = divmod(left, 60)
    day = f"{days}d " if days else ""
    return f"T{'-' if offset < 0 else '+'}{day}{hours}:{minutes:02}"


def parse_tminus(text: str) -> int:
    """Return minutes from plating, negative before it, from "T", "T-1:02", "T-2d 5:00" or "T+15"."""
    plain = tidy(text).casefold()
    if plain == "t":
        return 0
    if not re.match(r"t ?[+-]", plain):
        raise Refusal(f"{quoted(text)} is no time from plating; write T-1:20 before it or T+0:15 after it.")
    return parse_minutes(plain[1:].lstrip())
