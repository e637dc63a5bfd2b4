"""The order list and the pull list as text."""

from __future__ import annotations

import demo_data
from core.food.pull_list import pull_list
from core.food.shopping import shopping
from core.intake.text_plan import read_file
from core.measures.quantity import parse_quantity
from core.plan.menu import Ingredient
from core.sheets.list_text import (
    NOTHING,
    ON_PAPER,
    clock_of,
    day_of,
    first_starts,
    order_text,
    page_lines,
    pull_text,
)
from core.timetable.on_paper import on_paper
from tests.support.builders import a_dish, a_plan, a_step
from tests.support.hand_made import hand_made


def a_soup():
    return a_plan(
        a_dish("soup", a_step("soup.cut", minutes=30), ingredients=(Ingredient("leeks", parse_quantity("600 g")),))
    )


def test_times_name_their_weekday_and_far_ones_their_date():
    plan = a_soup()
    clock = clock_of(plan)
    assert clock(-30) == "Sat 19:00"
    assert clock(-6 * 24 * 60) == "Sun 19:30"
    assert clock(-6 * 24 * 60 - 1) == "Sun 20 Sep 19:29"
    assert day_of(plan)(2) == "Thursday 24 September"


def test_the_order_list_says_where_its_times_are_from():
    plan = a_soup()
    on_its_own = order_text(plan, shopping(plan), None)
    assert ON_PAPER in on_its_own
    starts = first_starts(on_paper(plan))
    arranged = order_text(plan, shopping(plan, starts), starts)
    assert ON_PAPER not in arranged
    assert "[ ] 600 g leeks: Soup by Sat 19:00" in arranged
    assert arranged.startswith("Order list: ")
    assert first_starts(None) is None


def test_nothing_to_buy_is_said():
    plan = a_plan(a_dish("soup", a_step()))
    assert NOTHING in order_text(plan, shopping(plan), {})


def test_no_line_is_wider_than_a_page_and_all_vessels_are_told(tmp_path):
    demo_data.put(tmp_path)
    plan = read_file(tmp_path / "harvest_supper.toml")
    timetable = hand_made(plan)
    pulled = pull_list(plan, timetable)
    starts = first_starts(timetable)
    for text in (pull_text(plan, pulled), order_text(plan, shopping(plan, starts), starts)):
        assert max(map(len, text.splitlines())) <= 110
        assert text.endswith("\n")
    together = " ".join(pull_text(plan, pulled).split())
    for each in pulled.vessels:
        assert each.vessel.name in together


def test_what_runs_over_hangs_below_its_words():
    first, second = page_lines("    [ ] " + "words " * 25)
    assert first.startswith("    [ ] words")
    assert second.startswith(" " * 12 + "words")
