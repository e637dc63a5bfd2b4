"""Sheets to print, through the real place: chosen, ticked together, laid out, remembered."""

from __future__ import annotations

import json
from dataclasses import replace

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QFont
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

import demo_data
from app.places.paper.choice import (
    ALL,
    EACH_COOK,
    EACH_STATION,
    ONLY,
    Choice,
    Layout,
    as_text,
    from_text,
    usual_paper,
)
from app.places.paper.copies import copies_of, options_of, wanted_of
from app.places.settings import Settings
from core.intake.text_plan import read_text
from core.plan.edits import UseKitchen
from core.sheets.bundle import sheets_pdf
from core.sheets.kinds import TITLES, SheetKind
from core.timetable.on_paper import on_paper
from tests.support.builders import a_kitchen
from tests.support.paper import (
    A4,
    LETTER,
    a_supper,
    click,
    count_of,
    kept_pages,
    look_at,
    settled,
    shown_leaf,
    sizes_of,
    tick,
    words_of,
)
from tests.support.windows import a_window


@pytest.fixture
def shown(qtbot):
    return shown_leaf(qtbot)


# ---------------------------------------------------------------- looked at and ticked


def test_each_kind_is_seen_as_its_own_pages(shown, qtbot, tmp_path):
    leaf, _opened = shown()
    for kind in SheetKind:
        look_at(qtbot, leaf, kind)
        assert leaf.pages.alone.text() == TITLES[kind]
        assert leaf.pages.alone.isChecked()
        assert leaf.pages.preview.isVisible()
        found = words_of(kept_pages(leaf, tmp_path))
        assert leaf.pages.preview.count == len(found) >= 1
        assert kind is SheetKind.MENU or TITLES[kind] in found[0]
        assert leaf.pages.state.text() == f"page 1 of {len(found)}"


def test_what_is_ticked_is_seen_together_and_only_that(shown, qtbot, tmp_path):
    leaf, _opened = shown()
    for kind in (SheetKind.PREP, SheetKind.ORDER, SheetKind.PULL):
        tick(qtbot, leaf, kind)
    assert leaf.pages.together.text() == "1 ticked, together"
    tick(qtbot, leaf, SheetKind.MENU)
    assert leaf.pages.together.isChecked()
    assert leaf.pages.print.text() == "Print 2 sheets…"
    found = words_of(kept_pages(leaf, tmp_path))
    assert "Run sheet" in found[0]
    assert "please ask" in found[-1], "the menu card stands where it stands in the list"
    assert not [page for page in found if "Order list" in page or "Prep list" in page]
    look_at(qtbot, leaf, SheetKind.ORDER)
    assert leaf.pages.alone.isChecked()
    assert "Order list" in words_of(kept_pages(leaf, tmp_path))[0]
    click(leaf.pages.together)
    settled(qtbot, leaf)
    assert words_of(kept_pages(leaf, tmp_path)) == found


def test_what_was_ticked_just_now_is_the_page_that_is_seen(shown, qtbot):
    leaf, _opened = shown()
    tick(qtbot, leaf, SheetKind.STATION)
    pages = leaf.pages
    qtbot.waitUntil(lambda: pages.preview.page > 1)
    before = wanted_of(leaf.choice, (SheetKind.RUN, SheetKind.PREP), leaf._opened.plan, leaf._opened.timetable)
    assert len(before) == 2
    first = sheets_pdf(before, leaf._opened.plan, leaf._opened.timetable, leaf._opened.clashes)
    assert pages.state.text().startswith(f"page {pages.preview.page} of ")
    assert pages.preview.page == count_of(first) + 1


def test_with_keys_alone(shown, qtbot):
    leaf, _opened = shown()
    names = leaf.choosing.list
    names.setFocus(Qt.FocusReason.TabFocusReason)
    QTest.keyClick(names, Qt.Key.Key_Down)
    settled(qtbot, leaf)
    assert leaf.choice.shown is SheetKind.PREP
    QTest.keyClick(names, Qt.Key.Key_Space)
    settled(qtbot, leaf)
    assert SheetKind.PREP not in leaf.choice.together
    assert "not ticked" in names.item(1).data(Qt.ItemDataRole.AccessibleTextRole)
    QTest.keyClick(names, Qt.Key.Key_Space)
    settled(qtbot, leaf)
    assert SheetKind.PREP in leaf.choice.together
    assert "printed together" in names.item(1).data(Qt.ItemDataRole.AccessibleTextRole)


def test_tab_goes_as_one_reads(shown):
    leaf, _opened = shown()
    fields, pages = leaf.choosing.layout_fields.fields, leaf.pages
    leaf.choosing.list.setFocus(Qt.FocusReason.TabFocusReason)
    wanted = [
        *(fields[key] for key in ("landscape", "dense", "copies")),
        leaf.choosing.paper,
        *(pages.alone, pages.keep, pages.viewer, pages.preview, pages.smaller, pages.larger, pages.whole, pages.wide),
    ]
    met = []
    for _stop in wanted:
        QTest.keyClick(QApplication.focusWidget(), Qt.Key.Key_Tab)
        if QApplication.focusWidget() in (pages.print, pages.together):  # where a printer is set up; in one group
            QTest.keyClick(QApplication.focusWidget(), Qt.Key.Key_Tab)
        met.append(QApplication.focusWidget())
    assert met == wanted


def test_there_is_room_for_pages_however_large_the_type(shown):
    font = QApplication.font()
    larger = QFont(font)
    larger.setPointSizeF(2 * font.pointSizeF())
    QApplication.setFont(larger)
    try:
        leaf, _opened = shown()
        assert leaf.minimumSizeHint().width() <= 900
        leaf.resize(1000, 640)
        assert leaf.width() == 1000
        assert leaf.pages.width() > leaf.choosing.width()
        last = leaf.pages.viewer
        assert last.mapTo(leaf, last.rect().bottomRight()).x() < leaf.width()
    finally:
        QApplication.setFont(font)


def test_nothing_ticked_leaves_the_one_that_is_looked_at(shown, qtbot):
    leaf, _opened = shown()
    for kind in (SheetKind.RUN, SheetKind.PREP, SheetKind.ORDER, SheetKind.PULL):
        tick(qtbot, leaf, kind)
    assert leaf.pages.together.text() == "Nothing ticked"
    assert not leaf.pages.together.isEnabled()
    assert leaf.pages.alone.isChecked()
    assert leaf.pages.preview.count >= 1


# ---------------------------------------------------------------- paper, turn, type, copies


def test_paper_turn_and_type_are_as_chosen_each_for_its_own_sheet(shown, qtbot, tmp_path):
    leaf, _opened = shown(recall=as_text(Choice(paper="a4")))
    assert set(sizes_of(kept_pages(leaf, tmp_path))) == {A4}
    leaf.choosing.paper.choose("us-letter")
    settled(qtbot, leaf)
    assert set(sizes_of(kept_pages(leaf, tmp_path))) == {LETTER}
    leaf.choosing.layout_fields.fields["landscape"].choose(True)
    settled(qtbot, leaf)
    assert set(sizes_of(kept_pages(leaf, tmp_path))) == {LETTER[::-1]}
    look_at(qtbot, leaf, SheetKind.ORDER)
    assert set(sizes_of(kept_pages(leaf, tmp_path))) == {LETTER}, "the order list was not turned"
    click(leaf.pages.together)
    settled(qtbot, leaf)
    assert set(sizes_of(kept_pages(leaf, tmp_path))) == {LETTER, LETTER[::-1]}


def test_small_type_takes_fewer_pages(shown, qtbot):
    leaf, _opened = shown(read_text(demo_data.text_of("weeknight_supper.toml")))
    large = leaf.pages.preview.count
    leaf.choosing.layout_fields.fields["dense"].choose(True)
    settled(qtbot, leaf)
    assert leaf.pages.preview.count < large


def test_one_copy_for_each_cook_holds_their_own_lines(shown, qtbot, tmp_path):
    leaf, _opened = shown()
    leaf.choosing.layout_fields.fields["copies"].choose(EACH_COOK)
    settled(qtbot, leaf)
    found = words_of(kept_pages(leaf, tmp_path))
    assert sum("Run sheet for Ann" in page for page in found) >= 1
    assert sum("Run sheet for Ben" in page for page in found) >= 1
    leaf.choosing.layout_fields.fields["copies"].choose(f"{ONLY}Ben")
    settled(qtbot, leaf)
    found = words_of(kept_pages(leaf, tmp_path))
    assert "Run sheet for Ben" in found[0]
    assert not [page for page in found if "Run sheet for Ann" in page]


def test_copies_there_may_be_of_each_kind():
    plan = a_supper()
    timetable = on_paper(plan)
    run = [value for value, _words in options_of(plan, timetable, SheetKind.RUN)]
    assert run == [ALL, EACH_COOK, EACH_STATION, f"{ONLY}Ann", f"{ONLY}Ben", f"{ONLY}Oven", f"{ONLY}burners"]
    station = [value for value, _words in options_of(plan, timetable, SheetKind.STATION)]
    assert station == [ALL, f"{ONLY}Oven", f"{ONLY}burners"]
    for kind in (SheetKind.ORDER, SheetKind.LABELS, SheetKind.MENU):
        assert [value for value, _words in options_of(plan, timetable, kind)] == [ALL]
    assert [each.name for each in copies_of(plan, timetable, SheetKind.RUN, EACH_STATION)] == ["Oven", "Burners"]
    assert [each.name for each in copies_of(plan, timetable, SheetKind.RUN, EACH_COOK)] == ["Ann", "Ben"]
    assert [each.name for each in copies_of(plan, timetable, SheetKind.RUN, f"{ONLY}Somebody gone")] == [""]


def test_a_long_name_is_cut_where_it_is_chosen_and_only_there():
    name = "Aunt " * 60
    plan = a_supper()
    kitchen = replace(plan.kitchen, cooks=(replace(plan.kitchen.cooks[0], name=name), plan.kitchen.cooks[1]))
    plan = replace(plan, kitchen=kitchen)
    found = dict(options_of(plan, on_paper(plan), SheetKind.RUN))
    assert len(found[f"{ONLY}{name}"]) <= 50
    assert found[f"{ONLY}{name}"].endswith("…")


def test_a_copy_for_a_cook_who_left_is_one_for_everybody(shown, qtbot, tmp_path):
    leaf, opened = shown(recall=as_text(Choice(layouts={SheetKind.RUN: Layout(copies=f"{ONLY}Ben")})))
    assert "Run sheet for Ben" in words_of(kept_pages(leaf, tmp_path))[0]
    assert opened.apply(UseKitchen(a_kitchen(stations=opened.plan.kitchen.stations)))
    settled(qtbot, leaf)
    assert leaf.choosing.layout_fields.fields["copies"].value == ALL
    assert "for Ben" not in words_of(kept_pages(leaf, tmp_path))[0]


# ---------------------------------------------------------------- remembered


def test_the_choice_is_remembered_as_text_and_comes_back(shown, qtbot):
    kept = []
    leaf, _opened = shown(kept=kept)
    tick(qtbot, leaf, SheetKind.FRIDGE)
    leaf.choosing.layout_fields.fields["dense"].choose(True)
    leaf.choosing.paper.choose("us-letter")
    settled(qtbot, leaf)
    again, _opened = shown(recall=kept[-1])
    assert again.choice == leaf.choice
    assert again.choice.shown is SheetKind.FRIDGE
    assert again.pages.together.isChecked(), "those that are printed together are seen, as they were last"
    assert again.seen.kinds == leaf.seen.kinds
    assert again.choosing.paper.value == "us-letter"
    assert again.choosing.layout_fields.fields["dense"].value is True


@pytest.mark.parametrize(
    "text",
    ["", "no json", "[]", "3", '{"paper": 3, "shown": [], "together": "run", "layouts": []}', '{"together": null}'],
)
def test_what_was_remembered_wrongly_is_as_usual(text):
    usual = Choice(paper="us-letter")
    assert from_text(text, usual) == usual


def test_what_is_remembered_of_kinds_that_there_are_not_is_left_out():
    text = json.dumps({"together": ["run", "poem", 3], "layouts": {"poem": {}, "run": {"dense": True, "copies": 7}}})
    found = from_text(text, Choice())
    assert found.together == {SheetKind.RUN}
    assert found.layouts == {SheetKind.RUN: Layout(dense=True)}


def test_every_choice_comes_back_from_its_text():
    layouts = {kind: Layout(True, True, f"{ONLY}Zoë “B”") for kind in SheetKind}
    for choice in (Choice(), Choice("us-letter", SheetKind.LABELS, frozenset(), layouts, bundled=True)):
        assert from_text(as_text(choice), Choice("us-letter")) == choice


@pytest.mark.parametrize(("country", "paper"), [("US", "us-letter"), ("CA", "us-letter"), ("GB", "a4"), ("", "a4")])
def test_the_paper_is_that_of_the_country(country, paper):
    """Unicode CLDR, paper sizes by territory (from memory)."""
    assert usual_paper(country) == paper


def test_the_window_remembers_it_from_one_time_to_the_next(qtbot, tmp_path, monkeypatch):
    with a_window(qtbot, tmp_path, monkeypatch) as window:
        window.actions_by_name["open_demo"].trigger()
        window.activateWindow()
        qtbot.waitUntil(lambda: QApplication.activeWindow() is window)
        window.go("sheets")
        names = window.places.sheets.print.choosing.list
        assert QApplication.focusWidget() is names, "the keys work at once"
        QTest.keyClick(names, Qt.Key.Key_End)
        window.actions_by_name["close_plan"].trigger()
    assert from_text(Settings().sheets, Choice()).shown is SheetKind.LABELS
    with a_window(qtbot, tmp_path, monkeypatch) as window:
        window.actions_by_name["open_demo"].trigger()
        assert window.places.sheets.print.choice.shown is SheetKind.LABELS
