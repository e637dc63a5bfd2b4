"""XML Schema part 2, duration (a profile of ISO 8601): examples of its section on lexical forms.

It has no weeks, allows fractions of the seconds only, and P1M is a month where PT1M is a minute.
"""

import pytest

from core.measures import Refusal, parse_minutes


@pytest.mark.parametrize(
    ("duration", "minutes"),
    [("P0DT1H20M", 80), ("PT90M", 90), ("P120D", 172_800), ("PT1M30.5S", 2), ("-P120D", -172_800)],
)
def test_valid_durations_without_months_are_read(duration: str, minutes: int) -> None:
    assert parse_minutes(duration) == minutes


@pytest.mark.parametrize("duration", ["P1Y2MT2H", "P1347M", "P1Y2M3DT10H30M", "P25M"])
def test_months_and_years_are_refused_with_the_likely_mend(duration: str) -> None:
    with pytest.raises(Refusal, match="counts months or years; for minutes write a T first"):
        parse_minutes(duration)


@pytest.mark.parametrize("duration", ["P-1347M", "P1Y2MT", "P1DT", "P1S"])
def test_invalid_durations_are_refused(duration: str) -> None:
    with pytest.raises(Refusal):
        parse_minutes(duration)
