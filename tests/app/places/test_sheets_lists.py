"""The order list and the pull list in the Sheets place: ticked, filled in, copied and kept, by keys and by mouse."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLabel

import demo_data
from app.bridge import OpenPlan
from app.places.lists.order_row import OrderRow
from app.places.lists.pull_row import PullRow, TellingRow
from app.places.sheets_place import SheetsPlace
from core.desk import Desk
from core.food.order_list import key_of
from core.food.shopping import shopping
from core.intake.text_plan import read_file
from core.measures.quantity import parse_quantity
from core.plan.ids import VesselId
from core.plan.kitchen import StationKind
from core.plan.menu import Ingredient, Stock
from core.plan.step import Attention, VesselUse
from core.sheets.kinds import SheetKind
from core.sheets.list_text import first_starts
from core.timetable.on_paper import on_paper
from tests.support.builders import a_dish, a_kitchen, a_link, a_plan, a_step, a_use, a_vessel, burners
from tests.support.hand_made import hand_made
from tests.support.windows import a_window

ENTER = Qt.Key.Key_Return
ALT, CTRL, SHIFT = (
    Qt.KeyboardModifier.AltModifier,
    Qt.KeyboardModifier.ControlModifier,
    Qt.KeyboardModifier.ShiftModifier,
)


def line(item, amount="", **fields):
    return Ingredient(item, parse_quantity(amount) if amount else None, **fields)


def a_supper():
    """Return a plan that two pots at once are too few for."""

    def stew(name, *ingredients):
        cook = a_step(
            f"{name}.cook",
            minutes=60,
            attention=Attention.HANDS_OFF,
            uses=(a_use(StationKind.BURNER),),
            vessels=(VesselUse(VesselId("pot")),),
        )
        dish = a_step(f"{name}.dish", f"Dish up the {name}", 5)
        made = a_dish(name, cook, dish, ingredients=ingredients, plating="the blue bowl, ladle")
        return made, a_link(cook.id, dish.id)

    soup, first = stew("soup", line("leeks", "600 g", aisle="vegetables"), line("cream", "200 ml", aisle="dairy"))
    peas, second = stew("peas", line("dried peas", "500 g", aisle="dry goods"), line("cream", "250 ml", aisle="dairy"))
    rice, third = stew("rice", line("rice", "400 g", aisle="dry goods"), line("salt"), line("leeks", "200 g"))
    vessels = (a_vessel("pot", 2, name="Large pot", size="5 l"), a_vessel("bowl", 1))
    return a_plan(
        soup, peas, rice, links=(first, second, third), kitchen=a_kitchen(stations=burners(4), vessels=vessels)
    )


@pytest.fixture
def shown(qtbot):
    """Show a plan's sheets, with the timetable counted back on paper."""

    def show(plan=None, leaf="order", arranged=True):
        plan = a_supper() if plan is None else plan
        opened = OpenPlan(Desk(plan))
        if arranged:
            assert opened.show(on_paper(plan), "as on paper")
        place = SheetsPlace(opened)
        qtbot.addWidget(place)
        place.resize(1190, 640)
        place.show()
        qtbot.waitExposed(place)
        place.activateWindow()
        qtbot.waitUntil(lambda: QApplication.activeWindow() is place)
        click(place.leaves.buttons[leaf])
        return place, opened

    return show


def click(button):
    assert button.isVisible()
    QTest.mouseClick(button, Qt.MouseButton.LeftButton)


def type_in(field, text, then=ENTER):
    field.setFocus(Qt.FocusReason.TabFocusReason)
    field.selectAll()
    QTest.keyClick(field, Qt.Key.Key_Delete)
    QTest.keyClicks(field, text)
    QTest.keyClick(field, then)


def row_of(place, item):
    return next(each for each in place.order.rows if isinstance(each, OrderRow) and each.item.startswith(item + "\n"))


def told(place):
    """Return the words of headings and rows from top to bottom."""
    return [each.text() if isinstance(each, QLabel) else each.what.text() for each in place.order.rows]


def bought(place):
    words = told(place)
    home = words.index("In the house already") if "In the house already" in words else len(words)
    return words[:home], words[home:]


# ---------------------------------------------------------------- the order list


def test_by_day_and_aisle_with_what_it_is_for(shown):
    place, _opened = shown()
    words = told(place)
    assert words[0].startswith("Buy on Friday 25 September: ")
    assert words.index("Dairy") < words.index("Dry goods") < words.index("Vegetables")
    assert words[words.index("Dairy") + 1] == "450 ml cream"
    row = row_of(place, "cream")
    assert row.what_for.text() == "Soup 200 ml by Sat 18:25; Peas 250 ml by Sat 18:25"
    assert row_of(place, "leeks").what.text() == "800 g leeks"
    assert "counted back" not in place.order.bar.says.text()


def test_without_an_arranged_day_it_says_how_times_were_found(shown):
    place, _opened = shown(arranged=False)
    assert "counted back from serving" in place.order.bar.says.text()
    assert "450 ml cream" in told(place)


def test_a_tick_puts_it_into_the_house_and_undo_brings_it_back(shown):
    place, opened = shown()
    row = row_of(place, "leeks")
    QTest.mouseClick(row.fields["on_hand"], Qt.MouseButton.LeftButton, pos=row.fields["on_hand"].rect().center())
    assert [each.on_hand for dish in opened.plan.menu.dishes for each in dish.ingredients if each.item == "leeks"] == [
        True,
        True,
    ]
    buy, home = bought(place)
    assert not [each for each in buy if "leeks" in each]
    assert [each for each in home if "leeks" in each] == ["leeks, 800 g"]
    assert opened.desk.undo_label == "Tick leeks as on hand"
    opened.undo()
    assert "800 g leeks" in bought(place)[0]
    assert not row_of(place, "leeks").fields["on_hand"].isChecked()


def test_ticking_goes_on_down_the_list_by_the_space_bar(shown):
    place, _opened = shown()
    first = row_of(place, "cream")
    first.enter("on_hand")
    QTest.keyClick(QApplication.focusWidget(), Qt.Key.Key_Space)
    follower = row_of(place, "dried peas")
    assert QApplication.focusWidget() is follower.fields["on_hand"]
    QTest.keyClick(QApplication.focusWidget(), Qt.Key.Key_Space)
    _buy, home = bought(place)
    assert [each for each in home if "peas" in each or "cream" in each] == ["cream, 450 ml", "dried peas, 500 g"]


def test_what_is_in_store_and_the_pack_are_typed_in_place(shown):
    place, opened = shown()
    type_in(row_of(place, "cream").fields["in_store"], "100 ml")
    assert opened.plan.menu.stocks == (Stock("cream", parse_quantity("100 ml")),)
    assert row_of(place, "cream").what.text() == "350 ml cream (450 ml wanted, 100 ml there)"
    type_in(row_of(place, "cream").fields["pack"], "pot of 300 ml")
    assert opened.plan.menu.stocks[0].sold_as == "pot"
    assert row_of(place, "cream").what.text() == "2 pots of 300 ml cream (450 ml wanted, 100 ml there)"
    assert row_of(place, "cream").fields["pack"].text() == "pot of 300 ml"
    type_in(row_of(place, "cream").fields["in_store"], "1 l")
    assert "cream, 450 ml" in bought(place)[1]
    assert row_of(place, "cream").fields["in_store"].text() == "1 l"
    type_in(row_of(place, "cream").fields["in_store"], "")
    type_in(row_of(place, "cream").fields["pack"], "")
    assert opened.plan.menu.stocks == (), "what says nothing any more is forgotten"
    before, label = opened.plan, opened.desk.undo_label
    type_in(row_of(place, "cream").fields["in_store"], " ")
    assert (opened.plan, opened.desk.undo_label) == (before, label), "nothing new is no step to undo"
    for _ in range(5):
        opened.undo()
    assert opened.plan.menu.stocks == ()
    assert "450 ml cream" in told(place)


@pytest.mark.parametrize(
    ("field", "text", "says"),
    [
        ("in_store", "3", "does not compare"),
        ("in_store", "some", ""),
        ("pack", "pot of nothing", ""),
        ("pack", "0 ml", "no amount"),
    ],
)
def test_what_cannot_be_says_why_and_the_plan_stays(shown, field, text, says):
    place, opened = shown()
    before = opened.plan
    row = row_of(place, "cream")
    type_in(row.fields[field], text)
    assert row.wrong.isVisible()
    assert says in row.wrong.text()
    assert opened.plan is before


def test_how_long_it_keeps_what_trimming_leaves_and_its_aisle_stand_under_more(shown):
    place, opened = shown()
    row = row_of(place, "leeks")
    assert not row.fields["keeps"].isVisible()
    click(row.more)
    type_in(row.fields["keeps"], "3 days")
    type_in(row_of(place, "leeks").fields["usable"], "80 %")
    assert row_of(place, "leeks").what.text() == "1 kg leeks (1 kg untrimmed for 800 g)"
    type_in(row_of(place, "leeks").fields["aisle"], "market")
    assert "Market" in told(place)
    (stock,) = opened.plan.menu.stocks
    assert (stock.keeps, stock.aisle, float(stock.usable)) == (3, "market", 0.8)


def test_the_list_is_copied_and_kept_as_text(shown, tmp_path, qtbot):
    place, _opened = shown()
    place.order.setFocus()
    row_of(place, "cream").enter("on_hand")
    with qtbot.waitSignal(place.told):
        QTest.keyClick(QApplication.focusWidget(), Qt.Key.Key_C, CTRL | SHIFT)
    text = QGuiApplication.clipboard().text()
    assert text.startswith("Order list: ")
    assert "[ ] 450 ml cream: Soup 200 ml by Sat 18:25" in text
    with qtbot.waitSignal(place.told):
        place.order.bar.keep_text(tmp_path / "list")
    assert (tmp_path / "list.txt").read_text(encoding="utf-8") == text
    with qtbot.waitSignal(place.refused):
        place.order.bar.keep_text(tmp_path / "nowhere" / "list.txt")


def test_a_plan_without_ingredients_says_so(shown):
    place, _opened = shown(a_plan(a_dish("soup", a_step())))
    assert place.order.bar.says.text().startswith("No dish has ingredients yet")
    assert not place.order.bar.copy.isEnabled()


@pytest.mark.parametrize("name", demo_data.files())
def test_every_thing_of_the_demo_plans_has_its_row(shown, tmp_path, name):
    demo_data.put(tmp_path)
    plan = read_file(tmp_path / name)
    place, opened = shown(plan)
    found = shopping(plan, first_starts(opened.timetable))
    wanted = sorted(
        key_of(each.line.item) for each in (*(p for trip in found.trips for p in trip.purchases), *found.at_home)
    )
    rows = [each for each in place.order.rows if isinstance(each, OrderRow)]
    assert sorted(key_of(each.item.partition("\n")[0]) for each in rows) == wanted
    for row in rows:
        assert row.what.width() > 0
        assert row.width() <= place.order.page.viewport().width()


# ---------------------------------------------------------------- the pull list


def pull_rows(place):
    return [each for each in place.pull.rows if isinstance(each, PullRow)]


def test_the_most_at_once_and_when_and_what_is_short_first(shown):
    place, _opened = shown(leaf="pull")
    (pot,) = pull_rows(place)
    assert pot.what.text() == "Large pot, 5 l: 3 at once, 2 there"
    assert pot.when.text().startswith("ready from Sat 18:25; 3 at once from Sat 18:25 to Sat 19:25")
    assert pot.property("short") is True
    assert pot.short.text() == "Large pot: 3 are wanted at once at Sat 18:25, there are 2; borrow 1 or wash in between."
    assert pot.dishes.text() == "Soup; Peas; Rice"
    assert "Too few at some time: Large pot" in place.pull.bar.says.text()
    table = [each.what.text() for each in place.pull.rows if isinstance(each, TellingRow)]
    assert table == ["Soup, Sat 19:30", "Peas, Sat 19:30", "Rice, Sat 19:30"]


def test_enough_of_all_says_so(shown, tmp_path):
    demo_data.put(tmp_path)
    plan = read_file(tmp_path / "harvest_supper.toml")
    place, opened = shown(plan, leaf="pull")
    assert opened.show(hand_made(plan), "by hand")
    rows = pull_rows(place)
    assert rows
    assert not [each.what.text() for each in rows if each.property("short")]
    assert "There are enough of all" in place.pull.bar.says.text()


def test_steps_without_vessels_are_said_to_be_so(shown):
    plan = a_plan(a_dish("soup", a_step("soup.boil")))
    place, opened = shown(plan, leaf="pull")
    assert place.pull.bar.says.text().startswith("No step says yet what it is done in")
    assert opened.plan is plan


def test_without_a_timetable_the_pull_list_says_what_to_do(shown):
    place, opened = shown(leaf="pull", arranged=False)
    assert place.pull.empty.isVisible()
    assert not place.pull.bar.copy.isEnabled()
    assert opened.show(on_paper(opened.plan), "as on paper")
    assert not place.pull.empty.isVisible()
    click(place.pull.bar.copy)
    assert "Large pot, 5 l" in QGuiApplication.clipboard().text()


# ---------------------------------------------------------------- in the window


def test_the_sheets_are_turned_by_keys_and_undo_is_the_windows(qtbot, tmp_path, monkeypatch):
    with a_window(qtbot, tmp_path, monkeypatch) as window:
        window.actions_by_name["open_demo"].trigger()
        window.activateWindow()
        qtbot.waitUntil(lambda: QApplication.activeWindow() is window)
        window.go("sheets")
        sheets = window.places.sheets
        QTest.keyClick(window, Qt.Key.Key_O, ALT)
        qtbot.waitUntil(lambda: sheets.leaves.name == "order")
        QTest.keyClick(QApplication.focusWidget(), Qt.Key.Key_C, CTRL | Qt.KeyboardModifier.ShiftModifier)
        assert QGuiApplication.clipboard().text() == sheets.order.text(), "the keys of the leaf work at once"
        row = next(each for each in sheets.order.rows if isinstance(each, OrderRow))
        assert QApplication.focusWidget() is row.fields["on_hand"]
        QTest.keyClick(QApplication.focusWidget(), Qt.Key.Key_Tab)
        assert QApplication.focusWidget() is row.fields["in_store"]
        before = window.opened.plan
        type_in(row.fields["in_store"], "1 kg" if "g " in row.what.text() else "1")
        assert window.opened.plan.menu.stocks != before.menu.stocks
        window.actions_by_name["undo"].trigger()
        assert window.opened.plan.menu.stocks == before.menu.stocks
        QTest.keyClick(window, Qt.Key.Key_U, ALT)
        qtbot.waitUntil(lambda: sheets.leaves.name == "pull")
        assert QApplication.focusWidget() is sheets.pull.page
        QTest.keyClick(sheets.pull.page, Qt.Key.Key_PageDown)
        assert sheets.pull.page.verticalScrollBar().value() > 0
        click(sheets.pull.bar.paper)
        assert sheets.leaves.name == "print"
        assert sheets.print.choice.shown is SheetKind.PULL
        window.go("kitchen")
        QTest.keyClick(window, Qt.Key.Key_P, CTRL)
        assert window.stack.currentWidget() is sheets
        QTest.keyClick(window, Qt.Key.Key_O, ALT)
        qtbot.waitUntil(lambda: sheets.leaves.name == "order")
        QTest.keyClick(window, Qt.Key.Key_R, ALT)
        qtbot.waitUntil(lambda: sheets.leaves.name == "print")
        QTest.keyClick(window, Qt.Key.Key_F, ALT)
        qtbot.waitUntil(lambda: sheets.leaves.name == "files")
        assert QApplication.focusWidget() is sheets.files.cards["phone"].fields["for"]


def test_without_steps_each_leaf_leads_to_the_menu(qtbot, tmp_path, monkeypatch):
    with a_window(qtbot, tmp_path, monkeypatch) as window:
        window.actions_by_name["begin_empty"].trigger()
        sheets = window.places.sheets
        there = (sheets.print.pages.empty, sheets.pull.empty, sheets.files.empty)
        for name, missing in zip(("print", "pull", "files"), there, strict=True):
            window.go("sheets")
            sheets.leaves.turn(name)
            qtbot.waitUntil(missing.button.isVisible)
            assert missing.button.text() == "Write the menu"
            click(missing.button)
            assert window.stack.currentWidget() is window.places.menu
