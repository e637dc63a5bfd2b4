"""Sheets that are files, through the real place: the phone's page, the calendar, tables, the picture."""

from __future__ import annotations

import csv
import io
import json
import re
import zipfile
from pathlib import Path
from xml.etree import ElementTree

import icalendar
import openpyxl
import pytest
from PySide6.QtCore import Qt, QUrl
from PySide6.QtGui import QDesktopServices, QImage
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QFileDialog

from app.bridge import OpenPlan
from app.places.files import FilesLeaf
from app.places.settings import Settings
from core.desk import Desk
from core.hatch.tables import NAMES
from core.plan.edits import RenamePlan
from core.timetable.on_paper import on_paper
from tests.support.paper import a_supper
from tests.support.windows import a_window


@pytest.fixture
def shown(qtbot):
    """Show what a plan hands out, with the timetable counted back on paper; `kept` is what is to be remembered."""

    def show(arranged=True, recall="", kept=None, width=1150):
        opened = OpenPlan(Desk(a_supper()))
        if arranged:
            assert opened.show(on_paper(opened.plan), "as on paper")
        leaf = FilesLeaf(opened, recall, (kept if kept is not None else []).append)
        qtbot.addWidget(leaf)
        leaf.resize(width, 640)
        leaf.show()
        qtbot.waitExposed(leaf)
        return leaf, opened

    return show


def click(button):
    assert button.isVisible()
    QTest.mouseClick(button, Qt.MouseButton.LeftButton)


def kept_file(qtbot, leaf, name, folder, **choices) -> bytes:
    """Choose on a card, keep its file, and return what stands in it."""
    for key, value in choices.items():
        leaf.cards[name].fields[key.rstrip("_")].choose(value)
    with qtbot.waitSignal(leaf.told) as said:
        leaf.keep_file(name, folder / "kept")
    path = folder / f"kept{leaf.cards[name].ending}"
    assert str(path) in said.args[0]
    return path.read_bytes()


def test_the_phones_page_is_kept_for_everybody_or_opens_with_a_cook(shown, qtbot, tmp_path):
    leaf, opened = shown()
    everybody = kept_file(qtbot, leaf, "phone", tmp_path).decode()
    assert everybody.lower().startswith("<!doctype html>")
    assert opened.plan.name in everybody
    bens = kept_file(qtbot, leaf, "phone", tmp_path, for_="only:Ben").decode()
    assert bens != everybody
    assert re.search(r"<option[^>]*selected[^>]*>Ben|\"Ben\"", bens)


def test_the_calendar_holds_the_events_that_were_chosen(shown, qtbot, tmp_path):
    leaf, _opened = shown()
    card = leaf.cards["calendar"]
    everything = kept_file(qtbot, leaf, "calendar", tmp_path, which="all", lead="30")
    events = icalendar.Calendar.from_ical(everything).walk("VEVENT")
    assert card.state.text() == f"{len(events)} events in the file."
    assert {each.walk("VALARM")[0]["TRIGGER"].dt.total_seconds() for each in events} == {-1800}
    bens = kept_file(qtbot, leaf, "calendar", tmp_path, for_="only:Ben")
    fewer = icalendar.Calendar.from_ical(bens).walk("VEVENT")
    assert 0 < len(fewer) < len(events)
    assert {str(each["UID"]) for each in fewer} < {str(each["UID"]) for each in events}, "the same events, fewer"
    ahead = kept_file(qtbot, leaf, "calendar", tmp_path, for_="all", which="ahead")
    assert len(icalendar.Calendar.from_ical(ahead).walk("VEVENT")) == 1, "all is done on the day: serving alone"
    assert card.state.text() == "1 event in the file."


def test_tables_as_spreadsheet_as_zip_and_alone(shown, qtbot, tmp_path):
    leaf, _opened = shown()
    book = openpyxl.load_workbook(io.BytesIO(kept_file(qtbot, leaf, "tables", tmp_path, form="xlsx")))
    assert len(book.sheetnames) == len(NAMES)
    files = zipfile.ZipFile(io.BytesIO(kept_file(qtbot, leaf, "tables", tmp_path, form="zip"))).namelist()
    assert len(files) == len(NAMES)
    for name in NAMES:
        rows = list(csv.reader(io.StringIO(kept_file(qtbot, leaf, "tables", tmp_path, form=name).decode("utf-8-sig"))))
        assert len(rows) >= 1
        assert leaf.cards["tables"].file == name
    times = list(csv.reader(io.StringIO((tmp_path / "kept.csv").read_text(encoding="utf-8-sig"))))
    assert times


def test_the_picture_as_png_and_svg(shown, qtbot, tmp_path):
    leaf, _opened = shown()
    image = QImage.fromData(kept_file(qtbot, leaf, "picture", tmp_path, form="png"))
    assert image.width() == 1800
    light = image.pixelColor(2, 2).lightness()
    dark = QImage.fromData(kept_file(qtbot, leaf, "picture", tmp_path, theme="dark")).pixelColor(2, 2).lightness()
    assert light > 200
    assert dark < 60
    root = ElementTree.fromstring(  # noqa: S314  of our own making
        kept_file(qtbot, leaf, "picture", tmp_path, form="svg", reading="dish")
    )
    assert root.tag.endswith("svg")
    assert "Soup" in "".join(root.itertext())


def test_without_a_timetable_it_says_what_to_do(shown):
    leaf, opened = shown(arranged=False)
    assert leaf.empty.isVisible()
    assert "arrange the day" in leaf.empty.text()
    assert not any(card.keep.isEnabled() or card.open.isEnabled() for card in leaf.cards.values())
    assert opened.show(on_paper(opened.plan), "as on paper")
    assert not leaf.empty.isVisible()
    assert all(card.keep.isEnabled() and card.open.isEnabled() for card in leaf.cards.values())


def test_choices_are_remembered_and_come_back(shown, qtbot):
    kept = []
    leaf, _opened = shown(kept=kept)
    leaf.cards["calendar"].fields["lead"].choose("60")
    leaf.cards["picture"].fields["reading"].choose("cook")
    again, _opened = shown(recall=kept[-1])
    assert again.cards["calendar"].value("lead") == "60"
    assert again.cards["picture"].value("reading") == "cook"
    assert again.cards["picture"].value("form") == "png"


@pytest.mark.parametrize("recall", ["", "{", "[1]", '{"calendar": 3}', '{"calendar": {"lead": "soon", "for": ["x"]}}'])
def test_what_was_remembered_wrongly_is_as_usual(shown, recall):
    leaf, _opened = shown(recall=recall)
    assert leaf.cards["calendar"].value("lead") == "10"
    assert leaf.cards["calendar"].value("for") == "all"


def test_the_window_remembers_them(qtbot, tmp_path, monkeypatch):
    with a_window(qtbot, tmp_path, monkeypatch) as window:
        window.actions_by_name["open_demo"].trigger()
        window.go("sheets")
        window.places.sheets.leaves.turn("files")
        window.places.sheets.files.cards["tables"].fields["form"].choose("zip")
    assert json.loads(Settings().files) == {"tables": {"form": "zip"}}


def test_a_file_is_asked_for_by_name_and_opened_outside(shown, qtbot, tmp_path, monkeypatch):
    monkeypatch.setenv("XDG_DOCUMENTS_DIR", str(tmp_path))
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path))
    leaf, opened = shown()
    assert opened.apply(RenamePlan("Supper: =1+1/2"))
    click(leaf.cards["calendar"].keep)
    dialog = leaf.findChild(QFileDialog)
    assert dialog.selectedFiles() == [str(tmp_path / "Supper: =1+1-2 - calendar.ics")]
    dialog.reject()
    there: list[QUrl] = []
    monkeypatch.setattr(QDesktopServices, "openUrl", lambda url: there.append(url) or True)
    click(leaf.cards["phone"].open)
    path = Path(there[0].toLocalFile())
    assert path.is_relative_to(tmp_path)
    assert b"Supper: =1+1/2" in path.read_bytes()


def test_a_place_that_cannot_be_written_is_said(shown, qtbot, tmp_path):
    leaf, _opened = shown()
    with qtbot.waitSignal(leaf.refused) as said:
        leaf.keep_file("picture", tmp_path / "nowhere" / "picture.png")
    assert "picture.png could not be written" in said.args[0]


@pytest.mark.parametrize(("width", "columns"), [(1150, 2), (700, 1)])
def test_cards_stand_side_by_side_where_there_is_room(shown, width, columns):
    leaf, _opened = shown(width=width)
    lefts = {card.mapTo(leaf, card.rect().topLeft()).x() for card in leaf.cards.values()}
    assert len(lefts) == columns
    for card in leaf.cards.values():
        assert card.mapTo(leaf, card.rect().topRight()).x() <= leaf.width()


def test_a_copy_that_is_kept_is_another_plan_for_a_calendar(qtbot, tmp_path, monkeypatch):
    with a_window(qtbot, tmp_path, monkeypatch) as window:
        window.actions_by_name["open_demo"].trigger()
        mine = window.opened.plan.mark
        window.acts.copy_to(tmp_path / "copy")
        assert window.open_path(tmp_path / "copy.cookday")
        other = window.opened.plan.mark
    assert mine
    assert other
    assert mine != other
