"""Wall-clock time and offsets from a moment, in UTC arithmetic: minutes stay true across clock changes."""

import difflib
import zoneinfo
from collections.abc import Callable
from dataclasses import dataclass
from datetime import UTC, datetime, time, timedelta
from functools import cache

from core.measures.refusal import Refusal, quoted
from core.measures.typed_clock import read_clock, read_moment

Now = Callable[[], datetime]
"""What tells the present instant, aware: system_now, or a fixed one in tests."""

_MINUTE = timedelta(minutes=1)


@dataclass(frozen=True, slots=True)
class Moment:
    """Hold a local wall-clock time (naive, whole minutes) with its IANA zone.

    A repeated local time is its first occurrence, a missing one takes the offset before the gap
    (RFC 5545 3.3.5).
    """

    local: datetime
    zone: str

    def utc(self) -> datetime:
        """Return the instant, aware in UTC; raise Refusal for a zone that is not known."""
        return self.local.replace(tzinfo=zone_named(self.zone), fold=0).astimezone(UTC)


@cache
def zone_named(name: str) -> zoneinfo.ZoneInfo:
    """Return the time zone of an IANA name; refuse an unknown one."""
    try:
        return zoneinfo.ZoneInfo(name)
    except (zoneinfo.ZoneInfoNotFoundError, ValueError, OSError):
        known = {key.casefold(): key for key in sorted(zoneinfo.available_timezones())}
        typed = name.casefold().replace(" ", "_")
        near = [key for key in known if key.endswith(f"/{typed}")] if typed else []
        near = near or difflib.get_close_matches(typed, known, 1, 0.75)
        mend = f"did you mean {known[near[0]]}?" if near else "write one such as Europe/London."
        raise Refusal(f"{quoted(name)} is not a time zone known here; {mend}") from None


def system_now() -> datetime:
    """Return the present instant, aware in UTC."""
    return datetime.now(UTC)


def wall(moment: Moment, offset: int) -> datetime:
    """Return the aware wall-clock time, in the moment's zone, of so many minutes after it."""
    return (moment.utc() + offset * _MINUTE).astimezone(zone_named(moment.zone))


def offset_of(moment: Moment, local: datetime) -> int:
    """Return the minutes from a moment to a naive local time in its zone, by the rules of Moment."""
    if local.tzinfo is not None:
        raise ValueError("offset_of takes a naive local time; offset_at takes an aware one")
    return offset_at(moment, Moment(local, moment.zone).utc())


def offset_at(moment: Moment, instant: datetime) -> int:
    """Return the minutes from a moment to an aware instant; seconds begun do not count."""
    return (instant.astimezone(UTC) - moment.utc()) // _MINUTE


def at_clock(moment: Moment, days_before: int, minute_of_day: int) -> int:
    """Return the offset of a clock minute on the calendar day so many days before the moment's.

    Negative days come after it. Minute 1440 and more run on into the days that follow.
    """
    midnight = datetime.combine(moment.local.date() - timedelta(days=days_before), time.min)
    return offset_of(moment, midnight + minute_of_day * _MINUTE)


def days_before(moment: Moment, offset: int) -> int:
    """Return how many calendar days before the moment's own an offset falls; negative after it."""
    return (moment.local.date() - wall(moment, offset).date()).days


def show_dminus(days: int) -> str:
    """Return days before as "D-2", "D" or "D+1"."""
    return f"D{-days:+}" if days else "D"


def parse_moment(text: str, zone: str) -> Moment:
    """Return the moment of "2026-09-26 19:30" or "Sat 26 Sep 2026, 7.30 pm" in an IANA zone.

    Raise Refusal for anything else, a wrong weekday, an unknown zone, or a year outside 2000 to 2199.
    """
    zone_named(zone)
    return Moment(read_moment(text), zone)


def parse_clock(text: str) -> int:
    """Return the minute of the day of "16:00", "4 pm", "16.00", "1600" or "noon"; 24:00 is 1440.

    Raise Refusal for anything else, and for an hour up to 12 that says neither minutes nor am or pm.
    """
    return read_clock(text)


def show_clock(at: datetime, *, twelve_hour: bool = False) -> str:
    """Return "19:30", or "7:30 pm"."""
    if not twelve_hour:
        return f"{at.hour:02}:{at.minute:02}"
    return f"{at.hour % 12 or 12}:{at.minute:02} {'am' if at.hour < 12 else 'pm'}"
