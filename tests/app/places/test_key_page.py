"""The page of keys has the keys of every place, that of the place shown first; no place takes a key of the window."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QKeySequence, QShortcut
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from app.places.commands import COMMANDS
from app.places.key_page import KeyPage, parts_of
from tests.support.windows import a_window

NAMES = ("menu", "recipe", "kitchen", "sheets")
GENERAL = {"Esc", "Tab", "Return"}


def keys_under(widget) -> set[str]:
    return {shortcut.key().toString() for shortcut in widget.findChildren(QShortcut)}


def told(name: str) -> set[str]:
    _heading, sections = parts_of(name)[0]
    listed = (key for _words, rows in sections for keys, _does in rows for key in keys.split(", "))
    return {QKeySequence(key).toString() for key in listed}


@pytest.fixture
def window(qtbot, tmp_path, monkeypatch):
    with a_window(qtbot, tmp_path, monkeypatch) as made:
        made.acts.open_demo()
        yield made


@pytest.mark.parametrize("name", NAMES)
def test_every_key_of_a_place_is_told_and_none_is_the_windows(window, name):
    if name == "recipe":
        window.recipes.inside.read_words("Soup\n\n1 onion\n\nBoil the onion for 5 minutes.\n")
        place = window.recipes.inside.place
    else:
        place = window.places.widgets[name]
        window.go(name)
    bound = keys_under(place)
    assert bound - told(name) - GENERAL == set()
    taken = {QKeySequence(each.keys).toString() for each in COMMANDS if each.keys}
    assert bound & taken == set(), "a key that two answer does nothing"


@pytest.mark.parametrize("name", NAMES)
def test_the_page_begins_with_the_place_that_is_shown(window, name, qtbot):
    window.go(name)
    window.activateWindow()
    qtbot.waitUntil(lambda: QApplication.activeWindow() is window)
    QTest.keyClick(window, Qt.Key.Key_F1)
    page = next(each for each in window.findChildren(KeyPage) if each.isVisible())
    text = page.text.toPlainText()
    assert text.startswith(parts_of(name)[0][0])
    assert "the guests" in text
    assert "Open a plan" in text
    assert "chill" not in text
    page.close()
