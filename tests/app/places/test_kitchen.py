"""The Kitchen place: stations, vessels and cooks are added, edited and removed; refusals stand in their place."""

from __future__ import annotations

from dataclasses import replace

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QColor, QFont
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QWidget

from app.bridge import OpenPlan
from app.places.kitchen import KitchenPlace
from core.desk import Desk
from core.plan.edits import AddVessel
from core.plan.ids import CookId, StationId, VesselId
from core.plan.kitchen import Heater, Kitchen, Shelf, StationKind, Vessel, Window
from tests.support.builders import a_dish, a_fire, a_kitchen, a_plan, a_step, a_use, a_vessel

ENTER = Qt.Key.Key_Return


def set_field(field, text: str) -> None:
    field.setFocus()
    field.selectAll()
    QTest.keyClick(field, Qt.Key.Key_Delete)
    QTest.keyClicks(field, text)
    QTest.keyClick(field, ENTER)


@pytest.fixture
def shown(qtbot):
    def show(plan):
        opened = OpenPlan(Desk(plan))
        place = KitchenPlace(opened)
        qtbot.addWidget(place)
        place.resize(1180, 700)
        place.show()
        qtbot.waitExposed(place)
        place.activateWindow()
        qtbot.waitUntil(lambda: QApplication.activeWindow() is place)
        return place, opened

    return show


def cooking_on_burners():
    soup = a_dish("soup", a_step("soup.boil", "Boil", 20, uses=(a_use("burner"),)))
    return a_plan(soup, kitchen=a_kitchen(vessels=(a_vessel("pot", 2),)))


def test_a_station_of_each_kind_can_be_added(shown):
    place, opened = shown(a_plan(kitchen=Kitchen()))
    assert place.stations.teaching.isVisible()
    for kind in StationKind:
        place.stations.add(kind)
    kinds = [station.kind for station in opened.plan.kitchen.stations]
    assert kinds == list(StationKind)
    assert len(place.stations.cards) == len(kinds)
    assert not place.stations.teaching.isVisible()
    place.stations.add(StationKind.OVEN)
    second = opened.plan.kitchen.stations[-1]
    assert (second.id, second.name) == ("oven-2", "Oven 2")
    assert QApplication.focusWidget() is place.stations.cards[second.id].form.field("name")


def test_the_kinds_are_offered_in_a_menu(shown):
    place, opened = shown(a_plan(kitchen=Kitchen()))
    words = {action.text(): action for action in place.stations.menu.actions()}
    assert len(words) == len(StationKind)
    words["cold counter"].trigger()
    assert [each.kind for each in opened.plan.kitchen.stations] == [StationKind.COLD_COUNTER]


def test_a_stations_heating_is_edited_in_place(shown):
    place, opened = shown(a_plan())
    form = place.stations.cards[StationId("oven")].form
    set_field(form.field("name"), "Large oven")
    set_field(form.field("units"), "3")
    set_field(form.field("settings"), "60 to 240 C")
    set_field(form.field("from_cold"), "160 C in 10 min; 230 C in 25 min")
    set_field(form.field("up"), "4.5")
    set_field(form.field("keep_on"), "1 h")
    form.field("fan").click()
    oven = opened.plan.kitchen.station[StationId("oven")]
    assert (oven.name, oven.units, oven.fan) == ("Large oven", 3, True)
    assert oven.heater == Heater(60, 240, ((160, 10), (230, 25)), up=4.5, keep_on=60)


def test_a_cold_place_has_shelves_and_hours(shown):
    place, opened = shown(a_plan())
    form = place.stations.cards[StationId("fridge")].form
    assert not form.cells["units"].isVisible()
    assert not form.cells["settings"].isVisible()
    set_field(form.field("shelves"), "50x40 cm, 26 cm: lowest; 1,200 cm2, 18 cm")
    set_field(form.field("hours"), "day -1 12:00 to day 1 00:00")
    fridge = opened.plan.kitchen.station[StationId("fridge")]
    assert fridge.shelves == (Shelf(2000, 26, "lowest"), Shelf(1200, 18))
    assert fridge.hours == (Window(1, 12 * 60, 3 * 24 * 60 - 24 * 60),)


def test_wrong_values_are_told_in_the_card_and_mended(shown):
    place, opened = shown(a_plan())
    before = opened.plan
    cell = place.stations.cards[StationId("oven")].form.cells["from_cold"]
    set_field(cell.field, "quite fast")
    assert "quite fast" in cell.wrong.text()
    assert cell.wrong.isVisible()
    set_field(cell.field, "230 C in 10 min; 160 C in 25 min")
    assert "rise from point to point" in cell.wrong.text()
    assert opened.plan is before
    set_field(cell.field, "200 C in 20 min")
    assert not cell.wrong.isVisible()
    heater = opened.plan.kitchen.station[StationId("oven")].heater
    assert heater is not None
    assert heater.from_cold == ((200, 20),)


def test_a_station_is_copied_and_the_last_of_its_kind_in_use_stays(shown):
    place, opened = shown(cooking_on_burners())
    place.stations.cards[StationId("burner-1")].copy.click()
    assert opened.plan.kitchen.stations[-1].name == "Burner 5"
    for number in range(2, 6):
        place.stations.cards[StationId(f"burner-{number}")].remove.click()
    assert [each.id for each in opened.plan.kitchen.of_kind(StationKind.BURNER)] == ["burner-1"]
    last = place.stations.cards[StationId("burner-1")]
    last.remove.click()
    assert StationId("burner-1") in opened.plan.kitchen.station
    assert last.wrong.isVisible()
    assert "burner" in last.wrong.text()
    opened.undo()
    assert len(place.stations.cards) == len(opened.plan.kitchen.stations)


def test_a_kind_that_does_not_fit_is_refused_where_it_was_chosen(shown):
    place, opened = shown(cooking_on_burners())
    for number in range(2, 5):
        place.stations.cards[StationId(f"burner-{number}")].remove.click()
    cell = place.stations.cards[StationId("burner-1")].form.cells["kind"]
    cell.field.choose(StationKind.MACHINE)
    assert cell.wrong.isVisible()
    assert opened.plan.kitchen.station[StationId("burner-1")].kind is StationKind.BURNER


def test_heating_can_be_given_and_taken(shown):
    place, opened = shown(a_plan())
    form = place.stations.cards[StationId("grill")].form
    assert not form.cells["settings"].isVisible()
    form.field("heats").click()
    assert opened.plan.kitchen.station[StationId("grill")].heater == Heater()
    assert form.cells["settings"].isVisible()
    form.field("heats").click()
    assert opened.plan.kitchen.station[StationId("grill")].heater is None


def test_vessels_are_added_edited_copied_and_removed(shown):
    place, opened = shown(cooking_on_burners())
    place.leaves.turn("vessels")
    set_field(place.vessels.draft.line, "Roasting tin")
    assert QApplication.focusWidget() is place.vessels.rows.at(VesselId("roasting-tin")).fields["count"]
    row = place.vessels.rows.at(VesselId("roasting-tin"))
    set_field(row.fields["count"], "three")
    assert "three" in row.wrong.text()
    set_field(row.fields["count"], "3")
    set_field(row.fields["size"], "40x30 cm")
    set_field(row.fields["washing"], "0")
    tin = opened.plan.kitchen.vessel[VesselId("roasting-tin")]
    assert tin == Vessel(VesselId("roasting-tin"), "Roasting tin", 3, "40x30 cm", 0)
    row.fields["by_hand"].choose(False)
    tin = opened.plan.kitchen.vessel[VesselId("roasting-tin")]
    assert tin == Vessel(VesselId("roasting-tin"), "Roasting tin", 3, "40x30 cm", 0, by_hand=False)
    row.fields["name"].setFocus()
    QTest.keyClick(row.fields["name"], Qt.Key.Key_D, Qt.KeyboardModifier.ControlModifier)
    assert [each.name for each in opened.plan.kitchen.vessels][-1] == "Roasting tin, another"
    QTest.keyClick(row.fields["name"], Qt.Key.Key_Delete, Qt.KeyboardModifier.AltModifier)
    assert VesselId("roasting-tin") not in opened.plan.kitchen.vessel
    opened.undo()
    assert place.vessels.rows.at(VesselId("roasting-tin")).fields["count"].text() == "3"


def test_cooks_have_hours_and_skills(shown):
    place, opened = shown(cooking_on_burners())
    place.leaves.turn("cooks")
    set_field(place.cooks.draft.line, "Ben")
    row = place.cooks.rows.at(CookId("ben"))
    set_field(row.fields["skills"], "able, bread")
    set_field(row.fields["present"], "day 0 15:00-24:00; day -1 9:00-12:00")
    set_field(row.fields["night"], "none")
    ben = opened.plan.kitchen.cook[CookId("ben")]
    assert (ben.skills, ben.night) == (("able", "bread"), None)
    assert ben.present == (Window(0, 900, 1440), Window(1, 540, 720))
    set_field(row.fields["present"], "in the afternoon")
    assert "in the afternoon" in row.wrong.text()
    assert opened.plan.kitchen.cook[CookId("ben")] == ben


def test_the_last_cook_that_steps_need_stays(shown):
    place, opened = shown(cooking_on_burners())
    place.leaves.turn("cooks")
    row = place.cooks.rows.at(CookId("ann"))
    row.fields["name"].setFocus()
    QTest.keyClick(row.fields["name"], Qt.Key.Key_Delete, Qt.KeyboardModifier.AltModifier)
    assert "no cook" in row.wrong.text()
    assert CookId("ann") in opened.plan.kitchen.cook


def test_the_kitchens_name_and_transfer(shown):
    place, opened = shown(a_plan())
    set_field(place.form.field("kitchen_name"), "Lock kitchen")
    set_field(place.form.field("transfer"), "2 min")
    assert (opened.plan.kitchen.name, opened.plan.transfer) == ("Lock kitchen", 2)
    set_field(place.form.field("transfer"), "-2")
    assert place.form.cells["transfer"].wrong.isVisible()
    set_field(place.form.field("walk"), "2 min")
    assert opened.plan.kitchen.walk == 2
    set_field(place.form.field("walk"), "2 h")
    assert "give 0 to 60 min" in place.form.cells["walk"].wrong.text()


def on_coals():
    """Return a plan in a kitchen whose grill is lit."""
    kitchen = a_kitchen()
    stations = tuple(a_fire() if each.kind is StationKind.GRILL else each for each in kitchen.stations)
    return a_plan(kitchen=replace(kitchen, stations=stations))


def test_only_fires_are_laid_and_lit(shown):
    place, opened = shown(on_coals())
    for each in ("oven", "grill"):
        place.stations.cards[StationId(each)].more.click()
    oven, grill = (place.stations.cards[StationId(each)].form for each in ("oven", "grill"))
    for key in ("lighting", "laying", "burns", "fires"):
        assert grill.cells[key].isVisible()
        assert not oven.cells[key].isVisible()
    set_field(grill.field("laying"), "10")
    set_field(grill.field("fires"), "2")
    station = opened.plan.kitchen.station[StationId("grill")]
    assert (station.lighting, station.laying, station.burns, station.fires) == (25, 10, 60, 2)
    set_field(grill.field("fires"), "0")
    assert "give 1 to 9" in grill.cells["fires"].wrong.text()
    set_field(grill.field("laying"), "30")
    assert "give the cook 0 to 25 min" in grill.cells["laying"].wrong.text()


def test_a_grill_of_gas_is_neither_laid_nor_lit_again(shown):
    place, opened = shown(on_coals())
    place.stations.cards[StationId("grill")].more.click()
    form = place.stations.cards[StationId("grill")].form
    assert form.cells["laying"].isVisible()
    assert form.cells["fires"].isVisible()
    set_field(form.field("lighting"), "0")
    set_field(form.field("burns"), "")
    assert not opened.plan.kitchen.station[StationId("grill")].is_fire
    assert not form.cells["laying"].isVisible()
    assert not form.cells["fires"].isVisible()


def test_a_full_oven_takes_longer(shown):
    place, opened = shown(a_plan())
    place.stations.cards[StationId("oven")].more.click()
    cell = place.stations.cards[StationId("oven")].form.cells["full"]
    set_field(cell.field, "10")
    assert opened.plan.kitchen.station[StationId("oven")].heater.full == 10
    assert cell.field.text() == "10 %"
    set_field(cell.field, "a bit")
    assert "per cent" in cell.wrong.text()


def test_stations_of_one_appliance_are_kept_apart_from_either_side(shown):
    place, opened = shown(a_plan())
    for each in ("oven", "grill", "fridge"):
        place.stations.cards[StationId(each)].more.click()
    oven, grill = (place.stations.cards[StationId(each)].form for each in ("oven", "grill"))
    set_field(oven.field("not_with"), "Grill")
    assert opened.plan.kitchen.station[StationId("oven")].not_with == ("grill",)
    assert grill.field("not_with").shown_text() == "Oven"
    set_field(grill.field("not_with"), "")
    assert opened.plan.kitchen.station[StationId("oven")].not_with == ()
    assert oven.field("not_with").shown_text() == ""
    opened.undo()
    assert oven.field("not_with").shown_text() == "Grill"
    set_field(grill.field("not_with"), "Gril")
    assert 'did you mean "grill"?' in grill.cells["not_with"].wrong.text()
    set_field(grill.field("not_with"), "Grill")
    assert "itself" in grill.cells["not_with"].wrong.text()
    assert not place.stations.cards[StationId("fridge")].form.cells["not_with"].isVisible()


def test_a_copy_is_another_appliance(shown):
    place, opened = shown(a_plan())
    card = place.stations.cards[StationId("oven")]
    set_field(card.form.field("not_with"), "Grill")
    card.copy.click()
    assert opened.plan.kitchen.stations[-1].not_with == ()


def test_what_changes_while_another_place_is_shown_is_caught_up(shown):
    place, opened = shown(a_plan())
    place.hide()
    opened.apply(AddVessel(Vessel(VesselId("bowl"), "Bowl")))
    assert place.vessels.rows.at(VesselId("bowl")) is None
    place.show()
    assert place.vessels.rows.at(VesselId("bowl")) is not None


def test_pictures_show_what_differs(shown):
    place, opened = shown(a_plan())
    card = place.stations.cards[StationId("oven")]

    def painted() -> set[tuple[int, int]]:
        image = card.picture.grab().toImage()
        heat = QColor("#A63A12")
        points = [(x, y) for x in range(image.width()) for y in range(image.height())]
        return {(x, y) for x, y in points if image.pixelColor(x, y) == heat}

    def rows_of(points: set[tuple[int, int]]) -> int:
        """Count the stretches of heights that the racks take."""
        heights = sorted({y for _x, y in points})
        return sum(1 for at, y in enumerate(heights) if at == 0 or y > heights[at - 1] + 1)

    assert rows_of(painted()) == 2
    set_field(card.form.field("units"), "4")
    assert rows_of(painted()) == 4
    assert opened.plan.kitchen.station[StationId("oven")].units == 4


def test_everything_that_can_be_reached_has_a_name_and_is_large_enough(shown):
    place, _opened = shown(cooking_on_burners())
    small, nameless = [], []
    for leaf in place.leaves.buttons:
        place.leaves.turn(leaf)
        QApplication.processEvents()
        for widget in place.findChildren(QWidget):
            reached = widget.isVisible() and widget.focusPolicy() & Qt.FocusPolicy.TabFocus
            if not reached or widget.focusProxy() is not None:
                continue
            text = getattr(widget, "text", str)
            if not (widget.accessibleName() or (callable(text) and text())):
                nameless.append((type(widget).__name__, widget.objectName()))
            if min(widget.width(), widget.height()) < 24:
                small.append((type(widget).__name__, widget.objectName(), widget.size().toTuple()))
    assert nameless == []
    assert small == []
    assert place.minimumSizeHint().width() <= 1160


@pytest.fixture
def large_type(qapp):
    usual, large = QFont(qapp.font()), QFont(qapp.font())
    large.setPointSizeF(usual.pointSizeF() * 1.6)
    qapp.setFont(large)
    yield
    qapp.setFont(usual)


@pytest.mark.usefixtures("large_type")
def test_in_large_type_no_row_is_wider_than_its_page(shown):
    place, _opened = shown(cooking_on_burners())
    for leaf, things in (("vessels", place.vessels), ("cooks", place.cooks)):
        place.leaves.turn(leaf)
        QApplication.processEvents()
        for row in things.rows:
            assert row.minimumSizeHint().width() <= things.page.viewport().width(), leaf
            for field in row.fields.values():
                inside = field.mapTo(row, field.rect().topRight()).x()
                assert inside <= row.width(), (leaf, field.objectName())
