"""The lists as scripts ask for them: a process of its own, the demo plans, exit codes, one line for what is wrong."""

from __future__ import annotations

import os
import re
import subprocess
import sys
from pathlib import Path

import pytest

import demo_data
from core.food.order_list import key_of
from core.food.pull_list import pull_list
from core.food.shopping import order_lines
from core.intake.text_plan import read_file
from core.timetable.as_text import write_timetable
from core.timetable.clashes import clashes
from core.timetable.on_paper import on_paper
from tests.support.hand_made import hand_made

ROOT = Path(__file__).parents[2]
HARVEST = "harvest_supper.toml"


@pytest.fixture(scope="module")
def plans(tmp_path_factory):
    """Return a folder with the demo plans, and with the hand-made timetable of the supper."""
    folder = tmp_path_factory.mktemp("plans")
    demo_data.put(folder)
    plan = read_file(folder / HARVEST)
    (folder / "supper.json").write_text(write_timetable(plan, hand_made(plan)), encoding="utf-8")
    return folder


def ask(folder, *arguments):
    """Return exit code, output and errors of `cookday list`, without a display."""
    kept = {name: value for name, value in os.environ.items() if name not in {"DISPLAY", "WAYLAND_DISPLAY"}}
    done = subprocess.run(
        [sys.executable, "-m", "app.command", "list", *arguments],
        cwd=folder,
        env={**kept, "PYTHONPATH": str(ROOT), "PYTHONWARNINGS": "error"},
        capture_output=True,
        text=True,
        check=False,
    )
    return done.returncode, done.stdout, done.stderr


@pytest.mark.parametrize("name", demo_data.files())
def test_every_item_of_a_plan_stands_on_the_order_list_once(plans, name):
    code, out, err = ask(plans, name, "--kind", "order")
    assert (code, err) == (0, "")
    ticks = [line for line in out.splitlines() if "[ ]" in line]
    lines = order_lines(read_file(plans / name))
    assert len(ticks) >= len(lines)
    together = " ".join(out.split())
    for line in lines:
        assert line.item in together or f"1 {key_of(line.item)}" in together
    assert all(len(line) <= 110 for line in out.splitlines())


def test_the_days_and_times_are_those_of_the_timetable(plans):
    code, out, _err = ask(plans, HARVEST, "--kind", "order", "--timetable", "supper.json")
    assert code == 0
    assert "counted back" not in out
    days = re.findall(r"^Buy on (\w+) (\d+) September: \d+ things?$", out, re.MULTILINE)
    # the cream for the butter is warmed on Monday afternoon, so it is bought on Sunday
    assert days[0] == ("Sunday", "20")
    assert [int(day) for _name, day in days] == sorted(int(day) for _name, day in days)
    sunday = out.partition("Buy on Sunday")[2].partition("Buy on")[0]
    assert "1 l double cream, 40 % fat or more: Cultured butter with sea salt by Mon " in sunday


def test_the_pull_list_has_every_vessel_of_the_timetable(plans):
    plan = read_file(plans / HARVEST)
    timetable = hand_made(plan)
    code, out, err = ask(plans, HARVEST, "--kind", "pull", "--timetable", "supper.json")
    assert (code, err) == (1 if clashes(plan, timetable) else 0, "")
    for line in pull_list(plan, timetable).vessels:
        many = f"{line.most} of {line.vessel.count}" if line.vessel.count > 1 else "1"
        assert f"[ ] {many} {line.vessel.name}" in out


def test_a_clashing_timetable_ends_with_1_and_says_so(plans):
    plan = read_file(plans / HARVEST)
    timetable = on_paper(plan)
    assert clashes(plan, timetable)
    (plans / "paper.json").write_text(write_timetable(plan, timetable), encoding="utf-8")
    code, out, _err = ask(plans, HARVEST, "--kind", "pull", "--timetable", "paper.json")
    assert code == 1
    assert out.splitlines()[-1].endswith("in this timetable; cookday check tells them.")


def test_without_a_timetable_the_pull_list_is_of_one_arranged_now(plans):
    code, out, _err = ask(plans, "weeknight_supper.toml", "--kind", "pull", "--seconds", "2")
    assert code == 0
    assert "Roasting tin" in out


def test_a_plan_without_dishes_needs_nothing(tmp_path):
    (tmp_path / "bare.toml").write_text('name = "Bare"\nplating = "2026-10-08 19:00 Europe/London"\n', encoding="utf-8")
    code, out, err = ask(tmp_path, "bare.toml", "--kind", "order")
    assert (code, err) == (0, "")
    assert "No dish has ingredients yet, so there is nothing to buy." in out


@pytest.mark.parametrize(
    ("arguments", "says"),
    [
        ((HARVEST,), "the following arguments are required: --kind"),
        ((HARVEST, "--kind", "wine"), "invalid choice: 'wine'"),
        (("nowhere.toml", "--kind", "order"), "There is no plan “nowhere.toml”"),
        ((HARVEST, "--kind", "pull", "--timetable", "nowhere.json"), "There is no timetable “nowhere.json”"),
    ],
)
def test_what_is_wrong_is_told_in_one_line(plans, arguments, says):
    code, out, err = ask(plans, *arguments)
    assert (code, out) == (2, "")
    (line,) = err.splitlines()
    assert line.startswith("cookday: ")
    assert says in line
