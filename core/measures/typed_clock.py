"""Reads a date with a time, and a time of day, as people type them. The public door is clock.py."""

import re
from datetime import datetime, timedelta

from core.measures.number import tidy
from core.measures.refusal import Refusal, quoted

_FIRST_YEAR, _LAST_YEAR = 2000, 2199
_MONTHS = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")
_DAY_NAMES = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")
_DAYS = tuple(name[:3].casefold() for name in _DAY_NAMES)
_YEAR = r"(?P<year>[0-9]{4})"
_MONTH = rf"(?P<month>{'|'.join(_MONTHS)})[a-z]*\.?,?"
_DAY = r"(?P<day>[0-9]{1,2})(?:st|nd|rd|th)?"
_WEEKDAY = rf"(?:(?P<weekday>{'|'.join(_DAYS)})[a-z]*\.?,? )?"
_TIME = r"(?:,? ?(?:at )?(?P<time>.*))?"
_DATE_FIRST = (
    re.compile(rf"{_YEAR}-(?P<number>[0-9]{{1,2}})-{_DAY}t?{_TIME}"),
    re.compile(rf"{_WEEKDAY}{_DAY} {_MONTH} {_YEAR}{_TIME}"),
    re.compile(rf"{_WEEKDAY}{_MONTH} {_DAY},? {_YEAR}{_TIME}"),
)
_NO_SECONDS = re.compile(r"(:[0-9]{2}):00$")
_NUMBERS_ONLY = re.compile(r"[0-9]{1,2}[./-][0-9]{1,2}[./-][0-9]{2,4}.*")
_CLOCK = re.compile(
    r"(?P<hour>[0-9]{1,2})(?:[:.h](?P<minute>[0-9]{2}))?(?: ?h)? ?(?P<half>[ap]\.?m\.?)?(?: ?o'clock)?"
)
_FOUR_DIGITS = re.compile(r"(?P<hour>[0-9]{2})(?P<minute>[0-9]{2})(?: ?h(?:rs?|ours)?)?")
_NAMED = {"noon": 12 * 60, "midday": 12 * 60, "midnight": 0}


def read_moment(text: str) -> datetime:
    """Return the naive local time of a date and a time of day, see parse_moment."""
    plain = _NO_SECONDS.sub(r"\1", tidy(text).casefold())
    met = next((met for pattern in _DATE_FIRST if (met := pattern.fullmatch(plain))), None)
    if met is None and _NUMBERS_ONLY.fullmatch(plain):
        raise Refusal(f"{quoted(text)}: is the day or the month first? Write it as 2026-09-26 19:30.")
    if met is None:
        raise Refusal(f"{quoted(text)} is not a date and time; write it as 2026-09-26 19:30.")
    parts = met.groupdict()
    if not parts["time"]:
        raise Refusal(f"{quoted(text)} has no time of day; write it as 2026-09-26 19:30.")
    month = int(parts["number"]) if "number" in parts else _MONTHS.index(parts["month"]) + 1
    day = _day(text, int(parts["year"]), month, int(parts["day"]))
    weekday = parts.get("weekday")
    if weekday and _DAYS.index(weekday) != day.weekday():
        raise Refusal(f"{quoted(text)}: that day is a {_DAY_NAMES[day.weekday()]}; mend date or weekday.")
    return day + timedelta(minutes=read_clock(parts["time"]))


def _day(text: str, year: int, month: int, day: int) -> datetime:
    if not _FIRST_YEAR <= year <= _LAST_YEAR:
        raise Refusal(f"{quoted(text)}: the year must lie between {_FIRST_YEAR} and {_LAST_YEAR}.")
    try:
        return datetime(year, month, day)
    except ValueError:
        raise Refusal(
            f"{quoted(text)}: there is no such day; write year, month, day as 2026-09-26."
        ) from None


def read_clock(text: str) -> int:
    """Return the minute of the day of a time of day, see parse_clock."""
    plain = tidy(text).casefold()
    if plain in _NAMED:
        return _NAMED[plain]
    met = _FOUR_DIGITS.fullmatch(plain) or _CLOCK.fullmatch(plain)
    if met is None:
        raise Refusal(f"{quoted(text)} is not a time of day; write it as 16:00 or 4 pm.")
    parts = met.groupdict()
    hour, minute, half = int(parts["hour"]), int(parts["minute"] or 0), (parts.get("half") or "")[:1]
    if half and not 1 <= hour <= 12:
        raise Refusal(f"{quoted(text)}: with {half}m the hour goes from 1 to 12; write 16:00 or 4 pm.")
    if not half and parts["minute"] is None and hour <= 12:
        raise Refusal(f"{quoted(text)} could be morning or evening; write {_either(hour)}.")
    if hour > 24 or minute > 59 or (hour == 24 and minute):
        raise Refusal(f"{quoted(text)} is not a time of day; hours go to 23 and minutes to 59, as in 16:00.")
    if half:
        hour = hour % 12 + (12 if half == "p" else 0)
    return hour * 60 + minute


def _either(hour: int) -> str:
    return f"{hour:02}:00 or {(hour + 12) % 24:02}:00"
