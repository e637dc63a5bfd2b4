"""Words and times as printed."""

from __future__ import annotations

from datetime import date

import pytest

from core.sheets.words import (
    capital,
    clock_at,
    clock_change,
    day_about,
    full_date,
    lowered,
    plain,
    shortened,
    when,
)
from tests.support.builders import a_plan


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("  two \n words\t", "two words"),
        ("right\u202eleft\u2066", "rightleft"),
        ("no\u0000thing\ud800", "no\ufffdthing\ufffd"),
        ("fi\N{COMBINING ACUTE ACCENT}n café 日本", "fi\N{COMBINING ACUTE ACCENT}n café 日本"),
    ],
)
def test_plain(text: str, said: str) -> None:
    assert plain(text) == said


@pytest.mark.parametrize(
    ("text", "most", "said"),
    [
        ("short", 5, "short"),
        ("cut at a word, not in it", 16, "cut at a word…"),
        ("A" * 30, 10, "AAAAAAAAA…"),
        ("", 10, ""),
    ],
)
def test_shortened(text: str, most: int, said: str) -> None:
    assert shortened(text, most) == said
    assert len(shortened(text, most)) <= most


def test_capital() -> None:
    assert (capital("stir"), capital("")) == ("Stir", "")


@pytest.mark.parametrize(
    ("name", "said"),
    [("Saucepan, 3 l", "saucepan, 3 l"), ("Big bowl", "big bowl"), ("BBQ", "BBQ"), ("2 Tins", "2 Tins"), ("", "")],
)
def test_names_inside_a_sentence(name: str, said: str) -> None:
    assert lowered(name) == said


def test_days_beside_the_plating_day() -> None:
    plan = a_plan()
    said = [day_about(plan, date(2026, 9, day)) for day in (24, 25, 26, 27, 28)]
    assert said == [
        "D-2, 2 days before",
        "D-1, the day before",
        "D, the day itself",
        "D+1, the day after",
        "D+2, 2 days after",
    ]


def test_times_of_other_days_bear_the_day() -> None:
    plan = a_plan()
    assert when(plan, -60, -120) == "18:30"
    assert when(plan, -1440, 0) == "Fri 19:30"
    assert when(plan, -10 * 1440, 0) == "Wed 16 Sep 19:30"
    assert full_date(plan.wall(0)) == "Saturday 26 September 2026, 19:30"


def test_only_the_hour_that_comes_twice_bears_its_zone() -> None:
    """Paris, Sunday 25 October 2026: from 03:00 CEST the clock shows 02:00 again."""
    plan = a_plan(plating="2026-10-25 12:00", zone="Europe/Paris")
    assert [clock_at(plan, -minutes) for minutes in (661, 660, 600, 541, 540)] == [
        "01:59", "02:00 CEST", "02:00 CET", "02:59 CET", "03:00",
    ]  # fmt: skip


def test_half_an_hour_on_lord_howe() -> None:
    plan = a_plan(plating="2026-10-04 12:00", zone="Australia/Lord_Howe")
    assert clock_change(plan, date(2026, 10, 4)).startswith("The clocks go forward by 30 min")
    assert clock_change(plan, date(2026, 10, 5)) == ""
