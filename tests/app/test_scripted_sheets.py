"""cookday sheet: every kind, copies, papers; what is refused is one clear line and writes nothing."""

from __future__ import annotations

import io
from pathlib import Path

import pytest
from pypdf import PdfReader

import demo_data
from app.command import main
from app.scripted_sheets import KINDS
from core.sheets.kinds import SheetKind
from core.timetable.as_text import write_timetable
from tests.core.sheets.feasts import HARVEST, harvest


@pytest.fixture
def supper(tmp_path: Path) -> Path:
    """Write the harvest supper and its timetable made by hand; return the plan."""
    plan = tmp_path / "supper.toml"
    plan.write_text(demo_data.text_of(HARVEST), encoding="utf-8")
    (tmp_path / "times.json").write_text(write_timetable(*harvest()), encoding="utf-8")
    return plan


def sheet(plan: Path, *more: str) -> tuple[int, Path]:
    out = plan.with_name("out.pdf")
    return main(["sheet", str(plan), "--timetable", str(plan.with_name("times.json")), "--to", str(out), *more]), out


def text(path: Path) -> str:
    pages = PdfReader(io.BytesIO(path.read_bytes())).pages
    return " ".join(" ".join(page.extract_text().split()) for page in pages)


def test_the_kinds_are_those_of_the_core() -> None:
    assert tuple(SheetKind) == KINDS


@pytest.mark.parametrize(
    ("kind", "words"),
    [
        ("run", "Run sheet: Harvest supper Serving time"),
        ("prep", "item, in the order of work"),
        ("station", "Oven, Saturday 26 September"),
        ("order", "Buy on Sunday 20 September"),
        ("pull", "Vessels and tools"),
        ("fridge", "Fridge, Friday 25 September"),
        ("temperatures", "corrective action"),
        ("menu", "contains fish, milk"),
        ("plating", "the last 30 min before"),
        ("labels", "use by"),
    ],
)
def test_every_kind(supper: Path, kind: str, words: str) -> None:
    code, out = sheet(supper, "--kind", kind)
    assert code == 0
    assert words in text(out)


def test_without_a_kind_it_is_the_run_sheet(supper: Path) -> None:
    code, out = sheet(supper)
    assert code == 0
    assert "Run sheet: Harvest supper Serving time" in text(out)


def test_a_copy_across_letter_paper_in_small_type(supper: Path) -> None:
    code, out = sheet(supper, "--for", "able helper", "--paper", "Letter", "--landscape", "--dense")
    assert code == 0
    assert "Run sheet for Able helper" in text(out)
    page = PdfReader(io.BytesIO(out.read_bytes())).pages[0].mediabox
    assert (round(float(page.width)), round(float(page.height))) == (792, 612)


@pytest.mark.parametrize(
    ("more", "said"),
    [
        (("--for", "Bob"), 'No cook or station is called "Bob"'),
        (("--kind", "menu", "--for", "oven"), "There is one menu card for everybody"),
        (("--kind", "station", "--for", "novice"), "a station sheet is for a station"),
    ],
)
def test_refused(supper: Path, capsys: pytest.CaptureFixture[str], more: tuple[str, ...], said: str) -> None:
    code, out = sheet(supper, *more)
    told = capsys.readouterr()
    assert code == 2
    assert said.casefold() in told.err.casefold()
    assert told.err.count("\n") == 1
    assert not out.exists()


@pytest.mark.parametrize("kind", ["order", "menu"])
def test_no_timetable_is_asked_for_where_none_is_needed(
    supper: Path, monkeypatch: pytest.MonkeyPatch, kind: str
) -> None:
    def never(*_given: object) -> None:
        raise AssertionError("nothing should be arranged")

    monkeypatch.setattr("app.scripted._arranged", never)
    out = supper.with_name("out.pdf")
    assert main(["sheet", str(supper), "--kind", kind, "--to", str(out)]) == 0
    assert out.read_bytes().startswith(b"%PDF")
