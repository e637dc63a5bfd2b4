"""The window with plans one after another: nothing typed is lost, nothing stays behind."""

from __future__ import annotations

import gc
import shutil
import weakref
from collections import Counter

import pytest
from PySide6.QtCore import QEvent, Qt, QThreadPool
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QToolButton

from app.fields.reading_order import in_reading_order
from core.store import PlanFile
from tests.support.paper import a_supper
from tests.support.windows import a_window


@pytest.fixture
def window(qtbot, tmp_path, monkeypatch):
    with a_window(qtbot, tmp_path, monkeypatch) as made:
        yield made


@pytest.fixture
def kept(tmp_path):
    path = tmp_path / "supper.cookday"
    PlanFile.create(path, a_supper()).close()
    return path


def shut(window):
    window.show_welcome()
    QThreadPool.globalInstance().waitForDone()  # pages that were being set keep their plan until then
    QApplication.processEvents()
    QApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)
    QApplication.processEvents()
    gc.collect()


def left_behind(window):
    """Return what widgets there are, without the list of plans opened lately, which grows."""
    there = [each for each in QApplication.allWidgets() if not window.welcome.isAncestorOf(each)]
    return Counter((type(each).__name__, each.objectName()) for each in there)


def test_closed_plans_leave_nothing_behind(window, kept, tmp_path):
    plans, widgets = [], []
    for name, place in (("one", "sheets"), ("two", "menu"), ("three", "timeline"), ("four", "kitchen")):
        path = tmp_path / f"{name}.cookday"
        shutil.copy(kept, path)
        assert window.open_path(path)
        window.go(place)
        plans.append(weakref.ref(window.opened))
        shut(window)
        widgets.append(left_behind(window))
    assert widgets[-1] == widgets[0]
    assert [each() for each in plans[:-1]] == [None, None, None]  # what arranges follows the last one still


def test_a_plan_opened_again_has_what_was_being_typed_in_it(window, kept):
    assert window.open_path(kept)
    window.go("kitchen")
    for name in ("Big oven", "Old oven"):
        field = next(iter(window.places.kitchen.stations.cards.values())).form.field("name")
        field.setFocus()
        field.selectAll()
        QTest.keyClicks(field, name)
        assert window.open_path(kept)
        window.go("kitchen")
        assert window.opened.plan.kitchen.stations[0].name == name
        assert not window.banner.isVisible()
    shut(window)
    with PlanFile.open(kept) as file:
        assert file.held.kitchen.stations[0].name == "Old oven"


def stops(place):
    return [each for each in in_reading_order(place) if each.isVisible() and each.isEnabled()]


def reached_by_tab(window, place):
    """Return what Tab stops at in a place, from the rail on until it comes round."""
    rail = next(
        each for each in window.rail.findChildren(QToolButton) if each.focusPolicy() & Qt.FocusPolicy.TabFocus
    )
    rail.setFocus(Qt.FocusReason.TabFocusReason)
    found = []
    while len(found) < 300:
        QTest.keyClick(QApplication.focusWidget(), Qt.Key.Key_Tab)
        at = QApplication.focusWidget()
        if at is rail:
            return found
        if place.isAncestorOf(at):
            found.append(at)
    return found


def test_tab_from_the_rail_goes_through_a_place_from_its_top(window, kept, qtbot):
    assert window.open_path(kept)
    for name, leaf in (
        ("menu", ""), ("kitchen", ""), ("timeline", ""),
        ("sheets", "print"), ("sheets", "order"), ("sheets", "pull"), ("sheets", "files"),
    ):  # fmt: skip
        window.go(name)
        place = window.places.widgets[name]
        if leaf:
            place.leaves.turn(leaf)
        qtbot.waitUntil(lambda: not window.places.sheets.print.setting.busy)
        QApplication.processEvents()
        there, reached = stops(place), reached_by_tab(window, place)
        there = [each for each in stops(place) if each in there]  # what is chosen on the way changes some
        missed = [(type(each).__name__, each.accessibleName()) for each in there if each not in reached]
        assert missed == [], (name, leaf)
        assert reached[0] is there[0], (name, leaf)


def test_a_place_shown_for_the_first_time_leaves_a_small_window_as_it_is(window, kept):
    window.resize(1000, 560)
    assert window.open_path(kept)
    for name in ("menu", "kitchen", "sheets", "timeline"):
        window.go(name)
        QApplication.processEvents()
        assert window.size().toTuple() == (1000, 560), name
