"""Reads a date with a time, and a time of day, as people type them."""

import re
from datetime import datetime, timedelta

from core.measures.clock import Moment, zone_named
from core.measures.number import tidy
from core.measures.refusal import Refusal, quoted

_FIRST_YEAR, _LAST_YEAR = 2000, 2199
_MONTHS = "jan feb mar apr may jun jul aug sep oct nov dec".split(" ")
_DAYS = "mon tue wed thu fri sat sun".split(" ")
_DAY_NAMES = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")
_MONTH = rf"(?P<month>{'|'.join(_MONTHS)})[a-z]*\.?,?"
_WEEKDAY = rf"(?:(?P<weekday>{'|'.join(_DAYS)})[a-z]*\.?,? )?"
_DATE_FIRST = [
    re.compile(r"(?P<year>[0-9]{4})-(?P<number>[0-9]{1,2})-(?P<day>[0-9]{1,2})(?:(?:t|,? ?(?:at )?)(?P<time>.*))?"),
    re.compile(
        rf"{_WEEKDAY}(?P<day>[0-9]{{1,2}})(?:st|nd|rd|th)? {_MONTH} (?P<year>[0-9]{{4}})(?:,? ?(?:at )?(?P<time>.*))?"
    ),
    re.compile(
        rf"{_WEEKDAY}{_MONTH} (?P<day>[0-9]{{1,2}})(?:st|nd|rd|th)?,? (?P<year>[0-9]{{4}})(?:,? ?(?:at )?(?P<time>.*))?"
    ),
]
_NUMBERS_ONLY = re.compile(r"[0-9]{1,2}[./-][0-9]{1,2}[./-][0-9]{2,4}.*")
_CLOCK = re.compile(
    r"(?P<hour>[0-9]{1,2})(?:[:.h](?P<minute>[0-9]{2}))?(?: ?h)? ?(?P<half>[ap]\.?m\.?)?(?: ?o'clock)?"
)
_FOUR_DIGITS = re.compile(r"(?P<hour>[0-9]{2})(?P<minute>[0-9]{2})(?: ?h(?:rs?|ours)?)?")
_NAMED = {"noon": 12 * 60, "midday": 12 * 60, "midnight": 0}


def parse_moment(text: str, zone: str) -> Moment:
    """Return the moment of "2026-09-26 19:30" or "Sat 26 Sep 2026, 7.30 pm" in an IANA zone.

    Raise Refusal for anything else, a wrong weekday, an unknown zone, or a year outside 2000 to 2199.
    """
    zone_named(zone)
    plain = tidy(text).casefold()
    met = next((met for pattern in _DATE_FIRST if (met := pattern.fullmatch(plain))), None)
    if met is None and _NUMBERS_ONLY.fullmatch(plain):
        raise Refusal(f"{quoted(text)}: is the day or the month first? Write it as 2026-09-26 19:30.")
    if met is None:
        raise Refusal(f"{quoted(text)} is not a date and time; write it as 2026-09-26 19:30.")
    parts = met.groupdict()
    if not parts["time"]:
        raise Refusal(f"{quoted(text)} has no time of day; write it as 2026-09-26 19:30.")
    month = int(parts.get("number") or 0) or _MONTHS.index(parts["month"] or "jan") + 1
    day = _day(text, int(parts["year"]), month, int(parts["day"]))
    weekday = parts.get("weekday")
    if weekday and _DAYS.index(weekday) != day.weekday():
        raise Refusal(f"{quoted(text)}: that day is a {_DAY_NAMES[day.weekday()]}; mend the date or the weekday.")
    return Moment(day + timedelta(minutes=parse_clock(parts["time"])), zone)


def _day(text: str, year: int, month: int, day: int) -> datetime:
    if not _FIRST_YEAR <= year <= _LAST_YEAR:
        raise Refusal(f"{quoted(text)}: the year must lie between {_FIRST_YEAR} and {_LAST_YEAR}.")
    try:
        return datetime(year, month, day)  # noqa: DTZ001 - a wall-clock date; its zone is kept beside it
    except ValueError:
        raise Refusal(f"{quoted(text)}: there is no such day; write year, month, day as 2026-09-26.") from None


def parse_clock(text: str) -> int:
    """Return the minute of the day of "16:00", "4 pm", "16.00", "1600" or "noon"; 24:00 is 1440.

    Raise Refusal for anything else, and for an hour up to 12 that says neither minutes nor am or pm.
    """
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
