"""What thermometers show: at the fridge and other places that are not heated, and how warm the kitchen gets."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from app.bridge import OpenPlan
from app.places.kitchen import KitchenPlace
from app.places.kitchen.typed_warmth import COLD_PLACE, ROOM
from core.desk import Desk
from core.measures.refusal import Refusal
from core.plan.ids import StationId
from tests.support.builders import a_fridge, a_kitchen, a_plan, an_oven

ENTER = Qt.Key.Key_Return
FRIDGE = StationId("fridge")


def set_field(field, text: str) -> None:
    assert field.isVisible()
    field.setFocus()
    field.selectAll()
    QTest.keyClick(field, Qt.Key.Key_Delete)
    QTest.keyClicks(field, text)
    QTest.keyClick(field, ENTER)


@pytest.fixture
def shown(qtbot):
    def show(*stations):
        opened = OpenPlan(Desk(a_plan(kitchen=a_kitchen(*stations))))
        place = KitchenPlace(opened)
        qtbot.addWidget(place)
        place.resize(1180, 700)
        place.show()
        qtbot.waitExposed(place)
        place.activateWindow()
        qtbot.waitUntil(lambda: QApplication.activeWindow() is place)
        return place, opened

    return show


def test_the_fridges_thermometer_is_told_forgotten_and_taken_back(shown):
    place, opened = shown(a_fridge())
    field = place.stations.cards[FRIDGE].form.field("keeps_at")
    set_field(field, "41 F")
    assert opened.plan.kitchen.station[FRIDGE].keeps_at == 5
    assert field.text() == "5 °C"
    set_field(field, "")
    assert opened.plan.kitchen.station[FRIDGE].keeps_at is None
    opened.undo()
    assert opened.plan.kitchen.station[FRIDGE].keeps_at == 5
    opened.undo()
    assert opened.plan.kitchen.station[FRIDGE].keeps_at is None


def test_a_bare_number_that_may_be_fahrenheit_is_refused_at_the_field(shown):
    place, opened = shown(a_fridge())
    card = place.stations.cards[FRIDGE]
    set_field(card.form.field("keeps_at"), "40")
    assert card.form.cells["keeps_at"].wrong.text() == '"40": write 40 C or 40 F, whichever is meant.'
    assert opened.plan.kitchen.station[FRIDGE].keeps_at is None
    set_field(card.form.field("keeps_at"), "40 F")
    assert opened.plan.kitchen.station[FRIDGE].keeps_at == 4


def test_an_oven_has_no_thermometer_of_its_own_to_tell(shown):
    place, _opened = shown(an_oven())
    assert not place.stations.cards[StationId("oven")].form.field("keeps_at").isVisible()


def test_the_kitchens_warmth_is_told_at_its_line_and_taken_back(shown):
    place, opened = shown(a_fridge())
    field = place.form.field("room")
    assert field.placeholderText() == "not told"
    set_field(field, "75F")
    assert opened.plan.kitchen.room == 24
    set_field(field, "70")
    assert "70 C or 70 F" in place.form.cells["room"].wrong.text()
    assert opened.plan.kitchen.room == 24
    QTest.keyClick(field, Qt.Key.Key_Escape)
    opened.undo()
    assert opened.plan.kitchen.room is None
    assert field.text() == ""


@pytest.mark.parametrize(("typed", "celsius"), [("", None), ("4", 4), ("-18", -18), ("−18 C", -18), ("0 F", -18)])
def test_what_a_thermometer_shows_is_read(typed, celsius):
    assert COLD_PLACE.read(typed) == celsius
    assert COLD_PLACE.read(COLD_PLACE.show(celsius)) == celsius


@pytest.mark.parametrize("typed", ["cold", "70°", "46"])
def test_no_or_an_unclear_temperature_of_the_room_is_refused(typed):
    with pytest.raises(Refusal):
        ROOM.read(typed)
