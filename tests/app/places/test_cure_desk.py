"""The curing and brining desk, by keyboard and by mouse, in the Menu place and from the window's command."""

from __future__ import annotations

from fractions import Fraction

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLabel

from app.bridge import OpenPlan
from app.places.cure.outcome import Mood
from app.places.cure.typed_cure import read_stages, show_stages
from app.places.menu import MenuPlace
from core.desk import Desk
from core.measures.refusal import Refusal
from core.plan.ids import DishId
from core.plan.menu import Ingredient
from tests.support.builders import a_dish, a_plan, a_step
from tests.support.windows import a_window

ENTER, ESC, TAB, DOWN = Qt.Key.Key_Return, Qt.Key.Key_Escape, Qt.Key.Key_Tab, Qt.Key.Key_Down
CTRL, SHIFT = Qt.KeyboardModifier.ControlModifier, Qt.KeyboardModifier.ShiftModifier
BELLY, LOIN = DishId("belly"), DishId("loin")


def press(key: Qt.Key, modifier: Qt.KeyboardModifier = Qt.KeyboardModifier.NoModifier) -> None:
    QTest.keyClick(QApplication.focusWidget(), key, modifier)


def click(widget) -> None:
    assert widget.isVisible()
    assert widget.isEnabled()
    QTest.mouseClick(widget, Qt.MouseButton.LeftButton, pos=widget.rect().center())


def write(leaf, **texts: str) -> None:
    """Type into fields that are shown, sign by sign, and leave each by the Tab key."""
    for key, text in texts.items():
        field = leaf.live.form.field(key)
        assert field.isVisible(), key
        field.setFocus()
        field.selectAll()
        press(Qt.Key.Key_Delete)
        QTest.keyClicks(field, text)
        press(TAB)


def choose(leaf, key: str, value: str) -> None:
    """Choose in a list by the arrow keys."""
    field = leaf.live.form.field(key)
    field.setFocus()
    for _ in range(field.count()):
        if field.value == value:
            return
        press(DOWN if field.currentIndex() < field._values.index(value) else Qt.Key.Key_Up)
    assert field.value == value


def a_larder(**fields):
    belly = a_dish("belly", a_step("belly.rub"), name="Cured belly", note="Slice thinly.", **fields)
    return a_plan(belly, a_dish("loin", a_step("loin.brine"), name="Brined loin"))


@pytest.fixture
def shown(qtbot):
    """Show the Menu place of a plan with the desk open."""

    def show(plan=None, size=(1180, 640)):
        opened = OpenPlan(Desk(a_larder() if plan is None else plan))
        place = MenuPlace(opened)
        qtbot.addWidget(place)
        place.resize(*size)
        place.show()
        qtbot.waitExposed(place)
        place.activateWindow()
        qtbot.waitUntil(lambda: QApplication.activeWindow() is place)
        place.setFocus()
        if place.cure.button.isVisible():
            click(place.cure.button)
        else:
            place.cure.enter()
        assert place.cure.shown
        return place.cure.desk, place, opened

    return show


# ---------------------------------------------------------------- a cure


def test_a_dose_is_reckoned_as_it_is_typed_with_its_formula_source_and_cautions(shown):
    desk, _place, opened = shown()
    leaf = desk.leaf
    assert QApplication.focusWidget() is leaf.live.form.field("method")
    assert leaf.card.outcome.mood is Mood.OPEN
    assert "Nitrite in the cure" in leaf.card.headline.text()
    choose(leaf, "method", "comminuted")
    write(leaf, meat="1 kg", nitrite="6.25", cure="2.496 g")
    outcome = leaf.card.outcome
    # FSIS Directive 7620.3, chapter 3: 2.496 g x 0.0625 x 1,000,000 / 1000 g = 156 ppm, the limit of 9 CFR 424.21(c)
    assert outcome.headline == "156 ppm of nitrite go in, limit 156 ppm"
    assert outcome.mood is Mood.PLAIN
    said = leaf.card.lines.text()
    assert "ppm = 2.496 g cure × 0.0625 × 1000000 / 1000 g meat = 156" in said
    assert "9 CFR 424.21(c)" in said
    assert "infants" in leaf.card.cautions.text()
    assert leaf.card.ruler.isVisible()
    assert opened.desk.undo_label is None, "a sum alone changes no plan"


@pytest.mark.parametrize("typed", ["6.25", "6.25%", "0.0625", "6.25 per cent"])
def test_what_was_understood_of_a_share_stands_under_its_field(shown, typed):
    desk, _place, _opened = shown()
    field = desk.leaf.live.form.field("nitrite")
    field.setFocus()
    QTest.keyClicks(field, typed)
    hint = desk.leaf.live.form.cells["nitrite"].hint
    assert hint.isVisible()
    assert hint.text() == "understood: 6.25% (as a fraction 0.0625)"
    press(TAB)
    assert field.text() == "6.25%"


@pytest.mark.parametrize("typed", ["0.0625%", "0.0006", "625", "1"])
def test_a_hundredfold_slip_is_refused_beside_its_field_and_no_result_stands(shown, typed):
    desk, _place, _opened = shown()
    leaf = desk.leaf
    write(leaf, meat="1 kg", nitrite="6.25", cure="2.5 g")
    assert leaf.card.outcome.reckoned
    write(leaf, nitrite=typed)
    wrong = leaf.live.form.cells["nitrite"].wrong
    assert wrong.isVisible()
    assert "nitrite" in wrong.text().casefold()
    assert leaf.card.outcome.mood is Mood.OPEN
    assert leaf.card.ruler.isHidden()
    assert not leaf.notes.isVisible()
    assert not leaf.card.copy.isVisible()


def test_half_a_number_shows_no_result_of_the_text_before(shown):
    desk, _place, _opened = shown()
    leaf = desk.leaf
    write(leaf, meat="1 kg", nitrite="6.25", cure="2.5 g")
    field = leaf.live.form.field("cure")
    field.setFocus()
    field.selectAll()
    QTest.keyClicks(field, "2.5 spo")
    assert leaf.card.outcome.mood is Mood.OPEN
    assert "2.5 g cure" not in leaf.card.lines.text()
    field.selectAll()
    QTest.keyClicks(field, "5 g")
    assert "ppm = 5 g cure" in leaf.card.lines.text()


def test_over_the_limit_is_said_in_words_and_by_a_sign_and_is_not_noted(shown):
    desk, _place, opened = shown()
    leaf = desk.leaf
    choose(leaf, "method", "comminuted")
    write(leaf, meat="1 kg", nitrite="6.25%", cure="5 g")
    card = leaf.card
    assert card.headline.text().startswith("OVER THE LIMIT: 312.5 ppm")
    assert "Do not use this dose" in card.headline.text()
    assert card.head.property("mood") == "over"
    assert card.sign.isVisible()
    assert not card.sign.pixmap().isNull()
    assert not leaf.notes.note.isVisible()
    assert "not noted" in leaf.notes.says.text()
    leaf.notes.put()
    press(ENTER, CTRL)
    assert opened.plan.dishes[BELLY].note == "Slice thinly."


@pytest.mark.parametrize(("grams", "mood"), [("2.503 g", Mood.PLAIN), ("2.504 g", Mood.OVER)])
def test_the_limit_is_held_in_whole_ppm_to_a_thousandth_of_a_gram(shown, grams, mood):
    desk, _place, _opened = shown()
    choose(desk.leaf, "method", "comminuted")
    write(desk.leaf, meat="1 kg", nitrite="6.25%", cure=grams)  # 156.4375 and 156.5 ppm
    assert desk.leaf.card.outcome.mood is mood


def test_too_little_is_marked_as_such(shown):
    desk, _place, _opened = shown()
    write(desk.leaf, meat="1 kg", nitrite="6.25%", cure="1.9 g")
    assert desk.leaf.card.outcome.mood is Mood.LITTLE
    assert desk.leaf.card.headline.text().startswith("TOO LITTLE TO COUNT ON: 118.75 ppm")
    assert desk.leaf.card.sign.isVisible()


def test_a_target_gives_grams_and_one_above_the_limit_is_refused(shown):
    desk, _place, _opened = shown()
    leaf = desk.leaf
    choose(leaf, "method", "comminuted")
    choose(leaf, "asked", "target")
    assert not leaf.live.form.field("cure").isVisible()
    write(leaf, meat="1 kg", nitrite="6.25%", target="120 ppm")
    # 120 ppm of 1 kg by a mix of 6.25 %: 1.92 g
    assert leaf.card.headline.text() == "1.92 g of this cure: 120 ppm of nitrite, limit 156 ppm"
    write(leaf, target="157")
    assert leaf.card.outcome.mood is Mood.OPEN
    assert "at most 156 ppm" in leaf.card.lines.text()


def test_each_method_asks_for_what_its_formula_needs(shown):
    desk, _place, _opened = shown()
    leaf = desk.leaf
    there = leaf.live.form.field
    assert not there("pickle").isVisible()
    choose(leaf, "method", "pumped")
    assert there("pickle").isVisible()
    assert there("taken_up").isVisible()
    choose(leaf, "method", "bacon-equilibrium")
    assert there("pickle").isVisible()
    assert not there("taken_up").isVisible()
    assert there("skin_on").isVisible()
    # 32 g of 5.88 % in 1266 g of pickle, 10 % pump: 148.63 ppm (FSIS 7620.3, pumped)
    choose(leaf, "method", "pumped")
    write(leaf, meat="5 kg", nitrite="5.88", cure="32 g", pickle="1266 g", taken_up="10")
    assert leaf.card.headline.text().startswith("148.63 ppm of nitrite")


def test_values_that_do_not_go_together_are_told_apart_from_a_result(shown):
    desk, _place, _opened = shown()
    write(desk.leaf, meat="2.5 g", nitrite="6.25%", cure="1 kg")
    assert desk.leaf.card.outcome.mood is Mood.OPEN
    assert "are the two exchanged" in desk.leaf.card.lines.text()


def test_thickness_tells_the_days_as_common_practice(shown):
    desk, _place, _opened = shown()
    write(desk.leaf, meat="1 kg", nitrite="6.25%", cure="2.5 g", thick="1 in")
    assert "6 to 9 days" in desk.leaf.card.lines.text()
    assert "common practice" in desk.leaf.card.lines.text()


def test_no_word_of_the_desk_says_safe(shown):
    desk, _place, _opened = shown()
    write(desk.leaf, meat="1 kg", nitrite="6.25%", cure="2.5 g")
    words = " ".join(label.text() for label in desk.findChildren(QLabel)).casefold()
    assert "limit" in words
    for word in ("is safe", "safe to eat", " ok ", "✓", "✔"):
        assert word not in words


# ---------------------------------------------------------------- what is done with it


def test_the_result_is_copied_with_formula_and_cautions(shown):
    desk, _place, _opened = shown()
    leaf = desk.leaf
    write(leaf, meat="1 kg", nitrite="6.25%", cure="2.5 g")
    assert leaf.live.form.field("salt").hasFocus()
    press(Qt.Key.Key_C, CTRL | SHIFT)
    text = QGuiApplication.clipboard().text()
    assert text.startswith("156.25 ppm of nitrite go in, limit 625 ppm\n")
    assert "ppm = 2.5 g cure × 0.0625" in text
    assert "- Weigh the cure" in text
    assert "Copied" in leaf.notes.says.text()
    QGuiApplication.clipboard().clear()
    click(leaf.card.copy)
    assert QGuiApplication.clipboard().text() == text


def test_it_is_noted_on_the_dish_chosen_and_taken_back_by_one_undo(shown):
    desk, _place, opened = shown()
    leaf = desk.leaf
    before = opened.plan
    write(leaf, meat="1 kg", nitrite="6.25%", cure="2.5 g", salt="25 g")
    click(leaf.notes.note)
    dish = opened.plan.dishes[BELLY]
    assert dish.note.startswith("Slice thinly.\n\nCure, from the curing desk\nFor 1 kg of meat")
    assert "ppm = 2.5 g cure" in dish.note
    assert [(each.item, each.quantity.as_text()) for each in dish.ingredients] == [
        ("Curing mix with 6.25% nitrite", "2.5 g"),
        ("Salt", "25 g"),
    ]
    assert "Cured belly" in leaf.notes.says.text()
    opened.undo()
    assert opened.plan == before


def test_noted_again_it_replaces_what_was_noted_so_that_no_two_doses_stand(shown):
    desk, _place, opened = shown(a_larder(ingredients=(Ingredient("pork belly"),)))
    leaf = desk.leaf
    write(leaf, meat="1 kg", nitrite="6.25%", cure="2.5 g", salt="25 g")
    click(leaf.notes.note)
    write(leaf, cure="3 g", salt="")
    press(ENTER, CTRL)
    dish = opened.plan.dishes[BELLY]
    assert dish.note.count("Cure, from the curing desk") == 1
    assert "2.5 g" not in dish.note
    assert [each.item for each in dish.ingredients] == ["pork belly", "Curing mix with 6.25% nitrite"]
    assert dish.ingredients[1].quantity.amount == 3


def test_where_twice_the_recipe_is_made_the_lines_come_to_the_dose_reckoned(shown):
    desk, _place, opened = shown(a_larder(scale=Fraction(2)))
    write(desk.leaf, meat="1 kg", nitrite="6.25%", cure="2.5 g")
    click(desk.leaf.notes.note)
    dish = opened.plan.dishes[BELLY]
    assert dish.ingredients[0].quantity.amount * dish.factor == Fraction("2.5")


def test_another_dish_and_the_note_alone_may_be_chosen(shown):
    desk, _place, opened = shown()
    leaf = desk.leaf
    write(leaf, meat="1 kg", nitrite="6.25%", cure="2.5 g")
    leaf.notes.form.field("dish").setFocus()
    press(DOWN)
    tick = leaf.notes.form.field("weighed")
    tick.setFocus()
    press(Qt.Key.Key_Space)
    assert not tick.isChecked()
    leaf.notes.note.setFocus()
    press(ENTER)
    assert opened.plan.dishes[LOIN].note.startswith("Cure, from the curing desk")
    assert opened.plan.dishes[LOIN].ingredients == ()
    assert opened.plan.dishes[BELLY].note == "Slice thinly."


def test_without_a_dish_it_is_reckoned_and_says_why_it_is_not_noted(shown):
    desk, _place, _opened = shown(a_plan())
    write(desk.leaf, meat="1 kg", nitrite="6.25%", cure="2.5 g")
    assert desk.leaf.card.outcome.reckoned
    assert "no dish" in desk.leaf.notes.says.text()
    assert not desk.leaf.notes.note.isVisible()


# ---------------------------------------------------------------- brines and ferments


def test_brines_wet_strong_and_dry(shown):
    desk, _place, opened = shown()
    click(desk.leaves.buttons["brine"])
    leaf = desk.leaf
    write(leaf, meat="2 kg", water="2 kg", share="1.5")
    assert leaf.card.headline.text().startswith("60 g of salt, 12 to 48 h in the fridge; the meat ends at 1.5%")
    assert "salt = 1.5% of (2000 g meat + 2000 g water) = 60 g" in leaf.card.lines.text()
    assert "USDA" in leaf.card.lines.text()
    choose(leaf, "sort", "gradient")
    assert not leaf.live.form.field("share").isVisible()
    write(leaf, salt="120 g")
    assert "out again after" in leaf.card.headline.text()
    choose(leaf, "sort", "dry")
    write(leaf, share="1%")
    assert leaf.card.headline.text().startswith("20 g of salt")
    click(leaf.notes.note)
    assert [each.item for each in opened.plan.dishes[BELLY].ingredients] == ["Salt"]
    write(leaf, share="5%")
    assert leaf.card.outcome.mood is Mood.OPEN
    assert "no dry brine" in leaf.card.lines.text()


def test_a_ferment_over_its_degree_hours_is_unmistakable(shown):
    desk, _place, _opened = shown()
    click(desk.leaves.buttons["ferment"])
    leaf = desk.leaf
    write(leaf, stages="80 F for 30 h; 80 F 20 h")
    # (80 - 60) x 50 h = 1000 of 1200 F.h: US degree-hour rule
    assert leaf.card.headline.text().startswith("Still fermenting: 1000 of 1200 °F·h")
    write(leaf, stages="80 F for 61 h, pH 5.3")
    assert leaf.card.headline.text().startswith("OVER THE DEGREE-HOURS")
    assert leaf.card.head.property("mood") == "over"
    write(leaf, stages="80 F for 59 h, pH 5.3")
    assert leaf.card.headline.text().startswith("The pH was reached after 1180 of 1200 °F·h")
    write(leaf, stages="80 for 59 h")
    assert leaf.live.form.cells["stages"].wrong.isVisible()


def test_stages_are_read_in_either_scale_and_shown_as_they_read():
    stages = read_stages("24 C for 30 h, pH 5.2; 86F, 2 days")
    assert [(each.degrees, each.scale, each.hours, each.ph) for each in stages] == [
        (24, "C", 30, Fraction("5.2")),
        (86, "F", 48, None),
    ]
    assert read_stages(show_stages(stages)) == stages
    with pytest.raises(Refusal, match="no stage"):
        read_stages("24 C")


def test_a_stage_in_celsius_is_reckoned_in_the_rules_own_scale(shown):
    desk, _place, _opened = shown()
    click(desk.leaves.buttons["ferment"])
    write(desk.leaf, stages="25 C for 10 h")
    assert "(77 − 60) × 10" in desk.leaf.card.lines.text()
    choose(desk.leaf, "rule", "canada")
    assert "(25 − 15.6) × 10" in desk.leaf.card.lines.text()


# ---------------------------------------------------------------- the way in and out


def test_the_command_opens_the_desk_from_any_place_and_escape_goes_back(qtbot, tmp_path, monkeypatch):
    with a_window(qtbot, tmp_path, monkeypatch) as window:
        window.acts.open_demo()
        window.activateWindow()
        qtbot.waitUntil(lambda: QApplication.activeWindow() is window)
        QTest.keyClick(window, Qt.Key.Key_B, CTRL)
        place = window.places.menu
        assert window.stack.currentWidget() is place
        assert place.cure.shown
        leaf = place.cure.desk.leaf
        assert leaf.live.form.field("method").hasFocus()
        write(leaf, meat="1 kg", nitrite="6.25", cure="2.5 g")
        press(ESC)
        assert not place.cure.shown
        QTest.keyClick(window, Qt.Key.Key_B, CTRL)
        assert place.cure.shown
        assert leaf.live.form.field("meat").text() == "1 kg", "what was typed is still there"
        note = leaf.notes.note
        click(note)
        dish = window.opened.plan.menu.dishes[0]
        assert "from the curing desk" in dish.note
        QTest.keyClick(window, Qt.Key.Key_Z, CTRL)
        assert "from the curing desk" not in window.opened.plan.menu.dishes[0].note
        assert place.cure.shown


def test_a_click_on_a_dish_leaves_the_desk(shown):
    _desk, place, _opened = shown()
    box = place.dishes.list.visualItemRect(place.dishes.list.item(1))
    QTest.mouseClick(place.dishes.list.viewport(), Qt.MouseButton.LeftButton, pos=box.center())
    assert not place.cure.shown
    assert place.title.text() == "Brined loin"


def test_a_change_of_the_plan_leaves_what_is_typed(shown):
    desk, _place, opened = shown()
    write(desk.leaf, meat="1 kg", nitrite="6.25%", cure="2.5 g")
    from core.plan.edits import RenameDish

    opened.apply(RenameDish(BELLY, "Smoked belly"), "test")
    assert desk.leaf.live.form.field("cure").text() == "2.5 g"
    assert desk.leaf.card.outcome.reckoned
    assert desk.leaf.notes.form.field("dish").currentText() == "Smoked belly"
