"""Sheets to print, through the real place: their pages as the plan changes, kept as PDF, opened, printed."""

from __future__ import annotations

import re
import subprocess
import threading
from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import pytest
from PySide6.QtCore import Qt, QUrl
from PySide6.QtGui import QDesktopServices, QPageSize
from PySide6.QtPdfWidgets import QPdfView
from PySide6.QtPrintSupport import QPrinter
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QFileDialog

from app.places.food import watch_of
from app.places.lists.typesetting import Typesetting
from app.places.paper import seen
from app.places.paper.choice import (
    Choice,
    Layout,
    from_text,
)
from app.places.paper.copies import wanted_of
from app.places.paper.print_job import PrintJob
from core.plan.edits import ChooseRules, RenamePlan
from core.plan.menu import Stock
from core.sheets.bundle import sheets_pdf
from core.sheets.kinds import SheetKind
from core.timetable.on_paper import on_paper
from resources import shipped
from tests.support.paper import (
    A4,
    a_supper,
    click,
    count_of,
    kept_pages,
    look_at,
    made_words,
    settled,
    shown_leaf,
    sizes_of,
    words_of,
)
from tests.support.windows import a_window


@pytest.fixture
def shown(qtbot):
    return shown_leaf(qtbot)


# ---------------------------------------------------------------- pages as things change


def test_without_a_timetable_only_what_needs_none_has_pages(shown, qtbot, tmp_path):
    leaf, opened = shown(arranged=False)
    assert leaf.pages.empty.isVisible()
    assert "arrange the day" in leaf.pages.empty.text()
    assert not leaf.pages.keep.isEnabled()
    with qtbot.waitSignal(leaf.refused) as said:
        leaf.keep_pdf(tmp_path / "sheet.pdf")
    assert "arrange the day" in said.args[0]
    assert not (tmp_path / "sheet.pdf").exists()
    look_at(qtbot, leaf, SheetKind.ORDER)
    assert "leeks" in words_of(kept_pages(leaf, tmp_path))[0]
    click(leaf.pages.together)
    settled(qtbot, leaf)
    assert leaf.seen.kinds == (SheetKind.ORDER,), "of those ticked"
    assert leaf.pages.state.text() == "page 1 of 1; 3 of those ticked come with the timetable"
    assert opened.show(on_paper(opened.plan), "as on paper")
    settled(qtbot, leaf)
    assert leaf.seen.kinds == (SheetKind.RUN, SheetKind.PREP, SheetKind.ORDER, SheetKind.PULL)
    assert "Run sheet" in words_of(kept_pages(leaf, tmp_path))[0]


def test_why_there_can_be_no_order_list_stands_in_place_of_its_pages(shown, qtbot, tmp_path):
    plan = a_supper()
    dish = plan.menu.dishes[0]
    stock = (Stock("leeks", usable=Fraction(0)),)
    plan = replace(plan, menu=replace(plan.menu, dishes=(dish,), stocks=stock, links=plan.menu.links))
    leaf, _opened = shown(plan)
    look_at(qtbot, leaf, SheetKind.ORDER)
    assert leaf.pages.empty.isVisible()
    assert "leeks" in leaf.pages.empty.text()
    assert not leaf.pages.print.isEnabled()
    with qtbot.waitSignal(leaf.refused) as said:
        leaf.keep_pdf(tmp_path / "order.pdf")
    assert "leeks" in said.args[0]
    assert not (tmp_path / "order.pdf").exists()
    look_at(qtbot, leaf, SheetKind.RUN)
    assert leaf.pages.preview.count >= 1


def test_the_pages_are_set_beside_the_interface_and_those_wanted_last_are_shown(shown, qtbot, monkeypatch):
    leaf, opened = shown(arranged=False)
    began, may_end, made = threading.Event(), threading.Event(), []

    def slowly(wanted, plan, *more, **kept):
        made.append(plan.name)
        began.set()
        assert may_end.wait(20)
        return sheets_pdf(wanted, plan, *more, **kept)

    monkeypatch.setattr(seen, "sheets_pdf", slowly)
    assert opened.show(on_paper(opened.plan), "as on paper")
    qtbot.waitUntil(began.is_set)
    assert leaf.setting.busy, "the window answers while the pages are made"
    assert leaf.pages.state.text() == "The pages are being set…"
    assert leaf.pages.preview.count == 0
    for name in ("Second", "Third"):
        assert opened.apply(RenamePlan(name))
    may_end.set()
    settled(qtbot, leaf)
    assert leaf.pages.state.text().startswith("page 1 of")
    assert made[1:] == ["Third"], "what is no longer wanted is not made"


def test_a_sheet_is_kept_as_the_plan_is_now_though_its_pages_are_still_being_set(shown, qtbot, tmp_path):
    leaf, opened = shown()
    assert opened.apply(RenamePlan("Another name"))
    assert leaf.setting.busy
    with qtbot.waitSignal(leaf.told):
        leaf.keep_pdf(tmp_path / "sheet")
    wanted = wanted_of(leaf.choice, leaf.seen.kinds, opened.plan, opened.timetable, made_words())
    assert (tmp_path / "sheet.pdf").read_bytes() == sheets_pdf(wanted, opened.plan, opened.timetable, opened.clashes)
    assert "Another name" in words_of(tmp_path / "sheet.pdf")[0]
    settled(qtbot, leaf)


def test_the_foot_says_when_it_was_made(shown, tmp_path):
    leaf, _opened = shown()
    assert made_words() in words_of(kept_pages(leaf, tmp_path))[-1]


def test_the_cooks_own_food_limits_stand_on_the_sheets(shown, qtbot, tmp_path):
    """A set of one's own lies in the folder "rules" beside the plan; where it is gone the sheet says so."""
    folder = tmp_path / "rules"
    folder.mkdir()
    text = shipped("rules", "us-home.toml").read_text(encoding="utf-8")
    head = text.replace('id = "us-home"', 'id = "mine"', 1).replace('name = "US home cook"', 'name = "My own"', 1)
    (folder / "mine.toml").write_text(head, encoding="utf-8")
    leaf, opened = shown()
    watch_of(opened).set_folder(folder)
    assert opened.apply(ChooseRules("mine"))
    settled(qtbot, leaf)
    assert "My own" in " ".join(words_of(kept_pages(leaf, tmp_path)))
    (folder / "mine.toml").unlink()
    assert opened.apply(RenamePlan("Another name"))
    settled(qtbot, leaf)
    assert "There are no food rules \"mine\"" in " ".join(words_of(kept_pages(leaf, tmp_path)))


def test_shutting_a_plan_sets_no_pages(qtbot, tmp_path, monkeypatch):
    made = []
    monkeypatch.setattr(seen, "sheets_pdf", lambda *wanted, **_more: made.append(wanted) or b"")
    with a_window(qtbot, tmp_path, monkeypatch) as window:
        window.actions_by_name["open_demo"].trigger()
        window.go("kitchen")
        window.actions_by_name["close_plan"].trigger()
        assert window.opened is None
        qtbot.wait(100)
    assert made == []


def test_a_place_may_be_shut_with_its_pages_open(shown, qtbot):
    """A document that was its view's child told the half dead view that it closes, and the program crashed."""
    for _time in range(3):
        leaf, _opened = shown(passing=True)
        assert leaf.pages.preview.count >= 1
        with qtbot.waitSignal(leaf.destroyed):
            leaf.deleteLater()


def test_what_goes_wrong_beside_the_interface_is_said_and_not_lost(qtbot):
    setting = Typesetting()

    def wrong() -> bytes:
        raise ValueError("no ink")

    with qtbot.captureExceptions() as caught:
        setting.ask(wrong)
        qtbot.waitUntil(lambda: not setting.busy)
    assert [str(each[1]) for each in caught] == ["no ink"]
    with qtbot.waitSignal(setting.done) as came:
        setting.ask(lambda: b"pages")
    assert came.args == [b"pages"]


def test_pages_zoom_and_fit_by_keys_and_buttons(shown, qtbot):
    leaf, _opened = shown()
    view = leaf.pages.preview
    wide = view._fitted(whole=False)
    click(leaf.pages.whole)
    assert view.zoomMode() is QPdfView.ZoomMode.FitInView
    assert view._fitted(whole=True) < wide, "an upright page is seen whole only when it is smaller"
    click(leaf.pages.wide)
    click(leaf.pages.larger)
    assert view.zoomFactor() == pytest.approx(wide * 1.25, rel=0.02)
    view.setFocus()
    QTest.keyClick(view, Qt.Key.Key_Minus)
    assert view.zoomFactor() == pytest.approx(wide, rel=0.02)
    for _press in range(30):
        QTest.keyClick(view, Qt.Key.Key_Plus)
    assert view.zoomFactor() == 4.0
    click(leaf.pages.wide)
    leaf.resize(1800, 640)
    assert view.zoomMode() is QPdfView.ZoomMode.FitToWidth, "as it was asked for, though little of a page is seen"


def test_in_a_wide_window_pages_are_not_larger_than_is_of_use(shown, qtbot):
    leaf, _opened = shown()
    view = leaf.pages.preview
    assert view.zoomMode() is QPdfView.ZoomMode.FitToWidth
    leaf.resize(1800, 640)
    assert view.zoomMode() is QPdfView.ZoomMode.Custom
    assert view.zoomFactor() == 1.3 < view._fitted(whole=False)
    leaf.resize(1150, 640)
    assert view.zoomMode() is QPdfView.ZoomMode.FitToWidth


def test_of_several_sheets_the_one_whose_page_is_seen_is_named(shown, qtbot):
    leaf, _opened = shown()
    assert leaf.pages.state.text() == f"page 1 of {leaf.pages.preview.count}"
    click(leaf.pages.together)
    settled(qtbot, leaf)
    assert leaf.pages.state.text().endswith("; Run sheet")
    QTest.keyClick(leaf.pages.preview, Qt.Key.Key_End)
    count = leaf.pages.preview.count
    qtbot.waitUntil(lambda: leaf.pages.state.text() == f"page {count} of {count}; Pull list")


def test_pages_that_could_not_be_made_leave_no_others_under_their_name(shown, qtbot, tmp_path, monkeypatch):
    leaf, _opened = shown()

    def broken(*_wanted, **_more):
        raise RuntimeError("no such letter")

    monkeypatch.setattr(seen, "sheets_pdf", broken)
    with qtbot.captureExceptions() as raised:
        look_at(qtbot, leaf, SheetKind.PREP)
    assert [type(each[1]) for each in raised] == [RuntimeError]
    assert leaf.pages.empty.isVisible()
    assert leaf.pages.preview.count == 0
    assert not leaf.pages.keep.isEnabled()


# ---------------------------------------------------------------- kept, opened, printed


def test_sheets_are_kept_among_the_cooks_papers_wherever_the_program_was_started(shown, qtbot, tmp_path, monkeypatch):
    papers = tmp_path / "papers"
    papers.mkdir()
    monkeypatch.setenv("XDG_DOCUMENTS_DIR", str(papers))
    leaf, opened = shown()
    assert opened.apply(RenamePlan("Supper 1/2"))
    settled(qtbot, leaf)
    click(leaf.pages.keep)
    dialog = leaf.findChild(QFileDialog)
    assert dialog.directory().path() == str(papers)
    assert dialog.selectedFiles() == [str(papers / "Supper 1-2 - run sheet.pdf")]
    assert dialog.defaultSuffix() == "pdf", "so that a name without it is asked for before a file is replaced"
    dialog.reject()
    dialog.deleteLater()
    qtbot.waitUntil(lambda: leaf.findChild(QFileDialog) is None)
    (tmp_path / "fridge door").mkdir()
    kept_pages(leaf, tmp_path / "fridge door")
    click(leaf.pages.keep)
    dialog = leaf.findChild(QFileDialog)
    assert dialog.directory().path() == str(tmp_path / "fridge door"), "where the last one was kept"
    dialog.reject()


def test_a_place_that_cannot_be_written_is_said_and_what_was_there_stays(shown, qtbot, tmp_path):
    leaf, _opened = shown()
    click(leaf.pages.together)
    settled(qtbot, leaf)
    with qtbot.waitSignal(leaf.told) as told:
        kept = kept_pages(leaf, tmp_path)
    assert told.args[0] == f"The sheets: kept as {kept}."
    with qtbot.waitSignal(leaf.refused) as said:
        leaf.keep_pdf(tmp_path / "nowhere" / "sheet.pdf")
    assert "sheet.pdf could not be written" in said.args[0]
    assert not (tmp_path / "nowhere").exists()


def test_the_pages_open_in_the_systems_own_program(shown, qtbot, tmp_path, monkeypatch):
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path))
    opened_there: list[QUrl] = []
    monkeypatch.setattr(QDesktopServices, "openUrl", lambda url: opened_there.append(url) or True)
    leaf, opened = shown()
    with qtbot.waitSignal(leaf.told) as told:
        click(leaf.pages.viewer)
    assert "handed to the system" in told.args[0]
    path = Path(opened_there[0].toLocalFile())
    assert path.is_relative_to(tmp_path)
    assert opened.plan.name in words_of(path)[0]
    monkeypatch.setattr(QDesktopServices, "openUrl", lambda _url: False)
    with qtbot.waitSignal(leaf.refused) as said:
        click(leaf.pages.viewer)
    assert "keep the file" in said.args[0]


def printed(qtbot, pdf: bytes, path: Path, **settings) -> tuple[list[tuple[int, int]], str]:
    """Print to a file; return how far it said it was, and how it ended."""
    printer = QPrinter(QPrinter.PrinterMode.HighResolution)
    printer.setOutputFormat(QPrinter.OutputFormat.PdfFormat)
    printer.setOutputFileName(str(path))
    printer.setPageSize(QPageSize(QPageSize.PageSizeId.A4))
    for name, value in settings.items():
        getattr(printer, name)(*value)
    job, seen = PrintJob(pdf, printer), []
    job.at.connect(lambda at, of: seen.append((at, of)))
    with qtbot.waitSignal(job.ended, timeout=30_000) as ended:
        job.start()
    return seen, ended.args[0]


def upright_and_across() -> bytes:
    plan = a_supper()
    choice = Choice(layouts={SheetKind.STATION: Layout(landscape=True)})
    timetable = on_paper(plan)
    wanted = wanted_of(choice, (SheetKind.RUN, SheetKind.STATION), plan, timetable)
    return sheets_pdf(wanted, plan, timetable)


def test_pages_are_printed_as_they_lie_upright_and_across(qtbot, tmp_path):
    pdf = upright_and_across()
    (tmp_path / "wanted.pdf").write_bytes(pdf)
    wanted = sizes_of(tmp_path / "wanted.pdf")
    assert set(wanted) == {A4, A4[::-1]}
    seen, ended = printed(qtbot, pdf, tmp_path / "printed.pdf")
    assert ended == ""
    assert seen == [(number, len(wanted)) for number in range(1, len(wanted) + 1)]
    for (wide, high), (other_wide, other_high) in zip(sizes_of(tmp_path / "printed.pdf"), wanted, strict=True):
        assert abs(wide - other_wide) <= 2
        assert abs(high - other_high) <= 2
    for number in (1, len(wanted)):
        there, asked = darkness(tmp_path / "printed.pdf", number), darkness(tmp_path / "wanted.pdf", number)
        assert there == pytest.approx(asked, rel=0.15)


def darkness(path: Path, page: int) -> float:
    """Return how much ink is on a page, as poppler draws it: 0 white, 1 black."""
    run = ["pdftoppm", "-r", "100", "-gray", "-f", str(page), "-l", str(page), path]
    image = subprocess.run(run, capture_output=True, check=True).stdout
    head = re.match(rb"P5\s+(\d+)\s+(\d+)\s+255\s", image)
    dots = image[head.end() :]
    found = 1 - sum(dots) / (255 * len(dots))
    assert found > 0.005, "the page is not empty"
    return found


def test_a_range_of_pages_is_printed_alone(qtbot, tmp_path):
    pdf = upright_and_across()
    seen, _ended = printed(qtbot, pdf, tmp_path / "printed.pdf", setFromTo=(2, 2))
    assert seen == [(1, 1)]
    assert len(sizes_of(tmp_path / "printed.pdf")) == 1


def test_printing_can_be_stopped(qtbot, tmp_path):
    printer = QPrinter(QPrinter.PrinterMode.HighResolution)
    printer.setOutputFormat(QPrinter.OutputFormat.PdfFormat)
    printer.setOutputFileName(str(tmp_path / "printed.pdf"))
    job = PrintJob(upright_and_across(), printer)
    job.at.connect(lambda _at, _of: job.stop())
    with qtbot.waitSignal(job.ended, timeout=30_000) as ended:
        job.start()
    assert "stopped" in ended.args[0]
    assert len(sizes_of(tmp_path / "printed.pdf")) == 1


def test_a_printer_that_takes_nothing_is_said(qtbot, tmp_path):
    _seen, ended = printed(qtbot, upright_and_across(), tmp_path / "nowhere" / "printed.pdf")
    assert "did not take the pages" in ended


def a_printer(path: Path) -> QPrinter:
    printer = QPrinter(QPrinter.PrinterMode.HighResolution)
    printer.setOutputFormat(QPrinter.OutputFormat.PdfFormat)
    printer.setOutputFileName(str(path))
    return printer


def test_a_print_goes_on_when_its_plan_is_closed(shown, qtbot, tmp_path):
    leaf, _opened = shown(passing=True)
    pdf = upright_and_across()
    seen = []
    leaf.printing.state.connect(lambda *at: seen.append(at))
    leaf.printing.print(lambda: pdf, a_printer(tmp_path / "printed.pdf"))
    job = leaf.printing._job
    with qtbot.waitSignal(job.ended, timeout=30_000) as ended:
        qtbot.waitUntil(lambda: bool(seen))
        leaf.deleteLater()
    assert ended.args == [""]
    assert len(sizes_of(tmp_path / "printed.pdf")) == count_of(pdf)


def test_a_print_ends_before_the_program_is_left(qtbot, tmp_path):
    pdf = upright_and_across()
    job = PrintJob(pdf, a_printer(tmp_path / "printed.pdf"))
    job.start()
    job.finish()  # what the program's end calls
    assert len(sizes_of(tmp_path / "printed.pdf")) == count_of(pdf)
    qtbot.wait(1)  # the turn that was asked for before finds nothing to do


def test_the_printer_that_was_chosen_is_remembered(shown, qtbot, tmp_path):
    kept = []
    leaf, _opened = shown(kept=kept)
    printer = a_printer(tmp_path / "printed.pdf")
    with qtbot.waitSignal(leaf.told, timeout=30_000):
        leaf.printing.print(leaf._pages_now, printer)
    leaf.printing.chosen.emit("The one upstairs")
    assert from_text(kept[-1], Choice()).printer == "The one upstairs"
