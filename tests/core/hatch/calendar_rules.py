"""RFC 5545 as a reader of its own: what of a calendar file breaks which rule. It shares nothing with our writer.

Sections are named beside each rule. The worked examples of the RFC show that it can fail (test_calendar_rules).
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta
from zoneinfo import ZoneInfo

DURATION = re.compile(
    r"([+-]?)P(?:(\d+)W|(?:(\d+)D)?(?:T(?:(\d+)H(?:(\d+)M(?:(\d+)S)?)?|(\d+)M(?:(\d+)S)?|(\d+)S))?)", re.ASCII
)
"""3.3.6: weeks alone; else days, then hours, minutes and seconds without one left out between two."""
LINE = re.compile(r'([A-Za-z0-9-]+)((?:;[A-Za-z0-9-]+=(?:"[^"\x00-\x1f]*"|[^;:,"\x00-\x1f]*))*):(.*)', re.DOTALL)
TEXTS = {"SUMMARY", "DESCRIPTION", "NAME", "TZNAME", "PRODID", "UID", "LOCATION", "COMMENT"}


@dataclass
class Component:
    """A component as it stands in a file: properties (name, parameters, value) in order, components inside."""

    kind: str
    properties: list[tuple[str, dict[str, str], str]] = field(default_factory=list)
    inside: list[Component] = field(default_factory=list)

    def values(self, name: str) -> list[str]:
        return [value for each, _, value in self.properties if each == name]

    def count(self, name: str) -> int:
        return len(self.values(name))

    def all_of(self, kind: str) -> Iterator[Component]:
        for each in self.inside:
            if each.kind == kind:
                yield each
            yield from each.all_of(kind)


def unfold(content: bytes) -> str:
    """Return the content with its folds taken out (3.1): CR LF and one space or tab."""
    return re.sub(rb"\r\n[ \t]", b"", content).decode()


def duration(text: str) -> int | None:
    """Return a DURATION in seconds; None where it is none (3.3.6)."""
    found = DURATION.fullmatch(text)
    if not found or text.lstrip("+-") in {"P", "PT"} or text.endswith("T"):
        return None
    sign, weeks, days, hours, minutes, seconds, minutes_2, seconds_2, seconds_3 = found.groups()
    total = int(weeks or 0) * 604_800 + int(days or 0) * 86_400 + int(hours or 0) * 3600
    total += int(minutes or minutes_2 or 0) * 60 + int(seconds or seconds_2 or seconds_3 or 0)
    return -total if sign == "-" else total


def instant(value: str, zone: str | None) -> datetime | None:
    """Return the instant of a DATE-TIME (3.3.5); None where it is none or where its zone may not stand.

    A local time that comes twice means its first coming; one that is left out is reckoned by the offset before.
    """
    found = re.fullmatch(r"(\d{8}T\d{6})(Z?)", value, re.ASCII)
    if not found or (found[2] and zone is not None):
        return None
    try:
        naive = datetime.strptime(found[1], "%Y%m%dT%H%M%S")  # noqa: DTZ007  the zone stands beside it
    except ValueError:
        return None
    if found[2]:
        return naive.replace(tzinfo=UTC)
    return naive.replace(tzinfo=ZoneInfo(zone), fold=0).astimezone(UTC) if zone else naive


def broken(content: bytes) -> list[str]:
    """Return what breaks a rule, each with its section; nothing where all is kept."""
    found = list(_octets(content))
    try:
        text = unfold(content)
        calendar, wrong = _read(text.split("\r\n")[:-1])
    except (UnicodeDecodeError, IndexError) as error:
        return [*found, f"cannot be read: {error!r}"]
    found += wrong
    if calendar is not None:
        found += _calendar(calendar)
        zones = {zone.values("TZID")[0] for zone in calendar.all_of("VTIMEZONE") if zone.count("TZID")}
        for event in calendar.all_of("VEVENT"):
            found += _event(event, zones)
        found += (each for zone in calendar.all_of("VTIMEZONE") for each in _zone(zone))
        marks = Counter(value for event in calendar.all_of("VEVENT") for value in event.values("UID"))
        found += [f"3.8.4.7 the UID {mark} stands {many} times" for mark, many in marks.items() if many > 1]
    return found


def _octets(content: bytes) -> Iterator[str]:
    if not content.endswith(b"\r\n"):
        yield "3.1 the last line has no CR LF"
    for bare in (b"\n", b"\r"):
        if bare in content.replace(b"\r\n", b""):
            yield f"3.1 {bare!r} stands alone"
    for piece in content.split(b"\r\n"):
        if len(piece) > 75:
            yield f"3.1 {len(piece)} octets in a line"
        try:
            piece.decode()
        except UnicodeDecodeError:
            yield "3.1 a character is cut in two"
        if re.search(rb"[\x00-\x08\x0a-\x1f\x7f]", piece):
            yield "3.1 a control character"


def _read(lines: list[str]) -> tuple[Component | None, list[str]]:
    wrong: list[str] = []
    root = Component("")
    open_ones = [root]
    for line in lines:
        match = LINE.fullmatch(line)
        if not match:
            wrong.append(f"3.1 no content line: {line[:40]!r}")
            continue
        name, value = match[1].upper(), match[3]
        told = dict(each.split("=", 1) for each in re.findall(r';([A-Za-z0-9-]+=(?:"[^"]*"|[^;:,"]*))', match[2]))
        if name == "BEGIN":
            each = Component(value.upper())
            open_ones[-1].inside.append(each)
            open_ones.append(each)
        elif name == "END":
            if open_ones.pop().kind != value.upper():
                wrong.append(f"3.4 {value} ends what it has not begun")
        else:
            open_ones[-1].properties.append((name, told, value))
            if name in TEXTS and re.search(r"(?<!\\)(?:\\\\)*(?:[;,]|\\[^\\;,nN]|\\$)", value):
                wrong.append(f"3.3.11 {name} is not escaped: {value[:40]!r}")
    if len(open_ones) != 1 or root.properties or [each.kind for each in root.inside] != ["VCALENDAR"]:
        wrong.append("3.4 it is not one whole VCALENDAR")
    return (root.inside[0] if root.inside else None), wrong


def _calendar(calendar: Component) -> Iterator[str]:
    for name in ("PRODID", "VERSION"):
        if calendar.count(name) != 1:
            yield f"3.6 {name} stands {calendar.count(name)} times"
    if calendar.values("VERSION") != ["2.0"]:
        yield "3.7.4 the version is not 2.0"
    if not calendar.inside:
        yield "3.6 no component"
    for each in calendar.inside:
        if each.kind == "VALARM":
            yield "3.6.6 an alarm stands outside of an event"


def _event(event: Component, zones: set[str]) -> Iterator[str]:
    for name in ("UID", "DTSTAMP", "DTSTART"):
        if event.count(name) != 1:
            yield f"3.6.1 {name} stands {event.count(name)} times"
    if event.count("SEQUENCE") > 1 or not all(re.fullmatch(r"\d{1,10}", each) for each in event.values("SEQUENCE")):
        yield "3.8.7.4 the sequence is no number"
    if not all(each.endswith("Z") and instant(each, None) for each in event.values("DTSTAMP")):
        yield "3.8.7.2 the stamp is not in UTC"
    if event.count("DTEND") + event.count("DURATION") > 1:
        yield "3.6.1 DTEND and DURATION, or one of them twice"
    times = {}
    for name, told, value in event.properties:
        if name in {"DTSTART", "DTEND"}:
            zone = told.get("TZID")
            times[name] = (at := instant(value, zone)), value.endswith("Z"), zone
            if at is None:
                yield f"3.3.5 {name} is no time: {value}"
            if zone is not None and zone not in zones:
                yield f"3.2.19 {zone} is not told"
            if at is not None and zone is not None and _left_out(value, zone):
                yield f"3.3.5 {value} is left out in {zone}"
    yield from _end_after_start(times)
    for alarm in event.inside:
        yield from _alarm(alarm, event)


def _left_out(value: str, zone: str) -> bool:
    at = instant(value, zone)
    return at is not None and f"{at.astimezone(ZoneInfo(zone)):%Y%m%dT%H%M%S}" != value


def _end_after_start(times: dict[str, tuple[datetime | None, bool, str | None]]) -> Iterator[str]:
    if set(times) == {"DTSTART", "DTEND"}:
        (start, _, _), (end, _, _) = times["DTSTART"], times["DTEND"]
        if start is not None and end is not None:
            if (start.tzinfo is None) != (end.tzinfo is None):
                yield "3.8.2.2 start and end are of different kinds"
            elif end <= start:
                yield "3.8.2.2 the end is not later than the start"


def _alarm(alarm: Component, event: Component) -> Iterator[str]:
    if alarm.kind != "VALARM":
        yield f"3.6.1 {alarm.kind} inside an event"
        return
    for name in ("ACTION", "TRIGGER"):
        if alarm.count(name) != 1:
            yield f"3.6.6 {name} stands {alarm.count(name)} times"
    if alarm.values("ACTION") == ["DISPLAY"] and alarm.count("DESCRIPTION") != 1:
        yield "3.6.6 what is shown has no description"
    if alarm.count("DURATION") != alarm.count("REPEAT"):
        yield "3.6.6 DURATION and REPEAT: both or neither"
    for name, told, value in alarm.properties:
        if name == "TRIGGER" and told.get("VALUE", "DURATION") == "DATE-TIME":
            if not value.endswith("Z") or instant(value, None) is None:
                yield "3.8.6.3 an absolute trigger is in UTC"
        elif name == "TRIGGER":
            if duration(value) is None:
                yield f"3.3.6 no duration: {value}"
            if told.get("RELATED") == "END" and not event.count("DTEND") and not event.count("DURATION"):
                yield "3.8.6.3 the trigger is of an end that is not told"


def _zone(zone: Component) -> Iterator[str]:
    if zone.count("TZID") != 1:
        yield "3.6.5 TZID once"
    if not any(each.kind in {"STANDARD", "DAYLIGHT"} for each in zone.inside):
        yield "3.6.5 neither STANDARD nor DAYLIGHT"
    for each in zone.inside:
        for name in ("DTSTART", "TZOFFSETFROM", "TZOFFSETTO"):
            if each.count(name) != 1:
                yield f"3.6.5 {name} stands {each.count(name)} times"
        if any(value.endswith("Z") or told or instant(value, None) is None
               for name, told, value in each.properties if name == "DTSTART"):  # fmt: skip
            yield "3.6.5 an observance begins by local time"
        gaps = each.values("TZOFFSETFROM") + each.values("TZOFFSETTO")
        if not all(re.fullmatch(r"[+-]\d{4}(\d\d)?", gap) and not re.fullmatch(r"-0+", gap) for gap in gaps):
            yield "3.3.14 no UTC offset"


def gap_of(offset: str) -> timedelta:
    """Return a UTC-OFFSET as a length."""
    hours, minutes = int(offset[1:3]), int(offset[3:5])
    return (-1 if offset[0] == "-" else 1) * timedelta(hours=hours, minutes=minutes, seconds=int(offset[5:7] or 0))
