"""Scaling a dish at its ingredients: by servings, by an ingredient, by the tin; by keys and by mouse, with undo."""

from __future__ import annotations

from fractions import Fraction

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from app.bridge import OpenPlan
from app.places.menu import MenuPlace
from app.places.menu.scale_beside import Beside
from core.desk import Desk
from core.measures.quantity import parse_quantity
from core.plan.kitchen import StationKind
from core.plan.menu import Ingredient
from core.plan.step import Attention, Loads, Span
from tests.support.builders import a_dish, a_plan, a_step, a_use, at_oven

ENTER, TAB = Qt.Key.Key_Return, Qt.Key.Key_Tab
ALT = Qt.KeyboardModifier.AltModifier


def press(key, modifier=Qt.KeyboardModifier.NoModifier):
    QTest.keyClick(QApplication.focusWidget(), key, modifier)


def type_in(field, text, then=ENTER):
    """Type over what stands in a field and leave it."""
    field.setFocus(Qt.FocusReason.TabFocusReason)
    field.selectAll()
    QTest.keyClick(field, Qt.Key.Key_Delete)
    QTest.keyClicks(field, text)
    QTest.keyClick(field, then)


def click(button):
    assert button.isVisible()
    QTest.mouseClick(button, Qt.MouseButton.LeftButton)


def line(item, amount="", **fields):
    return Ingredient(item, parse_quantity(amount) if amount else None, **fields)


def a_feast():
    roast = a_dish(
        "roast",
        a_step("roast.rub", "Rub with salt", 10),
        a_step("roast.roast", "Roast", (80, 90, 100), attention=Attention.HANDS_OFF, uses=(at_oven(200),)),
        name="Shoulder of veal",
        ingredients=(
            line("shoulder of veal", "2 kg", pieces=1),
            line("salt", "12 g", per_kg_of="shoulder of veal"),
            line("eggs", "3"),
            line("pepper"),
        ),
    )
    skewers = a_dish(
        "skewers",
        a_step(
            "skewers.grill",
            "Grill the skewers",
            8,
            attention=Attention.TENDED,
            uses=(a_use(StationKind.GRILL),),
            loads=Loads(12, 6, 2),
        ),
        name="Skewers",
        ingredients=(line("lamb", "900 g"),),
    )
    tart = a_dish(
        "tart",
        a_step("tart.bake", "Bake", 40, attention=Attention.HANDS_OFF, uses=(at_oven(180),)),
        name="Plum tart",
        ingredients=(line("plums", "1 kg"), line("flour", "250 g")),
        pan="round 20 cm",
    )
    return a_plan(roast, skewers, tart)


@pytest.fixture
def shown(qtbot):
    """Show the ingredients of a dish."""
    opened = OpenPlan(Desk(a_feast()))
    place = MenuPlace(opened)
    qtbot.addWidget(place)
    place.resize(1180, 700)
    place.show()
    qtbot.waitExposed(place)
    place.activateWindow()
    qtbot.waitUntil(lambda: QApplication.activeWindow() is place)

    def show(dish):
        place.dishes.choose(dish)
        place.leaves.turn("ingredients")
        return place.ingredients, opened

    return show


def open_fields(leaf):
    if not leaf.scale.form.isVisible():
        click(leaf.scale.open)
    return leaf.scale.form


def beside(leaf):
    """Return what stands beside each ingredient."""
    found = [row.findChild(Beside) for row in leaf.rows]
    return [(each.take.text(), each.exact.text()) for each in found if each.isVisible()]


def noted(leaf):
    if not leaf.scale.notes.isVisible():
        return []
    return [each.words.text() for each in leaf.scale.notes.rows]


def test_as_written_only_the_rule_by_the_kilogram_is_worked_out(shown):
    leaf, _opened = shown("roast")
    assert leaf.scale.says.text() == "Made as the recipe is written, for 4"
    assert beside(leaf) == [("", ""), ("take 24 g", ""), ("", ""), ("", "")]
    assert not leaf.scale.back.isVisible()
    assert not leaf.scale.form.isVisible()


def test_servings_by_the_keyboard_alone(shown):
    leaf, opened = shown("roast")
    leaf.window().leaves.turn("steps")
    leaf.window().leaves.buttons["steps"].setFocus()
    press(Qt.Key.Key_Q, ALT)
    assert leaf.isVisible(), "from any leaf of the menu"
    assert QApplication.focusWidget() is leaf.scale.form.field("wanted")
    type_in(leaf.scale.form.field("wanted"), "6")
    dish = opened.plan.dishes["roast"]
    assert (dish.wanted, dish.scale, dish.factor) == (6, None, Fraction(3, 2))
    assert leaf.scale.says.text() == "1.5 times the recipe, for 6"
    assert beside(leaf) == [
        ("take 3 kg", ""),
        ("take 36 g", ""),
        ("take 5", "4.5 in proportion"),
        ("", ""),
    ]
    assert dish.steps[1].length == Span(80, 90, 100), "no length grows by itself"
    opened.undo()
    assert opened.plan.dishes["roast"].wanted == 4
    assert leaf.scale.says.text() == "Made as the recipe is written, for 4"


def test_an_ingredient_leads_and_all_else_follows(shown):
    leaf, opened = shown("roast")
    form = open_fields(leaf)
    assert form.field("item").value == "shoulder of veal"
    assert form.field("amount").text() == "2 kg"
    type_in(form.field("amount"), "2.6 kg")
    dish = opened.plan.dishes["roast"]
    assert dish.scale == Fraction(13, 10)
    assert leaf.scale.says.text() == "1.3 times the recipe"
    assert beside(leaf)[1] == ("take 31 g", "31.2 g in proportion")
    assert form.cells["amount"].hint.text() == "2 kg in the recipe"
    form.field("item").choose("eggs")
    assert form.field("amount").text() == "3.9"
    type_in(form.field("amount"), "6")
    assert opened.plan.dishes["roast"].scale == Fraction(2)
    opened.undo()
    assert opened.plan.dishes["roast"].scale == Fraction(13, 10)
    click(leaf.scale.back)
    assert opened.plan.dishes["roast"].factor == 1
    opened.undo()
    assert opened.plan.dishes["roast"].scale == Fraction(13, 10)


def test_an_amount_that_cannot_be_says_why_and_changes_nothing(shown):
    leaf, opened = shown("roast")
    form = open_fields(leaf)
    before = opened.plan
    type_in(form.field("amount"), "2 m")
    assert form.cells["amount"].wrong.isVisible()
    type_in(form.field("amount"), "3 cups")
    assert "does not compare" in form.cells["amount"].wrong.text()
    type_in(form.field("wanted"), "0")
    assert form.cells["wanted"].wrong.isVisible()
    assert opened.plan is before


def test_the_tin_as_cooks_say_it_is_understood_and_fills_as_deep(shown):
    leaf, opened = shown("tart")
    form = open_fields(leaf)
    assert form.cells["pan"].hint.text() == "round 20 cm: 314 cm²"
    type_in(form.field("pan_wanted"), "26 cm round")
    dish = opened.plan.dishes["tart"]
    assert (dish.pan_wanted, dish.scale) == ("26 cm round", Fraction(169, 100)), "26² over 20²"
    assert form.cells["pan_wanted"].hint.text() == "round 26 cm: 531 cm²"
    assert leaf.scale.says.text() == "1.69 times the recipe, in 26 cm round"
    assert beside(leaf) == [("take 1.7 kg", "1.69 kg in proportion"), ("take 420 g", "422.5 g in proportion")]
    assert not [each for each in noted(leaf) if "deeper" in each]
    type_in(form.field("pan_wanted"), "round")
    assert "names no size" in form.cells["pan_wanted"].wrong.text()
    assert opened.plan.dishes["tart"] == dish
    QTest.keyClick(form.field("pan_wanted"), Qt.Key.Key_Escape)
    type_in(form.field("pan"), "round 26 cm")
    assert opened.plan.dishes["tart"].factor == 1, "the recipe's tin was mended: what the tins come to follows"
    opened.undo()
    opened.undo()
    assert (opened.plan.dishes["tart"].pan_wanted, opened.plan.dishes["tart"].scale) == ("", None)


def test_gastronorm_says_its_sides_and_what_it_holds(shown):
    leaf, opened = shown("tart")
    form = open_fields(leaf)
    type_in(form.field("pan_wanted"), "GN 1/2-65")
    assert form.cells["pan_wanted"].hint.text() == "GN 1/2-65: 32.5x26.5 cm, 861 cm², 5.6 l to the brim"
    type_in(form.field("pan_wanted"), "")
    assert (opened.plan.dishes["tart"].pan_wanted, opened.plan.dishes["tart"].scale) == ("", None)


def test_a_dish_that_does_not_say_its_tin_is_asked_for_it(shown):
    leaf, _opened = shown("roast")
    form = open_fields(leaf)
    type_in(form.field("pan_wanted"), "round 26 cm")
    assert "does not say its pan" in form.cells["pan_wanted"].wrong.text()


def test_loads_follow(shown):
    leaf, opened = shown("skewers")
    type_in(open_fields(leaf).field("wanted"), "6")
    assert noted(leaf) == ["Grill the skewers: 18 in all, 6 a load: 3 loads, 28 min (2 loads as written)"]
    assert leaf.scale.look.text() == "What else changes: 1"
    opened.undo()
    assert noted(leaf) == []
    assert not leaf.scale.look.isVisible()


def test_a_longer_roast_is_offered_with_its_source_and_taken_with_one_click(shown):
    leaf, opened = shown("roast")
    type_in(open_fields(leaf).field("amount"), "3 kg")
    offers = [each for each in leaf.scale.notes.rows if each.button.isVisible()]
    assert "3 kg" in offers[0].words.text()
    assert "Panofsky" in offers[0].source.text()
    assert offers[0].source.isVisible()
    assert opened.plan.steps["roast.roast"].length == Span(80, 90, 100)
    before = offers[0].button.visibleRegion().isEmpty()
    press(Qt.Key.Key_W, ALT)
    QApplication.processEvents()
    assert not offers[0].button.visibleRegion().isEmpty(), before
    assert offers[0].button.text() == "Let it take 1 h 58 min"
    click(offers[0].button)
    step = opened.plan.steps["roast.roast"]
    assert step.length == Span(105, 118, 131)
    assert "the recipe says" in step.note
    taken = next(each for each in leaf.scale.notes.rows if "takes 1 h 58 min" in each.words.text())
    assert taken.button.text() == "Back to the recipe's 1 h 30 min"
    click(taken.button)
    assert opened.plan.steps["roast.roast"].length == Span(80, 90, 100)
    assert opened.plan.steps["roast.roast"].note == ""
    opened.undo()
    opened.undo()
    assert opened.plan.steps["roast.roast"].length == Span(80, 90, 100)
    assert opened.plan.dishes["roast"].scale == Fraction(3, 2)


def test_pieces_are_typed_with_the_amount(shown):
    leaf, opened = shown("tart")
    row = leaf.rows.at(0)
    type_in(row.fields["amount"], "1 kg in 3 pieces")
    plums = opened.plan.dishes["tart"].ingredients[0]
    assert (plums.quantity, plums.pieces) == (parse_quantity("1 kg"), 3)
    assert row.fields["amount"].shown_text() == "1 kg in 3 pieces"
    type_in(row.fields["amount"], "1 kg in 0 pieces")
    assert "no piece" in row.wrong.text()
    QTest.keyClick(row.fields["amount"], Qt.Key.Key_Escape)
    type_in(leaf.draft.line, "chicken: 3.2 kg in 2 pieces, trussed")
    added = opened.plan.dishes["tart"].ingredients[-1]
    assert (added.item, added.pieces, added.preparation) == ("chicken", 2, "trussed")


def test_servings_at_serving_and_notes_go_before_a_scale(shown):
    leaf, opened = shown("roast")
    type_in(open_fields(leaf).field("amount"), "3 kg")
    window = leaf.window()
    window.leaves.turn("dish")
    form = window.dish_leaf.form
    assert form.cells["wanted"].hint.text().startswith("1.5 times the recipe")
    type_in(form.field("wanted"), "8")
    dish = opened.plan.dishes["roast"]
    assert (dish.scale, dish.factor) == (None, Fraction(2))


def test_amounts_that_cannot_be_say_why_and_the_rest_stays(shown):
    leaf, opened = shown("roast")
    type_in(leaf.draft.line, "vinegar: 10 g per kg of eggs")
    assert opened.plan.dishes["roast"].ingredients[-1].item == "vinegar"
    assert "vinegar" in leaf.scale.wrong.text()
    assert leaf.scale.wrong.isVisible()
    assert len(leaf.rows) == 5
    assert beside(leaf) == []
    opened.undo()
    assert not leaf.scale.wrong.isVisible()
    assert beside(leaf)[1] == ("take 24 g", "")
