"""Usual runs of steps added in the real window, with the mouse and by keys; typed over and undone like any."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from app.bridge import PlanPlace
from app.places.menu.block_words import name_of, told_block
from app.places.menu.steps_leaf import StepsLeaf
from app.places.window import Window
from core.plan.blocks import BlockKind
from core.plan.blocks_usual import BLOCKS
from core.plan.ids import DishId, StepId
from tests.support.builders import a_dish, a_kitchen, a_plan, a_step, chained
from tests.support.windows import a_window

ENTER, DOWN, ESCAPE = Qt.Key.Key_Return, Qt.Key.Key_Down, Qt.Key.Key_Escape
ALT = Qt.KeyboardModifier.AltModifier
NONE = Qt.KeyboardModifier.NoModifier
PORK = DishId("pork")
ROAST, BRING = StepId("pork.roast"), StepId("pork.bring")


def the_plan(**fields):
    pork = a_dish("pork", a_step(ROAST, "Roast the pork", 90), a_step(BRING, "Bring it in", 3), name="Pork")
    return a_plan(pork, links=chained(*pork.steps), **fields)


@pytest.fixture
def window(qtbot, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Window]:
    with a_window(qtbot, tmp_path, monkeypatch) as made:
        made.open_place(PlanPlace.fresh(the_plan()), show="menu")
        made.activateWindow()
        qtbot.waitUntil(lambda: QApplication.activeWindow() is made)
        yield made


def steps_of(window: Window) -> StepsLeaf:
    return window.places.menu.steps


def ids(window: Window) -> list[str]:
    return [step.id for step in window.opened.plan.dishes[PORK].steps]


def test_a_run_is_added_by_keys_and_its_name_typed_over(window: Window) -> None:
    steps = steps_of(window)
    steps.go_to(ROAST)
    QTest.keyClick(QApplication.focusWidget(), Qt.Key.Key_U, ALT)
    chooser = steps.usual.chooser
    assert chooser.isVisible()
    assert QApplication.focusWidget() is chooser.list
    QTest.keyClick(chooser.list, ENTER)
    assert not chooser.isVisible()
    new = ids(window)[1:3]
    assert ids(window) == [ROAST, *new, BRING]
    assert {(link.before, link.after) for link in window.opened.plan.menu.links} == {
        (ROAST, new[0]),
        (new[0], new[1]),
        (new[1], BRING),
    }
    field = steps.rows.at(StepId(new[0])).fields["does"]
    assert QApplication.focusWidget() is field
    QTest.keyClicks(field, "Rest under a cloth")
    QTest.keyClick(field, ENTER)
    assert window.opened.plan.steps[StepId(new[0])].does == "Rest under a cloth"
    window.opened.undo()
    window.opened.undo()
    assert ids(window) == [ROAST, BRING]
    assert {(link.before, link.after) for link in window.opened.plan.menu.links} == {(ROAST, BRING)}


def test_a_run_is_added_with_the_mouse(window: Window) -> None:
    steps = steps_of(window)
    steps.choose(BRING)
    QTest.mouseClick(steps.usual.button, Qt.MouseButton.LeftButton)
    chooser = steps.usual.chooser
    kind = list(BlockKind).index(BlockKind.MAKE_AHEAD_AND_REHEAT)
    spot = chooser.list.visualItemRect(chooser.list.item(kind)).center()
    QTest.mouseClick(chooser.list.viewport(), Qt.MouseButton.LeftButton, NONE, spot)
    assert "3-403.11" in chooser.told.text()
    assert "3-501.14" in chooser.told.text()
    QTest.mouseClick(chooser.take, Qt.MouseButton.LeftButton)
    added = [window.opened.plan.steps[StepId(step)] for step in ids(window)[2:]]
    assert [step.does for step in added] == [
        "Cool to 21 °C in shallow pans on ice",
        "Chill to 5 °C in the fridge",
        "Reheat to 74 °C all through",
    ]
    assert "Food Code" in added[0].note


@pytest.mark.parametrize("kind", BlockKind)
def test_every_run_can_be_chosen_by_the_arrow_and_is_told_with_its_sources(window: Window, kind: BlockKind) -> None:
    steps = steps_of(window)
    steps.choose(ROAST)
    steps.usual.open()
    chooser = steps.usual.chooser
    for _press in range(list(BlockKind).index(kind)):
        QTest.keyClick(chooser.list, DOWN)
    assert chooser.list.currentItem().text() == name_of(kind)
    told = chooser.told.text()
    assert told == told_block(BLOCKS[kind])
    assert all(step.does in told for step in BLOCKS[kind].steps)
    QTest.keyClick(chooser.list, ENTER)
    assert len(ids(window)) == 2 + len(BLOCKS[kind].steps)


def test_the_key_finds_the_runs_from_anywhere_in_the_menu(window: Window) -> None:
    menu = window.places.menu
    menu.leaves.turn("ingredients")
    menu.dishes.list.setFocus()
    QTest.keyClick(menu.dishes.list, Qt.Key.Key_U, ALT)
    assert menu.leaves.name == "steps"
    assert menu.steps.usual.chooser.isVisible()
    QTest.keyClick(menu.steps.usual.chooser.list, ESCAPE)


def test_escape_adds_nothing(window: Window) -> None:
    before = window.opened.plan
    steps = steps_of(window)
    steps.usual.open()
    QTest.keyClick(steps.usual.chooser.list, ESCAPE)
    assert not steps.usual.chooser.isVisible()
    assert window.opened.plan is before


def test_a_run_begins_an_empty_dish(window: Window) -> None:
    window.places.menu.dishes.add("Rolls")
    steps = steps_of(window)
    steps.usual.open()
    QTest.keyClick(steps.usual.chooser.list, DOWN)
    QTest.keyClick(steps.usual.chooser.list, DOWN)
    QTest.keyClick(steps.usual.chooser.list, ENTER)
    dish = window.opened.plan.dishes[DishId("rolls")]
    assert [step.does for step in dish.steps] == ["Let the shaped dough rise, covered", "Bake", "Cool on a rack"]


def test_what_the_kitchen_cannot_hold_is_told_in_the_list_and_the_plan_stays(window: Window) -> None:
    window.open_place(PlanPlace.fresh(the_plan(kitchen=a_kitchen(stations=()))), show="menu")
    before = window.opened.plan
    steps = steps_of(window)
    steps.usual.open()
    chooser = steps.usual.chooser
    QTest.keyClick(chooser.list, DOWN)
    QTest.keyClick(chooser.list, ENTER)
    assert chooser.isVisible()
    assert "needs a fridge, and the kitchen has none; add one under Kitchen" in chooser.wrong.text()
    assert window.opened.plan is before
    QTest.keyClick(chooser.list, ESCAPE)
