"""The calendar file: line by line by the rules of RFC 5545, and read back by a parser that had no part in it."""

from __future__ import annotations

import re
from collections import Counter
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from typing import Any

import pytest
from icalendar import Calendar

from core.hatch.calendar_file import as_calendar, spoken
from core.hatch.marks import marked
from core.measures.clock import Moment
from core.sheets.lines import BEGINS, Act
from core.sheets.run_sheet import run_sheet
from core.timetable.on_paper import on_paper
from core.timetable.timetable import Timetable
from tests.core.hatch.handed import ALL, CHANGES, of
from tests.core.sheets.reading import on_the_wall
from tests.support.builders import a_bench, a_step
from tests.support.hostile import HOSTILE, hostile_plan

NOW = datetime(2026, 9, 1, 10, 20, 30, tzinfo=UTC)


def made(name: str, **wishes: Any) -> bytes:
    plan, _timetable, sheet = of(name)
    return as_calendar(plan, sheet, now=lambda: NOW, **wishes)


def unfolded(content: bytes) -> list[str]:
    return re.sub(r"\r\n[ \t]", "", content.decode()).split("\r\n")[:-1]


def events(content: bytes) -> list[Any]:
    return Calendar.from_ical(content).walk("VEVENT")


@pytest.mark.parametrize("name", ALL)
def test_every_line_of_the_file_keeps_the_rules(name: str) -> None:
    content = made(name)
    # 3.1: CR LF ends every line, and neither stands alone; at most 75 octets without it
    assert content.endswith(b"\r\n")
    assert b"\n" not in content.replace(b"\r\n", b"")
    assert b"\r" not in content.replace(b"\r\n", b"")
    assert max(map(len, content.split(b"\r\n"))) <= 75
    lines = unfolded(content)
    # 3.1: name *(";" param) ":" value
    assert all(re.fullmatch(r"[A-Z-]+(;[A-Z]+=[^;:,\"]+)*:.*", line) for line in lines)
    # 3.4, 3.6
    assert lines[0] == "BEGIN:VCALENDAR"
    assert lines[-1] == "END:VCALENDAR"
    assert lines.count("VERSION:2.0") == 1
    assert sum(line.startswith("PRODID:") for line in lines) == 1
    assert nested(lines)


def nested(lines: list[str]) -> bool:
    """Tell whether components close in the order in which they opened, and alarms stand in events only (3.6.6)."""
    inside: list[str] = []
    for line in lines:
        word, _, what = line.partition(":")
        if word == "BEGIN":
            assert what != "VALARM" or inside[-1] == "VEVENT"
            inside.append(what)
        elif word == "END":
            assert inside.pop() == what
    return not inside


@pytest.mark.parametrize("name", ALL)
def test_each_event_has_what_it_must_once(name: str) -> None:
    lines, event = unfolded(made(name)), None
    for line in lines:
        if line == "BEGIN:VEVENT":
            event = []
        elif line == "END:VEVENT":
            assert event is not None
            names = Counter(re.split("[;:]", each, maxsplit=1)[0] for each in event)
            assert all(names[one] == 1 for one in ("UID", "DTSTAMP", "DTSTART", "SUMMARY", "SEQUENCE"))
            assert names["DTEND"] <= 1
            assert not names["DURATION"]  # 3.6.1: never both; here never a duration
            event = None
        elif event is not None:
            event.append(line)
    starts = [line for line in lines if line.startswith(("DTSTART", "DTEND")) and "TZID" in line]
    # 3.3.5: with TZID no UTC; 3.2.19: each TZID has its VTIMEZONE
    assert not any(line.endswith("Z") for line in starts)
    zones = {match[1] for line in starts if (match := re.search("TZID=([^:;]+)", line))}
    assert zones <= {line.removeprefix("TZID:") for line in lines if line.startswith("TZID:")}
    plan = of(name)[0]
    assert zones <= {plan.plating.zone}


@pytest.mark.parametrize("name", ALL)
def test_a_parser_reads_every_line_back_at_its_instant(name: str) -> None:
    plan, _timetable, sheet = of(name)
    found = {str(event["UID"]): event for event in events(made(name))}
    expected = marked(plan, sheet)
    assert len(found) == len(expected) == len({each.mark for each in expected})
    for each in expected:
        event, at = found[str(each.mark)], on_the_wall(plan, each.line.at)
        assert event.decoded("DTSTART").astimezone(UTC) == at.astimezone(UTC), each.line.does
        if each.line.minutes:
            end = at.astimezone(UTC) + timedelta(minutes=each.line.minutes)
            assert event.decoded("DTEND").astimezone(UTC) == end
            assert end > at.astimezone(UTC)  # 3.8.2.2
        else:
            assert "DTEND" not in event
        assert str(event["SUMMARY"]) == spoken(each.line)
        for detail in each.line.details:
            assert detail in str(event["DESCRIPTION"])


@pytest.mark.parametrize("name", ALL)
def test_every_load_begins_in_exactly_one_event(name: str) -> None:
    _plan, timetable, sheet = of(name)
    begun = Counter(
        (line.step, line.load, line.at) for day in sheet.days for line in day.lines if line.act in BEGINS and line.step
    )
    assert begun == Counter((each.step, each.load, each.start) for each in timetable.placed)
    assert len(events(made(name))) == sum(len(day.lines) for day in sheet.days)


@pytest.mark.parametrize("name", CHANGES)
def test_the_zone_in_the_file_says_what_the_world_says(name: str) -> None:
    # the parser makes the zone from the file's own VTIMEZONE, not from the one that it knows by the same name
    plan, _timetable, sheet = of(name)
    told = Calendar.from_ical(made(name)).walk("VTIMEZONE")
    if plan.plating.zone == "UTC":
        assert not told
        return
    zone = told[0].to_tz(lookup_tzid=False)
    for day in sheet.days:
        for line in day.lines:
            true = on_the_wall(plan, line.at)
            if true.fold:
                continue  # told in UTC
            there = true.replace(tzinfo=zone, fold=0)
            assert there.utcoffset() == true.utcoffset(), f"{true} {there.utcoffset()}"


def test_a_time_that_comes_twice_is_told_in_utc_the_second_time() -> None:
    lines = [line for line in unfolded(made("back in London")) if line.startswith("DTSTART") and "2026" in line]
    assert "DTSTART;TZID=Europe/London:20261025T012000" in lines  # the first 01:20, BST
    assert "DTSTART:20261025T012000Z" in lines  # the second, GMT
    assert len(lines) == len(set(lines))


def test_the_clock_is_put_on_where_the_standard_says() -> None:
    # the zone's own change: 29 March 2026, 01:00 GMT becomes 02:00 BST
    lines = unfolded(made("forward in London"))
    at = lines.index("DTSTART:20260329T010000")
    assert lines[at - 1 : at + 3] == [
        "BEGIN:DAYLIGHT", "DTSTART:20260329T010000", "TZOFFSETFROM:+0000", "TZOFFSETTO:+0100",
    ]  # fmt: skip


def test_a_second_file_moves_what_is_there() -> None:
    plan, _timetable, sheet = of("harvest")
    first = events(as_calendar(plan, sheet, now=lambda: NOW))
    later = replace(plan, plating=Moment(plan.plating.local + timedelta(hours=1), plan.plating.zone))
    dishes = tuple(replace(dish, name=dish.name.upper()) for dish in later.menu.dishes)
    later = replace(later, menu=replace(later.menu, dishes=dishes))
    timetable = of("harvest")[1]
    second = events(as_calendar(later, run_sheet(later, timetable), now=lambda: NOW + timedelta(seconds=1)))
    assert {str(each["UID"]) for each in first} == {str(each["UID"]) for each in second}
    moved = {str(each["UID"]): each for each in second}
    for each in first:
        other = moved[str(each["UID"])]
        assert other.decoded("DTSTART") - each.decoded("DTSTART") == timedelta(hours=1)
        assert other["SEQUENCE"] > each["SEQUENCE"]
        assert other.decoded("DTSTAMP") > each.decoded("DTSTAMP")


def test_two_plans_share_no_event() -> None:
    plan, _timetable, sheet = of("harvest")
    other = replace(plan, name="Another feast")
    assert not {each.mark for each in marked(plan, sheet)} & {each.mark for each in marked(other, sheet)}


def test_ahead_holds_the_days_before_and_no_more() -> None:
    plan, _timetable, sheet = of("harvest")
    wanted = [
        each for each in marked(plan, sheet) if on_the_wall(plan, each.line.at).date() < plan.plating.local.date()
    ]
    found = events(made("harvest", which="ahead"))
    assert {str(each["UID"]) for each in found} == {str(each.mark) for each in wanted}
    assert 0 < len(wanted) < sum(len(day.lines) for day in sheet.days)


@pytest.mark.parametrize("lead", [0, 10, 90, 1440])
def test_each_line_rings_so_long_before(lead: int) -> None:
    for event in events(made("hall", lead=lead)):
        [alarm] = event.walk("VALARM")
        assert str(alarm["ACTION"]) == "DISPLAY"
        assert str(alarm["DESCRIPTION"]) == str(event["SUMMARY"])
        assert alarm.decoded("TRIGGER") == -timedelta(minutes=lead)
    # 3.3.6: hours and minutes stand together, no months; here minutes alone
    triggers = {line for line in unfolded(made("hall", lead=lead)) if line.startswith("TRIGGER")}
    assert all(re.fullmatch(r"TRIGGER:(PT0S|-PT\d+M)", each) for each in triggers)


def test_hands_are_busy_and_what_cooks_alone_leaves_the_cook_free() -> None:
    plan, _timetable, sheet = of("harvest")
    found = {str(event["UID"]): event for event in events(made("harvest"))}
    kinds = {str(found[str(each.mark)]["TRANSP"]) == "OPAQUE" for each in marked(plan, sheet) if each.line.minutes}
    assert kinds == {True}
    free = [each for each in marked(plan, sheet) if not each.line.minutes]
    assert free
    assert all(str(found[str(each.mark)]["TRANSP"]) == "TRANSPARENT" for each in free)


def test_a_plan_without_a_line_gives_its_serving_alone() -> None:
    # 3.4: a calendar holds at least one component
    plan = a_bench(a_step("soup.boil"))
    [event] = events(as_calendar(plan, run_sheet(plan, Timetable()), now=lambda: NOW))
    assert str(event["SUMMARY"]) == "SERVE: Feast"
    assert event.decoded("DTSTART").astimezone(UTC) == on_the_wall(plan, 0).astimezone(UTC)


@pytest.mark.parametrize("kind", HOSTILE)
def test_hostile_words_come_out_as_words(kind: str) -> None:
    plan = hostile_plan(HOSTILE[kind])
    sheet = run_sheet(plan, on_paper(plan))
    content = as_calendar(plan, sheet, now=lambda: NOW)
    lines = unfolded(content)
    assert nested(lines)
    assert max(map(len, content.split(b"\r\n"))) <= 75
    # no word has made a line of its own
    heads = {re.split("[;:]", line, maxsplit=1)[0] for line in lines}
    assert heads <= {
        "BEGIN", "END", "VERSION", "PRODID", "CALSCALE", "UID", "NAME", "TZID", "DTSTART", "TZOFFSETFROM",
        "TZOFFSETTO", "TZNAME", "DTSTAMP", "SEQUENCE", "DTEND", "SUMMARY", "DESCRIPTION", "TRANSP", "ACTION", "TRIGGER",
    }  # fmt: skip
    found = {str(event["UID"]): event for event in events(content)}
    for each in marked(plan, sheet):
        assert str(found[str(each.mark)]["SUMMARY"]) == spoken(each.line)
    assert sum(each.line.act is Act.DO for each in marked(plan, sheet)) == 2
