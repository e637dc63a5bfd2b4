"""The reader of rules can fail: the worked examples of the design table (45 to 51) and one break of each rule."""

from __future__ import annotations

from datetime import UTC, datetime

import pytest

from core.hatch.calendar_file import as_calendar
from core.hatch.calendar_text import escaped
from core.sheets.run_sheet import run_sheet
from core.timetable.on_paper import on_paper
from tests.core.hatch.calendar_rules import broken, duration, gap_of, instant, unfold
from tests.support.builders import a_bench, a_step, chained

NEW_YORK = "America/New_York"


def test_example_45_folded_lines_are_one() -> None:
    # RFC 5545, 3.1
    folded = b"DESCRIPTION:This is a lo\r\n ng description\r\n  that exists on a long line.\r\n"
    assert unfold(folded) == "DESCRIPTION:This is a long description that exists on a long line.\r\n"


def test_example_46_escaped_text() -> None:
    # RFC 5545, 3.3.11
    assert escaped("Rest; slice, plate\\serve\n") == "Rest\\; slice\\, plate\\\\serve\\n"


def test_example_47_times_that_come_twice_or_never() -> None:
    # RFC 5545, 3.3.5
    assert instant("20071104T013000", NEW_YORK) == datetime(2007, 11, 4, 5, 30, tzinfo=UTC)
    assert instant("20070311T023000", NEW_YORK) == datetime(2007, 3, 11, 7, 30, tzinfo=UTC)
    assert instant("20071104T013000Z", NEW_YORK) is None
    assert instant("20071104T013000-0800", None) is None
    assert instant("20071304T013000", NEW_YORK) is None


@pytest.mark.parametrize(
    ("plating", "at"),
    [("2007-11-04 01:30", "20071104T053000Z"), ("2007-03-11 02:30", "20070311T073000Z")],
)
def test_example_47_as_our_files_tell_it(plating: str, at: str) -> None:
    boil = a_step("soup.boil", minutes=20)
    plan = a_bench(boil, links=chained(boil), zone=NEW_YORK, plating=plating)
    content = as_calendar(plan, run_sheet(plan, on_paper(plan)))
    assert broken(content) == []
    told = [line for line in unfold(content).split("\r\n") if line.startswith("DTSTART;")]
    zone, value = told[-1].removeprefix("DTSTART;TZID=").split(":")
    assert f"{instant(value, zone):%Y%m%dT%H%M%SZ}" == at
    if plating.startswith("2007-03"):
        assert value == "20070311T033000"  # what the clock in the kitchen shows


@pytest.mark.parametrize(
    ("text", "seconds"),
    [("P15DT5H0M20S", 1_314_020), ("P7W", 4_233_600), ("-PT15M", -900), ("PT0S", 0), ("+P1D", 86_400), ("PT1M30S", 90)],
)
def test_example_48_durations(text: str, seconds: int) -> None:
    # RFC 5545, 3.3.6
    assert duration(text) == seconds


@pytest.mark.parametrize("text", ["PT1H30S", "P1Y", "P1W2D", "P", "PT", "P1DT", "1H", "PT1.5H", "P-1D", "PT5", ""])
def test_example_49_what_is_no_duration(text: str) -> None:
    assert duration(text) is None


def a_file(*more: str, alarm: tuple[str, ...] = ("ACTION:DISPLAY", "DESCRIPTION:Look", "TRIGGER:-PT10M")) -> bytes:
    event = ["UID:one", "DTSTAMP:20260901T102030Z", "DTSTART:20260926T183000Z", *more]
    lines = [
        "BEGIN:VCALENDAR", "VERSION:2.0", "PRODID:-//x//y//EN",
        "BEGIN:VEVENT", *event, "BEGIN:VALARM", *alarm, "END:VALARM", "END:VEVENT", "END:VCALENDAR",
    ]  # fmt: skip
    return "".join(f"{line}\r\n" for line in lines).encode()


def test_a_file_that_keeps_the_rules() -> None:
    assert broken(a_file("DTEND:20260926T184000Z", "SUMMARY:Rest\\; slice\\, plate\\\\serve\\n: now")) == []


@pytest.mark.parametrize(
    ("trigger", "kept"),
    [
        ("TRIGGER;VALUE=DATE-TIME:19980101T050000", False),  # example 50
        ("TRIGGER;VALUE=DATE-TIME:19980101T050000Z", True),
        ("TRIGGER:PT1H30S", False),
        ("TRIGGER;RELATED=END:-PT5M", False),
        ("TRIGGER:-P1D", True),
    ],
)
def test_example_50_triggers(trigger: str, kept: bool) -> None:
    assert (broken(a_file(alarm=("ACTION:DISPLAY", "DESCRIPTION:Look", trigger))) == []) is kept


def test_example_51_a_repeat_needs_its_distance() -> None:
    usual = ("ACTION:DISPLAY", "DESCRIPTION:Look", "TRIGGER:-PT10M")
    assert broken(a_file(alarm=(*usual, "REPEAT:3"))) == ["3.6.6 DURATION and REPEAT: both or neither"]
    assert broken(a_file(alarm=(*usual, "REPEAT:3", "DURATION:PT5M"))) == []


@pytest.mark.parametrize(
    ("change", "rule"),
    [
        ((b"\r\n", b"\n"), "3.1"),
        ((b"VERSION:2.0", b"VERSION:1.0"), "3.7.4"),
        ((b"VERSION:2.0\r\n", b""), "3.6 VERSION"),
        ((b"UID:one\r\n", b""), "3.6.1 UID"),
        ((b"UID:one\r\n", b"UID:one\r\nUID:two\r\n"), "3.6.1 UID"),
        ((b"DTSTART:20260926T183000Z\r\n", b""), "3.6.1 DTSTART"),
        ((b"DTSTAMP:20260901T102030Z", b"DTSTAMP:20260901T102030"), "3.8.7.2"),
        ((b"DTSTART:20260926T183000Z", b"DTSTART;TZID=Europe/London:20260926T193000"), "3.2.19"),
        ((b"DTSTART:20260926T183000Z", b"DTSTART:20260926T193000+0100"), "3.3.5"),
        ((b"ACTION:DISPLAY\r\n", b""), "3.6.6 ACTION"),
        ((b"TRIGGER:-PT10M\r\n", b""), "3.6.6 TRIGGER"),
        ((b"DESCRIPTION:Look\r\n", b""), "3.6.6 what is shown"),
        ((b"END:VALARM\r\n", b""), "3.4"),
        ((b"UID:one\r\n", b"UID:one\r\nSUMMARY:a,b\r\n"), "3.3.11"),
        ((b"UID:one\r\n", b"UID:one\r\nSUMMARY:a\\b\r\n"), "3.3.11"),
        ((b"UID:one\r\n", b"UID:one\r\nSUMMARY:" + b"a" * 68 + b"\r\n"), "3.1 76 octets"),
        ((b"UID:one\r\n", b"UID:one\r\nSUMMARY:a\xc3\r\n \xa9\r\n"), "3.1 a character is cut"),
        ((b"UID:one\r\n", b"UID:one\r\nSUMMARY:a\x07\r\n"), "3.1 a control"),
        ((b"UID:one\r\n", b"UID:one\r\nDTEND:20260926T183000Z\r\n"), "3.8.2.2"),
        ((b"UID:one\r\n", b"UID:one\r\nDTEND:20260926T193000Z\r\nDURATION:PT1H\r\n"), "3.6.1 DTEND and"),
        ((b"UID:one\r\n", b"UID:one\r\nwords of no line\r\n"), "3.1 no content line"),
    ],
)
def test_each_rule_can_be_broken(change: tuple[bytes, bytes], rule: str) -> None:
    whole = a_file()
    assert change[0] in whole
    found = broken(whole.replace(*change))
    assert any(each.startswith(rule) for each in found), found


def test_an_offset_is_a_length() -> None:
    assert gap_of("-0500").total_seconds() == -18_000
    assert gap_of("+054500").total_seconds() == 20_700
