"""Days kept by name and what moved, with real mouse and keys: the bar, the chips, the picture, hovering, the file."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLabel, QLineEdit, QMenu

from app.bridge import PlanPlace
from app.places.advice.look import Offer
from app.places.timeline_place import TimelinePlace
from app.places.window import Window
from core.arrange.apart import DayTold
from core.arrange.outcome import WishKind
from core.desk import DropDay
from core.plan.edits import AddStep, PinStep, RemoveStep
from core.plan.ids import DishId, StepId
from core.plan.plan import Plan
from core.plan.step import Keep, Manner
from core.store import PlanFile
from core.timetable.timetable import Hand, Placed, Timetable
from tests.support.builders import a_dish, a_kitchen, a_plan, a_step
from tests.support.windows import a_window

LONG = 60_000
LEFT = Qt.MouseButton.LeftButton
STIR, FRY = StepId("soup.stir"), StepId("roots.fry")


def the_plan() -> Plan:
    soup = a_dish("soup", a_step(STIR, "Stir the soup", minutes=(15, 20, 30)), keep=Keep(60))
    roots = a_dish("roots", a_step(FRY, "Fry the roots", minutes=(15, 20, 30)), keep=Keep(15))
    return a_plan(soup, roots, kitchen=a_kitchen(cooks=2), transfer=0, manner=Manner.LIKELY)


def placed(stir: int, fry: int, fry_cook: str = "cook-1") -> Timetable:
    return Timetable(
        (
            Placed(STIR, stir, 20, hands=(Hand(stir, 20, COOKS[0]),)),
            Placed(FRY, fry, 20, hands=(Hand(fry, 20, fry_cook),)),
        )
    )


COOKS = tuple(each.id for each in a_kitchen(cooks=2).cooks)
CALM, LATE = placed(-60, -25, COOKS[0]), placed(-45, -20, COOKS[1])


@pytest.fixture
def window(qtbot, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Window]:
    with a_window(qtbot, tmp_path, monkeypatch) as made:
        yield made


@pytest.fixture
def place(window: Window) -> TimelinePlace:
    """Give the place with the calm day seen."""
    window.open_place(PlanPlace.fresh(the_plan()))
    window.opened.show(CALM, "Arrange")
    return window.places.timeline


@pytest.fixture
def two(place: TimelinePlace, window: Window) -> TimelinePlace:
    """Give the place with two days kept, the second one seen."""
    keep(place, "calm")
    window.opened.show(LATE, "Arrange")
    keep(place, "sleep late")
    return place


def keep(place: TimelinePlace, name: str) -> None:
    QTest.mouseClick(place.days_bar.keep, LEFT)
    line = place.days_bar.name_line.line
    assert line.hasFocus()
    QTest.keyClicks(line, name)
    QTest.keyClick(line, Qt.Key.Key_Return)


def chips(place: TimelinePlace) -> list[str]:
    return [each.text() for each in place.days_bar.chips if each.isVisible()]


def click_chip(place: TimelinePlace, at: int) -> None:
    chip = place.days_bar.chips[at]
    QTest.mouseClick(chip, LEFT, pos=QPoint(14, chip.height() // 2))


def acts(menu: QMenu) -> dict[str, object]:
    return {each.text(): each for each in menu.actions() if each.text()}


# ---- kept by name


def test_a_day_is_kept_by_name_with_mouse_and_keys_and_one_undo_takes_it_back(place, window) -> None:
    keep(place, "calm")
    assert chips(place) == ["calm · as kept"]
    assert place.days_bar.keep.isVisible()
    with PlanFile.open(window.place.file.path) as file:
        (kept,) = file.kept()
        assert (kept.name, kept.current) == ("calm", True)
    window.actions_by_name["undo"].trigger()
    assert chips(place) == []
    with PlanFile.open(window.place.file.path) as file:
        assert file.kept() == ()
    assert window.opened.timetable == CALM


def test_the_command_asks_for_the_name_from_another_place_too(place, window) -> None:
    window.go("menu")
    window.actions_by_name["keep_day"].trigger()
    assert window.stack.currentWidget() is place
    assert place.days_bar.name_line.line.hasFocus()


def test_what_is_wrong_with_a_name_is_said_beside_it_as_it_is_typed(two, window) -> None:
    QTest.mouseClick(two.days_bar.keep, LEFT)
    line, wrong = two.days_bar.name_line.line, two.days_bar.name_line.wrong
    QTest.keyClicks(line, "CALM")
    assert "A day is kept as “calm” already" in wrong.text()
    QTest.keyClick(line, Qt.Key.Key_Return)
    assert len(window.opened.kept.days) == 2
    QTest.keyClicks(line, "er")
    assert wrong.text() == ""
    QTest.keyClick(line, Qt.Key.Key_Escape)
    assert not line.isVisible()
    assert len(window.opened.kept.days) == 2
    assert not window.banner.isVisible()


def test_a_click_goes_to_a_day_and_one_undo_back(two, window) -> None:
    assert chips(two) == ["calm", "sleep late · as kept"]
    click_chip(two, 0)
    assert window.opened.timetable == two.timeline.scene.timetable == CALM
    assert chips(two) == ["calm · as kept", "sleep late"]
    assert not two.fit_note.isVisible()
    window.actions_by_name["undo"].trigger()
    assert window.opened.timetable == LATE
    assert chips(two) == ["calm", "sleep late · as kept"]
    window.actions_by_name["redo"].trigger()
    assert window.opened.timetable == CALM


def test_keys_go_to_the_days(two, window) -> None:
    QTest.keyClick(two.timeline, Qt.Key.Key_1, Qt.KeyboardModifier.AltModifier)
    assert window.opened.timetable == CALM
    QTest.keyClick(two.timeline, Qt.Key.Key_2, Qt.KeyboardModifier.AltModifier)
    assert window.opened.timetable == LATE
    QTest.keyClick(two.timeline, Qt.Key.Key_3, Qt.KeyboardModifier.AltModifier)
    assert window.opened.timetable == LATE, "there is no third"
    two.days_bar.chips[0].setFocus()
    QTest.keyClick(two.days_bar.chips[0], Qt.Key.Key_Space)
    assert window.opened.timetable == CALM


def test_a_day_that_was_changed_since_says_so_and_is_kept_again_from_its_menu(two, window) -> None:
    window.opened.apply(PinStep(STIR, start=-50), "timeline", placed(-50, -20, COOKS[1]))
    assert chips(two) == ["calm", "sleep late · changed since"]
    chip = two.days_bar.chips[1]
    acts(chip.chosen)["Keep it as it is now"].trigger()
    assert chips(two) == ["calm", "sleep late · as kept"]
    assert window.opened.kept.day("sleep late").timetable.at[STIR, 0].start == -50
    window.actions_by_name["undo"].trigger()
    assert window.opened.kept.day("sleep late").timetable == LATE
    click_chip(two, 1)
    assert window.opened.timetable == LATE, "a click on the current one goes back to it as it was kept"


def test_a_chip_renames_and_drops_by_key_and_by_menu(two, window) -> None:
    two.days_bar.chips[0].setFocus()
    QTest.keyClick(two.days_bar.chips[0], Qt.Key.Key_F2)
    line = two.days_bar.name_line.line
    assert (line.text(), line.selectedText()) == ("calm", "calm")
    QTest.keyClicks(line, "slow")
    QTest.keyClick(line, Qt.Key.Key_Return)
    assert [each.name for each in two.days_bar.chips] == ["slow", "sleep late"]
    two.days_bar.chips[1].setFocus()
    QTest.keyClick(two.days_bar.chips[1], Qt.Key.Key_Delete)
    assert [each.name for each in two.days_bar.chips] == ["slow"]
    assert window.opened.timetable == LATE
    for _ in range(2):
        window.actions_by_name["undo"].trigger()
    assert [each.name for each in two.days_bar.chips] == ["calm", "sleep late"]


def test_the_days_are_there_again_when_the_file_is_opened(two, window) -> None:
    path = window.place.file.path
    window.opened.apply(PinStep(STIR, start=-50), "timeline", placed(-50, -20, COOKS[1]))
    window.show_welcome()
    assert window.open_path(path)
    again = window.places.timeline
    assert chips(again) == ["calm", "sleep late · changed since"]
    click_chip(again, 0)
    assert window.opened.timetable == CALM


def test_a_day_that_no_longer_fits_says_what_and_is_mended_with_little_movement(two, window, qtbot) -> None:
    window.opened.apply(AddStep(DishId("soup"), a_step("soup.taste", "Taste it", minutes=5)), "menu")
    window.opened.apply(RemoveStep(FRY), "menu")
    click_chip(two, 0)
    note = two.fit_note
    assert note.isVisible()
    words = f"{note.words.head.text()} {note.words.rest.text()}"
    assert "The plan has changed since “calm” was kept" in words
    assert "Soup: Taste it" in words
    assert "Roots: Fry" in words
    with qtbot.waitSignal(window.arranger.ended, timeout=LONG):
        QTest.mouseClick(note.mend_it, LEFT)
    assert window.opened.clashes == ()
    assert not note.isVisible()
    assert abs(window.opened.timetable.at[STIR, 0].start + 60) <= 10, "what fits hardly moves"
    assert two.days_bar.chips[0].state == "changed since"
    window.actions_by_name["undo"].trigger()
    assert len(window.opened.timetable.placed) == 1


def test_a_day_found_by_the_advice_is_kept_with_one_click_under_its_own_word(two, window, qtbot) -> None:
    page = two.advice.page
    QTest.keyClick(two.timeline, Qt.Key.Key_F6)
    qtbot.waitUntil(lambda: not two.advice.asking.busy, timeout=LONG)
    other = placed(-70, -22, COOKS[1])
    day = DayTold(WishKind.CALM, "Calm: two things to do in the last hour, as calm as it can be", other)
    page.others.show_days(window.opened.plan, window.opened.timetable, (day,), whole=True)
    offer = page.others.offers[0]
    QTest.mouseClick(offer.keep, LEFT)
    assert [each.name for each in window.opened.kept.days] == ["calm", "sleep late", "Calm 2"]
    assert window.opened.kept.day("Calm 2").timetable == other
    assert window.opened.timetable == LATE, "the day stays as it is"
    window.actions_by_name["undo"].trigger()
    assert len(window.opened.kept.days) == 2


# ---- what moved


def listed(place: TimelinePlace) -> list[list[str]]:
    rows = place.moves_list.list
    return [rows.item(at).text().split("\n") for at in range(rows.count())]


def test_what_moved_is_off_until_asked_for_and_told_by_the_most(two) -> None:
    assert two.timeline.scene.compared is None
    assert not two.moves_list.isVisible()
    QTest.mouseClick(two.days_bar.moved, LEFT)
    assert two.timeline.scene.compared.timetable == CALM
    assert listed(two) == [
        ["Soup: Stir the soup", "18:30 to 18:45, 15 min later"],
        ["Roots: Fry the roots", "19:05 to 19:10, 5 min later", listed(two)[1][2]],
    ]
    assert listed(two)[1][2] == "from Ann to Ben"
    assert "“Arrange”" in two.moves_list.against.text()
    QTest.mouseClick(two.moves_list.list.viewport(), LEFT, pos=two.moves_list.list.visualItemRect(
        two.moves_list.list.item(1)).center())
    assert two.timeline.scene.selected == FRY
    QTest.mouseClick(two.days_bar.moved, LEFT)
    assert two.timeline.scene.compared is None
    assert not two.moves_list.isVisible()


def test_a_key_switches_it_holding_glances_and_escape_ends(two, qtbot) -> None:
    two.timeline.setFocus()
    QTest.keyClick(two.timeline, Qt.Key.Key_M)
    assert two.moved.on
    assert two.days_bar.moved.isChecked()
    QTest.keyClick(two.timeline, Qt.Key.Key_Escape)
    assert not two.moved.on
    QTest.keyPress(two.timeline, Qt.Key.Key_M)
    assert two.moved.on
    qtbot.wait(450)
    QTest.keyRelease(two.timeline, Qt.Key.Key_M)
    assert not two.moved.on, "it was held"


def test_it_follows_edits_undo_and_readings(two, window) -> None:
    two.moved.set_on(True)
    window.opened.apply(PinStep(STIR, start=-50), "timeline", placed(-50, -20, COOKS[1]))
    assert listed(two) == [["Soup: Stir the soup", "18:45 to 18:40, 5 min earlier"]]
    window.actions_by_name["undo"].trigger()
    assert listed(two) == [["Soup: Stir the soup", "18:40 to 18:45, 5 min later"]], "against what was undone"
    for reading in ("dish", "cook"):
        two.timeline.set_reading(reading)
        assert {each.key[0] for each in two.timeline.scene.compared.ghosts(two.timeline.scene)} == {STIR}


def test_any_two_days_are_compared_and_nothing_is_changed(two, window) -> None:
    before = (window.opened.plan, window.opened.timetable, window.opened.desk.undo_label)
    compare = acts(two.days_bar.chips[0].chosen)["Compare"].menu()
    assert list(acts(compare)) == ["with what is seen now", "with “sleep late”"]
    acts(compare)["with “sleep late”"].trigger()
    assert two.timeline.scene.timetable == CALM
    assert two.timeline.scene.compared.timetable == LATE
    assert "“calm” against “sleep late”" in two.look_line.words.text()
    assert two.look_line.moves.text() == "2 steps move, at most 15 min"
    assert len(listed(two)) == 2
    QTest.keyClick(two.timeline, Qt.Key.Key_Escape)
    assert two.timeline.scene.timetable == LATE
    assert two.days_bar.isVisible()
    assert (window.opened.plan, window.opened.timetable, window.opened.desk.undo_label) == before
    acts(acts(two.days_bar.chips[0].chosen)["Compare"].menu())["with what is seen now"].trigger()
    QTest.mouseClick(two.look_line.take, LEFT)
    assert window.opened.timetable == CALM
    assert window.opened.kept.current == "calm"
    window.actions_by_name["undo"].trigger()
    assert window.opened.timetable == LATE


def test_there_is_nothing_to_compare_where_nothing_moved(window) -> None:
    window.open_place(PlanPlace.fresh(the_plan()))
    assert not window.places.timeline.days_bar.moved.isEnabled()


# ---- ways out on the timeline, by pointer and by focus


@pytest.fixture
def offered(two: TimelinePlace, window: Window, qtbot) -> list[Offer]:
    """Give two other days offered in the advice, nothing asked any more."""
    QTest.keyClick(two.timeline, Qt.Key.Key_F6)
    qtbot.waitUntil(lambda: not two.advice.asking.busy, timeout=LONG)
    days = (
        DayTold(WishKind.CALM, "Calm at the end: all hands are free by 19:05", placed(-70, -22, COOKS[1])),
        DayTold(WishKind.FRESH, "Fresh: the soup waits 5 min and no more", placed(-25, -20, COOKS[1])),
    )
    others = two.advice.page.others
    others.show_days(window.opened.plan, window.opened.timetable, days, whole=True)
    qtbot.wait(150)
    two.advice.page.ensureWidgetVisible(others.offers[1])
    two.timeline.setFocus()
    qtbot.wait(250)
    return others.offers


def hover(window: Window, widget) -> None:
    """Move the pointer over a widget, as Qt hears it from the window system.

    It comes in from outside: a pointer that an earlier test left at this very place would not move at all.
    """
    there = widget.mapTo(window, widget.rect().center())
    if not widget.underMouse():
        QTest.mouseMove(window.windowHandle(), there + QPoint(0, 400 if there.y() < 300 else -250))
        QTest.qWait(1)
    QTest.mouseMove(window.windowHandle(), there)


def test_the_pointer_over_an_offer_shows_it_with_what_moves_and_leaving_shows_the_day(
    two, window, offered, qtbot
) -> None:
    opened, timeline = window.opened, two.timeline
    before = (opened.plan, opened.timetable, opened.desk.undo_label)
    stood = [each.mapTo(window, QPoint()) for each in (two.split, two.advice, offered[0], offered[1])]
    hover(window, offered[0].said)
    qtbot.waitUntil(lambda: timeline.scene.timetable == offered[0].look.timetable, timeout=2000)
    assert timeline.scene.compared.timetable == LATE
    assert two.look_line.isVisible()
    assert two.look_line.moves.text() == "2 steps move, at most 25 min"
    assert not offered[0].said.isChecked()
    assert [each.mapTo(window, QPoint()) for each in (two.split, two.advice, offered[0], offered[1])] == stood, (
        "nothing moves under the pointer"
    )
    seen = []
    set_plan = timeline.set_plan
    timeline.set_plan = lambda plan, timetable, clashes=(): (seen.append(timetable), set_plan(plan, timetable, clashes))
    hover(window, offered[1].said)
    qtbot.waitUntil(lambda: timeline.scene.timetable == offered[1].look.timetable, timeout=2000)
    hover(window, offered[1].take)
    qtbot.wait(300)
    assert seen == [offered[1].look.timetable], "the day does not flash up in between, and the button belongs to it"
    hover(window, two.days_bar.moved if two.days_bar.isVisible() else two.arrange)
    qtbot.waitUntil(lambda: timeline.scene.timetable == LATE, timeout=2000)
    assert timeline.scene.compared is None
    assert timeline.scene.clashes == opened.clashes
    assert two.days_bar.isVisible()
    assert (opened.plan, opened.timetable, opened.desk.undo_label) == before


def test_a_passing_pointer_shows_nothing(two, window, offered, qtbot) -> None:
    seen = []
    two.beside.shown_otherwise.connect(lambda: seen.append(two.beside.look))
    for offer in offered:
        hover(window, offer.said)
    hover(window, two.arrange)
    qtbot.wait(400)
    assert seen == []


def test_one_click_takes_what_is_hovered_over_and_one_undo_brings_the_day_back(two, window, offered, qtbot) -> None:
    label = window.opened.desk.undo_label
    hover(window, offered[0].said)
    qtbot.waitUntil(lambda: two.beside.look is offered[0].look, timeout=2000)
    look = offered[0].look
    QTest.mouseClick(offered[0].take, LEFT)
    assert window.opened.timetable == look.timetable
    assert two.beside.look is None
    window.actions_by_name["undo"].trigger()
    assert window.opened.timetable == LATE
    assert window.opened.desk.undo_label == label


def test_a_click_keeps_it_in_sight_and_another_glance_comes_back_to_it(two, window, offered, qtbot) -> None:
    QTest.mouseClick(offered[0].said, LEFT)
    assert offered[0].said.isChecked()
    hover(window, two.arrange)
    qtbot.wait(300)
    assert two.beside.look is offered[0].look, "it was chosen"
    hover(window, offered[1].said)
    qtbot.waitUntil(lambda: two.beside.look is offered[1].look, timeout=2000)
    hover(window, two.arrange)
    qtbot.waitUntil(lambda: two.beside.look is offered[0].look, timeout=2000)
    QTest.mouseClick(two.look_line.back, LEFT)
    assert two.timeline.scene.timetable == LATE
    assert not offered[0].said.isChecked()


def test_the_focus_of_the_keyboard_shows_it_and_going_on_shows_the_day(two, window, offered, qtbot) -> None:
    offered[0].said.setFocus(Qt.FocusReason.TabFocusReason)
    qtbot.waitUntil(lambda: two.beside.look is offered[0].look, timeout=2000)
    QTest.keyClick(offered[0].said, Qt.Key.Key_Down)
    qtbot.waitUntil(lambda: two.beside.look is offered[1].look, timeout=2000)
    QTest.keyClick(offered[1].said, Qt.Key.Key_Escape)
    assert two.timeline.scene.timetable == LATE
    QTest.keyClick(offered[1].said, Qt.Key.Key_Up)
    qtbot.waitUntil(lambda: two.beside.look is offered[0].look, timeout=2000)
    QTest.keyClick(offered[0].said, Qt.Key.Key_Backtab)
    qtbot.waitUntil(lambda: two.beside.look is None, timeout=2000)
    assert two.timeline.scene.timetable == LATE
    offered[1].said.setFocus(Qt.FocusReason.TabFocusReason)
    QTest.keyClick(offered[1].said, Qt.Key.Key_Return)
    assert window.opened.timetable == offered[1].look.timetable
    window.actions_by_name["undo"].trigger()
    assert window.opened.timetable == LATE


def test_an_offer_that_goes_away_under_the_pointer_leaves_the_day(two, window, offered, qtbot) -> None:
    hover(window, offered[0].said)
    qtbot.waitUntil(lambda: two.beside.look is offered[0].look, timeout=2000)
    two.advice.page.others.clear()
    qtbot.waitUntil(lambda: two.beside.look is None, timeout=2000)
    assert two.timeline.scene.timetable == LATE


# ---- how sure


def test_a_quiet_figure_stands_above_the_timeline_and_opens_what_threatens_it(two, window, qtbot) -> None:
    assert not two.advice.isVisible()
    qtbot.waitUntil(two.days_bar.sure.isVisible, timeout=LONG)
    words = two.days_bar.sure.text()
    assert words.startswith("In time in ")
    QTest.mouseClick(two.days_bar.sure, LEFT)
    assert two.advice.isVisible()
    qtbot.waitUntil(two.advice.page.sure.head.isVisible, timeout=LONG)
    figure = two.advice.page.sure.figure.text()
    assert words == f"In time {figure[0].lower()}{figure[1:]}"


def test_the_figure_goes_with_the_day_it_was_told_of(two, window, qtbot) -> None:
    qtbot.waitUntil(two.days_bar.sure.isVisible, timeout=LONG)
    window.opened.apply(PinStep(STIR, start=-30), "timeline", placed(-30, -25, COOKS[0]))
    assert window.opened.clashes
    assert not two.days_bar.sure.isVisible()
    window.actions_by_name["undo"].trigger()
    qtbot.waitUntil(two.days_bar.sure.isVisible, timeout=LONG)


def test_the_figure_follows_a_bar_while_it_is_dragged(two, window, qtbot) -> None:
    from tests.app.timeline.acting import drag, middle

    qtbot.waitUntil(two.days_bar.sure.isVisible, timeout=LONG)
    told = two.days_bar.sure.text()
    two.timeline.fit_last_hours(2)
    start = middle(two.timeline, FRY)
    drag(two.timeline, start, QPoint(60, 0), release=False)
    qtbot.waitUntil(lambda: two.days_bar.sure.text() != told, timeout=5000)
    QTest.keyClick(two.timeline, Qt.Key.Key_Escape)
    QTest.mouseRelease(two.timeline.viewport(), LEFT, pos=start)
    qtbot.waitUntil(lambda: two.days_bar.sure.text() == told, timeout=5000)


def test_every_line_of_the_bar_fits_at_the_narrowest_window(two, window) -> None:
    for name in ("a third day with a long name", "and a fourth one", "the fifth"):
        keep(two, name)
    window.resize(1280, 720)
    QApplication.processEvents()
    bar = two.days_bar
    right = max(each.geometry().right() for each in bar.findChildren(QLabel) + bar.chips if each.isVisible())
    assert right < bar.moved.geometry().left()
    assert bar.moved.geometry().right() <= bar.width()
    assert all(each.width() >= each.sizeHint().width() for each in bar.chips)
    assert not [each for each in bar.findChildren(QLineEdit) if each.isVisible()]
    window.opened.keep(DropDay("calm"))
    assert len(bar.chips) == 4


# ---- what must not be lost


def test_a_pin_is_not_lifted_while_another_day_is_only_looked_at(two, window, offered) -> None:
    assert window.opened.apply(PinStep(STIR, start=-45), "timeline")
    two.beside.show_look(offered[0].look)
    two.timeline.pin_lifted.emit(STIR, 0)
    assert (STIR, 0) in window.opened.plan.pins
    assert "only a look" in two.told.text()


def test_an_arrangement_that_fails_leaves_no_preview_behind(two, window) -> None:
    two.previewed = object()
    two._failed("it broke off")
    assert two.previewed is None
