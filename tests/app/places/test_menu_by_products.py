"""By-products in the Menu place: what is yielded is typed at the step; what is lost is said where it went."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

import demo_data
from app.bridge import OpenPlan
from app.places.menu import MenuPlace
from core.desk import Desk
from core.intake.text_plan import read_text
from core.measures.quantity import parse_quantity
from core.plan.edits import ChangeDish, RemoveDish
from core.plan.ids import DishId, StepId
from core.plan.step import Yield
from tests.support.builders import a_dish, a_link, a_plan, a_step

BUTTER, CREAM, CHURN = DishId("butter"), DishId("cream"), StepId("butter.churn")
GONE = "Buttermilk: 450 ml must come from elsewhere now: 300 ml for Cream; 150 ml for Fritters."


def set_field(field, text: str) -> None:
    field.setFocus()
    field.selectAll()
    QTest.keyClick(field, Qt.Key.Key_Delete)
    QTest.keyClicks(field, text)
    QTest.keyClick(field, Qt.Key.Key_Return)


@pytest.fixture
def shown(qtbot):
    def show(plan):
        opened = OpenPlan(Desk(plan))
        place = MenuPlace(opened)
        qtbot.addWidget(place)
        place.resize(1160, 700)
        place.show()
        qtbot.waitExposed(place)
        place.activateWindow()
        qtbot.waitUntil(lambda: QApplication.activeWindow() is place)
        return place, opened

    return show


def butter_for_two(made: str = "450 ml"):
    return a_plan(
        a_dish(
            BUTTER, a_step("butter.warm"), a_step(CHURN, yields=Yield("buttermilk", parse_quantity(made)))
        ),
        a_dish(CREAM, a_step("cream.pour")),
        a_dish("fritters", a_step("fritters.batter")),
        links=(
            a_link("butter.warm", CHURN),
            a_link(CHURN, "fritters.batter", brings=parse_quantity("150 ml")),
            a_link(CHURN, "cream.pour", brings=parse_quantity("300 ml")),
        ),
    )


def test_what_a_step_yields_is_typed_and_taken_out_again(shown):
    place, opened = shown(butter_for_two())
    place.show_step(CHURN)
    cell = place.steps.details.form.cells["yields"]
    assert cell.field.shown_text() == "buttermilk: 450 ml"
    set_field(cell.field, "buttermilk, half a litre")
    assert "half a litre" in cell.wrong.text()
    set_field(cell.field, "buttermilk, 0.5 l")
    assert opened.plan.steps[CHURN].yields == Yield("buttermilk", parse_quantity("0.5 l"))
    assert cell.field.shown_text() == "buttermilk: 0.5 l"
    set_field(cell.field, "buttermilk: 400 g")
    assert "cannot be reckoned together" in cell.wrong.text()
    set_field(cell.field, "")
    assert opened.plan.steps[CHURN].yields is None


def test_a_step_may_be_done_in_pieces(shown):
    place, opened = shown(butter_for_two())
    place.show_step(CHURN)
    cell = place.steps.details.form.cells["least_piece"]
    set_field(cell.field, "5 min")
    assert opened.plan.steps[CHURN].least_piece == 5
    set_field(cell.field, "20 min")
    assert "pieces of 20 min" in cell.wrong.text()


def test_a_dish_that_goes_says_what_must_be_bought_and_for_what(shown):
    place, opened = shown(butter_for_two())
    assert not place.left_open.isVisible()
    place.dishes.choose(BUTTER)
    place.dishes.remove.click()
    assert place.left_open.isVisible()
    assert place.left_open.words.text() == GONE
    place.left_open.undo.click()
    assert BUTTER in opened.plan.dishes
    assert not place.left_open.isVisible()


def test_a_step_that_goes_says_it_too(shown):
    place, opened = shown(butter_for_two())
    place.show_step(CHURN)
    place.steps.bar.remove.click()
    assert CHURN not in opened.plan.steps
    assert place.left_open.words.text() == GONE
    opened.undo()
    assert not place.left_open.isVisible()


def test_what_nobody_uses_goes_without_a_word(shown):
    place, _opened = shown(butter_for_two())
    place.dishes.choose(CREAM)
    place.dishes.remove.click()
    place.show_step("butter.warm")
    place.steps.bar.remove.click()
    assert not place.left_open.isVisible()


def test_it_follows_the_menu_until_it_is_read(shown):
    place, opened = shown(butter_for_two())
    opened.apply(RemoveDish(BUTTER), "menu")
    assert place.left_open.undo.isVisible()
    opened.apply(ChangeDish.of(CREAM, wanted=8), "menu")
    assert "600 ml for Cream" in place.left_open.words.text()
    assert not place.left_open.undo.isVisible()  # undo would take back something else
    opened.apply(RemoveDish(CREAM), "menu")
    assert place.left_open.words.text() == (
        "Buttermilk: 150 ml must come from elsewhere now: 150 ml for Fritters."
    )
    place.left_open.read.click()
    assert not place.left_open.isVisible()
    opened.apply(ChangeDish.of("fritters", note="crisp"), "menu")
    assert not place.left_open.isVisible()


def test_a_yield_that_is_no_longer_enough_is_said(shown):
    place, opened = shown(butter_for_two())
    opened.apply(ChangeDish.of(CREAM, wanted=6), "menu")
    assert place.left_open.words.text() == (
        "Buttermilk: 150 ml must come from elsewhere now: Butter yields 450 ml, and wanted are 450 ml for Cream;"
        " 150 ml for Fritters."
    )
    opened.apply(ChangeDish.of(BUTTER, wanted=6), "menu")
    assert not place.left_open.isVisible()


def test_what_was_left_open_before_the_place_was_first_shown_is_said_there(qtbot):
    opened = OpenPlan(Desk(butter_for_two()))
    place = MenuPlace(opened)
    qtbot.addWidget(place)
    opened.apply(ChangeDish.of(BUTTER, wanted=2), "timeline")  # as what would help is taken there
    opened.apply(ChangeDish.of("fritters", note="crisp"), "menu")
    assert not place.is_made
    place.show()
    qtbot.waitExposed(place)
    assert place.left_open.isVisible()
    assert "Butter yields 225 ml" in place.left_open.words.text()
    assert not place.left_open.undo.isVisible()  # it would take back the note
    assert not place.left_open.isWindow()
    opened.undo()
    opened.undo()
    assert not place.left_open.isVisible()


def test_what_was_left_open_and_mended_before_the_place_was_first_shown_is_not_said(qtbot):
    opened = OpenPlan(Desk(butter_for_two()))
    place = MenuPlace(opened)
    qtbot.addWidget(place)
    opened.apply(ChangeDish.of(BUTTER, wanted=2), "timeline")
    opened.undo()
    place.show()
    qtbot.waitExposed(place)
    assert not place.left_open.isVisible()
    opened.redo()
    assert place.left_open.isVisible()
    assert place.left_open.undo.isVisible()


def test_the_harvest_supper_without_its_butter(shown):
    """450 ml: 300 for the panna cotta, 150 for the batter (the feast's own notes)."""
    place, _opened = shown(read_text(demo_data.text_of("harvest_supper.toml")))
    place.dishes.choose(BUTTER)
    place.dishes.remove.click()
    assert place.left_open.words.text() == (
        "Buttermilk: 450 ml must come from elsewhere now: 300 ml for Buttermilk panna cotta, blackberries;"
        " 150 ml for Cauliflower fritters, caper mayonnaise."
    )


def test_until_when_the_cooks_sleep_stands_with_the_wishes(shown):
    place, opened = shown(butter_for_two())
    place.facts.fold.click()
    cell = place.facts.wishes.cells["sleep_until"]
    assert cell.field.text() == "08:00"
    set_field(cell.field, "9:30")
    assert opened.plan.decisions.wishes.sleep_until == 570
    set_field(cell.field, "24:00")
    assert "00:00 to 23:59" in cell.wrong.text()
    set_field(cell.field, "9:30")
    weight = place.facts.wishes.field("sleep")
    weight.slider.setValue(9)
    assert (opened.plan.decisions.wishes.sleep, opened.plan.decisions.wishes.sleep_until) == (9, 570)
