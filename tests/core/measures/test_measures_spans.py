"""Low, likely and high lengths out of one short text."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.measures import Refusal, parse_span, show_span
from core.measures.typed_minutes import MOST_MINUTES


@pytest.mark.parametrize(
    ("text", "span"),
    [
        ("45", (45, 45, 45)),
        ("45-50", (45, 48, 50)),
        ("45–50 min", (45, 48, 50)),
        ("45 to 50 min", (45, 48, 50)),
        ("44-50", (44, 47, 50)),
        ("16h/20h/24h", (960, 1200, 1440)),
        ("70/90/110", (70, 90, 110)),
        ("70 / 90 / 110", (70, 90, 110)),
        ("40..50..60", (40, 50, 60)),
        ("40-50-60", (40, 50, 60)),
        ("1h20-1h40", (80, 90, 100)),
        ("1:20-1:40", (80, 90, 100)),
        ("90 ±10", (80, 90, 100)),
        ("90 +/- 10 min", (80, 90, 100)),
        ("2 h ±15 min", (105, 120, 135)),
        ("2 h ±10", (110, 120, 130)),
        ("half an hour to an hour", (30, 45, 60)),
        ("PT1H-PT2H", (60, 90, 120)),
    ],
)
def test_spans_are_read(text: str, span: tuple[int, int, int]) -> None:
    assert parse_span(text) == span


@pytest.mark.parametrize(
    ("text", "span"),
    [
        ("1-2 h", (60, 90, 120)),
        ("1.5-2 h", (90, 105, 120)),
        ("16/20/24 h", (960, 1200, 1440)),
        ("16h/20/24", (960, 1200, 1440)),
        ("240 / 480 / 48 h", (240, 480, 2880)),
        ("480 / 22.3 h / 24 h", (480, 1338, 1440)),
        ("30 - 1 h", (30, 45, 60)),
        ("1 h - 90", (60, 75, 90)),
    ],
)
def test_a_number_without_a_unit_takes_its_neighbours_unit_where_the_order_allows(
    text: str, span: tuple[int, int, int]
) -> None:
    assert parse_span(text) == span


@pytest.mark.parametrize(
    ("text", "span"),
    [
        ("3/4 h", (45, 45, 45)),
        ("1 1/2 h", (90, 90, 90)),
        ("45/60", (45, 53, 60)),
        ("1/2 - 3/4 h", (30, 38, 45)),
        ("1 1/2 h / 2 h / 2 1/2 h", (90, 120, 150)),
        ("1/2/3 h", (60, 120, 180)),
    ],
)
def test_a_stroke_is_a_fraction_or_parts_the_lengths(text: str, span: tuple[int, int, int]) -> None:
    assert parse_span(text) == span


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("60/50/70", "write the least first, then the likely, then the most"),
        ("50-45", "write the least first"),
        ("1-2-3-4", "has 4 lengths"),
        ("-5", "cannot be less than 0"),
        ("10 ±20", "the spread is longer than the time itself"),
        ("90 ±10%", "write the spread as a time"),
        ("5-", "A length of time is missing"),
        ("", "A length of time is missing"),
        ("40/x/60", '"x" is not a length of time'),
        ("1h80-2h", "write 2h20 or 140 min"),
        ("1/2", '"1/2" does not say what the 1/2 is'),
    ],
)
def test_a_refusal_says_the_mend(text: str, says: str) -> None:
    with pytest.raises(Refusal) as refused:
        parse_span(text)
    assert says in refused.value.text


@given(st.lists(st.integers(0, MOST_MINUTES), min_size=3, max_size=3).map(sorted))
def test_shown_spans_read_back(three: list[int]) -> None:
    low, likely, high = three
    assert parse_span(show_span(low, likely, high)) == (low, likely, high)


def test_short_spans_share_their_unit() -> None:
    assert show_span(40, 50, 59) == "40 / 50 / 59 min"
    assert show_span(50, 60, 70) == "50 min / 1 h / 1 h 10 min"
    assert show_span(90, 90, 90) == "1 h 30 min"


def outcome(text: str) -> tuple[int, int, int] | str:
    try:
        return parse_span(text)
    except Refusal as refused:
        return refused.text


@given(st.text(alphabet="0123456789 ./-±hdmin", max_size=14))
def test_any_text_that_looks_like_a_span_is_in_order_or_refused(text: str) -> None:
    read = outcome(text)
    assert read.endswith(".") if isinstance(read, str) else 0 <= read[0] <= read[1] <= read[2]
