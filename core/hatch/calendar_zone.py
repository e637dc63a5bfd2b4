"""A time zone told in full inside the calendar file (VTIMEZONE, RFC 5545, section 3.6.5).

Only what the file's own times need: each change of the clock from the last one before them to the first one after.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import UTC, datetime, timedelta, tzinfo

from core.hatch.calendar_text import escaped, local_form, offset_of_seconds

_AROUND = timedelta(days=400)
"""Clocks that change do so every year; farther away the file's times meet no change."""
_STRIDE = timedelta(days=1)
_ALWAYS = "19700101T000000"


def zone_lines(name: str, zone: tzinfo, first: datetime, last: datetime) -> Iterator[str]:
    """Yield the lines of a zone that hold for all times from `first` to `last` (aware)."""
    begin, end = first.astimezone(UTC) - _AROUND, last.astimezone(UTC) + _AROUND
    changes = list(_changes(zone, begin, end))
    earlier = [each for each in changes if each <= first.astimezone(UTC)]
    later = [each for each in changes if first.astimezone(UTC) < each]
    yield "BEGIN:VTIMEZONE"
    yield f"TZID:{name}"
    if not earlier:
        yield from _since_always(begin.astimezone(zone))
    for change in [*earlier[-1:], *later]:
        yield from _observance(change, zone)
        if change > last.astimezone(UTC):
            break
    yield "END:VTIMEZONE"


def _since_always(at: datetime) -> Iterator[str]:
    gap = offset_of_seconds(_seconds(at))
    kind = _kind(at)
    yield f"BEGIN:{kind}"
    yield f"DTSTART:{_ALWAYS}"
    yield f"TZOFFSETFROM:{gap}"
    yield f"TZOFFSETTO:{gap}"
    yield f"TZNAME:{escaped(at.tzname() or gap)}"
    yield f"END:{kind}"


def _observance(change: datetime, zone: tzinfo) -> Iterator[str]:
    """Yield what holds from a change on; it begins by the clock that held before it (3.6.5)."""
    before, after = (change - timedelta(seconds=1)).astimezone(zone), change.astimezone(zone)
    old, new = _seconds(before), _seconds(after)
    kind = _kind(after)
    yield f"BEGIN:{kind}"
    yield f"DTSTART:{local_form(change + timedelta(seconds=old))}"
    yield f"TZOFFSETFROM:{offset_of_seconds(old)}"
    yield f"TZOFFSETTO:{offset_of_seconds(new)}"
    yield f"TZNAME:{escaped(after.tzname() or offset_of_seconds(new))}"
    yield f"END:{kind}"


def _kind(at: datetime) -> str:
    """Return what a stretch is called; a zone that calls its winter the exception has none of the second kind."""
    return "DAYLIGHT" if (at.dst() or timedelta(0)) > timedelta(0) else "STANDARD"


def _changes(zone: tzinfo, begin: datetime, end: datetime) -> Iterator[datetime]:
    """Yield the instants (UTC) at which the zone's clock is put on or back, found to the second."""
    at = begin
    while at < end:
        ahead = at + _STRIDE
        if _key(at, zone) != _key(ahead, zone):
            yield _narrowed(zone, at, ahead)
        at = ahead


def _narrowed(zone: tzinfo, low: datetime, high: datetime) -> datetime:
    old = _key(low, zone)
    while high - low > timedelta(seconds=1):
        middle = (low + (high - low) / 2).replace(microsecond=0)
        low, high = (middle, high) if _key(middle, zone) == old else (low, middle)
    return high


def _key(at: datetime, zone: tzinfo) -> int:
    return _seconds(at.astimezone(zone))


def _seconds(at: datetime) -> int:
    gap = at.utcoffset()
    return 0 if gap is None else int(gap.total_seconds())
