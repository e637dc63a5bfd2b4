"""RFC 5545: durations (3.3.6) and local times that a clock change repeats or leaves out (3.3.5)."""

from datetime import UTC, datetime

import pytest

from core.measures import Refusal, parse_minutes, parse_moment


@pytest.mark.parametrize(
    ("duration", "seconds"),
    [("P15DT5H0M20S", 1_314_020), ("P7W", 4_233_600), ("-PT15M", -900), ("PT1H0M0S", 3600)],
)
def test_the_rfcs_durations_are_read_to_the_minute(duration: str, seconds: int) -> None:
    assert parse_minutes(duration) == round(seconds / 60)


@pytest.mark.parametrize("duration", ["P1Y", "P1W2D", "P", "PT", "P1D2H", "PT15"])
def test_what_the_grammar_leaves_out_is_refused(duration: str) -> None:
    with pytest.raises(Refusal):
        parse_minutes(duration)


@pytest.mark.parametrize(
    ("local", "instant"),
    [
        ("2007-11-04T01:30:00", datetime(2007, 11, 4, 5, 30, tzinfo=UTC)),
        ("2007-03-11T02:30:00", datetime(2007, 3, 11, 7, 30, tzinfo=UTC)),
    ],
)
def test_a_repeated_time_is_the_first_and_a_missing_one_takes_the_offset_before(
    local: str, instant: datetime
) -> None:
    assert parse_moment(local, "America/New_York").utc() == instant
