"""Which station a vessel goes into: by its size as default, chosen as ticks, with keys and with the mouse."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from app.bridge import PlanPlace
from app.places.kitchen.vessel_goes import VesselGoes
from app.places.window import Window
from core.plan.ids import StationId, VesselId
from core.plan.kitchen import Heater, Station, StationKind, Vessel
from tests.support.builders import a_kitchen, a_plan
from tests.support.windows import a_window

FULL, HALF, POT = VesselId("full"), VesselId("half"), VesselId("pot")
OVEN, DRAWER, FRIDGE = StationId("oven"), StationId("drawer"), StationId("fridge")


@pytest.fixture
def window(qtbot, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Window]:
    kitchen = a_kitchen(
        Station(DRAWER, "Warm drawer", StationKind.WARM_DRAWER, heater=Heater(30, 90), wide=30, deep=25),
        vessels=(
            Vessel(FULL, "Full sheet", size="26x18 in"),
            Vessel(HALF, "Half sheet", size="18x13 in"),
            Vessel(POT, "Pot", size="8 l"),
        ),
    )
    stations = tuple(
        replace(each, wide=46, deep=38) if each.id == OVEN else each for each in kitchen.stations
    )
    with a_window(qtbot, tmp_path, monkeypatch) as made:
        made.open_place(PlanPlace.fresh(a_plan(kitchen=replace(kitchen, stations=stations))), "kitchen")
        made.places.kitchen.leaves.turn("vessels")
        made.activateWindow()
        qtbot.waitUntil(lambda: QApplication.activeWindow() is made)
        yield made


def goes(window: Window, vessel: VesselId) -> VesselGoes:
    found = window.places.kitchen.vessels.beside[vessel]
    assert isinstance(found, VesselGoes)
    return found


def fits(window: Window, vessel: VesselId) -> tuple[StationId, ...]:
    return window.opened.plan.kitchen.vessel[vessel].fits


def press(key: Qt.Key, modifier: Qt.KeyboardModifier = Qt.KeyboardModifier.NoModifier) -> None:
    QTest.keyClick(QApplication.focusWidget(), key, modifier)


def click(tick) -> None:
    QTest.mouseClick(tick, Qt.MouseButton.LeftButton, pos=QPoint(10, tick.height() // 2))


def test_the_size_says_where_a_vessel_goes(window: Window) -> None:
    """A full sheet of 26x18 in does not go into 46x38 cm, a half sheet of 18x13 in does (1 in is 2.54 cm)."""
    full, half, pot = (goes(window, each) for each in (FULL, HALF, POT))
    assert (full.inline.text(), pot.inline.text()) == ("goes by size", "goes anywhere")
    for each in (full, half, pot):
        assert not each.below.isVisible()
        click(each.inline)
        assert each.below.isVisible()
    assert "too large for Oven (46x38 cm) and Warm drawer (30x25 cm)" in full.below.says.text()
    assert half.below.says.text().startswith(
        "18x13 in: goes into Oven (46x38 cm); is too large for Warm drawer"
    )
    assert "may go anywhere" in pot.below.says.text()
    assert half.below.by_size.isChecked()
    assert half.below.ticks[OVEN].isChecked()
    assert not half.below.ticks[DRAWER].isChecked()
    assert half.below.ticks[FRIDGE].isChecked(), "nothing is told of it"
    assert StationId("room") not in half.below.ticks, "a worktop bears anything"


def test_ticks_are_set_with_the_mouse_and_undone(window: Window) -> None:
    pot = goes(window, POT)
    click(pot.inline)
    click(pot.below.ticks[OVEN])
    chosen = fits(window, POT)
    assert OVEN not in chosen
    assert DRAWER in chosen
    assert not pot.below.by_size.isChecked()
    assert pot.inline.text() == f"goes in {len(chosen)} stations"
    press(Qt.Key.Key_Z, Qt.KeyboardModifier.ControlModifier)
    assert fits(window, POT) == ()
    assert pot.below.by_size.isChecked()
    assert pot.below.ticks[OVEN].isChecked()


def test_ticks_are_set_from_the_keyboard_alone(window: Window) -> None:
    half = goes(window, HALF)
    window.places.kitchen.vessels.rows.at(HALF).fields["by_hand"].setFocus()
    press(Qt.Key.Key_Tab)
    assert QApplication.focusWidget() is half.inline
    press(Qt.Key.Key_Space)
    assert half.below.isVisible()
    for _press in range(9):
        press(Qt.Key.Key_Tab)
        if QApplication.focusWidget() is half.below.ticks[OVEN]:
            break
    assert QApplication.focusWidget() is half.below.ticks[OVEN]
    press(Qt.Key.Key_Space)
    assert OVEN not in fits(window, HALF)
    press(Qt.Key.Key_Space)
    assert OVEN in fits(window, HALF)
    press(Qt.Key.Key_Escape)
    assert not half.below.isVisible()
    assert QApplication.focusWidget() is half.inline


def test_by_its_size_takes_the_choice_back(window: Window) -> None:
    half = goes(window, HALF)
    click(half.inline)
    click(half.below.by_size)
    assert OVEN in fits(window, HALF)
    assert DRAWER not in fits(window, HALF), "what the size said stays as the choice"
    click(half.below.by_size)
    assert fits(window, HALF) == ()


def test_against_its_size_is_said_and_let_be(window: Window) -> None:
    half = goes(window, HALF)
    click(half.inline)
    click(half.below.ticks[DRAWER])
    assert DRAWER in fits(window, HALF)
    assert half.below.says.text() == "By its size it is too large for Warm drawer."


def test_a_vessel_must_go_somewhere(window: Window) -> None:
    pot = goes(window, POT)
    click(pot.inline)
    ticks = list(pot.below.ticks.values())
    for tick in ticks[:-1]:
        click(tick)
    before = window.opened.plan
    click(ticks[-1])
    assert window.opened.plan is before
    assert ticks[-1].isChecked()
    assert pot.below.wrong.isVisible()
    assert "tick another station first" in pot.below.wrong.text()
    click(ticks[0])
    assert not pot.below.wrong.isVisible()


def test_new_and_renamed_stations_have_ticks(window: Window) -> None:
    place, pot = window.places.kitchen, goes(window, POT)
    click(pot.inline)
    place.stations.add(StationKind.SMOKER)
    assert any(tick.text() == "Smoker" for tick in pot.below.ticks.values())
    place.stations.cards[StationId("smoker")].remove.click()
    assert StationId("smoker") not in pot.below.ticks
