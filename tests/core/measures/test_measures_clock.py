"""Clock times and dates as typed, and offsets from a moment on ordinary days."""

from datetime import UTC, date, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.measures import (
    Moment,
    Refusal,
    at_clock,
    days_before,
    offset_at,
    offset_of,
    parse_clock,
    parse_moment,
    show_clock,
    show_dminus,
    system_now,
    wall,
)

FEAST = parse_moment("2026-09-26 19:30", "Europe/London")


@pytest.mark.parametrize(
    ("text", "minute"),
    [
        ("16:00", 960),
        ("16.00", 960),
        ("16h30", 990),
        ("1600", 960),
        ("0730", 450),
        ("16", 960),
        ("4 pm", 960),
        ("4:30pm", 990),
        ("7.30 p.m.", 1170),
        ("12 am", 0),
        ("12 pm", 720),
        ("4:30", 270),
        ("0:00", 0),
        ("23:59", 1439),
        ("24:00", 1440),
        ("noon", 720),
        ("Midnight", 0),
    ],
)
def test_clock_times_are_read(text: str, minute: int) -> None:
    assert parse_clock(text) == minute


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("4", '"4" could be morning or evening; write 04:00 or 16:00.'),
        ("4 o'clock", "write 04:00 or 16:00"),
        ("13 pm", "with pm the hour goes from 1 to 12"),
        ("0 am", "with am the hour goes from 1 to 12"),
        ("25:00", "hours go to 23 and minutes to 59"),
        ("24:01", "hours go to 23 and minutes to 59"),
        ("12:60", "hours go to 23 and minutes to 59"),
        ("", "is not a time of day"),
        ("late", "is not a time of day"),
        ("16:0", "is not a time of day"),
    ],
)
def test_a_refused_clock_time_says_the_mend(text: str, says: str) -> None:
    with pytest.raises(Refusal) as refused:
        parse_clock(text)
    assert says in refused.value.text


@given(st.integers(0, 1439), st.booleans())
def test_shown_clock_times_read_back(minute: int, twelve_hour: bool) -> None:
    at = datetime(2026, 9, 26, *divmod(minute, 60), tzinfo=UTC)
    assert parse_clock(show_clock(at, twelve_hour=twelve_hour)) == minute


def test_clock_times_are_shown_both_ways() -> None:
    at = wall(FEAST, 0)
    assert show_clock(at) == "19:30"
    assert show_clock(at, twelve_hour=True) == "7:30 pm"
    assert show_clock(wall(FEAST, -19 * 60), twelve_hour=True) == "12:30 am"


@pytest.mark.parametrize(
    "text",
    [
        "2026-09-26 19:30",
        "2026-09-26T19:30",
        "2026-09-26T19:30:00",
        "26 Sep 2026 19:30",
        "Sat 26 September 2026, 7.30 pm",
        "Saturday, September 26th, 2026 at 7:30pm",
    ],
)
def test_moments_are_read(text: str) -> None:
    moment = parse_moment(text, "Europe/London")
    assert moment == FEAST
    assert moment.local == datetime(2026, 9, 26, 19, 30)
    assert moment.utc() == datetime(2026, 9, 26, 18, 30, tzinfo=UTC)


@pytest.mark.parametrize(
    ("text", "zone", "says"),
    [
        ("26/9/2026 19:30", "UTC", "is the day or the month first? Write it as 2026-09-26 19:30."),
        ("2026-02-30 19:30", "UTC", "there is no such day"),
        ("2026-13-01 19:30", "UTC", "there is no such day"),
        ("2026-09-26", "UTC", "has no time of day"),
        ("Fri 26 Sep 2026 19:30", "UTC", "that day is a Saturday"),
        ("tomorrow", "UTC", "is not a date and time"),
        ("2026-09-26 7", "UTC", "write 07:00 or 19:00"),
        ("2026-09-26T19:30:05", "UTC", "is not a time of day"),
        ("1999-12-31 19:30", "UTC", "between 2000 and 2199"),
        ("2200-01-01 19:30", "UTC", "between 2000 and 2199"),
        ("2026-09-26 19:30", "London", "not a time zone known here; did you mean Europe/London?"),
        ("2026-09-26 19:30", "America/New York", "did you mean America/New_York?"),
        ("2026-09-26 19:30", "Europe", "write one such as Europe/London"),
        ("2026-09-26 19:30", "", "write one such as Europe/London"),
        ("2026-09-26 19:30", "../../etc/localtime", "write one such as Europe/London"),
        ("2026-09-26 19:30", "\0", '"�" is not a time zone'),
    ],
)
def test_a_refused_moment_says_the_mend(text: str, zone: str, says: str) -> None:
    with pytest.raises(Refusal) as refused:
        parse_moment(text, zone)
    assert says in refused.value.text


def outcome(text: str) -> Moment | str:
    try:
        return parse_moment(text, "UTC")
    except Refusal as refused:
        return refused.text


@given(st.text(max_size=30))
def test_any_text_is_a_moment_or_refused(text: str) -> None:
    read = outcome(text)
    assert read.endswith(".") if isinstance(read, str) else read.zone == "UTC"


@given(st.datetimes(datetime(2000, 1, 1), datetime(2199, 12, 31)))
def test_a_moment_reads_back_from_its_iso_text(local: datetime) -> None:
    minute = local.replace(second=0, microsecond=0)
    assert parse_moment(minute.isoformat(), "Asia/Kolkata").local == minute


def test_offsets_and_clock_times_agree_on_an_ordinary_day() -> None:
    assert wall(FEAST, -62).isoformat() == "2026-09-26T18:28:00+01:00"
    assert offset_of(FEAST, FEAST.local - timedelta(days=2)) == -2 * 1440
    assert at_clock(FEAST, 0, 16 * 60) == -210
    assert at_clock(FEAST, 1, 19 * 60 + 30) == -1440
    assert at_clock(FEAST, -1, 0) == 4 * 60 + 30
    assert at_clock(FEAST, 0, 1440) == at_clock(FEAST, -1, 0)


def test_days_before_are_calendar_days() -> None:
    assert days_before(FEAST, -19 * 60 - 30) == 0
    assert days_before(FEAST, -19 * 60 - 31) == 1
    assert days_before(FEAST, 4 * 60 + 30) == -1
    assert [show_dminus(days) for days in (2, 0, -1)] == ["D-2", "D", "D+1"]


def test_seconds_begun_do_not_count() -> None:
    assert offset_at(FEAST, datetime(2026, 9, 26, 18, 28, 59, tzinfo=UTC)) == -2
    assert offset_at(FEAST, datetime(2026, 9, 26, 20, 31, 59, tzinfo=ZoneInfo("Europe/Paris"))) == 1


def test_an_aware_time_is_not_taken_for_a_local_one() -> None:
    with pytest.raises(ValueError, match="naive"):
        offset_of(FEAST, datetime(2026, 9, 26, tzinfo=UTC))


def test_the_present_is_aware() -> None:
    assert system_now().utcoffset() == timedelta(0)
    assert abs(offset_at(Moment(datetime.now(UTC).replace(tzinfo=None, second=0), "UTC"), system_now())) <= 1


def test_moments_are_values() -> None:
    again = Moment(
        datetime.combine(date(2026, 9, 26), datetime.min.time()).replace(hour=19, minute=30), "Europe/London"
    )
    assert {FEAST, again} == {FEAST}
