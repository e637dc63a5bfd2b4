"""The command as scripts call it: a process of its own, real files, exit codes, one clear line for what is wrong."""

from __future__ import annotations

import json
import os
import re
import sqlite3
import stat
import struct
import subprocess
import sys
import xml.etree.ElementTree as ET
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

import pytest

import demo_data
from core.intake.text_plan import read_file, write_file
from core.plan.plan import Plan
from core.store.file import PlanFile
from core.store.mark import APPLICATION_ID
from core.timetable.as_text import read_timetable, write_timetable
from core.timetable.on_paper import on_paper
from tests.core.sheets.reading import day_of, on_the_wall, squeezed, text_of_days

ROOT = Path(__file__).parents[2]
WEEKNIGHT, HARVEST = "weeknight_supper.toml", "harvest_supper.toml"
SCREENS = ("DISPLAY", "WAYLAND_DISPLAY", "XDG_RUNTIME_DIR")


@dataclass(frozen=True)
class Done:
    """What a command left: its exit code and what it said."""

    code: int
    out: str
    err: str

    def refused(self) -> str:
        """Return the one line of a refusal."""
        assert self.code == 2, (self.code, self.out, self.err)
        (line,) = self.err.splitlines()
        assert line.startswith("cookday: ")
        assert "Traceback" not in self.err
        assert self.out == ""
        return line.removeprefix("cookday: ")


def environment(**more: str) -> dict[str, str]:
    """Return this process's environment without a screen and without what the tests tell Qt."""
    kept = {
        name: value
        for name, value in os.environ.items()
        if name not in SCREENS and not name.startswith("QT_")
    }
    return {**kept, "PYTHONPATH": str(ROOT), "PYTHONWARNINGS": "error", **more}


def cookday(*arguments: object, folder: Path, **more: str) -> Done:
    done = subprocess.run(
        [sys.executable, "-m", "app.command", *map(str, arguments)],
        cwd=folder,
        env=environment(**more),
        capture_output=True,
        encoding="utf-8",
        timeout=100,
        check=False,
    )
    return Done(done.returncode, done.stdout, done.stderr)


@pytest.fixture(scope="module")
def kitchen(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return a folder with the demo plans, and the weeknight supper arranged; nobody writes over these."""
    folder = tmp_path_factory.mktemp("kitchen")
    demo_data.put(folder)
    done = cookday("arrange", WEEKNIGHT, "--seconds", 2, "--timetable", "right.json", folder=folder)
    assert done.code == 0, done
    plan = read_file(folder / WEEKNIGHT)
    (folder / "paper.json").write_text(write_timetable(plan, on_paper(plan)), encoding="utf-8")
    return folder


@pytest.fixture
def say(kitchen: Path) -> Callable[..., Done]:
    """Return the command, run beside the demo plans."""
    return lambda *arguments, **more: cookday(*arguments, folder=kitchen, **more)


@pytest.fixture
def weeknight(kitchen: Path) -> Plan:
    return read_file(kitchen / WEEKNIGHT)


# ---- arrange and check


def test_arrange_prints_every_step_at_its_time_and_writes_the_timetable(
    say, kitchen, tmp_path, weeknight
) -> None:
    out = tmp_path / "supper.json"
    done = say("arrange", WEEKNIGHT, "--seconds", "2", "--seed", "7", "--timetable", out)
    assert (done.code, done.err) == (0, "")
    timetable = read_timetable(out.read_text(encoding="utf-8"))
    assert {each.step for each in timetable.placed} == set(weeknight.steps)
    for placed in timetable.placed:
        at, end = on_the_wall(weeknight, placed.start), on_the_wall(weeknight, placed.end)
        step, dish = weeknight.steps[placed.step], weeknight.dish_of[placed.step]
        assert f"  {at:%H:%M}-{end:%H:%M}  {dish.name}: {step.does}" in done.out
    assert done.out.startswith("Thursday 8 October\n")
    assert "Everything meets on Thursday 8 October 2026, 19:00: 15 loads placed." in done.out
    checked = say("check", WEEKNIGHT, "--timetable", out)
    assert (checked.code, checked.err) == (0, "")
    assert checked.out == "Everything meets on Thursday 8 October 2026, 19:00: 15 loads placed.\n"


def test_the_same_seed_gives_the_same_timetable(say, tmp_path) -> None:
    for name in ("one.json", "two.json"):
        assert (
            say("arrange", WEEKNIGHT, "--seconds", 1, "--seed", 3, "--timetable", tmp_path / name).code == 0
        )
    assert (tmp_path / "one.json").read_bytes() == (tmp_path / "two.json").read_bytes()


def test_a_moved_step_clashes(say, kitchen, tmp_path) -> None:
    data = json.loads((kitchen / "right.json").read_text(encoding="utf-8"))
    bake = next(each for each in data["placed"] if each["step"] == "fish.bake")
    bake["start"] += 7
    for hand in bake["hands"]:
        hand["start"] += 7
    (tmp_path / "moved.json").write_text(json.dumps(data), encoding="utf-8")
    done = say("check", WEEKNIGHT, "--timetable", tmp_path / "moved.json")
    assert (done.code, done.err) == (1, "")
    head, *sentences = done.out.splitlines()
    assert re.fullmatch(r"\d+ clash(es)?:", head)
    assert len(sentences) == int(head.split()[0]) >= 2
    late = "Bake the fish is done at 19:07, 7 min after it is served at 19:00."
    assert any(each.endswith(late) for each in sentences), sentences


def test_a_plan_that_cannot_meet_ends_with_1_and_says_why(say, kitchen, tmp_path) -> None:
    """The fish may go in at its right time only, and the oven is only switched on an hour late."""
    text = (kitchen / WEEKNIGHT).read_text(encoding="utf-8")
    narrow = text.replace('present = ["day 0 17:30-22:00"]', 'present = ["day 0 18:40-22:00"]')
    assert narrow != text
    (tmp_path / "late.toml").write_text(narrow, encoding="utf-8")
    done = say("arrange", tmp_path / "late.toml", "--seconds", 1, "--timetable", tmp_path / "late.json")
    assert (done.code, done.err) == (1, "")
    assert re.search(
        r"^\d+ clashes \((cannot meet|nothing found in the time given)\):$", done.out, re.MULTILINE
    )
    assert say("check", tmp_path / "late.toml", "--timetable", tmp_path / "late.json").code == 1


def test_a_plan_without_steps_has_nothing_to_place(say, tmp_path) -> None:
    (tmp_path / "empty.toml").write_text(
        'name = "Nothing yet"\nplating = "2026-10-08 19:00 Europe/London"\n', encoding="utf-8"
    )
    done = say("arrange", tmp_path / "empty.toml", "--seconds", 1)
    assert (done.code, done.out) == (0, "The plan has no steps yet, so there is nothing to place.\n")
    assert say("sheet", tmp_path / "empty.toml", "--seconds", 1, "--to", tmp_path / "empty.pdf").code == 0
    assert say("picture", tmp_path / "empty.toml", "--seconds", 1, "--to", tmp_path / "empty.png").code == 0


def test_plan_files_and_json_are_read_like_toml(say, kitchen, tmp_path, weeknight) -> None:
    PlanFile.create(tmp_path / "supper.cookday", weeknight).close()
    write_file(weeknight, tmp_path / "supper.json")
    (tmp_path / "copy.bak").write_bytes((tmp_path / "supper.cookday").read_bytes())
    for name in ("supper.cookday", "supper.json", "copy.bak"):
        assert say("check", tmp_path / name, "--timetable", "right.json").code == 0, name
    left = sorted(path.name for path in tmp_path.iterdir())
    assert left == ["copy.bak", "supper.cookday", "supper.json"], "nothing is left beside the plan"


# ---- the run sheet


def test_the_sheet_holds_every_step_at_its_time(say, kitchen, tmp_path, weeknight) -> None:
    out = tmp_path / "supper.pdf"
    done = say("sheet", WEEKNIGHT, "--timetable", "right.json", "--to", out)
    assert (done.code, done.err) == (0, "")
    days = {day: squeezed(text) for day, text in text_of_days(out.read_bytes()).items()}
    for placed in read_timetable((kitchen / "right.json").read_text(encoding="utf-8")).placed:
        at = on_the_wall(weeknight, placed.start)
        words = re.escape(squeezed(weeknight.steps[placed.step].does))
        assert re.search(rf"{at:%H:%M}T[^A-Z]*(IN|ON|START)?{words}", days[day_of(at)])


def test_the_sheet_on_the_other_paper_arranged_at_once(say, tmp_path) -> None:
    from pypdf import PdfReader

    out = tmp_path / "supper.pdf"
    assert say("sheet", WEEKNIGHT, "--seconds", 1, "--paper", "letter", "--to", out).code == 0
    box = PdfReader(out).pages[0].mediabox
    assert (round(box.width), round(box.height)) == (612, 792)


def test_the_sheet_of_a_clashing_timetable_is_written_and_ends_with_1(say, tmp_path) -> None:
    out = tmp_path / "supper.pdf"
    done = say("sheet", WEEKNIGHT, "--timetable", "paper.json", "--to", out)
    assert done.code == 1
    (text,) = text_of_days(out.read_bytes()).values()
    assert f"Not everything meets yet: {done.out.splitlines()[0].removesuffix(':')}" in text


def test_the_timetable_last_seen_in_the_window_is_the_one_that_is_printed(
    say, kitchen, tmp_path, weeknight
) -> None:
    """Arranging anew would give a clash-free sheet; what the cook saw clashes, and is what comes out."""
    with PlanFile.create(tmp_path / "supper.cookday", weeknight) as file:
        file.keep_seen((kitchen / "paper.json").read_text(encoding="utf-8"))
    seen = say("sheet", tmp_path / "supper.cookday", "--to", tmp_path / "seen.pdf")
    given = say("check", WEEKNIGHT, "--timetable", "paper.json")
    assert (seen.code, seen.out) == (1, given.out)
    anew = say(
        "sheet", tmp_path / "supper.cookday", "--timetable", "right.json", "--to", tmp_path / "anew.pdf"
    )
    assert anew.code == 0


# ---- the picture, without any screen


def png_size(path: Path) -> tuple[int, int]:
    """Return width and height from the header of a PNG (its specification, 11.2.2)."""
    head = path.read_bytes()[:24]
    assert head[:8] == b"\x89PNG\r\n\x1a\n"
    assert head[12:16] == b"IHDR"
    return struct.unpack(">II", head[16:24])


@pytest.mark.parametrize("width", [900, 1800])
def test_a_png_of_the_width_asked_for(say, tmp_path, width) -> None:
    out = tmp_path / "supper.png"
    done = say("picture", WEEKNIGHT, "--timetable", "right.json", "--width", width, "--to", out)
    assert (done.code, done.err) == (0, "")
    wide, high = png_size(out)
    assert wide == width
    assert high > 300
    assert len(out.read_bytes()) > 10_000


def test_an_svg_bears_the_codes_of_the_dishes(say, kitchen, tmp_path) -> None:
    out = tmp_path / "supper.svg"
    done = say("picture", HARVEST, "--seconds", 1, "--by", "dish", "--dark", "--to", out)
    assert done.code in {0, 1}
    root = ET.parse(out).getroot()  # noqa: S314  the program's own file
    assert root.tag == "{http://www.w3.org/2000/svg}svg"
    assert root.get("viewBox", "").startswith("0 0 1800 ")
    written = ["".join(each.itertext()).strip() for each in root.iter("{http://www.w3.org/2000/svg}text")]
    codes = {dish.code for dish in read_file(kitchen / HARVEST).menu.dishes}
    assert len(codes) == 13
    assert codes <= set(written)


def test_a_picture_needs_no_screen_even_where_qt_is_told_of_one(say, tmp_path) -> None:
    out = tmp_path / "supper.png"
    done = say(
        "picture", WEEKNIGHT, "--timetable", "right.json", "--to", out, DISPLAY=":991", QT_QPA_PLATFORM="xcb"
    )
    assert (done.code, done.err) == (0, "")
    assert png_size(out)[0] == 1800


# ---- schema, demo, help


def test_the_schema_is_json_schema(say) -> None:
    done = say("schema")
    assert done.code == 0
    found = json.loads(done.out)
    assert found["$schema"] == "https://json-schema.org/draft/2020-12/schema"
    assert {"name", "plating", "dish", "station"} <= set(found["properties"])


def test_the_demo_plans_are_put_into_a_folder(say, tmp_path) -> None:
    folder = tmp_path / "new" / "plans"
    done = say("demo", folder)
    assert (done.code, done.out.split()) == (0, [str(folder / name) for name in demo_data.files()])
    assert {path.name for path in folder.iterdir()} == set(demo_data.files())
    assert say("demo", folder).code == 0, "putting them there again changes nothing"
    (folder / WEEKNIGHT).write_text("mine", encoding="utf-8")
    assert "would be overwritten" in say("demo", folder).refused()
    assert (folder / WEEKNIGHT).read_text(encoding="utf-8") == "mine"


def test_version_and_help(say) -> None:
    version = say("--version")
    assert version.code == 0
    assert re.fullmatch(r"cookday \d+\.\d+\.\d+\n", version.out)
    about = say("--help")
    assert (about.code, about.err) == (0, "")
    for way in ("arrange", "check", "sheet", "picture", "schema", "demo"):
        assert re.search(rf"^ +{way} ", about.out, re.MULTILINE)
        own = say(way, "--help")
        assert own.code == 0
        assert own.out.startswith(f"usage: cookday {way} ")


HEAVY = {
    "PySide6", "alembic", "networkx", "numpy", "ortools", "pandas", "pint", "pydantic", "shiboken6",
    "sqlalchemy", "typst",
}  # fmt: skip


def test_help_loads_nothing_heavy(kitchen) -> None:
    done = subprocess.run(
        [sys.executable, "-X", "importtime", "-m", "app.command", "--help"],
        cwd=kitchen, env=environment(), capture_output=True, text=True, timeout=100, check=False,
    )  # fmt: skip
    names = {
        line.rsplit("|", 1)[1].strip().partition(".")[0] for line in done.stderr.splitlines() if "|" in line
    }
    assert "argparse" in names
    assert not names & HEAVY


# ---- bad input: one line, exit 2


def foreign_database(path: Path) -> None:
    with sqlite3.connect(path) as connection:
        connection.execute("CREATE TABLE notes (text)")
    connection.close()


def newer_plan_file(path: Path) -> None:
    plan = read_file(path.parent / WEEKNIGHT)
    PlanFile.create(path, plan).close()
    connection = sqlite3.connect(path)
    assert connection.execute("PRAGMA application_id").fetchone() == (APPLICATION_ID,)
    connection.execute("PRAGMA user_version = 9999")
    connection.commit()
    connection.close()


BAD_PLANS: dict[str, tuple[Callable[[Path], object], str]] = {
    "gone.toml": (lambda _path: None, "There is no plan"),
    "folder.toml": (lambda path: path.mkdir(), "is a folder"),
    "empty.toml": (lambda path: path.touch(), "is empty"),
    "empty.cookday": (lambda path: path.touch(), "is empty"),
    "binary.toml": (lambda path: path.write_bytes(b"\xff\xfe\x00\x01" * 99), "not plain text"),
    "binary.json": (lambda path: path.write_bytes(b"\xff\xfe\x00\x01" * 99), "not plain text"),
    "binary.cookday": (lambda path: path.write_bytes(b"\xff\xfe\x00\x01" * 99), "not a plan file"),
    "text.cookday": (lambda path: path.write_text("name = 1"), "not a plan file"),
    "plan.txt": (lambda path: path.write_text("name = 1"), "must end in .cookday, .toml or .json"),
    "plan": (lambda path: path.write_text("name = 1"), "must end in .cookday, .toml or .json"),
    "broken.toml": (lambda path: path.write_text("name = = 1"), "line 1"),
    "broken.json": (lambda path: path.write_text('{"name": '), "JSON"),
    "list.json": (lambda path: path.write_text("[1, 2]"), "list.json"),
    "right.json": (lambda _path: None, "is a timetable, not a plan"),
    "foreign.cookday": (foreign_database, "database of another program"),
    "newer.cookday": (newer_plan_file, "newer"),
}


@pytest.mark.parametrize("name", BAD_PLANS)
def test_a_bad_plan_is_refused_in_one_line(say, kitchen, name) -> None:
    make, words = BAD_PLANS[name]
    path = kitchen / name
    if not path.exists():
        make(path)
    line = say("arrange", name, "--seconds", 1).refused()
    assert words in line
    assert name in line


def test_many_faults_are_told_in_one_line(say, tmp_path) -> None:
    text = 'name = "X"\nplating = "2026-10-08 19:00 Europe/London"\n'
    text += "".join(f'[dish.d{n}]\nname = "D"\nserves = -{n}\n' for n in range(1, 9))
    (tmp_path / "faults.toml").write_text(text, encoding="utf-8")
    line = say("arrange", tmp_path / "faults.toml").refused()
    told = re.match(r"(\d+) things to mend in faults.toml: Line 3, dish d1: ", line)
    assert told is not None
    assert int(told[1]) >= 8
    assert line.count("dish d") == 3
    assert line.endswith(f"And {int(told[1]) - 3} more.")


BAD_TIMETABLES = {
    "none.json": (None, "There is no timetable"),
    "bytes.json": (b"\xff\xfe" * 50, "it is not text"),
    "words.json": (b"hello", "not JSON"),
    "list.json": (b"[1]", "no timetable"),
    "newer.json": (b'{"cookday_timetable": 2}', "version"),
    "holes.json": (b'{"cookday_timetable": 1, "placed": [{"step": "fish.bake"}]}', "missing"),
    "nothing.json": (b"", "is empty"),
    "other.json": (
        b'{"cookday_timetable": 1, "placed": [{"step": "gratin.bake", "start": -60, "length": 60}]}',
        "timetable of another plan",
    ),
}


@pytest.mark.parametrize("way", ["check", "sheet", "picture"])
@pytest.mark.parametrize("name", BAD_TIMETABLES)
def test_a_bad_timetable_is_refused_in_one_line(say, tmp_path, name, way) -> None:
    content, words = BAD_TIMETABLES[name]
    path = tmp_path / name
    if content is not None:
        path.write_bytes(content)
    out = tmp_path / {"sheet": "x.pdf", "picture": "x.png"}.get(way, "")
    to = ("--to", out) if way != "check" else ()
    line = say(way, WEEKNIGHT, "--timetable", path, *to).refused()
    assert words in line
    assert name in line
    assert {each.name for each in tmp_path.iterdir()} <= {name}, "nothing is written"


BAD_OPTIONS: dict[tuple[str, ...], str] = {
    ("arrange", WEEKNIGHT, "--seconds", "0"): "more than 0",
    ("arrange", WEEKNIGHT, "--seconds", "-5"): "more than 0",
    ("arrange", WEEKNIGHT, "--seconds", "abc"): "“abc” is no number of seconds",
    ("arrange", WEEKNIGHT, "--seconds", "nan"): "more than 0",
    ("arrange", WEEKNIGHT, "--seconds", "inf"): "at most 86400",
    ("arrange", WEEKNIGHT, "--seconds"): "expected one argument",
    ("arrange", WEEKNIGHT, "--seed", "x"): "“x” is not a whole number",
    ("arrange", WEEKNIGHT, "--seed", "-1"): "whole number from 0",
    ("arrange",): "FILE",
    ("arrange", WEEKNIGHT, HARVEST): "unrecognized arguments",
    ("check", WEEKNIGHT): "--timetable",
    ("sheet", WEEKNIGHT): "--to",
    ("sheet", WEEKNIGHT, "--paper", "a5", "--to", "x.pdf"): "a5",
    ("picture", WEEKNIGHT, "--width", "10", "--to", "x.png"): "from 400 to 20000",
    ("picture", WEEKNIGHT, "--by", "shelf", "--to", "x.png"): "shelf",
    ("--frobnicate",): "--frobnicate",
    ("arrnge", WEEKNIGHT): "Did you mean “cookday arrange”?",
    ("nothing-here",): "There is no plan “nothing-here”",
    (WEEKNIGHT, HARVEST): "one plan to open, not 2",
}


@pytest.mark.parametrize("arguments", BAD_OPTIONS, ids=" ".join)
def test_bad_options_are_refused_in_one_line(say, arguments) -> None:
    assert BAD_OPTIONS[arguments] in say(*arguments).refused()


def test_the_window_says_when_there_is_no_display(say) -> None:
    if sys.platform.startswith("linux"):
        assert "no display" in say().refused()
        assert "no display" in say(WEEKNIGHT).refused()


# ---- where it is written


def ways_of_writing(out: Path) -> tuple[object, ...]:
    """Return the command that writes a file with such an ending."""
    if out.suffix == ".json":
        return ("arrange", WEEKNIGHT, "--seconds", 1, "--timetable", out)
    way = "sheet" if out.suffix == ".pdf" else "picture"
    return (way, WEEKNIGHT, "--timetable", "right.json", "--to", out)


@pytest.mark.parametrize("ending", [".json", ".pdf", ".png", ".svg"])
def test_bad_places_are_refused_and_nothing_is_left(say, tmp_path, ending) -> None:
    missing = tmp_path / "no" / f"out{ending}"
    line = say(*ways_of_writing(missing)).refused()
    assert "There is no folder" in line
    folder = tmp_path / f"folder{ending}"
    folder.mkdir()
    assert "is a folder" in say(*ways_of_writing(folder)).refused()
    locked = tmp_path / f"locked{ending}"
    locked.write_bytes(b"keep me")
    locked.chmod(stat.S_IRUSR)
    assert "may only be read" in say(*ways_of_writing(locked)).refused()
    assert locked.read_bytes() == b"keep me"
    assert {each.name for each in tmp_path.iterdir()} == {folder.name, locked.name}


@pytest.mark.parametrize("ending", [".json", ".pdf", ".png", ".svg"])
def test_a_folder_that_takes_nothing_is_told(say, ending) -> None:
    """Nobody, not even root, makes files in /proc."""
    if sys.platform.startswith("linux"):
        line = say(*ways_of_writing(Path(f"/proc/out{ending}"))).refused()
        assert f"out{ending}" in line or "Nothing can be written" in line


@pytest.mark.parametrize("ending", [".pdf", ".png", ".svg"])
def test_an_older_file_is_replaced_whole(say, tmp_path, ending) -> None:
    out, link = tmp_path / f"out{ending}", tmp_path / f"link{ending}"
    out.write_bytes(b"old" * 1_000_000)
    link.symlink_to(out)
    assert say(*ways_of_writing(link)).code == 0
    assert link.is_symlink(), "the link stays, what it names is replaced"
    assert b"oldold" not in out.read_bytes()
    assert {each.name for each in tmp_path.iterdir()} == {out.name, link.name}
    usual = 0o666 & ~_umask()
    assert stat.S_IMODE(out.stat().st_mode) == usual


def _umask() -> int:
    mask = os.umask(0)
    os.umask(mask)
    return mask


def test_wrong_endings_are_refused(say, tmp_path) -> None:
    for way, name in (("sheet", "out.txt"), ("sheet", "out"), ("picture", "out.gif"), ("picture", "out.pdf")):
        line = say(way, WEEKNIGHT, "--timetable", "right.json", "--to", tmp_path / name).refused()
        assert "must end in" in line
    line = say("arrange", WEEKNIGHT, "--timetable", tmp_path / "out.toml").refused()
    assert "must end in .json" in line
    assert not list(tmp_path.iterdir())


def test_a_timetable_never_replaces_a_plan(say, tmp_path, weeknight) -> None:
    plan = tmp_path / "plan.json"
    write_file(weeknight, plan)
    before = plan.read_bytes()
    assert "is the plan itself" in say("arrange", plan, "--seconds", 1, "--timetable", plan).refused()
    assert "is no timetable" in say("arrange", WEEKNIGHT, "--seconds", 1, "--timetable", plan).refused()
    assert plan.read_bytes() == before
    again = tmp_path / "again.json"
    for _turn in range(2):
        assert say("arrange", WEEKNIGHT, "--seconds", 1, "--timetable", again).code == 0


# ---- where it is read


@pytest.mark.parametrize("arguments", [("schema",), ("--help",), ("arrange", WEEKNIGHT, "--seconds", "1")])
def test_a_closed_pipe_is_no_fault(kitchen, arguments) -> None:
    """The reader goes before anything is written."""
    reading, writing = os.pipe()
    os.close(reading)
    try:
        done = subprocess.run(
            [sys.executable, "-m", "app.command", *arguments],
            cwd=kitchen, env=environment(), stdout=writing, stderr=subprocess.PIPE, text=True, timeout=100,
            check=False,
        )  # fmt: skip
    finally:
        os.close(writing)
    assert done.stderr == ""
    assert done.returncode == 141 or arguments == ("--help",)  # some argparse hold their peace by themselves


def test_a_full_disk_is_told_in_one_line(kitchen) -> None:
    if not sys.platform.startswith("linux"):
        return
    with Path("/dev/full").open("w", encoding="utf-8") as full:
        done = subprocess.run(
            [sys.executable, "-m", "app.command", "schema"],
            cwd=kitchen, env=environment(), stdout=full, stderr=subprocess.PIPE, text=True, timeout=100, check=False,
        )  # fmt: skip
    assert done.returncode == 2
    assert done.stderr == "cookday: No space left on device\n"


def test_a_terminal_that_lacks_signs_is_no_fault(say) -> None:
    done = say("arrange", WEEKNIGHT, "--seconds", "1", PYTHONIOENCODING="ascii", PYTHONUTF8="0")
    assert done.code == 0
    assert "200 \\xb0C" in done.out
