"""The cook's own dishes in the Menu place: kept, searched, taken in and removed, by keyboard and by mouse."""

from __future__ import annotations

from dataclasses import replace
from functools import partial

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from core.plan.edits import ChangeDish
from core.plan.edits.library import OwnCopy, own_copy
from core.plan.ids import DishId, VesselId
from core.plan.kitchen import StationKind
from core.plan.menu import Ingredient
from core.plan.step import Attention, Use, VesselUse
from core.store.library import Library
from tests.support.builders import a_dish, a_kitchen, a_link, a_plan, a_step, a_vessel, chained
from tests.support.windows import a_menu_place

ENTER, ESC, DOWN, TAB = Qt.Key.Key_Return, Qt.Key.Key_Escape, Qt.Key.Key_Down, Qt.Key.Key_Tab
CTRL, SHIFT = Qt.KeyboardModifier.ControlModifier, Qt.KeyboardModifier.ShiftModifier
ALT = Qt.KeyboardModifier.AltModifier


def press(key: Qt.Key, modifier: Qt.KeyboardModifier = Qt.KeyboardModifier.NoModifier) -> None:
    QTest.keyClick(QApplication.focusWidget(), key, modifier)


def write(text: str) -> None:
    QTest.keyClicks(QApplication.focusWidget(), text)


def click(button) -> None:
    assert button.isVisible()
    QTest.mouseClick(button, Qt.MouseButton.LeftButton)


def soup():
    return a_dish(
        "soup",
        a_step("soup.cut", "Cut the leeks", 10),
        a_step(
            "soup.boil",
            "Simmer",
            25,
            attention=Attention.HANDS_OFF,
            uses=(Use(StationKind.BURNER),),
            vessels=(VesselUse(VesselId("pot")),),
        ),
        name="Leek soup",
        ingredients=(Ingredient("leeks"),),
    )


def tart():
    step = a_step("tart.bake", "Bake", 45, attention=Attention.HANDS_OFF, uses=(Use(StationKind.OVEN),))
    return a_dish("tart", step, name="Plum tart", ingredients=(Ingredient("plums"),))


def a_supper():
    return a_plan(
        soup(), tart(), links=chained(*soup().steps), kitchen=a_kitchen(vessels=(a_vessel("pot", name="Large pot"),))
    )


@pytest.fixture
def shown(qtbot):
    """Show the Menu place of a plan."""

    return partial(a_menu_place, qtbot)


@pytest.fixture
def library(qapp):
    """Give the library that the place finds, as another window has it open."""
    from app.places.library import Shelf

    with Library.open(Shelf().path) as found:
        yield found


@pytest.fixture
def filled(library):
    """Give a library with a soup and a tart."""
    plan = a_supper()
    for dish in plan.dishes:
        library.keep_dish(own_copy(plan, dish), "First supper")
    return library


def names(library) -> list[str]:
    return [each.name for each in library.dishes()]


def rows(place) -> list[str]:
    return [each.own.name for each in place.mine.results.found]


def menu(opened) -> list[str]:
    return [dish.name for dish in opened.plan.menu.dishes]


# ---------------------------------------------------------------- taking in


def test_by_keyboard_alone_two_dishes_are_searched_and_put_on_an_empty_menu(shown, filled):
    place, opened = shown(a_plan())
    press(Qt.Key.Key_L, CTRL)
    assert place.mine.isVisible()
    assert rows(place) == ["Leek soup", "Plum tart"]
    write("plum oven")
    assert rows(place) == ["Plum tart"]
    press(ENTER)
    assert menu(opened) == ["Plum tart"]
    write("leek")  # over what was typed before
    assert rows(place) == ["Leek soup"]
    press(ENTER)
    assert menu(opened) == ["Plum tart", "Leek soup"]
    assert [vessel.name for vessel in opened.plan.kitchen.vessels] == ["Large pot"]
    assert "Brought along into the kitchen: Large pot." in place.mine.note.words.text()
    press(ESC)
    assert rows(place) == ["Leek soup", "Plum tart"]
    press(ESC)
    assert not place.mine.isVisible()
    assert place.dishes.dish == "soup"
    assert place.title.text() == "Leek soup"
    assert place.steps.isVisible()


def test_by_mouse_it_is_looked_at_put_on_the_menu_and_taken_back(shown, filled):
    place, opened = shown(a_plan())
    before = opened.plan
    click(place.empty.mine)
    mine = place.mine
    where = mine.results.visualItemRect(mine.results.item(1)).center()
    QTest.mouseClick(mine.results.viewport(), Qt.MouseButton.LeftButton, pos=where)
    seen = mine.preview.words()
    assert "Plum tart" in seen
    assert "45 min, cooks by itself, oven" in seen
    assert "plums" in seen
    assert "from “First supper”" in seen
    click(mine.take)
    assert menu(opened) == ["Plum tart"]
    click(mine.note.undo)
    assert opened.plan == before
    assert mine.isVisible()
    assert not mine.note.isVisible()
    where = mine.results.visualItemRect(mine.results.item(1)).center()
    QTest.mouseClick(mine.results.viewport(), Qt.MouseButton.LeftButton, pos=where)
    QTest.mouseDClick(mine.results.viewport(), Qt.MouseButton.LeftButton, pos=where)
    assert menu(opened) == ["Plum tart"]
    click(mine.back)
    assert not mine.isVisible()


def test_it_comes_for_as_many_as_the_other_dishes(shown, filled):
    place, opened = shown(a_plan(replace(a_dish("roast", name="Roast"), wanted=11)))
    press(Qt.Key.Key_L, CTRL)
    press(ENTER)
    assert opened.plan.dishes[DishId("soup")].wanted == 11
    assert place.mine.note.words.text().startswith("“Leek soup” is on the menu, for 11.")


def test_it_comes_for_as_many_as_sit_down(shown, filled):
    plan = a_plan(a_dish("roast", name="Roast"))
    _place, opened = shown(replace(plan, menu=replace(plan.menu, covers=9)))
    press(Qt.Key.Key_L, CTRL)
    press(ENTER)
    assert opened.plan.dishes[DishId("soup")].wanted == 9


def test_what_the_kitchen_cannot_do_is_said_and_nothing_changes(shown, filled):
    plan = a_plan()
    cold = tuple(each for each in plan.kitchen.stations if each.kind is not StationKind.OVEN)
    without = replace(plan, kitchen=replace(plan.kitchen, stations=cold))
    place, opened = shown(without)
    press(Qt.Key.Key_L, CTRL)
    write("tart")
    press(ENTER)
    assert opened.plan == without
    assert "Plum tart: Bake needs an oven, and the kitchen has none" in place.mine.note.words.text()
    assert not place.mine.note.undo.isVisible()


def test_arrows_choose_while_typing_and_the_preview_follows(shown, filled):
    place, opened = shown(a_plan())
    press(Qt.Key.Key_L, CTRL)
    assert "Cut the leeks" in place.mine.preview.words()
    press(DOWN)
    assert "Bake" in place.mine.preview.words()
    press(DOWN)
    press(Qt.Key.Key_Up)
    press(ENTER)
    assert menu(opened) == ["Leek soup"]


def test_enter_and_escape_do_the_same_in_the_list(shown, filled):
    place, opened = shown(a_plan())
    press(Qt.Key.Key_L, CTRL)
    place.mine.results.setFocus()
    press(DOWN)
    press(ENTER)
    assert menu(opened) == ["Plum tart"]
    press(ESC)
    assert not place.mine.isVisible()


def test_times_are_searched_and_why_is_said(shown, filled):
    place, _opened = shown(a_plan())
    press(Qt.Key.Key_L, CTRL)
    write("under 40 min pot")
    assert rows(place) == ["Leek soup"]
    item = place.mine.results.item(0)
    said = item.data(Qt.ItemDataRole.AccessibleTextRole)
    assert said == "Leek soup, 35 min, hands on 12 min · burner, Large pot, needs: Large pot, 35 min in all"
    assert place.mine.count.text() == "1 of 2"


def test_where_nothing_is_found_the_word_is_named_and_a_button_shows_all(shown, filled):
    place, _opened = shown(a_plan())
    press(Qt.Key.Key_L, CTRL)
    write("leek lobster")
    assert place.mine.nothing.isVisible()
    assert "“lobster”" in place.mine.nothing.words.text()
    press(ENTER)  # there is nothing to take
    click(place.mine.nothing.button)
    assert rows(place) == ["Leek soup", "Plum tart"]
    assert QApplication.focusWidget() is place.mine.line
    write("leek oven")
    assert "no dish has all of them" in place.mine.nothing.words.text()


def test_another_windows_dish_is_found_as_soon_as_one_searches(shown, filled):
    place, _opened = shown(a_plan())
    press(Qt.Key.Key_L, CTRL)
    filled.keep_dish(OwnCopy(a_dish("pie", name="Leek pie")))
    write("leek")
    assert sorted(rows(place)) == ["Leek pie", "Leek soup"]


def test_choosing_a_dish_of_the_menu_leaves_the_panel(shown, filled):
    place, _opened = shown(a_supper())
    press(Qt.Key.Key_L, CTRL)
    where = place.dishes.list.visualItemRect(place.dishes.list.item(1)).center()
    QTest.mouseClick(place.dishes.list.viewport(), Qt.MouseButton.LeftButton, pos=where)
    assert not place.mine.isVisible()
    assert place.title.text() == "Plum tart"
    press(Qt.Key.Key_L, CTRL)
    assert place.mine.isVisible()
    place.dishes.list.setFocus()
    press(Qt.Key.Key_Up)
    assert not place.mine.isVisible()
    assert place.title.text() == "Leek soup"


def test_writing_a_new_dish_leaves_the_panel_for_its_steps(shown, filled):
    place, _opened = shown(a_supper())
    press(Qt.Key.Key_L, CTRL)
    place.dishes.draft.enter()
    write("Salad")
    press(ENTER)
    assert not place.mine.isVisible()
    assert QApplication.focusWidget() is place.steps.draft.line


# ---------------------------------------------------------------- removing


def test_what_is_removed_comes_back_until_the_panel_is_left(shown, filled):
    place, _opened = shown(a_supper())
    press(Qt.Key.Key_L, CTRL)
    press(Qt.Key.Key_Delete, ALT)
    press(Qt.Key.Key_Delete, ALT)
    assert names(filled) == []
    assert place.mine.empty.isVisible()
    click(place.mine.note.undo)
    click(place.mine.note.undo)
    assert names(filled) == ["Leek soup", "Plum tart"]
    assert not place.mine.note.undo.isVisible()
    place.mine.results.setFocus()
    press(Qt.Key.Key_Delete)
    assert len(names(filled)) == 1
    place.leave_mine()
    press(Qt.Key.Key_L, CTRL)
    assert not place.mine.note.isVisible()


def test_removing_from_the_library_leaves_the_menu_alone(shown, filled):
    place, opened = shown(a_supper())
    before = opened.plan
    press(Qt.Key.Key_L, CTRL)
    click(place.mine.remove)
    assert opened.plan is before
    assert opened.desk.undo_label is None


# ---------------------------------------------------------------- keeping


def test_an_empty_library_teaches_and_keeps_the_dish_chosen(shown, library):
    place, _opened = shown(a_supper())
    press(Qt.Key.Key_L, CTRL)
    assert place.mine.empty.isVisible()
    assert "Ctrl+Shift+L" in place.mine.empty.words.text()
    click(place.mine.empty.button)
    assert names(library) == ["Leek soup"]
    assert rows(place) == ["Leek soup"]


def test_with_no_dish_on_the_menu_there_is_nothing_to_keep(shown, library):
    place, _opened = shown(a_plan())
    press(Qt.Key.Key_L, CTRL)
    assert place.mine.empty.isVisible()
    assert not place.mine.empty.button.isVisible()
    press(ESC)
    press(Qt.Key.Key_L, CTRL | SHIFT)
    assert names(library) == []


def test_a_dish_is_kept_by_keyboard_and_that_is_taken_back(shown, library):
    place, opened = shown(a_supper())
    before = opened.plan
    press(Qt.Key.Key_L, CTRL | SHIFT)
    assert names(library) == ["Leek soup"]
    assert library.dishes()[0].copy == own_copy(before, DishId("soup"))
    assert place.keep_note.words.text() == "“Leek soup” is kept in my dishes."
    assert opened.plan is before
    assert QApplication.focusWidget() is place.dishes.list
    click(place.keep_note.undo)
    assert names(library) == []


def test_a_better_one_is_sent_back_by_keyboard(shown, filled):
    place, opened = shown(a_supper())
    opened.apply(ChangeDish.of(DishId("soup"), note="less salt"))
    press(Qt.Key.Key_L, CTRL | SHIFT)
    note = place.keep_note
    assert "“Leek soup” is among my dishes already" in note.words.text()
    assert QApplication.focusWidget() is note.replace
    press(ENTER)
    assert [each.copy.dish.note for each in filled.dishes()] == ["less salt", ""]
    assert names(filled) == ["Leek soup", "Plum tart"]
    assert QApplication.focusWidget() is place.dishes.list
    click(note.undo)
    assert [each.copy.dish.note for each in filled.dishes()] == ["", ""]


def test_it_is_kept_as_another_by_mouse(shown, filled):
    place, opened = shown(a_supper())
    opened.apply(ChangeDish.of(DishId("soup"), note="less salt"))
    click(place.keep)
    click(place.keep_note.another)
    assert names(filled) == ["Leek soup", "Leek soup 2", "Plum tart"]
    assert "“Leek soup 2” is kept" in place.keep_note.words.text()


def test_escape_keeps_nothing(shown, filled):
    place, opened = shown(a_supper())
    opened.apply(ChangeDish.of(DishId("soup"), note="less salt"))
    press(Qt.Key.Key_L, CTRL | SHIFT)
    press(TAB)
    assert QApplication.focusWidget() is place.keep_note.another
    press(ESC)
    assert not place.keep_note.isVisible()
    assert [each.copy.dish.note for each in filled.dishes()] == ["", ""]
    assert QApplication.focusWidget() is place.dishes.list


def test_what_is_kept_already_as_it_is_asks_nothing(shown, filled):
    place, _opened = shown(a_supper())
    press(Qt.Key.Key_L, CTRL | SHIFT)
    assert place.keep_note.words.text() == "“Leek soup” is kept already, just as it is here."
    assert not place.keep_note.replace.isVisible()


def test_links_with_other_dishes_that_are_left_out_are_said(shown, library):
    plan = a_supper()
    links = (*plan.menu.links, a_link("tart.bake", "soup.cut"))
    plan = replace(plan, menu=replace(plan.menu, links=links))
    place, _opened = shown(plan)
    press(Qt.Key.Key_L, CTRL | SHIFT)
    said = place.keep_note.words.text()
    assert "Left out, as other dishes belong to it: Plum tart: Bake, then Leek soup: Cut the leeks." in said


def test_the_question_goes_when_another_dish_is_chosen(shown, filled):
    place, opened = shown(a_supper())
    opened.apply(ChangeDish.of(DishId("soup"), note="less salt"))
    click(place.keep)
    place.dishes.choose(DishId("tart"))
    assert not place.keep_note.isVisible()
    assert names(filled) == ["Leek soup", "Plum tart"]


def test_what_is_half_typed_is_kept_too(shown, library):
    place, opened = shown(a_supper())
    place.leaves.turn("dish")
    name = place.dish_leaf.form.field("name")
    name.setFocus()
    name.selectAll()
    write("Green soup")
    press(Qt.Key.Key_L, CTRL | SHIFT)
    assert opened.plan.dishes[DishId("soup")].name == "Green soup"
    assert names(library) == ["Green soup"]


def test_what_another_window_changed_meanwhile_is_not_replaced(shown, filled):
    place, opened = shown(a_supper())
    opened.apply(ChangeDish.of(DishId("soup"), note="less salt"))
    click(place.keep)
    held = filled.named("Leek soup")
    filled.replace(held, replace(held.copy, dish=replace(held.copy.dish, note="more pepper")))
    click(place.keep_note.replace)
    assert "changed in the library by another window" in place.keep_note.words.text()
    assert filled.named("Leek soup").copy.dish.note == "more pepper"


def test_a_plan_taken_from_the_library_does_not_change_with_it(shown, filled):
    _place, opened = shown(a_plan())
    press(Qt.Key.Key_L, CTRL)
    press(ENTER)
    press(ESC)
    taken = opened.plan
    opened.apply(ChangeDish.of(DishId("soup"), note="with cream"))
    press(Qt.Key.Key_L, CTRL | SHIFT)
    press(ENTER)
    assert filled.named("Leek soup").copy.dish.note == "with cream"
    opened.undo()
    assert opened.plan.dishes[DishId("soup")] == taken.dishes[DishId("soup")]
    assert filled.named("Leek soup").copy.dish.note == "with cream"
    press(Qt.Key.Key_L, CTRL)
    press(ENTER)
    assert [dish.note for dish in opened.plan.menu.dishes] == ["", "with cream"]
    assert menu(opened) == ["Leek soup", "Leek soup 2"]


# ---------------------------------------------------------------- a library that cannot be read


def test_a_damaged_library_is_said_set_aside_and_begun_anew(shown, filled):
    from app.places.library import Shelf

    path = Shelf().path
    filled.close()
    path.write_bytes(b"grocer's bill" * 50)
    place, _opened = shown(a_supper())
    press(Qt.Key.Key_L, CTRL)
    mine = place.mine
    assert mine.broken.isVisible()
    assert "is a file of another kind. It was left as it is" in mine.broken.words.text()
    press(Qt.Key.Key_L, CTRL | SHIFT)
    assert "is a file of another kind" in place.keep_note.words.text()
    click(mine.broken.button)
    assert "“own.damaged.cooklib”" in mine.note.words.text()
    assert mine.empty.isVisible()
    assert path.with_name("own.damaged.cooklib").read_bytes() == b"grocer's bill" * 50


def test_a_library_that_is_taken_away_meanwhile_begins_anew_without_a_fault(shown, filled):
    from app.places.library import Shelf

    place, _opened = shown(a_supper())
    press(Qt.Key.Key_L, CTRL)
    filled.close()
    Shelf().path.rename(Shelf().path.with_name("elsewhere"))
    write("leek")
    assert place.mine.empty.isVisible()


@pytest.mark.parametrize("size", [(1180, 600), (760, 480)])
def test_nothing_is_cut_off_where_there_is_little_room(shown, filled, size):
    place, _opened = shown(a_supper(), size)
    press(Qt.Key.Key_L, CTRL)
    press(ENTER)
    mine = place.mine
    for widget in (mine.back, mine.line, mine.results, mine.preview, mine.take, mine.remove, mine.note.read):
        corner = widget.mapTo(place, QPoint(widget.width(), widget.height()))
        assert corner.x() <= place.width()
        assert corner.y() <= place.height()
        assert widget.width() >= widget.minimumSizeHint().width()
