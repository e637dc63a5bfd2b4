"""What tells about a plan, as scripts call it: why, ways, quality, chances, late; real files and exit codes."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path

import pytest

import demo_data
from core.intake.text_plan import read_file
from core.timetable.as_text import write_timetable
from core.timetable.on_paper import on_paper
from tests.journeys.test_advice_in_the_window import HOME_LATE
from tests.journeys.test_commands import Done, cookday

WEEKNIGHT, TOO_MUCH = "weeknight_supper.toml", "pancakes.toml"


@pytest.fixture(scope="module")
def kitchen(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return a folder with a plan that fits, its timetable, and one that cannot be met."""
    folder = tmp_path_factory.mktemp("advice")
    demo_data.put(folder)
    (folder / TOO_MUCH).write_text(HOME_LATE, encoding="utf-8")
    done = cookday("arrange", WEEKNIGHT, "--seconds", 2, "--timetable", "right.json", folder=folder)
    assert done.code == 0, done
    plan = read_file(folder / WEEKNIGHT)
    (folder / "paper.json").write_text(write_timetable(plan, on_paper(plan)), encoding="utf-8")
    return folder


@pytest.fixture
def say(kitchen: Path) -> Callable[..., Done]:
    return lambda *arguments: cookday(*arguments, folder=kitchen)


def test_why_tells_the_reason_and_exits_1(say) -> None:
    done = say("why", TOO_MUCH)
    assert (done.code, done.err) == (1, "")
    assert "15 min too much" in done.out


def test_why_of_a_plan_that_can_be_met_exits_0(say) -> None:
    done = say("why", WEEKNIGHT)
    assert (done.code, done.err) == (0, "")
    assert done.out == "Everything can meet: arrange the plan again.\n"


def test_ways_are_numbered_after_the_reason(say) -> None:
    done = say("ways", TOO_MUCH, "--seconds", "0.3")
    assert (done.code, done.err) == (1, "")
    why, ways = done.out.split("\nWays out, the cheapest first:\n")
    assert "15 min too much" in why
    numbers = re.findall(r"^(\d+)\. [A-Z].*\.\n   All meets by \d\d:\d\d\.", ways, re.MULTILINE)
    assert numbers == [str(number) for number in range(1, len(numbers) + 1)]
    assert numbers


def test_ways_of_a_plan_that_can_be_met_exits_0(say) -> None:
    done = say("ways", WEEKNIGHT)
    assert (done.code, done.out) == (0, "Everything can meet: arrange the plan again.\n")


def test_quality_names_each_wish(say) -> None:
    done = say("quality", WEEKNIGHT, "--timetable", "right.json", "--seconds", "1")
    assert (done.code, done.err) == (0, "")
    wishes = re.findall(r"^([A-Z][a-z]+): ", done.out, re.MULTILINE)
    assert wishes[:4] == ["Fresh", "Calm", "Oven", "Sleep"]
    assert done.out.endswith("Everything meets on Thursday 8 October 2026, 19:00: 15 loads placed.\n")


def test_chances_are_the_same_each_time(say) -> None:
    done = say("chances", WEEKNIGHT, "--timetable", "right.json")
    assert (done.code, done.err) == (0, "")
    assert re.match(r"In .* all is on the table in time\. ", done.out)
    assert say("chances", WEEKNIGHT, "--timetable", "right.json") == done


def test_clashes_are_told_with_the_advice_and_exit_1(say) -> None:
    for way in (["chances"], ["late"], ["quality", "--seconds", "1"]):
        done = say(way[0], WEEKNIGHT, "--timetable", "paper.json", *way[1:])
        assert (done.code, done.err) == (1, ""), way
        assert re.search(r"^\d+ clash", done.out, re.MULTILINE)


def test_late_tells_how_long_the_menu_can_stand_and_what_a_delay_breaks(say) -> None:
    done = say("late", WEEKNIGHT, "--timetable", "right.json", "--at", "18:40")
    assert (done.code, done.err) == (0, "")
    stands = re.match(r"At 18:40 the menu (?:can stand (\d+) min|cannot stand a minute): ", done.out)
    assert stands
    assert say("late", WEEKNIGHT, "--timetable", "right.json", "--at=-20 min") == say(
        "late", WEEKNIGHT, "--timetable", "right.json", "--at", "18:40"
    )
    put_off = say("late", WEEKNIGHT, "--timetable", "right.json", "--at", "18:40", "--by", "90")
    assert put_off.code == 1
    assert "Serving is put off by 1 h 30 min at 18:40." in put_off.out
    assert "too long" in put_off.out


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (["late", WEEKNIGHT, "--at", "9"], "could be morning or evening"),
        (["late", WEEKNIGHT, "--by", "0"], "1 to 1,440"),
        (["late", WEEKNIGHT, "--by", "soon"], "soon"),
        (["why", "nowhere.toml"], "There is no plan"),
        (["ways", WEEKNIGHT, "--seconds", "0"], "more than 0"),
        (["quality", WEEKNIGHT, "--timetable", "nowhere.json"], "There is no timetable"),
        (["chances", "right.json"], "is a timetable, not a plan"),
    ],
)
def test_bad_input_is_one_line_and_exits_2(say, arguments: list[str], said: str) -> None:
    extra = ["--timetable", "right.json"] if arguments[0] == "late" else []
    assert said in say(*arguments, *extra).refused()


def test_an_empty_plan_says_that_there_is_nothing_to_place(kitchen: Path, say) -> None:
    (kitchen / "empty.toml").write_text('name = "Nothing"\nplating = "2026-10-08 19:00 Europe/London"\n')
    for way in ("why", "ways", "quality", "chances", "late"):
        done = say(way, "empty.toml")
        assert done == Done(0, "The plan has no steps yet, so there is nothing to tell.\n", ""), way
