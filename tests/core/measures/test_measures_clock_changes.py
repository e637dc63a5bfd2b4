"""Plans that run across a clock change keep their true minutes (RFC 5545 3.3.5 for times there twice or never)."""

import zoneinfo
from datetime import UTC, datetime, timedelta

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from core.measures import Moment, at_clock, days_before, offset_of, parse_moment, wall

LONDON_SPRING = parse_moment("2026-03-29 13:00", "Europe/London")  # 01:00 becomes 02:00
LONDON_AUTUMN = parse_moment("2026-10-25 13:00", "Europe/London")  # 02:00 becomes 01:00
NEW_YORK_SPRING = parse_moment("2026-03-08 13:00", "America/New_York")  # 02:00 becomes 03:00
NEW_YORK_AUTUMN = parse_moment("2026-11-01 13:00", "America/New_York")  # 02:00 becomes 01:00
ALL = (LONDON_SPRING, LONDON_AUTUMN, NEW_YORK_SPRING, NEW_YORK_AUTUMN)

DAY = 1440


def naive(at: datetime) -> datetime:
    return at.replace(tzinfo=None, fold=0)


def there_twice(at: datetime) -> bool:
    first, second = at.replace(fold=0), at.replace(fold=1)
    return first.utcoffset() != second.utcoffset() and at.fold == 1


@pytest.mark.parametrize(
    ("moment", "hours"),
    [(LONDON_SPRING, 23), (NEW_YORK_SPRING, 23), (LONDON_AUTUMN, 25), (NEW_YORK_AUTUMN, 25)],
)
def test_the_day_of_a_change_has_its_true_length(moment: Moment, hours: int) -> None:
    assert at_clock(moment, 1, 13 * 60) == -hours * 60
    assert wall(moment, -hours * 60).hour == 13
    assert offset_of(moment, moment.local - timedelta(days=1)) == -hours * 60


@pytest.mark.parametrize(
    ("moment", "minute", "shown"),
    [
        (LONDON_SPRING, 30 + 60, "2026-03-29T02:30:00+01:00"),
        (NEW_YORK_SPRING, 30 + 120, "2026-03-08T03:30:00-04:00"),
    ],
)
def test_a_missing_time_takes_the_offset_before_the_gap(moment: Moment, minute: int, shown: str) -> None:
    assert wall(moment, at_clock(moment, 0, minute)).isoformat() == shown


@pytest.mark.parametrize(
    ("moment", "first", "second"),
    [
        (LONDON_AUTUMN, "2026-10-25T01:30:00+01:00", "2026-10-25T01:30:00+00:00"),
        (NEW_YORK_AUTUMN, "2026-11-01T01:30:00-04:00", "2026-11-01T01:30:00-05:00"),
    ],
)
def test_a_repeated_time_is_its_first_occurrence(moment: Moment, first: str, second: str) -> None:
    offset = at_clock(moment, 0, 90)
    assert wall(moment, offset).isoformat() == first
    assert wall(moment, offset + 60).isoformat() == second
    assert offset_of(moment, naive(wall(moment, offset + 60))) == offset


def test_a_moment_said_to_be_the_second_occurrence_is_still_the_first() -> None:
    local = datetime(2026, 10, 25, 1, 30, fold=1)
    assert Moment(local, "Europe/London").utc() == datetime(2026, 10, 25, 0, 30, tzinfo=UTC)


@given(st.sampled_from(ALL), st.integers(-3 * DAY, 2 * DAY))
@example(LONDON_AUTUMN, -720)
@example(NEW_YORK_AUTUMN, -660)
def test_an_offset_comes_back_from_its_wall_clock_time(moment: Moment, offset: int) -> None:
    at = wall(moment, offset)
    lost = 60 if there_twice(at) else 0  # the second occurrence is read as the first, an hour before
    assert offset_of(moment, naive(at)) == offset - lost


ZONES = ("Europe/London", "America/New_York", "Australia/Lord_Howe", "Asia/Kolkata", "Pacific/Apia", "UTC")


@given(
    st.datetimes(datetime(2020, 1, 1), datetime(2035, 1, 1)),
    st.sampled_from(ZONES),
    st.integers(-366 * DAY, 366 * DAY),
)
def test_an_offset_comes_back_in_any_zone(local: datetime, zone: str, offset: int) -> None:
    moment = Moment(local.replace(second=0, microsecond=0), zone)
    at = wall(moment, offset)
    if not there_twice(at):
        assert offset_of(moment, naive(at)) == offset
    assert at_clock(moment, days_before(moment, offset), at.hour * 60 + at.minute) == offset_of(
        moment, naive(at)
    )


@given(st.sampled_from(ALL), st.integers(-3 * DAY, 2 * DAY), st.integers(0, 2 * DAY))
def test_minutes_between_two_wall_clock_times_are_true(moment: Moment, start: int, length: int) -> None:
    elapsed = wall(moment, start + length).astimezone(UTC) - wall(moment, start).astimezone(UTC)
    assert elapsed == timedelta(minutes=length)


def test_zones_come_from_the_tzdata_package_where_the_system_has_none() -> None:
    zoneinfo.reset_tzpath(to=[])
    try:
        assert zoneinfo.TZPATH == ()
        zone = zoneinfo.ZoneInfo.no_cache("Europe/London")
    finally:
        zoneinfo.reset_tzpath()
    assert datetime(2026, 7, 1, tzinfo=zone).utcoffset() == timedelta(hours=1)
    assert datetime(2026, 12, 1, tzinfo=zone).utcoffset() == timedelta(0)
