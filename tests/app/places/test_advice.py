"""How the day stands, beside the timeline, with real mouse and keys: reasons, ways out, chances, guests, other days."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLabel

from app.bridge import PlanPlace
from app.places.advice.said import Said
from app.places.settings import Settings
from app.places.timeline_place import TimelinePlace
from app.places.window import Window
from core.arrange.apart import Answer, Ask
from core.arrange.outcome import Fit
from core.arrange.why.reason import WhyNot
from core.desk import Aim
from core.plan.plan import Plan
from core.plan.step import Keep, Manner
from core.timetable.clashes import clashes
from tests.app.timeline.acting import drag, middle
from tests.support.builders import a_dish, a_kitchen, a_plan, a_step
from tests.support.windows import a_window

LONG = 60_000
LEFT = Qt.MouseButton.LeftButton


def fits() -> Plan:
    soup = a_dish("soup", a_step("soup.stir", minutes=(15, 20, 30)), keep=Keep(60))
    roots = a_dish("roots", a_step("roots.fry", minutes=(15, 20, 30)), keep=Keep(5))
    return a_plan(soup, roots, kitchen=a_kitchen(cooks=1), transfer=0, manner=Manner.LIKELY)


def too_much() -> Plan:
    soup = a_dish("soup", a_step("soup.stir", "Stir without a pause", minutes=20), keep=Keep(0))
    roots = a_dish("roots", a_step("roots.fry", "Fry, turning all the time", minutes=20), keep=Keep(0))
    return a_plan(soup, roots, kitchen=a_kitchen(cooks=1), transfer=0)


@pytest.fixture
def window(qtbot, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Window]:
    with a_window(qtbot, tmp_path, monkeypatch) as made:
        yield made


@pytest.fixture
def shown(window: Window) -> Callable[[Plan], TimelinePlace]:
    def show(plan: Plan) -> TimelinePlace:
        window.open_place(PlanPlace.fresh(plan))
        return window.places.timeline

    return show


@pytest.fixture
def arranged(window: Window, shown, qtbot) -> TimelinePlace:
    """Give the place with the plan that fits, arranged, the advice open and all of it told."""
    place = shown(fits())
    with qtbot.waitSignal(window.arranger.ended, timeout=LONG):
        place.ask(Aim.ARRANGE)
    assert window.opened.clashes == ()
    QTest.keyClick(place.timeline, Qt.Key.Key_F6)
    _told(place, qtbot)
    return place


@pytest.fixture
def against(shown, qtbot) -> TimelinePlace:
    """Give the place with the plan that cannot be met, the advice open and all of it told."""
    place = shown(too_much())
    QTest.keyClick(place.timeline, Qt.Key.Key_F6)
    _told(place, qtbot)
    return place


def _told(place: TimelinePlace, qtbot) -> None:
    pane = place.advice
    qtbot.waitUntil(lambda: not pane.asking.busy, timeout=LONG)


def _texts(place: TimelinePlace) -> str:
    page = place.advice
    labels = [each.text() for each in page.findChildren(QLabel) if each.isVisible()]
    return "\n".join(labels + [f"{each.words} {each.effect}" for each in page.findChildren(Said) if each.isVisible()])


def _marked(place: TimelinePlace) -> set[str]:
    return {step for clash in place.timeline.scene.clashes for step in clash.steps}


# ---- open and closed


def test_f6_opens_goes_in_and_puts_away_and_the_next_window_remembers(window: Window, shown, qtbot) -> None:
    place = shown(fits())
    assert not place.advice.isVisible()
    QTest.keyClick(place.timeline, Qt.Key.Key_F6)
    assert place.advice.isVisible()
    assert place.advice.isAncestorOf(QApplication.focusWidget())
    assert place.how.isChecked()
    assert Settings().advice_open
    place.timeline.setFocus()
    QTest.keyClick(place.timeline, Qt.Key.Key_F6)
    assert place.advice.isAncestorOf(QApplication.focusWidget()), "it is open already, so the focus goes there"
    again = shown(fits())
    assert again.advice.isVisible()
    QTest.keyClick(again.timeline, Qt.Key.Key_F6)
    QTest.keyClick(QApplication.focusWidget(), Qt.Key.Key_F6)
    assert not again.advice.isVisible()
    assert again.timeline.hasFocus()
    assert not Settings().advice_open


def test_the_buttons_open_it_and_put_it_away(shown) -> None:
    place = shown(fits())
    QTest.mouseClick(place.how, LEFT)
    assert place.advice.isVisible()
    QTest.mouseClick(place.advice.close_button, LEFT)
    assert not place.advice.isVisible()
    assert not place.how.isChecked()


def test_from_another_place_f6_comes_here(window: Window, shown) -> None:
    place = shown(fits())
    window.go("menu")
    window.actions_by_name["how_it_stands"].trigger()
    assert window.stack.currentWidget() is place
    assert place.advice.isVisible()


# ---- states in words


def test_an_empty_plan_and_a_day_not_arranged_are_said(window: Window, shown, qtbot) -> None:
    place = shown(a_plan())
    QTest.keyClick(place.timeline, Qt.Key.Key_F6)
    _told(place, qtbot)
    assert "Nothing is planned yet" in _texts(place)


def test_while_it_is_found_out_and_while_it_is_arranged_it_says_so(window: Window, shown, qtbot) -> None:
    place = shown(too_much())
    QTest.keyClick(place.timeline, Qt.Key.Key_F6)
    qtbot.waitUntil(lambda: "Finding out whether all can meet" in _texts(place), timeout=LONG)
    place.ask(Aim.ARRANGE)
    place.advice.asking.ask()
    qtbot.waitUntil(lambda: "is being arranged" in _texts(place), timeout=LONG)
    with qtbot.waitSignal(window.arranger.ended, timeout=LONG):
        window.arranger.stop()
    qtbot.waitUntil(lambda: "Why it cannot all meet" in _texts(place), timeout=LONG)


def test_what_breaks_off_is_said_and_asked_again(window: Window, shown, qtbot, caplog) -> None:
    place = shown(too_much())
    asked = window.arranger._apart.ask

    def broken(work) -> None:
        window.arranger._apart.ask = asked
        window.arranger._arrived.emit(Answer(work.number, None, True, "ZeroDivisionError"))

    window.arranger._apart.ask = broken
    QTest.keyClick(place.timeline, Qt.Key.Key_F6)
    qtbot.waitUntil(lambda: "This broke off" in _texts(place), timeout=LONG)
    place.advice.page.why.retry.setFocus()
    QTest.keyClick(place.advice.page.why.retry, Qt.Key.Key_Space)
    qtbot.waitUntil(lambda: "Why it cannot all meet" in _texts(place), timeout=LONG)
    qtbot.waitUntil(place.advice.page.why.reasons[0].hasFocus, timeout=LONG)


def test_neither_found_nor_proven_is_said_and_tried_harder(window: Window, shown, qtbot) -> None:
    place = shown(too_much())
    works = []

    def answer(work) -> None:
        works.append(work)
        window.arranger._arrived.emit(Answer(work.number, None, True, told=_nothing(work.ask)))

    window.arranger._apart.ask = answer
    QTest.keyClick(place.timeline, Qt.Key.Key_F6)
    _told(place, qtbot)
    assert "Not found out" in _texts(place)
    assert "No single change was found" in _texts(place)
    QTest.mouseClick(place.advice.page.why.retry, LEFT)
    _told(place, qtbot)
    asked = [work.effort.work for work in works if work.ask is Ask.WHY]
    assert asked[1] > asked[0]


def _nothing(ask: Ask) -> object:
    return WhyNot(Fit.NOT_FOUND) if ask is Ask.WHY else ()


def test_a_day_that_only_is_not_arranged_says_so_and_arranges(window: Window, shown, qtbot) -> None:
    place = shown(fits())
    assert window.opened.clashes
    QTest.keyClick(place.timeline, Qt.Key.Key_F6)
    _told(place, qtbot)
    assert "It can all meet" in _texts(place)
    # what was told gets the focus a turn of the loop later
    qtbot.waitUntil(lambda: QApplication.focusWidget().text() == "Arrange the day", timeout=LONG)
    with qtbot.waitSignal(window.arranger.ended, timeout=LONG):
        QTest.keyClick(QApplication.focusWidget(), Qt.Key.Key_Space)
    assert window.opened.clashes == ()


# ---- why and ways out


def test_a_reason_marks_its_steps_on_the_timeline_and_lets_them_go(window: Window, against: TimelinePlace) -> None:
    (reason,) = against.advice.page.why.reasons
    assert "Soup" in reason.words
    before = against.timeline.scene.clashes
    QTest.mouseClick(reason, LEFT)
    assert _marked(against) == {"soup.stir", "roots.fry"}
    low, high = against.timeline.scene.seen
    assert low < -20
    assert high > 0
    assert high - low < 120
    QTest.mouseClick(reason, LEFT)
    assert against.timeline.scene.clashes == before == window.opened.clashes


def test_ways_out_come_one_by_one_ranked_and_none_unproven(window: Window, shown, qtbot) -> None:
    place = shown(too_much())
    counts = []
    place.advice.asking.adviser.part.connect(lambda _ask, _way: counts.append(len(place.advice.page.ways.ways)))
    QTest.keyClick(place.timeline, Qt.Key.Key_F6)
    _told(place, qtbot)
    assert counts == list(range(1, len(counts) + 1))
    ways = [way for way, _offer in place.advice.page.ways.ways]
    assert len(ways) > 2
    assert [way.price for way in ways] == sorted(way.price for way in ways)
    for way, offer in place.advice.page.ways.ways:
        assert clashes(offer.look.plan, way.timetable) == ()
        assert offer.said.effect.startswith("All meets by")


def test_a_way_is_looked_at_and_left_with_nothing_changed(window: Window, against: TimelinePlace) -> None:
    opened = window.opened
    plan, timetable = opened.plan, opened.timetable
    way, offer = against.advice.page.ways.ways[0]
    QTest.mouseClick(offer.said, LEFT)
    assert against.timeline.scene.timetable == way.timetable
    assert against.look_line.isVisible()
    assert offer.look.words in against.look_line.words.text()
    assert offer.said.isChecked()
    QTest.keyClick(offer.said, Qt.Key.Key_Escape)
    assert not against.look_line.isVisible()
    assert not offer.said.isChecked()
    assert against.timeline.scene.timetable == timetable
    assert (opened.plan, opened.timetable) == (plan, timetable)
    assert not opened.desk.can_undo


def test_enter_takes_a_way_and_one_undo_takes_it_back(window: Window, against: TimelinePlace, qtbot) -> None:
    opened = window.opened
    plan, timetable = opened.plan, opened.timetable
    way, offer = against.advice.page.ways.ways[0]
    offer.said.setFocus()
    QTest.keyClick(offer.said, Qt.Key.Key_Return)
    assert opened.plan == way.edit(plan)
    assert opened.timetable == way.timetable
    assert opened.clashes == ()
    assert "Taken:" in against.advice.page.news.text()
    assert window.strip.state.text() == "everything meets"
    _told(against, qtbot)
    assert against.advice.page.sure.head.isVisible(), "now it can be told how sure it is"
    assert against.advice.isAncestorOf(QApplication.focusWidget()), "the focus stays in the advice"
    window.actions_by_name["undo"].trigger()
    assert (opened.plan, opened.timetable) == (plan, timetable)
    assert not opened.desk.can_undo


def test_the_button_takes_a_way_and_so_does_the_line_above(window: Window, against: TimelinePlace, qtbot) -> None:
    plan = window.opened.plan
    way, offer = against.advice.page.ways.ways[1]
    QTest.mouseClick(offer.take, LEFT)
    assert window.opened.plan == way.edit(plan)
    window.opened.undo()
    _told(against, qtbot)
    way, offer = against.advice.page.ways.ways[0]
    QTest.mouseClick(offer.said, LEFT)
    QTest.mouseClick(against.look_line.take, LEFT)
    assert window.opened.plan == way.edit(plan)
    assert not against.look_line.isVisible()


def test_arrows_and_tab_go_from_sentence_to_sentence(against: TimelinePlace) -> None:
    pane = against.advice
    assert pane.page.why.reasons[0].hasFocus(), "what was awaited gets the focus"
    QTest.keyClick(pane.page.why.reasons[0], Qt.Key.Key_Down)
    first = pane.page.ways.ways[0][1]
    assert first.said.hasFocus()
    QTest.keyClick(first.said, Qt.Key.Key_Tab)
    assert first.take.hasFocus()
    QTest.keyClick(first.take, Qt.Key.Key_Tab)
    assert pane.page.ways.ways[1][1].said.hasFocus()
    QTest.keyClick(pane.page.ways.ways[1][1].said, Qt.Key.Key_Up)
    assert first.said.hasFocus()
    assert first.said.accessibleName() == first.look.words
    assert first.take.accessibleName() == f"Take it: {first.look.words}"


def test_a_bar_of_a_day_that_is_only_looked_at_is_not_pinned(window: Window, against: TimelinePlace) -> None:
    opened = window.opened
    _way, offer = against.advice.page.ways.ways[0]
    QTest.mouseClick(offer.said, LEFT)
    step = against.timeline.scene.timetable.placed[0].step
    against.timeline.show_step(step)
    drag(against.timeline, middle(against.timeline, step), QPoint(-60, 0))
    assert not opened.plan.decisions.pins
    assert "only a look" in against.told.text()
    assert against.timeline.scene.timetable == opened.timetable


def test_choosing_a_clash_shows_the_day_itself_again(window: Window, against: TimelinePlace) -> None:
    _way, offer = against.advice.page.ways.ways[0]
    QTest.mouseClick(offer.said, LEFT)
    clash_list = against.clash_list.list
    QTest.mouseClick(clash_list.viewport(), LEFT, pos=clash_list.visualItemRect(clash_list.item(0)).center())
    assert not against.look_line.isVisible()
    assert against.timeline.scene.clashes == window.opened.clashes


# ---- how sure, how good, guests late, other days


def test_it_says_how_sure_it_is_what_decides_and_what_is_wished(window: Window, arranged: TimelinePlace) -> None:
    pane = arranged.advice
    assert pane.page.sure.head.isVisible()
    assert pane.page.sure.figure.text().startswith("In ")
    assert pane.page.sure.threats
    texts = _texts(arranged)
    for words in ("nothing is more than 5 min late", "Fresh", "Calm", "Steady oven", "Sleep", "Other good days"):
        assert words in texts
    QTest.mouseClick(pane.page.sure.threats[0], LEFT)
    assert len(_marked(arranged)) == 1
    QTest.mouseClick(pane.page.sure.threats[0], LEFT)
    assert _marked(arranged) == set()


def test_the_figure_moves_with_a_held_bar_and_comes_back(window: Window, arranged: TimelinePlace, qtbot) -> None:
    pane, timeline = arranged.advice, arranged.timeline
    timeline.fit_last_hours(2)
    stands = pane.page.sure.figure.text()
    last = max(window.opened.timetable.placed, key=lambda each: each.start).step
    drag(timeline, middle(timeline, last), QPoint(60, 0), release=False)
    qtbot.waitUntil(lambda: pane.page.sure.is_held, timeout=LONG)
    assert pane.page.sure.figure.text() != stands
    assert "where you hold it; " + stands[0].lower() + stands[1:] in pane.page.sure.meaning.text()
    QTest.keyClick(timeline, Qt.Key.Key_Escape)
    qtbot.waitUntil(lambda: not pane.page.sure.is_held, timeout=LONG)
    assert pane.page.sure.figure.text() == stands
    assert pane.page.sure.meaning.text() == "nothing is more than 5 min late."
    assert not window.opened.desk.undo_label.startswith("Pin")


def test_guests_late_at_another_moment_and_by_another_delay(window: Window, arranged: TimelinePlace, qtbot) -> None:
    late = arranged.advice.page.late
    assert "At 19:00 the menu can" in _texts(arranged)
    at = late.form.field("at")
    at.setFocus()
    at.selectAll()
    QTest.keyClicks(at, "19:10")
    QTest.keyClick(at, Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: "At 19:10 the menu can" in _texts(arranged), timeout=LONG)
    minutes = late.form.field("minutes")
    minutes.setFocus()
    minutes.selectAll()
    QTest.keyClicks(minutes, "90")
    QTest.keyClick(minutes, Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: "Serving is put off by 1 h 30 min at 19:10" in _texts(arranged), timeout=LONG)
    minutes.selectAll()
    QTest.keyClicks(minutes, "0")
    QTest.keyClick(minutes, Qt.Key.Key_Return)
    assert "from 1 min to 24 h" in _texts(arranged), "what is wrong is said beside the field"


def test_other_days_are_sought_when_wanted_looked_at_and_taken(window: Window, shown, qtbot) -> None:
    soup = a_dish("soup", a_step("soup.stir", minutes=20), keep=Keep(90))
    roots = a_dish("roots", a_step("roots.fry", minutes=20), keep=Keep(90))
    place = shown(a_plan(soup, roots, kitchen=a_kitchen(cooks=1), transfer=0))
    with qtbot.waitSignal(window.arranger.ended, timeout=LONG):
        place.ask(Aim.ARRANGE)
    QTest.keyClick(place.timeline, Qt.Key.Key_F6)
    _told(place, qtbot)
    before = window.opened.timetable
    place.advice.page.others.seek.setFocus()
    QTest.keyClick(place.advice.page.others.seek, Qt.Key.Key_Space)
    _told(place, qtbot)
    assert place.advice.page.others.seek.hasFocus(), "the focus stays where it was"
    offers = place.advice.page.others.offers
    assert offers, "fresh and calm want two different days here"
    QTest.mouseClick(offers[0].said, LEFT)
    assert place.timeline.scene.timetable == offers[0].look.timetable
    taken = offers[0].look
    QTest.keyClick(offers[0].said, Qt.Key.Key_Return)
    assert window.opened.timetable == taken.timetable
    assert window.opened.clashes == ()
    window.opened.undo()
    assert window.opened.timetable == before
