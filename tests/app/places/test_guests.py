"""Guests and allergens in the Menu place, by keyboard and by mouse, in the place as it is shown."""

from __future__ import annotations

from dataclasses import replace
from functools import partial

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLabel

from app.fields.reading_order import in_reading_order
from app.places.menu.allergen_ticks import with_group, without_group
from app.places.menu.guests_words import read_guest
from core.food.allergens import NAMES, conflicts, say_conflict
from core.measures.refusal import Refusal
from core.plan.edits import SetGuest
from core.plan.ids import DishId
from core.plan.menu import Guest, Ingredient
from core.sheets.cautions import cautions
from core.sheets.serving_lines import serving_lines
from tests.support.builders import a_dish, a_link, a_plan, a_step
from tests.support.windows import a_menu_place

ENTER, ESC, TAB, SPACE = Qt.Key.Key_Return, Qt.Key.Key_Escape, Qt.Key.Key_Tab, Qt.Key.Key_Space
RIGHT, LEFT = Qt.Key.Key_Right, Qt.Key.Key_Left
CTRL, ALT = Qt.KeyboardModifier.ControlModifier, Qt.KeyboardModifier.AltModifier
MARK = Qt.ItemDataRole.UserRole + 3
GRATIN, LEEKS, STOCK = DishId("gratin"), DishId("leeks"), DishId("stock")


def press(key: Qt.Key, modifier: Qt.KeyboardModifier = Qt.KeyboardModifier.NoModifier) -> None:
    QTest.keyClick(QApplication.focusWidget(), key, modifier)


def write(text: str, then: Qt.Key | None = ENTER) -> None:
    QTest.keyClicks(QApplication.focusWidget(), text)
    if then is not None:
        press(then)


def click(widget) -> None:
    assert widget.isVisible()
    assert widget.isEnabled()
    QTest.mouseClick(widget, Qt.MouseButton.LeftButton, pos=widget.rect().center())


def click_tick(tick) -> None:
    """Click into the box: the words beside it may be cut by the end of the row."""
    assert tick.isVisible()
    at = tick.rect().center()
    at.setX(10)
    QTest.mouseClick(tick, Qt.MouseButton.LeftButton, pos=at)


def a_supper(*guests: Guest, covers: int | None = None, noted: tuple[str, ...] = ()):
    gratin = a_dish(
        "gratin",
        a_step("gratin.bake"),
        name="Potato gratin",
        ingredients=(Ingredient("butter", allergens=noted), Ingredient("potatoes"), Ingredient("plain flour")),
    )
    leeks = a_dish("leeks", a_step("leeks.grill"), name="Leeks", ingredients=(Ingredient("leeks"),))
    plan = a_plan(gratin, leeks)
    return replace(plan, menu=replace(plan.menu, guests=guests, covers=covers))


@pytest.fixture
def shown(qtbot):
    """Show the Menu place of a plan."""

    return partial(a_menu_place, qtbot)


def marks(place) -> list[str]:
    return [place.dishes.list.item(row).data(MARK) for row in range(place.dishes.list.count())]


def noted(opened, dish: DishId = GRATIN) -> list[tuple[str, ...]]:
    return [each.allergens for each in opened.plan.dishes[dish].ingredients]


def ingredients_of(place, dish: DishId = GRATIN):
    place.dishes.choose(dish)
    place.leaves.turn("ingredients")
    return place.ingredients.allergens


def page_of(place):
    press(Qt.Key.Key_G, CTRL)
    page = place.guests.page
    assert page.isVisible()
    return page


# ---------------------------------------------------------------- who sits down


def test_guests_are_written_by_the_keyboard_alone_and_taken_back_one_by_one(shown):
    place, opened = shown(a_supper(noted=("milk",)))
    page = page_of(place)
    assert page.teaching.isVisible()
    write("9")
    assert opened.plan.menu.covers == 9
    page.draft.enter()
    write("Orla: milk, no coriander")
    write("2 Reeds: eggs, almonds, pregnant")
    write(": gluten")
    orla, reeds, nameless = opened.plan.menu.guests
    assert orla == Guest("Orla", allergies=("milk",), aversions=("coriander",))
    assert reeds == Guest("Reeds", 2, ("egg", "almonds"), at_risk="pregnant")
    assert nameless == Guest("a guest", allergies=("gluten",))
    assert place.facts.guests.text() == "Guests: 9"
    assert place.facts.guests.accessibleName() == "Guests: 9, 1 dish is not for everybody"
    assert page.count.text() == "9 sit down, 4 told of, 1 dish is not for everybody"
    assert not page.teaching.isVisible()
    press(ESC)
    assert not page.isVisible()
    assert place.dishes.list.hasFocus()
    for left in (2, 1, 0):
        opened.undo()
        assert len(opened.plan.menu.guests) == left


def test_ticks_are_one_stop_of_tab_and_the_arrows_go_along_them(shown):
    place, opened = shown(a_supper(Guest("Orla"), covers=4))
    row = page_of(place).rows.at(0)
    row.enter("at_risk")
    stops = 0
    while QApplication.focusWidget() not in row.ticks.ticks.values():
        press(TAB)
        stops += 1
        assert stops < 5
    press(SPACE)
    press(RIGHT)
    press(RIGHT)
    press(SPACE)
    assert opened.plan.menu.guests[0].allergies == ("gluten", "egg")
    press(LEFT)
    press(LEFT)
    press(LEFT)
    press(SPACE)
    assert opened.plan.menu.guests[0].allergies == ("gluten", "egg", "molluscs")
    press(TAB)
    assert QApplication.focusWidget() is row.fields["others"]
    write("kiwi, rye")
    assert opened.plan.menu.guests[0].allergies == ("gluten", "egg", "molluscs", "kiwi", "rye")
    assert row.ticks.ticks["gluten"].isChecked()


def test_by_mouse_ticks_go_on_and_off_and_the_guest_is_taken_off(shown):
    place, opened = shown(a_supper(Guest("Orla", allergies=("milk", "shellfish"))))
    click(place.facts.guests)
    row = place.guests.page.rows.at(0)
    ticked = [name for name, tick in row.ticks.ticks.items() if tick.isChecked()]
    assert ticked == ["crustaceans", "milk", "molluscs"]
    click_tick(row.ticks.ticks["milk"])
    assert opened.plan.menu.guests[0].allergies == ("shellfish",)
    click_tick(row.ticks.ticks["crustaceans"])
    assert opened.plan.menu.guests[0].allergies == ("molluscs",)
    click_tick(row.ticks.ticks["sesame"])
    assert opened.plan.menu.guests[0].allergies == ("sesame", "molluscs")
    click(row.remove)
    assert opened.plan.menu.guests == ()
    click(place.guests.page.back)
    assert not place.guests.page.isVisible()
    assert not place.facts.guests.isChecked()


def test_what_does_not_fit_is_said_and_nothing_changes(shown):
    place, opened = shown(a_supper(Guest("Orla"), Guest("Finn"), covers=1))
    page = page_of(place)
    assert page.wrong_count.text() == "2 guests are told of below, but 1 sit down; one of the numbers is wrong."
    before = opened.plan
    write("Orla: milk")
    assert page.draft.wrong.text().startswith("Orla is on the list already")
    row = page.rows.at(1)
    row.enter("name")
    QApplication.focusWidget().selectAll()
    write("Orla")
    assert "there twice" in row.wrong.text()
    row.enter("count")
    QApplication.focusWidget().selectAll()
    write("0")
    assert "stands for 0 guests" in row.wrong.text()
    field = page.form.field("covers")
    field.setFocus()
    field.selectAll()
    write("0")
    assert "nobody" in next(each.text() for each in page.form.findChildren(QLabel, "wrong") if each.isVisible())
    assert opened.plan == before


@pytest.mark.parametrize(
    ("text", "guest"),
    [
        ("Orla", Guest("Orla")),
        ("3 x Reed: celery", Guest("Reed", 3, ("celery",))),
        ("Finn: allergic to peanuts, not mustard", Guest("Finn", allergies=("peanuts", "mustard"))),
        ("Una: dairy, kiwi", Guest("Una", allergies=("dairy",), aversions=("kiwi",))),
        (": weak immune system", Guest("a guest 2", at_risk="weak immune system")),
        ("Two Hansens: gluten, eggs", Guest("Hansens", 2, ("gluten", "egg"))),
        ("no mushrooms", Guest("a guest 2", aversions=("mushrooms",))),
        ("Orla, milk, no kiwi", Guest("Orla", allergies=("milk",), aversions=("kiwi",))),
        ("Orla no nuts", Guest("Orla", allergies=("nuts",))),
        ("2 Reeds without milk, fish", Guest("Reeds", 2, ("milk", "fish"))),
        ("nuts, milk", Guest("a guest 2", allergies=("nuts", "milk"))),
        ("Noah Notter", Guest("Noah Notter")),
    ],
)
def test_a_line_about_a_guest(text, guest):
    assert read_guest(text, frozenset({"a guest"})) == guest


def test_an_empty_line_is_no_guest():
    with pytest.raises(Refusal, match="write a name"):
        read_guest("  : ")


def test_a_bare_number_is_no_name():
    with pytest.raises(Refusal, match="9 says how many, not who"):
        read_guest("9: milk")


@pytest.mark.parametrize("name", NAMES)
def test_a_group_put_on_a_list_is_on_it_and_goes_without_the_other_words(name):
    words = ("kiwi", "shellfish", "Milk")
    on = with_group(words, name)
    assert {"kiwi", "shellfish", "Milk"} <= set(on)
    guest = Guest("Orla", allergies=on)
    dish = a_dish("soup", a_step("soup.boil"), allergens=(name,))
    plan = a_plan(dish)
    assert conflicts(replace(plan, menu=replace(plan.menu, guests=(guest,))))
    off = Guest("Orla", allergies=without_group(on, name))
    assert not conflicts(replace(plan, menu=replace(plan.menu, guests=(off,))))
    assert "kiwi" in off.allergies


# ---------------------------------------------------------------- allergens of ingredients


def test_a_proposal_is_never_noted_by_itself(shown):
    place, opened = shown(a_supper())
    before = opened.plan
    parts = ingredients_of(place)
    assert parts.at(0).asks.text() == "Usually has milk; it is not noted."
    assert not parts.at(1).isVisible()
    assert parts.at(2).asks.text() == "Usually has gluten; it is not noted."
    assert opened.plan == before
    place.ingredients.draft.enter()
    write("eggs: 3")
    assert noted(opened) == [(), (), (), ()]
    assert parts.at(3).asks.text() == "Usually has egg; it is not noted."


def test_by_keyboard_one_proposal_is_taken_and_the_next_turned_down(shown):
    place, opened = shown(a_supper())
    parts = ingredients_of(place)
    parts.enter()
    press(ENTER)
    assert noted(opened) == [("milk",), (), ()]
    assert parts.at(0).button.text() == "milk"
    assert QApplication.focusWidget() is parts.at(2).yes
    press(TAB)
    press(SPACE)
    assert noted(opened) == [("milk",), (), ()]
    assert not parts.at(2).isVisible()
    assert not parts.offer.isVisible()
    opened.undo()
    assert noted(opened) == [(), (), ()]
    assert parts.at(0).asks.isVisible()
    assert not parts.at(2).isVisible()  # turned down


def test_by_mouse_all_proposals_are_taken_with_one_undo(shown):
    place, opened = shown(a_supper())
    parts = ingredients_of(place)
    click(parts.offer.all)
    assert noted(opened) == [("milk",), (), ("gluten",)]
    assert not parts.offer.isVisible()
    opened.undo()
    assert noted(opened) == [(), (), ()]


def test_ticks_of_an_ingredient_open_by_its_button_and_shut_by_escape(shown):
    place, opened = shown(a_supper(noted=("milk", "own word")))
    parts = ingredients_of(place)
    part = parts.at(0)
    click(part.button)
    assert part.ticks.ticks["milk"].hasFocus()
    press(SPACE)
    assert noted(opened)[0] == ("own word",)
    assert part.ticks.ticks["milk"].text() == "milk?"
    click_tick(part.ticks.ticks["mustard"])
    assert noted(opened)[0] == ("mustard", "own word")
    press(ESC)
    assert not part.ticks.isVisible()
    assert part.button.hasFocus()
    assert place.leaves.name == "ingredients"


# ---------------------------------------------------------------- what it means for the menu


def test_a_dish_that_a_guest_cannot_eat_is_said_on_the_menu_and_on_the_sheets(shown):
    place, opened = shown(a_supper(Guest("Orla", allergies=("milk",)), noted=("milk",)))
    place.refresh()
    assert marks(place) == ["not for Orla: milk", ""]
    tip = place.dishes.list.item(0).toolTip()
    assert say_conflict(opened.plan, conflicts(opened.plan)[0]) in tip
    assert "Potato gratin is not for Orla: milk" in tip
    assert "no guarantee: read the labels; traces are not known here" in tip
    assert "not for Orla" in place.dishes.list.item(0).data(Qt.ItemDataRole.AccessibleTextRole)
    assert place.caution.isVisible()
    assert place.caution.text().startswith("Not for Orla: milk (butter). A caution, no guarantee")
    place.dishes.choose(LEEKS)
    assert not place.caution.isVisible()
    assert any("Potato gratin is not for Orla" in each for each in cautions(opened.plan))
    (line,) = serving_lines(opened.plan)
    assert [served.not_for for served in line.served] == [("Orla",), ()]


def test_what_is_only_likely_is_said_as_such(shown):
    place, opened = shown(a_supper(Guest("Orla", allergies=("milk",))))
    place.refresh()
    assert marks(place) == ["perhaps not for Orla: milk", ""]
    parts = ingredients_of(place)
    click(parts.at(0).yes)
    assert marks(place) == ["not for Orla: milk", ""]
    opened.undo()
    assert marks(place) == ["perhaps not for Orla: milk", ""]
    click(parts.at(0).no)
    assert marks(place) == ["perhaps not for Orla: milk", ""]  # a caution is not clicked away


def test_what_comes_from_another_dish_counts(shown):
    stock = a_dish(
        "stock", a_step("stock.simmer"), name="Stock", served=False, ingredients=(Ingredient("celery"),)
    )
    soup = a_dish("soup", a_step("soup.boil"), name="Soup", ingredients=(Ingredient("leeks"),))
    plan = a_plan(stock, soup, links=(a_link("stock.simmer", "soup.boil"),))
    place, _opened = shown(replace(plan, menu=replace(plan.menu, guests=(Guest("Orla", allergies=("celery",)),))))
    place.refresh()
    place.dishes.choose(DishId("soup"))
    assert place.caution.text().startswith("Perhaps not for Orla: celery (celery in Stock). A caution")
    assert marks(place) == ["", "perhaps not for Orla: celery"]


def test_each_guest_is_named_with_what_they_must_not_have_and_many_in_short(shown):
    orla, finn = Guest("Orla", allergies=("milk",)), Guest("Finn", allergies=("gluten", "egg"))
    place, opened = shown(a_supper(orla, finn, noted=("milk",)))
    place.refresh()
    assert marks(place)[0] == "not for Orla: milk; perhaps not for Finn: gluten"
    said = "Not for Orla: milk (butter); perhaps not for Finn: gluten (plain flour). A caution"
    assert place.caution.text().startswith(said)
    for number in range(4):
        opened.apply(SetGuest(Guest(f"Guest {number}", allergies=("milk",))), "test")
    assert marks(place)[0] == "not for Orla, Guest 0, Guest 1 and 2 more; perhaps not for Finn: gluten"
    assert all(f"Guest {number}" in place.caution.text() for number in range(4))


def test_the_page_names_dishes_and_leads_to_their_ingredients(shown):
    bread = a_dish("bread", a_step("bread.slice"), name="Bread")
    plan = a_supper(Guest("Orla", 1, ("milk",), ("leeks",), "pregnant"))
    plan = replace(plan, menu=replace(plan.menu, dishes=(*plan.menu.dishes, bread)))
    place, _opened = shown(plan)
    page = page_of(place)
    first, second = (row.words.text() for row in page.cautions.rows)
    assert "Potato gratin may not be for Orla" in first
    assert "milk (butter)" in first
    assert "Orla would not choose Leeks: leeks" in second
    rest = page.cautions.rest.text()
    assert "At more risk from food: Orla (pregnant)" in rest
    assert "No ingredients are written of Bread: nothing can be said of that." in rest
    assert rest.endswith("A caution, no guarantee: read the labels; traces are not known here.")
    assert marks(place)[1] == ""  # a dislike is no mark
    place.leaves.turn("steps")
    row = page.cautions.rows.at(GRATIN)
    row.open.setFocus()
    press(ENTER)
    assert not page.isVisible()
    assert place.dishes.dish == GRATIN
    assert place.leaves.name == "ingredients"
    assert QApplication.focusWidget() is place.ingredients.allergens.at(0).yes


# ---------------------------------------------------------------- servings


def wanted(opened) -> list[int]:
    return [dish.wanted for dish in opened.plan.menu.dishes]


def test_all_dishes_are_made_for_those_who_sit_down_with_one_press_and_one_undo(shown):
    place, opened = shown(a_supper())
    offer = page_of(place).offer
    assert not offer.isVisible()
    write("9")
    assert wanted(opened) == [4, 4]
    assert offer.words.text() == "9 sit down, but Potato gratin and Leeks are for 4."
    click(offer.make)
    assert wanted(opened) == [9, 9]
    assert offer.words.text() == "All dishes are for 9 now."
    assert offer.undo.hasFocus()
    press(SPACE)
    assert wanted(opened) == [4, 4]
    assert opened.plan.menu.covers == 9
    click(offer.leave)
    assert not offer.isVisible()
    assert wanted(opened) == [4, 4]
    field = place.guests.page.form.field("covers")
    field.setFocus()
    field.selectAll()
    write("10")
    assert offer.make.text() == "Make all for 10"


def test_after_the_number_the_next_that_is_written_is_a_guest(shown):
    place, opened = shown(a_supper())
    page = page_of(place)
    write("9")
    assert page.draft.line.hasFocus()
    write("Mira Holm: milk, no mushrooms")
    assert opened.plan.menu.guests == (Guest("Mira Holm", allergies=("milk",), aversions=("mushrooms",)),)
    page.form.field("covers").setFocus()
    page.form.field("covers").selectAll()
    write("0")
    assert page.form.field("covers").hasFocus(), "a number that is refused is mended first"


def test_a_name_written_on_a_button_presses_nothing_and_loses_no_allergy(shown):
    place, opened = shown(a_supper())
    page = page_of(place)
    write("9")
    page.offer.make.setFocus()
    for letter in "Mira Holm: milk, no mushrooms":
        write(letter, None)  # each to what has the focus then, as from a keyboard
    press(ENTER)
    assert opened.plan.menu.guests == (Guest("Mira Holm", allergies=("milk",), aversions=("mushrooms",)),)
    assert wanted(opened) == [4, 4]


def test_the_undo_offered_is_never_that_of_another_change(shown):
    place, opened = shown(a_supper(Guest("Orla")))
    page = page_of(place)
    write("9")
    click(page.offer.make)
    assert page.offer.undo.isVisible()
    click_tick(page.rows.at(0).ticks.ticks["milk"])
    assert opened.plan.menu.guests[0].allergies == ("milk",)
    assert not page.offer.isVisible()
    opened.undo()
    opened.undo()
    assert wanted(opened) == [4, 4]
    assert page.offer.make.isVisible()


def test_a_dish_for_fewer_on_purpose_may_be_left(shown):
    plan = a_supper()
    bake = replace(a_dish("bake", name="Lentil bake"), wanted=1)
    place, opened = shown(replace(plan, menu=replace(plan.menu, dishes=(*plan.menu.dishes, bake))))
    offer = page_of(place).offer
    write("9")
    assert offer.words.text() == "9 sit down, but Potato gratin and Leeks are for 4, Lentil bake for 1."
    assert offer.usual.text() == "Only the 2 for 4"
    click(offer.usual)
    assert wanted(opened) == [9, 9, 1]
    assert offer.words.text() == "Made for 9; Lentil bake is for 1."
    click(offer.undo)
    assert wanted(opened) == [4, 4, 1]
    click(offer.make)
    assert wanted(opened) == [9, 9, 9]


def test_what_was_set_by_hand_is_said_to_stay(shown):
    plan = a_supper()
    first, second = plan.menu.dishes
    plan = replace(plan, menu=replace(plan.menu, dishes=(replace(first, scale=first.factor * 2), second)))
    place, opened = shown(plan)
    offer = page_of(place).offer
    write("6")
    click(offer.make)
    assert wanted(opened) == [6, 6]
    assert offer.words.text().endswith("How much is made was set by itself, and stays, for Potato gratin.")


def test_a_new_dish_is_for_those_who_sit_down(shown):
    place, opened = shown(a_supper(covers=11))
    place.dishes.draft.enter()
    write("Pea soup")
    assert opened.plan.dishes[DishId("pea-soup")].wanted == 11


def test_undo_and_a_dish_chosen_keep_page_and_button_in_step(shown):
    place, opened = shown(a_supper(Guest("Orla", allergies=("milk",)), covers=4))
    page = page_of(place)
    opened.undo()
    assert page.isVisible()
    item = place.dishes.list.visualItemRect(place.dishes.list.item(1)).center()
    QTest.mouseClick(place.dishes.list.viewport(), Qt.MouseButton.LeftButton, pos=item)
    assert not page.isVisible()
    assert place.dishes.dish == LEEKS
    assert not place.facts.guests.isChecked()
    press(Qt.Key.Key_G, CTRL)
    assert place.facts.guests.isChecked()
    press(Qt.Key.Key_G, CTRL)
    assert not page.isVisible()


def test_everything_on_the_page_that_can_be_reached_has_a_name_and_is_large_enough(shown):
    place, _opened = shown(a_supper(Guest("Orla", allergies=("milk",)), covers=9), (1900, 1000))
    page = page_of(place)
    reached = [each for each in in_reading_order(page) if each.isVisibleTo(page)]
    assert {page.back, page.form.field("covers"), page.offer.make, page.draft.line} <= set(reached)
    assert sum(each in page.rows.at(0).ticks.ticks.values() for each in reached) == 1
    assert [each.objectName() for each in reached if not each.accessibleName()] == []
    assert [each.objectName() for each in reached if each.height() < 24 or each.width() < 24] == []
