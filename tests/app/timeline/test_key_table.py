"""Every line of the table of keys, pressed for real: what it says is what happens."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QMenu

from app.timeline import Timeline, key_table
from app.timeline.drag_wish import Done
from app.timeline.key_table import Row, by_chord, combination, rows, shown
from core.plan.decisions import Order, Pin
from core.plan.edits import (
    AddLink,
    AddOrder,
    PinStep,
    PinSteps,
    RemoveLink,
    RemoveOrder,
    ServeLater,
    StretchStep,
)
from core.plan.menu import LinkKind
from tests.app.timeline.decided import open_plan
from tests.app.timeline.feast import the_timetable, waited_too_long


@dataclass
class Seen:
    """What a timeline told."""

    dropped: list
    opened: list
    lifted: list
    wanted: list
    keys: list


@pytest.fixture
def seen(timeline: Timeline) -> Seen:
    timeline.set_plan(open_plan(), the_timetable(), (waited_too_long(),))
    timeline.sight.fit(-180, 10, 0.0)
    found = Seen([], [], [], [], [])
    timeline.step_dropped.connect(lambda *told: found.dropped.append(told))
    timeline.step_opened.connect(found.opened.append)
    timeline.pin_lifted.connect(lambda *told: found.lifted.append(told))
    timeline.edit_wanted.connect(found.wanted.append)
    timeline.keys_wanted.connect(lambda: found.keys.append(True))
    return found


def press(timeline: Timeline, keys: str) -> None:
    pressed = combination(keys)
    QTest.keyClick(timeline, pressed.key(), pressed.keyboardModifiers())


def edit_of(seen: Seen) -> object:
    assert len(seen.wanted) == 1
    wanted = seen.wanted[0]
    return wanted.edit if isinstance(wanted, Done) else wanted


def step(timeline: Timeline) -> str | None:
    return None if timeline.focused is None else timeline.focused[1].step


def begins(timeline: Timeline, where: str) -> None:
    timeline.select(where)
    assert step(timeline) == where


def also(timeline: Timeline) -> set[str]:
    return {key[0] for key in timeline.scene.also}


def menu_with(timeline: Timeline, words: str) -> None:
    menu = QApplication.activePopupWidget()
    assert isinstance(menu, QMenu)
    assert any(words in action.text() for action in menu.actions()), [each.text() for each in menu.actions()]
    menu.close()


Check = Callable[[Timeline, Seen, Callable[[], None]], None]


def walks(start: str, end: str) -> Check:
    def check(timeline: Timeline, _seen: Seen, act: Callable[[], None]) -> None:
        begins(timeline, start)
        act()
        assert step(timeline) == end
        assert not also(timeline)

    return check


def keeps(start: str, end: str) -> Check:
    def check(timeline: Timeline, _seen: Seen, act: Callable[[], None]) -> None:
        begins(timeline, start)
        act()
        assert (step(timeline), also(timeline)) == (end, {start})

    return check


def drops(start: str, *told: object) -> Check:
    def check(timeline: Timeline, seen: Seen, act: Callable[[], None]) -> None:
        begins(timeline, start)
        act()
        assert seen.dropped == [told]

    return check


def wants(start: str, edit: object) -> Check:
    def check(timeline: Timeline, seen: Seen, act: Callable[[], None]) -> None:
        begins(timeline, start)
        act()
        assert edit_of(seen) == edit

    return check


def _chain(steps: set[str], start: str) -> Check:
    def check(timeline: Timeline, _seen: Seen, act: Callable[[], None]) -> None:
        begins(timeline, start)
        act()
        assert also(timeline) == steps

    return check


def _clash(timeline: Timeline, _seen: Seen, act: Callable[[], None]) -> None:
    begins(timeline, "curd.mix")
    act()
    assert step(timeline) == "gratin.bake"
    low, high = timeline.scene.seen
    assert low < -55
    assert high > 0
    assert timeline.keys.clash == waited_too_long()


def _open(timeline: Timeline, seen: Seen, act: Callable[[], None]) -> None:
    begins(timeline, "beans.cook")
    act()
    assert seen.opened == ["beans.cook"]


def _let_go(timeline: Timeline, _seen: Seen, act: Callable[[], None]) -> None:
    begins(timeline, "pork.roast")
    press(timeline, "J")
    press(timeline, "Shift+Right")
    assert (timeline.scene.marked, also(timeline)) == ("pork.roast", {"pork.roast"})
    act()
    assert (timeline.scene.marked, also(timeline)) == (None, {"pork.roast"})
    act()
    assert not also(timeline)


def _lift(timeline: Timeline, seen: Seen, act: Callable[[], None]) -> None:
    begins(timeline, "pork.roast")
    act()
    assert seen.lifted == [("pork.roast", 0)]


def _pin(timeline: Timeline, seen: Seen, act: Callable[[], None]) -> None:
    begins(timeline, "pork.roast")
    act()
    assert seen.dropped == [("pork.roast", 0, -160, None)]
    timeline.set_plan(open_plan(pins=(Pin("pork.roast", 0, -160),)), the_timetable())
    act()
    assert seen.lifted == [("pork.roast", 0)]


def _opens(start: str, words: str) -> Check:
    def check(timeline: Timeline, _seen: Seen, act: Callable[[], None]) -> None:
        begins(timeline, start)
        act()
        menu_with(timeline, words)

    return check


def _order(timeline: Timeline, seen: Seen, act: Callable[[], None]) -> None:
    begins(timeline, "pork.roast")
    act()
    assert timeline.scene.marked == "pork.roast"
    assert not seen.wanted
    timeline.show_step("gratin.bake")
    act()
    assert edit_of(seen) == AddOrder("pork.roast", "gratin.bake")
    assert timeline.scene.marked is None
    seen.wanted.clear()
    timeline.set_plan(open_plan(orders=(Order("pork.roast", "gratin.bake"),)), the_timetable())
    timeline.show_step("gratin.bake")
    act()
    timeline.show_step("pork.roast")
    act()
    assert edit_of(seen) == RemoveOrder("pork.roast", "gratin.bake"), "either way round it is taken out"


def _join(timeline: Timeline, seen: Seen, act: Callable[[], None]) -> None:
    begins(timeline, "beans.cook")
    act()
    timeline.show_step("pork.carve")
    act()
    made = edit_of(seen)
    assert isinstance(made, AddLink)
    assert (made.link.before, made.link.after) == ("beans.cook", "pork.carve")
    seen.wanted.clear()
    timeline.show_step("beans.boil")
    act()
    timeline.show_step("beans.cook")
    act()
    assert edit_of(seen) == RemoveLink(("beans.boil", "beans.cook", LinkKind.END_TO_START))


def _zoom(by: int) -> Check:
    def check(timeline: Timeline, _seen: Seen, act: Callable[[], None]) -> None:
        scale = timeline.scene.axis.ppm
        act()
        assert (timeline.scene.axis.ppm > scale) is (by > 0)
        assert timeline.scene.axis.ppm != scale

    return check


def _fit_all(timeline: Timeline, _seen: Seen, act: Callable[[], None]) -> None:
    act()
    assert timeline.scene.seen == (pytest.approx(-1060, abs=1), pytest.approx(45, abs=1))


def _fit_last(timeline: Timeline, _seen: Seen, act: Callable[[], None]) -> None:
    act()
    low, high = timeline.scene.seen
    assert -125 < low < -115
    assert 0 < high < 20


def _fit_chosen(timeline: Timeline, _seen: Seen, act: Callable[[], None]) -> None:
    begins(timeline, "beans.boil")
    press(timeline, "Shift+H")
    assert also(timeline) == {"beans.cook"}
    act()
    low, high = timeline.scene.seen
    assert -60 < low < -40
    assert 0 < high < 20, "the beans wait up to plating, and the wait is shown too"


def _page(by: int) -> Check:
    def check(timeline: Timeline, _seen: Seen, act: Callable[[], None]) -> None:
        timeline.sight.fit(-150, -90, 0.0)
        scene = timeline.scene
        left, wide = scene.left, scene.width - scene.gutter
        act()
        assert scene.left - left == pytest.approx(by * 0.9 * wide, abs=1)

    return check


def _reading(by: int) -> Check:
    def check(timeline: Timeline, _seen: Seen, act: Callable[[], None]) -> None:
        known = []
        for _press in range(3):
            act()
            known.append(timeline.reading)
        assert known == (["dish", "cook", "station"] if by > 0 else ["cook", "dish", "station"])

    return check


def _fold(timeline: Timeline, _seen: Seen, act: Callable[[], None]) -> None:
    assert timeline.scene.axis.folds
    act()
    assert not timeline.scene.axis.folds


def _lane(timeline: Timeline, _seen: Seen, act: Callable[[], None]) -> None:
    begins(timeline, "pork.roast")
    was = timeline.scene.lanes[timeline.focused[0]].line
    act()
    assert timeline.scene.lanes[timeline.focused[0]].line is not was


def _keys(_timeline: Timeline, seen: Seen, act: Callable[[], None]) -> None:
    act()
    assert seen.keys == [True]


def _nudge(by: int) -> Check:
    def check(timeline: Timeline, seen: Seen, act: Callable[[], None]) -> None:
        drops("pork.roast", "pork.roast", 0, -160 + by, None)(timeline, seen, act)
        timeline.scene.also = frozenset({("beans.cook", 0)})
        act()
        pins = (PinStep("beans.cook", 0, -25 + by), PinStep("pork.roast", 0, -160 + by))
        assert edit_of(seen) == PinSteps(pins)
        after = seen.wanted[0].seen
        assert {key[0]: after.at[key].start for key in (("beans.cook", 0), ("pork.roast", 0))} == {
            "beans.cook": -25 + by,
            "pork.roast": -160 + by,
        }

    return check


def _stretch(by: int) -> Check:
    def check(timeline: Timeline, seen: Seen, act: Callable[[], None]) -> None:
        wants("beans.cook", StretchStep("beans.cook", 5 + by or 1, 0))(timeline, seen, act)
        assert seen.wanted[0].seen.at["beans.cook", 0].length == max(1, 5 + by)

    return check


def _plate(by: int, *, stay: bool = True) -> Check:
    def check(timeline: Timeline, seen: Seen, act: Callable[[], None]) -> None:
        wants("pork.roast", ServeLater(by))(timeline, seen, act)
        start = seen.wanted[0].seen.at["pork.roast", 0].start
        assert start == (-160 - by if stay else -160), "by the clock it stays, or it comes along"

    return check


CHECKS: dict[tuple[str, tuple[int, ...]], Check] = {
    ("along", (-1,)): walks("gratin.bake", "pork.roast"),
    ("along", (1,)): walks("pork.roast", "gratin.bake"),
    ("across", (-1,)): walks("beans.boil", "gratin.bake"),
    ("across", (1,)): walks("beans.boil", "beans.cook"),
    ("in_time", (1,)): walks("beans.boil", "beans.cook"),
    ("in_time", (-1,)): walks("beans.cook", "beans.boil"),
    ("linked", (-1,)): walks("pork.carve", "pork.roast"),
    ("linked", (1,)): walks("pork.roast", "pork.carve"),
    ("first", ()): walks("pork.roast", "curd.mix"),
    ("last", ()): walks("pork.roast", "curd.set"),
    ("clash", (1,)): _clash,
    ("clash", (-1,)): _clash,
    ("open", ()): _open,
    ("more_along", (-1,)): keeps("gratin.bake", "pork.roast"),
    ("more_along", (1,)): keeps("pork.roast", "gratin.bake"),
    ("more_across", (-1,)): keeps("beans.boil", "gratin.bake"),
    ("more_across", (1,)): keeps("beans.boil", "beans.cook"),
    ("chain", (-1,)): _chain({"curd.mix"}, "curd.set"),
    ("chain", (1,)): _chain({"curd.set"}, "curd.mix"),
    ("let_go", ()): _let_go,
    ("nudge", (-5,)): _nudge(-5),
    ("nudge", (5,)): _nudge(5),
    ("nudge", (-1,)): _nudge(-1),
    ("nudge", (1,)): _nudge(1),
    ("other_lane", (-1,)): drops("beans.cook", "beans.cook", 0, -25, "burner-1"),
    ("other_lane", (1,)): drops("beans.cook", "beans.cook", 0, -25, "burner-3"),
    ("stretch", (-5,)): _stretch(-5),
    ("stretch", (5,)): _stretch(5),
    ("stretch", (-1,)): _stretch(-1),
    ("stretch", (1,)): _stretch(1),
    ("plate", (-5,)): _plate(-5),
    ("plate", (5,)): _plate(5),
    ("plate", (-1,)): _plate(-1),
    ("plate", (1,)): _plate(1),
    ("plate_all", (-5,)): _plate(-5, stay=False),
    ("plate_all", (5,)): _plate(5, stay=False),
    ("pin", ()): _pin,
    ("lift", ()): _lift,
    ("way", ()): _opens("beans.boil", "Boil in the kettle"),
    ("length", ()): _opens("pork.roast", "slow length (1 h 50 min)"),
    ("order", ()): _order,
    ("join", ()): _join,
    ("menu", ()): _opens("beans.boil", "Open the step"),
    ("zoom", (1,)): _zoom(1),
    ("zoom", (-1,)): _zoom(-1),
    ("fit_all", ()): _fit_all,
    ("fit_chosen", ()): _fit_chosen,
    ("fit_last", ()): _fit_last,
    ("page", (-1,)): _page(-1),
    ("page", (1,)): _page(1),
    ("reading", (1,)): _reading(1),
    ("reading", (-1,)): _reading(-1),
    ("fold", ()): _fold,
    ("lane", ()): _lane,
    ("page_of_keys", ()): _keys,
}

EACH = [(row, keys) for row in rows() for keys in row.keys]


@pytest.mark.parametrize(("row", "keys"), EACH, ids=[f"{keys}: {row.words}" for row, keys in EACH])
def test_a_key_does_what_its_line_says(timeline: Timeline, seen: Seen, row: Row, keys: str) -> None:
    CHECKS[row.act, row.given](timeline, seen, lambda: press(timeline, keys))


def test_no_line_is_left_unpressed_and_no_check_without_a_line() -> None:
    assert {(row.act, row.given) for row in rows()} == set(CHECKS)


def test_no_chord_means_two_things_and_every_line_has_words_and_keys() -> None:
    assert len(by_chord()) == sum(len(row.keys) for row in rows())
    assert all(row.words and shown(row) for row in rows())
    assert len({row.words for row in rows()}) == len(rows())


def test_a_sign_counts_however_a_keyboard_types_it(timeline: Timeline, seen: Seen) -> None:
    for held in (Qt.KeyboardModifier.NoModifier, Qt.KeyboardModifier.ShiftModifier):
        QTest.keyClick(timeline, Qt.Key.Key_Question, held)
    assert seen.keys == [True, True]
    scale = timeline.scene.axis.ppm
    QTest.keyClick(timeline, Qt.Key.Key_Plus, Qt.KeyboardModifier.KeypadModifier)
    assert timeline.scene.axis.ppm > scale


def test_a_letter_with_control_is_left_to_the_window(timeline: Timeline, seen: Seen) -> None:
    begins(timeline, "pork.roast")
    QTest.keyClick(timeline, Qt.Key.Key_R, Qt.KeyboardModifier.ControlModifier)
    assert timeline.reading == "station"


def test_nothing_happens_where_nothing_is_chosen(timeline: Timeline, seen: Seen) -> None:
    timeline.select(None)
    asking = {"nudge", "other_lane", "stretch", "pin", "lift", "order", "join", "open", "way", "length", "menu"}
    for row in rows():
        if row.act in asking:
            for keys in row.keys:
                press(timeline, keys)
    assert seen == Seen([], [], [], [], [])
    assert QApplication.activePopupWidget() is None


def test_the_page_of_keys_has_every_line_of_the_table(qapp) -> None:
    from app.look.colours import LIGHT
    from app.places.commands import COMMANDS
    from app.places.key_page import KeyPage, page_html, timeline_sections

    listed = [line for _heading, lines in timeline_sections() for line in lines]
    assert listed[:-2] == [(shown(row), key_table.said(row.words)) for row in rows()]
    assert [keys for keys, _words in listed[-2:]] == ["M", "Alt+4, Alt+5"]
    page = KeyPage()
    text = page.text.toPlainText().replace("\N{NO-BREAK SPACE}", " ")
    assert all(keys in text and words in text for keys, words in listed)
    assert all(each.keys in text for each in COMMANDS if each.keys)
    assert "&" not in text
    assert page_html(LIGHT).count("<table>") >= len(key_table.GROUPS)
    page.close()
