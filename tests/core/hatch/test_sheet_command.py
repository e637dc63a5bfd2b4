"""`cookday sheet` for phone, calendar and tables, as scripts ask for it: exit codes, one line for what is wrong."""

from __future__ import annotations

import csv
import io
import json
import os
import re
import subprocess
import sys
import zipfile
from pathlib import Path
from xml.etree import ElementTree

import pytest
from icalendar import Calendar
from openpyxl import load_workbook
from pypdf import PdfReader

import demo_data
from app.command import main
from core.hatch.tables import NAMES
from core.intake.text.write import tables_of
from core.intake.text_plan import read_file
from core.sheets.run_sheet import run_sheet
from core.sheets.whose import whose
from core.timetable.as_text import write_timetable
from core.timetable.on_paper import on_paper
from tests.core.hatch.handed import WORDS
from tests.support.hand_made import hand_made
from tests.support.hostile import hostile_plan

ROOT = Path(__file__).parents[3]
HARVEST = "harvest_supper.toml"
NO_XML = re.compile(r"[^\t\n\r\x20-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")
"""What no XML 1.0 document may hold (2.2, Char)."""
SVG = "{http://www.w3.org/2000/svg}"


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
    for kind, name in (
        ("phone", "day.html"), ("calendar", "day.ics"), ("csv", "day.csv"), ("spreadsheet", "day.xlsx"),
        ("picture", "day.png"), ("picture", "day.svg"),
    ):  # fmt: skip
        code, out, err = ask("--kind", kind, "--to", name)
        assert (code, err) == (0, "")
        assert out.startswith("Everything meets")
    assert (plans / "day.html").read_text(encoding="utf-8").count('<input type="checkbox" id="t-') == len(lines)
    assert len(Calendar.from_ical((plans / "day.ics").read_bytes()).walk("VEVENT")) == len(lines)
    rows = list(csv.reader(io.StringIO((plans / "day.csv").read_bytes().decode("utf-8-sig"), newline="")))
    assert len(rows) == len(lines) + 1
    assert load_workbook(plans / "day.xlsx").sheetnames == list(NAMES)
    # PNG, 11.2.2: width and height are the first eight octets of IHDR
    head = (plans / "day.png").read_bytes()[:24]
    assert head[:8] == b"\x89PNG\r\n\x1a\n"
    assert int.from_bytes(head[16:20], "big") == 1800
    root = ElementTree.parse(plans / "day.svg").getroot()  # noqa: S314  our own text
    assert root.tag == f"{SVG}svg"
    assert root.get("viewBox") == f"0 0 1800 {int.from_bytes(head[20:24], 'big')}"
    words = " ".join("".join(each.itertext()) for each in root.iter(f"{SVG}text"))
    assert "Potato and celeriac gratin" in words


def test_all_tables_or_one(plans, ask):
    assert ask("--kind", "csv", "--to", "all.zip")[0] == 0
    with zipfile.ZipFile(plans / "all.zip") as archive:
        order = archive.read("order.csv")
    assert ask("--kind", "csv", "--table", "order", "--to", "order.csv")[0] == 0
    assert (plans / "order.csv").read_bytes() == order


def test_a_page_that_opens_with_one_cooks_lines(plans, ask):
    assert ask("--kind", "phone", "--for", "able helper", "--to", "helper.html")[0] == 0
    text = (plans / "helper.html").read_text(encoding="utf-8")
    assert '"cook":"Able helper"' in text
    assert text.count('<input type="checkbox" id="t-') == len(lines_of(plans))


@pytest.mark.parametrize("name", ["helper", "Charcoal grill, 57 cm"])
def test_a_calendar_of_one_cook_or_station(plans, ask, name):
    assert ask("--kind", "calendar", "--for", name, "--to", "one.ics")[0] == 0
    assert ask("--kind", "calendar", "--to", "all.ics")[0] == 0
    one, whole = (Calendar.from_ical((plans / file).read_bytes()).walk("VEVENT") for file in ("one.ics", "all.ics"))
    plan = read_file(plans / HARVEST)
    copy = run_sheet(plan, hand_made(plan), of=whose(plan, name))
    assert len(one) == sum(len(day.lines) for day in copy.days) < len(whole)
    assert {str(each["UID"]) for each in one} < {str(each["UID"]) for each in whole}


def titles(path):
    """Return the bookmarks of the first level of a PDF."""
    return [each.title for each in PdfReader(path).outline if not isinstance(each, list)]


def test_several_kinds_of_paper_come_in_one_pdf_in_the_order_asked_for(plans, ask):
    assert ask("--kind", "order,run", "--kind", "prep", "--kind", "run", "--to", "all.pdf")[0] == 0
    assert [each.split()[0] for each in titles(plans / "all.pdf")] == ["Order", "Run", "Prep"]
    assert ask("--kind", "run,order", "--for", "novice", "--dense", "--to", "novice.pdf")[0] == 0
    text = " ".join(" ".join(page.extract_text().split()) for page in PdfReader(plans / "novice.pdf").pages)
    assert "Run sheet for Novice" in text
    assert "Buy on" in text


def test_sheets_that_need_no_timetable_are_not_kept_waiting(plans, monkeypatch):
    def never(*_given):
        raise AssertionError("nothing should be arranged")

    monkeypatch.setattr("app.scripted._arranged", never)
    monkeypatch.chdir(plans)
    assert main(["sheet", HARVEST, "--kind", "order,menu", "--to", "shop.pdf"]) == 0
    assert len(titles(plans / "shop.pdf")) == 2


@pytest.mark.parametrize("kind", WORDS)
def test_a_picture_of_hostile_words_is_well_formed_and_has_them_as_words(tmp_path, capsys, kind):
    plan = hostile_plan(WORDS[kind])
    path, times, out = (tmp_path / name for name in ("plan.json", "times.json", "day.svg"))
    path.write_text(json.dumps(tables_of(plan)), encoding="utf-8")  # signs that TOML cannot hold stand in JSON
    times.write_text(json.dumps(json.loads(write_timetable(plan, on_paper(plan)))), encoding="utf-8")
    code = main(["sheet", str(path), "--timetable", str(times), "--kind", "picture", "--to", str(out)])
    if NO_XML.search(WORDS[kind]):  # what no picture could hold comes in through no plan
        assert code == 2
        assert "has a character that cannot be shown" in capsys.readouterr().err
        assert not out.exists()
        return
    assert code in {0, 1}, capsys.readouterr()
    root = ElementTree.parse(out).getroot()  # noqa: S314  our own text
    drawn = {each.tag.removeprefix(SVG) for each in root.iter()}
    assert drawn <= {
        "svg", "title", "desc", "defs", "g", "clipPath", "rect", "path", "polyline", "polygon", "circle", "ellipse",
        "line", "text",
    }  # fmt: skip
    assert not [name for each in root.iter() for name in each.attrib if name.startswith("on") or "href" in name]
    bare = [re.sub(r"[\W\ufffd]", "", text) for text in (root.findtext(f"{SVG}title") or "", plan.name)]
    assert bare[0] == bare[1]


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
        (("--kind", "phone", "--paper", "letter", "--to", "x.html"), "are for paper; leave them out for phone."),
        (("--kind", "phone", "--for", "oven", "--to", "x.html"), "chooses lines by cook, and Oven is a station"),
        (("--kind", "calendar", "--for", "Bob", "--to", "x.ics"), 'No cook or station is called "Bob". There are'),
        (("--kind", "csv", "--for", "novice", "--to", "x.csv"), "A table names who does what, line by line: leave out"),
        (("--kind", "spreadsheet", "--for", "novice", "--to", "x.xlsx"), "leave out --for. Run sheet, calendar and"),
        (("--kind", "picture", "--for", "novice", "--to", "x.png"), "The picture shows the whole day: leave out"),
        (("--kind", "picture", "--to", "x.pdf"), "“x.pdf” must end in .png or .svg."),
        (("--kind", "run,phone", "--to", "x.pdf"), "Only kinds on paper go into one PDF; write phone to a file of its"),
        (("--kind", "phone", "--kind", "csv", "--to", "x.html"), "write phone and csv to a file of its own"),
        (("--kind", "run,order", "--ahead", "--to", "x.pdf"), "leave them out for run and order."),
        (("--kind", "order,menu", "--for", "novice", "--to", "x.pdf"), "There is one order list for everybody"),
        (("--kind", "run,station", "--for", "novice", "--to", "x.pdf"), "A station sheet is for a station, and Novice"),
        (("--kind", "run,prep", "--to", "x.png"), "“x.png” must end in .pdf."),
        (("--kind", "runn", "--to", "x.pdf"), "there is no kind “runn”; did you mean run?"),
        (("--kind", "run,,prep", "--to", "x.pdf"), "“run,,prep” lacks a kind; write them as in run,prep,order"),
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
