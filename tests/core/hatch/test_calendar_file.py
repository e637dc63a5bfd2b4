"""The calendar file: line by line by the rules of RFC 5545, and read back by a parser that had no part in it."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from functools import cache
from itertools import combinations
from typing import Any

import pytest
from icalendar import Calendar

from core.hatch.calendar_file import as_calendar, spoken
from core.hatch.marks import marked, plan_mark
from core.measures.clock import Moment
from core.plan.edits import RenamePlan
from core.sheets.lines import BEGINS, Act
from core.sheets.run_sheet import run_sheet
from core.sheets.whose import whose
from core.timetable.on_paper import on_paper
from core.timetable.timetable import Timetable
from tests.core.hatch.calendar_rules import broken, unfold
from tests.core.hatch.handed import ALL, CHANGES, WORDS, of
from tests.core.sheets.reading import on_the_wall
from tests.support.builders import a_bench, a_step
from tests.support.hostile import hostile_plan

NOW = datetime(2026, 9, 1, 10, 20, 30, tzinfo=UTC)


@cache
def made(name: str, **wishes: Any) -> bytes:
    """Return a plan's file; each is made once for all tests."""
    plan, _timetable, sheet = of(name)
    return as_calendar(plan, sheet, now=lambda: NOW, **wishes)


@cache
def events_of(name: str, **wishes: Any) -> list[Any]:
    """Return the events of a plan's file as another parser reads them; each file is read once for all tests."""
    return events(made(name, **wishes))


def unfolded(content: bytes) -> list[str]:
    return unfold(content).split("\r\n")[:-1]


def events(content: bytes) -> list[Any]:
    return Calendar.from_ical(content).walk("VEVENT")


@pytest.mark.parametrize("name", ALL)
def test_every_line_of_the_file_keeps_the_rules(name: str) -> None:
    # every line of the design's list (its part 9b), by a reader that had no part in writing it
    assert broken(made(name)) == []
    lines = unfolded(made(name))
    sheet = of(name)[2]
    assert lines.count("BEGIN:VEVENT") == lines.count("BEGIN:VALARM") == sum(len(day.lines) for day in sheet.days)
    zones = {line.partition("=")[2].partition(":")[0] for line in lines if line.startswith(("DTSTART;", "DTEND;"))}
    assert zones <= {of(name)[0].plating.zone}
    assert not any(line.startswith(("DURATION", "REPEAT", "METHOD", "ATTACH", "URL")) for line in lines)


@pytest.mark.parametrize("name", ALL)
def test_a_parser_reads_every_line_back_at_its_instant(name: str) -> None:
    plan, _timetable, sheet = of(name)
    found = {str(event["UID"]): event for event in events_of(name)}
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
    assert len(events_of(name)) == sum(len(day.lines) for day in sheet.days)


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


MARK = "0f6ae3b2-6a0e-4f0c-9a55-2f1d5c3b7e10"


def uids(found: Iterable[Any]) -> dict[str, Any]:
    return {str(each["UID"]): each for each in found}


def test_a_second_file_moves_what_is_there_though_the_plan_has_another_name_and_hour() -> None:
    plan, timetable, _sheet = of("harvest")
    plan = replace(plan, mark=MARK)
    first = uids(events(as_calendar(plan, run_sheet(plan, timetable), now=lambda: NOW)))
    later = replace(plan, plating=Moment(plan.plating.local + timedelta(hours=1), plan.plating.zone))
    dishes = tuple(replace(dish, name=dish.name.upper()) for dish in later.menu.dishes)
    later = RenamePlan("Supper at last")(replace(later, menu=replace(later.menu, dishes=dishes)))
    content = as_calendar(later, run_sheet(later, timetable), now=lambda: NOW + timedelta(seconds=1))
    second = uids(events(content))
    assert first.keys() == second.keys()
    for mark, each in first.items():
        other = second[mark]
        assert other.decoded("DTSTART") - each.decoded("DTSTART") == timedelta(hours=1)
        assert other["SEQUENCE"] > each["SEQUENCE"]
        assert other.decoded("DTSTAMP") > each.decoded("DTSTAMP")
    assert "NAME:Supper at last" in unfolded(content)
    # the calendar itself is the same too (RFC 7986, 5.3)
    assert unfolded(content)[4] == f"UID:{plan_mark(plan)}" == f"UID:{plan_mark(later)}"


def test_a_day_arranged_anew_moves_the_events_of_the_same_lines() -> None:
    plan, timetable, _sheet = of("harvest")
    plan = replace(plan, mark=MARK)
    other = on_paper(plan)
    assert other.placed != timetable.placed
    by_line = []
    for each in (timetable, other):
        sheet = run_sheet(plan, each)
        found = uids(events(as_calendar(plan, sheet, now=lambda: NOW)))
        assert len(found) == sum(len(day.lines) for day in sheet.days)
        by_line.append({(one.line.step, one.line.load): found[str(one.mark)] for one in marked(plan, sheet)
                        if one.line.begins})  # fmt: skip
    before, after = by_line
    assert before.keys() == after.keys()
    same = {load for load in before if before[load]["UID"] == after[load]["UID"]}
    moved = {load for load in same if before[load].decoded("DTSTART") != after[load].decoded("DTSTART")}
    # a load keeps its event unless another act begins it ("IN" in the fridge, now "START" on the worktop)
    acts = [
        {(one.line.step, one.line.load): one.line.act for one in marked(plan, run_sheet(plan, each)) if one.line.begins}
        for each in (timetable, other)
    ]
    assert same == {load for load in before if acts[0][load] is acts[1][load]}
    assert len(same) > 80
    assert len(moved) > 40


def test_two_plans_of_one_name_share_no_event_and_a_plan_without_a_mark_goes_by_its_name() -> None:
    plan, _timetable, sheet = of("harvest")
    found = [{each.mark for each in marked(replace(plan, mark=mark), sheet)} for mark in ("", MARK, MARK[:-1] + "1")]
    assert not any(one & other for one, other in combinations(found, 2))
    renamed = {each.mark for each in marked(replace(plan, name="Another feast"), sheet)}
    assert not renamed & found[0]
    assert {each.mark for each in marked(replace(plan, name=f" {plan.name.upper()}"), sheet)} == found[0]
    assert plan_mark(replace(plan, mark=MARK)) == plan_mark(replace(plan, mark=MARK, name=""))


@pytest.mark.parametrize("name", ["Head cook", "able helper", "novice", "oven", "Charcoal grill, 57 cm", "burners"])
def test_a_copy_has_the_lines_of_one_with_the_uids_that_they_have_in_everybodys(name: str) -> None:
    plan, timetable, sheet = of("harvest")
    of_one = whose(plan, name)
    copy = run_sheet(plan, timetable, (), of=of_one, found=())
    content = as_calendar(plan, sheet, now=lambda: NOW, copy=copy)
    assert broken(content) == []
    found, whole = uids(events(content)), uids(events_of("harvest"))
    wanted = [line for day in copy.days for line in day.lines]
    assert 0 < len(found) == len(wanted) < len(whole)
    assert Counter(str(each["SUMMARY"]) for each in found.values()) == Counter(map(spoken, wanted))
    for mark, each in found.items():
        assert each.to_ical() == whole[mark].to_ical()
    lines = unfolded(content)
    assert f"NAME:Harvest supper: {of_one.name}" in [line.replace("\\,", ",") for line in lines]
    assert lines[4] != unfolded(made("harvest"))[4]  # another calendar, which takes nothing out of everybody's


def test_a_copy_for_the_second_of_two_keeps_the_second_mark() -> None:
    # two stirs of one load by two cooks: each copy has one of them, and they are not taken for each other
    plan, _timetable, sheet = of("harvest")
    twins = Counter((each.line.act, each.line.step, each.line.load) for each in marked(plan, sheet) if each.line.step)
    what = next(key for key, many in twins.items() if many > 1)
    both = [each for each in marked(plan, sheet) if (each.line.act, each.line.step, each.line.load) == what]
    days = tuple(replace(day, lines=tuple(line for line in day.lines if line == both[1].line)) for day in sheet.days)
    assert [each.mark for each in marked(plan, sheet, replace(sheet, days=days))] == [both[1].mark]


def test_ahead_holds_the_days_before_and_no_more() -> None:
    plan, _timetable, sheet = of("harvest")
    wanted = [
        each for each in marked(plan, sheet) if on_the_wall(plan, each.line.at).date() < plan.plating.local.date()
    ]
    found = events_of("harvest", which="ahead")
    assert {str(each["UID"]) for each in found} == {str(each.mark) for each in wanted}
    assert 0 < len(wanted) < sum(len(day.lines) for day in sheet.days)


@pytest.mark.parametrize("lead", [0, 10, 90, 1440])
def test_each_line_rings_so_long_before(lead: int) -> None:
    for event in events_of("hall", lead=lead):
        [alarm] = event.walk("VALARM")
        assert str(alarm["ACTION"]) == "DISPLAY"
        assert str(alarm["DESCRIPTION"]) == str(event["SUMMARY"])
        assert alarm.decoded("TRIGGER") == -timedelta(minutes=lead)
    # 3.3.6: hours and minutes stand together, no months; here minutes alone
    triggers = {line for line in unfolded(made("hall", lead=lead)) if line.startswith("TRIGGER")}
    assert all(re.fullmatch(r"TRIGGER:(PT0S|-PT\d+M)", each) for each in triggers)


def test_hands_are_busy_and_what_cooks_alone_leaves_the_cook_free() -> None:
    plan, _timetable, sheet = of("harvest")
    found = {str(event["UID"]): event for event in events_of("harvest")}
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


@pytest.mark.parametrize("kind", WORDS)
def test_hostile_words_come_out_as_words(kind: str) -> None:
    plan = hostile_plan(WORDS[kind])
    sheet = run_sheet(plan, on_paper(plan))
    content = as_calendar(plan, sheet, now=lambda: NOW)
    assert broken(content) == []
    lines = unfolded(content)
    # no word has made a line of its own
    heads = {re.split("[;:]", line, maxsplit=1)[0] for line in lines}
    assert heads <= {
        "BEGIN", "END", "VERSION", "PRODID", "CALSCALE", "UID", "NAME", "TZID", "DTSTART", "TZOFFSETFROM",
        "TZOFFSETTO", "TZNAME", "DTSTAMP", "SEQUENCE", "DTEND", "SUMMARY", "DESCRIPTION", "TRANSP", "ACTION", "TRIGGER",
    }  # fmt: skip
    found = uids(events(content))
    for each in marked(plan, sheet):
        assert str(found[str(each.mark)]["SUMMARY"]) == spoken(each.line)
        for detail in each.line.details:
            assert detail in str(found[str(each.mark)]["DESCRIPTION"])
    assert sum(each.line.act is Act.DO for each in marked(plan, sheet)) == 2
