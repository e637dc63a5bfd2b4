"""`cookday sheet` for phone, calendar and tables, as scripts ask for it: exit codes, one line for what is wrong."""

from __future__ import annotations

import csv
import io
import os
import subprocess
import sys
import zipfile
from pathlib import Path

import pytest
from icalendar import Calendar
from openpyxl import load_workbook

import demo_data
from app.command import main
from core.hatch.tables import NAMES
from core.intake.text_plan import read_file
from core.sheets.run_sheet import run_sheet
from core.timetable.as_text import write_timetable
from tests.support.hand_made import hand_made

ROOT = Path(__file__).parents[3]
HARVEST = "harvest_supper.toml"


@pytest.fixture(scope="module")
def plans(tmp_path_factory):
    """Return a folder with the demo plans and the hand-made timetable of the supper."""
    folder = tmp_path_factory.mktemp("plans")
    demo_data.put(folder)
    plan = read_file(folder / HARVEST)
    (folder / "supper.json").write_text(write_timetable(plan, hand_made(plan)), encoding="utf-8")
    return folder


@pytest.fixture
def ask(plans, monkeypatch, capsys):
    """Return what gives exit code, output and errors of `cookday sheet` for the supper."""
    monkeypatch.chdir(plans)

    def asked(*arguments):
        try:
            code = main(["sheet", HARVEST, "--timetable", "supper.json", *arguments])
        except SystemExit as end:
            code = end.code
        said = capsys.readouterr()
        return code, said.out, said.err

    return asked


def test_in_a_process_of_its_own_without_a_display(plans):
    kept = {name: value for name, value in os.environ.items() if name not in {"DISPLAY", "WAYLAND_DISPLAY"}}
    asked = ["sheet", HARVEST, "--timetable", "supper.json", "--kind", "phone", "--to", "alone.html"]
    done = subprocess.run(
        [sys.executable, "-m", "app.command", *asked],
        cwd=plans, env={**kept, "PYTHONPATH": str(ROOT), "PYTHONWARNINGS": "error"}, capture_output=True, text=True,
        check=False,
    )  # fmt: skip
    assert (done.returncode, done.stderr) == (0, "")
    assert (plans / "alone.html").read_text(encoding="utf-8").startswith("<!doctype html>")


def lines_of(folder):
    plan = read_file(folder / HARVEST)
    return [line for day in run_sheet(plan, hand_made(plan)).days for line in day.lines]


def test_each_kind_writes_what_its_readers_read(plans, ask):
    lines = lines_of(plans)
    for kind, name in (("phone", "day.html"), ("calendar", "day.ics"), ("csv", "day.csv"), ("spreadsheet", "day.xlsx")):
        code, out, err = ask("--kind", kind, "--to", name)
        assert (code, err) == (0, "")
        assert out.startswith("Everything meets")
    assert (plans / "day.html").read_text(encoding="utf-8").count('<input type="checkbox" id="t-') == len(lines)
    assert len(Calendar.from_ical((plans / "day.ics").read_bytes()).walk("VEVENT")) == len(lines)
    rows = list(csv.reader(io.StringIO((plans / "day.csv").read_bytes().decode("utf-8-sig"), newline="")))
    assert len(rows) == len(lines) + 1
    assert load_workbook(plans / "day.xlsx").sheetnames == list(NAMES)


def test_all_tables_or_one(plans, ask):
    assert ask("--kind", "csv", "--to", "all.zip")[0] == 0
    with zipfile.ZipFile(plans / "all.zip") as archive:
        order = archive.read("order.csv")
    assert ask("--kind", "csv", "--table", "order", "--to", "order.csv")[0] == 0
    assert (plans / "order.csv").read_bytes() == order


def test_a_calendar_of_the_days_before(plans, ask):
    assert ask("--kind", "calendar", "--ahead", "--lead", "45", "--to", "ahead.ics")[0] == 0
    found = Calendar.from_ical((plans / "ahead.ics").read_bytes()).walk("VEVENT")
    assert 0 < len(found) < len(lines_of(plans))
    assert all(str(each["DTSTART"].to_ical().decode()) < "20260926" for each in found)
    assert all(each.walk("VALARM")[0]["TRIGGER"].to_ical() == b"-PT45M" for each in found)


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (("--kind", "phone", "--to", "day.pdf"), "“day.pdf” must end in .html."),
        (("--kind", "csv", "--to", "day.xlsx"), "“day.xlsx” must end in .csv or .zip."),
        (("--kind", "csv", "--table", "soup", "--to", "x.csv"), "There is no table “soup”. Give one of"),
        (("--kind", "csv", "--table", "order", "--to", "x.zip"), "“x.zip” holds all tables. Leave --table out"),
        (("--kind", "phone", "--ahead", "--to", "x.html"), "--ahead and --lead are for --kind calendar"),
        (("--kind", "run", "--lead", "5", "--to", "x.pdf"), "--ahead and --lead are for --kind calendar"),
        (("--kind", "spreadsheet", "--table", "order", "--to", "x.xlsx"), "--table is for --kind csv"),
        (("--kind", "calendar", "--dense", "--to", "x.ics"), "are for paper; leave them out for calendar."),
        (("--kind", "calendar", "--lead", "-5", "--to", "x.ics"), "is not a whole number of minutes from 0 to 10080"),
    ],
)
def test_bad_input_is_one_clear_line_and_writes_nothing(plans, ask, arguments, said):
    before = {path.name: path.stat().st_mtime_ns for path in plans.iterdir()}
    code, out, err = ask(*arguments)
    assert (code, out) == (2, "")
    assert said in err
    assert err.count("\n") == 1
    assert {path.name: path.stat().st_mtime_ns for path in plans.iterdir()} == before
