"""The calendar file: an event with an alarm for every line of the run sheet, or for those before the day.

iCalendar, RFC 5545. A line's event has the same UID in every file, and each file a later SEQUENCE and DTSTAMP, so that
a second import moves the events that are there (3.8.4.7, 3.8.7.4). Times bear the plan's zone, which the file tells in
full; a local time that comes twice means its first coming (3.3.5), so an event that touches the second is told in UTC.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import UTC, datetime
from typing import Literal
from uuid import UUID, uuid5

from core.hatch.calendar_text import escaped, joined, local_form, utc_form
from core.hatch.calendar_zone import zone_lines
from core.hatch.marks import Marked, marked, plan_mark
from core.measures.clock import Now, system_now, zone_named
from core.measures.minutes import show_minutes
from core.plan.plan import Plan
from core.sheets.lines import Act, Line, RunSheet

Which = Literal["all", "ahead"]
"""Every line, or only those on the calendar days before plating's."""

MOST_LEAD = 7 * 24 * 60
_SINCE = datetime(2020, 1, 1, tzinfo=UTC)
_PROGRAM = "-//Cook-Day Planner//sheets//EN"
_WORDLESS = frozenset({Act.DO, Act.TOUCH, Act.LIGHT, Act.WASH})
_UTC_NAMES = frozenset({"UTC", "Etc/UTC", "Z", "Zulu", "Etc/UCT", "UCT", "Universal"})
_MOST_SEQUENCE = 2**31 - 1


@dataclass(frozen=True, slots=True)
class _Wish:
    """What a file is asked for: stamp (aware), minutes from a line back to its alarm."""

    plan: Plan
    now: datetime
    lead: int


def as_calendar(
    plan: Plan,
    sheet: RunSheet,
    *,
    which: Which = "all",
    lead: int = 10,
    now: Now = system_now,
    copy: RunSheet | None = None,
) -> bytes:
    """Return the file of a plan's run sheet (everybody's): UTF-8, lines ended by CR LF.

    `lead`: the alarm rings so many minutes before its line. `copy`: the sheet of one cook or station, whose lines
    alone become events, with the UIDs that they have in everybody's file. A plan with no line in question gives an
    event for serving alone, since a calendar may not be empty (3.4).
    """
    chosen = [each for each in marked(plan, sheet, copy) if which == "all" or _ahead(plan, each)]
    wish = _Wish(plan, now().astimezone(UTC).replace(microsecond=0), max(0, min(lead, MOST_LEAD)))
    lines = ["BEGIN:VCALENDAR", "VERSION:2.0", f"PRODID:{_PROGRAM}", "CALSCALE:GREGORIAN"]
    whose = "" if copy is None else copy.whose
    name = f"{sheet.name}: {whose}" if whose else sheet.name
    lines += [f"UID:{_calendar_mark(plan, which, whose)}", f"NAME:{escaped(name)}"]  # RFC 7986, 5.1 and 5.3
    if not _is_utc(plan):
        times = [plan.wall(at) for each in chosen for at in (each.line.at, each.line.at + each.line.minutes)]
        times = times or [plan.wall(0)]
        lines += zone_lines(plan.plating.zone, zone_named(plan.plating.zone), min(times), max(times))
    for each in chosen:
        lines += _event(wish, each)
    if not chosen:
        lines += _serving_alone(wish, sheet)
    return joined([*lines, "END:VCALENDAR"])


def spoken(line: Line) -> str:
    """Return a line in one: "IN Gratin: bake"; what its own verb tells goes without the act's word."""
    word = "" if line.act in _WORDLESS else f"{line.act.value} "
    if line.act is Act.SERVE:
        return f"SERVE: {line.does}"
    dish = f" ({line.dish})" if line.dish and line.dish not in line.does else ""
    return f"{word}{line.does}{dish}"


def _calendar_mark(plan: Plan, which: Which, whose: str) -> UUID:
    """Return what a calendar is known by: one with other events is another calendar (RFC 7986, 5.3)."""
    whole = plan_mark(plan)
    return whole if which == "all" and not whose else uuid5(whole, f"calendar/{which}/{whose}")


def _ahead(plan: Plan, each: Marked) -> bool:
    return each.day.day < plan.plating.local.date()


def _event(wish: _Wish, each: Marked) -> Iterator[str]:
    line = each.line
    yield "BEGIN:VEVENT"
    yield f"UID:{each.mark}"
    yield from _stamp(wish)
    yield from _times(wish.plan, line.at, line.minutes)
    yield f"SUMMARY:{escaped(spoken(line))}"
    yield f"DESCRIPTION:{escaped(_description(line))}"
    yield f"TRANSP:{'OPAQUE' if line.minutes else 'TRANSPARENT'}"
    yield from _alarm(wish.lead, spoken(line))
    yield "END:VEVENT"


def _serving_alone(wish: _Wish, sheet: RunSheet) -> Iterator[str]:
    yield "BEGIN:VEVENT"
    yield f"UID:{plan_mark(wish.plan)}"
    yield from _stamp(wish)
    yield from _times(wish.plan, 0, 0)
    yield f"SUMMARY:{escaped(f'SERVE: {sheet.name}')}"
    yield "END:VEVENT"


def _stamp(wish: _Wish) -> Iterator[str]:
    sequence = min(_MOST_SEQUENCE, max(0, int((wish.now - _SINCE).total_seconds())))
    yield f"DTSTAMP:{utc_form(wish.now)}"
    yield f"SEQUENCE:{sequence}"


def _times(plan: Plan, at: int, minutes: int) -> Iterator[str]:
    """Yield start and end; a moment has no end (3.6.1: it then ends as it starts, and no end may equal its start)."""
    begin, end = plan.wall(at), plan.wall(at + minutes)
    in_utc = _is_utc(plan) or begin.fold or end.fold
    for name, time in [("DTSTART", begin)] + ([("DTEND", end)] if minutes else []):
        yield f"{name}:{utc_form(time)}" if in_utc else f"{name};TZID={plan.plating.zone}:{local_form(time)}"


def _alarm(lead: int, words: str) -> Iterator[str]:
    """Yield an alarm that shows words; its trigger counts from the start (3.8.6.3), in hours and minutes (3.3.6)."""
    yield "BEGIN:VALARM"
    yield "ACTION:DISPLAY"
    yield f"DESCRIPTION:{escaped(words)}"
    yield f"TRIGGER:{_before(lead)}"
    yield "END:VALARM"


def _before(minutes: int) -> str:
    return "PT0S" if minutes == 0 else f"-PT{minutes}M"


def _description(line: Line) -> str:
    said = [*line.details]
    said += [f"{each.dish}: {each.plating}" if each.plating else each.dish for each in line.served]
    said += [f"allergens noted in {each.dish}: {', '.join(each.allergens)}" for each in line.served if each.allergens]
    if line.who:
        said.append(f"who: {line.who}")
    if line.minutes:
        said.append(f"hands for {show_minutes(line.minutes)}")
    return "\n".join([*said, line.tminus])


def _is_utc(plan: Plan) -> bool:
    return plan.plating.zone in _UTC_NAMES
