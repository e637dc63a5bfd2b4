"""A dish goes from one plan into the library, from there into another plan, and back again better: in the window."""

from __future__ import annotations

from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from app.bridge import PlanPlace
from app.places.empty_plan import empty_plan
from app.places.library import Shelf
from core.plan.ids import DishId
from core.store.file import PlanFile
from core.store.library import Library
from tests.support.windows import a_window

CTRL, SHIFT = Qt.KeyboardModifier.ControlModifier, Qt.KeyboardModifier.ShiftModifier


def press(key: Qt.Key, modifier: Qt.KeyboardModifier = Qt.KeyboardModifier.NoModifier) -> None:
    QTest.keyClick(QApplication.focusWidget(), key, modifier)


def write(text: str, *, over: bool = False) -> None:
    field = QApplication.focusWidget()
    if over:
        field.selectAll()
    QTest.keyClicks(field, text)


def notes_kept() -> list[tuple[str, str]]:
    with Library.open(Shelf().path) as library:
        return [(each.name, each.copy.dish.note) for each in library.dishes()]


def test_a_dish_goes_round(qtbot: QtBot, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    with a_window(qtbot, tmp_path, monkeypatch) as window:
        window.activateWindow()
        qtbot.waitUntil(lambda: QApplication.activeWindow() is window)

        # a first plan: the dish is written and kept
        window.open_place(PlanPlace.fresh(empty_plan("First supper")), show="menu")
        assert window.place is not None
        first = window.place.file.path
        write("Pea soup")
        press(Qt.Key.Key_Return)
        write("Shell the peas 12 min")
        press(Qt.Key.Key_Return)
        press(Qt.Key.Key_L, CTRL | SHIFT)
        assert notes_kept() == [("Pea soup", "")]

        # a second plan: it is taken in, bettered, sent back
        window.open_place(PlanPlace.fresh(empty_plan("Second supper")), show="menu")
        assert window.place is not None
        second = window.place.file.path
        press(Qt.Key.Key_L, CTRL)
        write("pea under 20 min")
        press(Qt.Key.Key_Return)
        press(Qt.Key.Key_Escape)
        press(Qt.Key.Key_Escape)
        assert window.opened is not None
        assert [dish.name for dish in window.opened.plan.menu.dishes] == ["Pea soup"]
        window.actions_by_name["undo"].trigger()
        assert not window.opened.plan.menu.dishes
        window.actions_by_name["redo"].trigger()
        menu = window.places.menu
        menu.leaves.turn("dish")
        menu.dish_leaf.form.field("note").setFocus()
        write("with mint")
        press(Qt.Key.Key_L, CTRL | SHIFT)
        press(Qt.Key.Key_Return)  # replace the one kept
        assert notes_kept() == [("Pea soup", "with mint")]
        window.show_welcome()

    # the first plan never heard of it
    with PlanFile.open(first) as file:
        dish = file.plan().dishes[DishId("pea-soup")]
        assert (dish.note, [step.does for step in dish.steps]) == ("", ["Shell the peas"])
    with PlanFile.open(second) as file:
        assert file.plan().dishes[DishId("pea-soup")].note == "with mint"
