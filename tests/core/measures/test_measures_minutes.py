"""Lengths of time: what people type, what is refused and how, and what is shown."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.measures import Refusal, parse_minutes, parse_tminus, show_minutes, show_tminus
from core.measures.typed_minutes import MOST_MINUTES

TYPED = [
    ("90", 90),
    ("0", 0),
    ("90 min", 90),
    ("1h20", 80),
    ("1h5", 65),
    ("1 h 20", 80),
    ("1 H 20 Min.", 80),
    ("1:20", 80),
    ("0:45", 45),
    ("90:30", 5430),
    ("1 1/2 h", 90),
    ("1½ h", 90),
    ("1.5h", 90),
    ("1,5 h", 90),
    ("22.3 h", 1338),
    ("20 h", 1200),
    ("2 days", 2880),
    ("2d 3h", 3060),
    ("2d 5:00", 3180),
    ("1 week", 10080),
    ("half an hour", 30),
    ("an hour", 60),
    ("an hour and a half", 90),
    ("two and a half hours", 150),
    ("three quarters of an hour", 45),
    ("a quarter of an hour", 15),
    ("1 hour and 20 minutes", 80),
    ("1 hr, 20 mins", 80),
    ("1 h\u00a020\u202fmin", 80),
    ("20'", 20),
    ("PT1H20M", 80),
    ("pt90m", 90),
    ("P1DT2H", 1560),
    ("P2W", 20160),
    ("-20", -20),
    ("−1 h 20 min", -80),
    ("+15", 15),
    ("366 days", MOST_MINUTES),
]

PARTS_OF_A_MINUTE = [("1.33 h", 80), ("90 s", 2), ("89 s", 1), ("20 s", 1), ("0 s", 0), ("PT1H30S", 61)]

REFUSED = [
    ("1h80", '"1h80": minutes after the hour go to 59; write 2h20 or 140 min.'),
    ("1:60", '"1:60": minutes after the hour go to 59; write 2h00 or 120 min.'),
    ("2d 25h", '"2d 25h": hours after the day go to 23; write 3d 1h or 73 h.'),
    ("overnight", '"overnight" is a different length for every cook; write hours, such as 10 h.'),
    ("1.5", '"1.5" does not say what the 1.5 is; write 1.5 h or 1.5 min.'),
    ("½", '"½" does not say what the 1/2 is; write 1/2 h or 1/2 min.'),
    ("2d 3", '"2d 3" does not say what the 3 is; write 3 h or 3 min.'),
    ("20 min 1 h", '"20 min 1 h": write the largest unit first and each once, such as 1 h 20 min.'),
    ("1 h 1 h", '"1 h 1 h": write the largest unit first and each once, such as 1 h 20 min.'),
    ("3 fortnights", '"3 fortnights": "fortnights" is no length of time; write min, h or days.'),
    ("P25M", '"P25M" counts months or years; for minutes write a T first, as in PT25M.'),
    ("367 days", '"367 days" is longer than a year; a plan holds up to 366 days.'),
    ("1/0 h", '"1/0": nothing can be divided by 0.'),
    ("", "A length of time is missing; write one such as 45 or 1 h 20."),
    ("-", "A length of time is missing; write one such as 45 or 1 h 20."),
    *(
        (text, f'"{text}" is not a length of time; write 45, 45 min, 1h20, 1:20, 1.5 h or 2 days.')
        for text in ("soon", "h", "1 20", "P", "PT", "1:2", "1::20", "--5", "٣ h")
    ),
]


@pytest.mark.parametrize(("text", "minutes"), TYPED + PARTS_OF_A_MINUTE)
def test_what_people_type_is_read(text: str, minutes: int) -> None:
    assert parse_minutes(text) == minutes


@pytest.mark.parametrize(("text", "sentence"), REFUSED)
def test_a_refusal_names_the_text_and_the_mend(text: str, sentence: str) -> None:
    with pytest.raises(Refusal) as refused:
        parse_minutes(text)
    assert refused.value.text == sentence


def test_a_text_far_too_long_is_refused_in_a_short_sentence() -> None:
    with pytest.raises(Refusal) as refused:
        parse_minutes("9" * 5000)
    assert len(refused.value.text) < 120


def outcome(text: str) -> int | str:
    try:
        return parse_minutes(text)
    except Refusal as refused:
        return refused.text


def is_sound(read: int | str) -> bool:
    return read.endswith(".") if isinstance(read, str) else abs(read) <= MOST_MINUTES


@given(st.text(max_size=30))
def test_any_text_is_read_or_refused(text: str) -> None:
    assert is_sound(outcome(text))


@given(st.text(alphabet="0123456789 .,:/½hdmins-ptw", max_size=16))
def test_any_text_that_looks_like_a_time_is_read_or_refused(text: str) -> None:
    assert is_sound(outcome(text))


@pytest.mark.parametrize(
    ("minutes", "shown"),
    [
        (0, "0 min"),
        (45, "45 min"),
        (60, "1 h"),
        (80, "1 h 20 min"),
        (1440, "24 h"),
        (2160, "36 h"),
        (2879, "47 h 59 min"),
        (2880, "2 days"),
        (3060, "2 days 3 h"),
        (2885, "2 days 5 min"),
        (-80, "−1 h 20 min"),
    ],
)
def test_minutes_are_shown_in_hours_and_from_two_days_on_in_days(minutes: int, shown: str) -> None:
    assert show_minutes(minutes) == shown


@given(st.integers(-MOST_MINUTES, MOST_MINUTES))
def test_shown_minutes_read_back(minutes: int) -> None:
    assert parse_minutes(show_minutes(minutes)) == minutes


@pytest.mark.parametrize(
    ("offset", "shown"),
    [
        (0, "T"),
        (-62, "T-1:02"),
        (15, "T+0:15"),
        (-5, "T-0:05"),
        (-1439, "T-23:59"),
        (-3180, "T-2d 5:00"),
    ],
)
def test_offsets_are_shown_from_plating(offset: int, shown: str) -> None:
    assert show_tminus(offset) == shown


@given(st.integers(-MOST_MINUTES, MOST_MINUTES))
def test_shown_offsets_read_back(offset: int) -> None:
    assert parse_tminus(show_tminus(offset)) == offset


@pytest.mark.parametrize(
    ("text", "offset"), [("t−5", -5), ("T + 75", 75), ("T-1h20", -80), ("T - 2 days", -2880)]
)
def test_offsets_are_read_as_typed(text: str, offset: int) -> None:
    assert parse_tminus(text) == offset


@pytest.mark.parametrize("text", ["", "20", "-20", "T20", "T-", "tea"])
def test_what_is_not_counted_from_plating_is_refused(text: str) -> None:
    with pytest.raises(Refusal, match="write"):
        parse_tminus(text)
