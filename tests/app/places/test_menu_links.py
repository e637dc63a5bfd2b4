"""Links drawn, typed and removed in the flow beside the steps, in the real window, with the mouse and by keys."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations
from pathlib import Path

import pytest
from PySide6.QtCore import QPoint, QPointF, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from app.bridge import PlanPlace
from app.places.menu.flow_panel import FlowPanel
from app.places.window import Window
from core.plan.ids import StepId
from core.plan.menu import LinkKind
from core.plan.step import Attention, Holding
from tests.support.builders import a_dish, a_plan, a_step, chained
from tests.support.windows import a_window

NONE, SHIFT, ALT, CTRL = (
    Qt.KeyboardModifier.NoModifier,
    Qt.KeyboardModifier.ShiftModifier,
    Qt.KeyboardModifier.AltModifier,
    Qt.KeyboardModifier.ControlModifier,
)
LEFT = Qt.MouseButton.LeftButton
ENTER, ESCAPE, DELETE = Qt.Key.Key_Return, Qt.Key.Key_Escape, Qt.Key.Key_Delete
CUT, BOIL, BLEND, SERVE, SLICE, TOAST = (
    StepId(each)
    for each in ("soup.cut", "soup.boil", "soup.blend", "soup.serve", "bread.slice", "bread.toast")
)


def the_plan():
    soup = a_dish(
        "soup",
        a_step(CUT, "Cut the leeks, wash them", (8, 10, 13)),
        a_step(BOIL, "Boil the soup", 30, attention=Attention.HANDS_OFF, put_in=0, take_out=0),
        a_step(BLEND, "Blend it", 5),
        a_step(SERVE, "Ladle out", 3),
        name="Leek soup",
    )
    bread = a_dish("bread", a_step(SLICE, "Slice the bread", 4), a_step(TOAST, "Toast it", 6), name="Bread")
    return a_plan(soup, bread, links=chained(*soup.steps[:3]))


@pytest.fixture
def window(qtbot, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Window]:
    with a_window(qtbot, tmp_path, monkeypatch, 1500, 860) as made:
        made.open_place(PlanPlace.fresh(the_plan()), show="menu")
        made.activateWindow()
        qtbot.waitUntil(lambda: QApplication.activeWindow() is made)
        yield made


@pytest.fixture
def flow(window: Window) -> FlowPanel:
    panel = window.places.menu.steps.flow
    assert panel.isVisible()
    return panel


def links(window: Window) -> list[tuple[str, str]]:
    return [(link.before, link.after) for link in window.opened.plan.menu.links]


def middle(flow: FlowPanel, step: str) -> QPoint:
    return flow.paper.box(step).center().toPoint()


def lower_edge(flow: FlowPanel, step: str) -> QPoint:
    box = flow.paper.box(step)
    return QPointF(box.center().x(), box.bottom() - 3).toPoint()


def upper_edge(flow: FlowPanel, step: str) -> QPoint:
    box = flow.paper.box(step)
    return QPointF(box.center().x(), box.top() + 3).toPoint()


def draw(flow: FlowPanel, begin: QPoint, end: QPoint) -> None:
    paper = flow.paper
    QTest.mousePress(paper, LEFT, NONE, begin)
    QTest.mouseMove(paper, (begin + end) / 2)
    QTest.mouseMove(paper, end)
    QTest.mouseRelease(paper, LEFT, NONE, end)


def on_arrow(flow: FlowPanel, before: str, after: str) -> QPoint:
    picture = flow.paper.picture
    link = next(each for each in picture.links if (each.before, each.after) == (before, after))
    way = picture.way(link)
    return (way[0] + (way[1] - way[0]) * 0.2).toPoint()


def press(key: Qt.Key, modifiers: Qt.KeyboardModifier = NONE) -> None:
    QTest.keyClick(QApplication.focusWidget(), key, modifiers)


def type_keys(text: str) -> None:
    QTest.keyClicks(QApplication.focusWidget(), text)


# ---------------------------------------------------------------- with the mouse


def test_a_link_is_drawn_from_the_lower_edge_to_what_comes_after(window: Window, flow: FlowPanel) -> None:
    draw(flow, lower_edge(flow, BLEND), middle(flow, SERVE))
    assert links(window)[-1] == (BLEND, SERVE)
    assert flow.paper.held == (BLEND, SERVE, LinkKind.END_TO_START)
    assert flow.said.text() == "“Blend it”, then “Ladle out”: as long as you like"
    window.opened.undo()
    assert (BLEND, SERVE) not in links(window)
    assert flow.paper.held is None


def test_a_link_is_drawn_from_the_upper_edge_to_what_comes_before(window: Window, flow: FlowPanel) -> None:
    draw(flow, upper_edge(flow, SERVE), middle(flow, BLEND))
    assert links(window)[-1] == (BLEND, SERVE)


def test_a_circle_is_refused_with_the_chain_named_and_the_plan_stays(window: Window, flow: FlowPanel) -> None:
    before = window.opened.plan
    draw(flow, lower_edge(flow, BLEND), middle(flow, CUT))
    assert window.opened.plan is before
    told = flow.wrong.text()
    assert flow.wrong.isVisible()
    assert "circle" in told
    assert all(name in told for name in ("Cut the leeks", "Boil the soup", "Blend it"))
    QTest.mouseClick(flow.paper, LEFT, NONE, middle(flow, SERVE))
    assert not flow.wrong.isVisible()


def test_a_small_slip_of_the_hand_on_a_step_links_nothing(window: Window, flow: FlowPanel) -> None:
    before = window.opened.plan
    begin = lower_edge(flow, BLEND)
    draw(flow, begin, begin + QPoint(2, 1))
    draw(flow, begin, middle(flow, BLEND) - QPoint(20, 0))
    draw(flow, begin, QPoint(2, flow.paper.height() - 2))
    assert window.opened.plan is before
    assert flow.paper.aim is None
    assert flow.paper.marked == BLEND


def test_escape_while_drawing_lets_go(window: Window, flow: FlowPanel) -> None:
    before = window.opened.plan
    QTest.mousePress(flow.paper, LEFT, NONE, lower_edge(flow, BLEND))
    QTest.mouseMove(flow.paper, middle(flow, SERVE))
    assert flow.paper.aim is not None
    press(ESCAPE)
    assert flow.paper.aim is None
    QTest.mouseRelease(flow.paper, LEFT, NONE, middle(flow, SERVE))
    assert window.opened.plan is before


def test_dropped_on_another_dish_it_asks_for_the_step_of_that_dish(window: Window, flow: FlowPanel) -> None:
    dishes = window.places.menu.dishes.list
    bread = dishes.viewport().mapToGlobal(dishes.visualItemRect(dishes.item(1)).center())
    begin, end = lower_edge(flow, BLEND), flow.paper.mapFromGlobal(bread)
    QTest.mousePress(flow.paper, LEFT, NONE, begin)
    QTest.mouseMove(flow.paper, (begin + end) / 2)
    QTest.mouseMove(flow.paper, end)
    assert flow.said.text() == "Drop here: a step of Bread is linked to “Blend it”."
    QTest.mouseRelease(flow.paper, LEFT, NONE, end)
    assert flow.finder.isVisible()
    assert "“Blend it” in Bread" in flow.finder.title.text()
    assert [flow.finder.list.item(at).text() for at in range(flow.finder.list.count())] == [
        "1  Slice the bread",
        "2  Toast it",
    ]
    item = flow.finder.list.visualItemRect(flow.finder.list.item(1)).center()
    QTest.mouseClick(flow.finder.list.viewport(), LEFT, NONE, item)
    assert links(window)[-1] == (BLEND, TOAST)
    assert not flow.finder.isVisible()
    assert flow.paper.box(TOAST) is not None, "a linked step of another dish is shown in the flow"
    assert window.places.menu.dishes.dish == "soup"


def test_an_arrow_is_chosen_its_wait_typed_in_place_and_it_is_taken_out(window: Window, flow: FlowPanel) -> None:
    arrow = on_arrow(flow, CUT, BOIL)
    QTest.mouseClick(flow.paper, LEFT, NONE, arrow)
    assert flow.paper.held == (CUT, BOIL, LinkKind.END_TO_START)
    QTest.mouseDClick(flow.paper, LEFT, NONE, arrow)
    assert QApplication.focusWidget() is flow.wait
    type_keys("10-30 min, on the counter")
    press(ENTER)
    link = window.opened.plan.menu.links[0]
    assert (link.least, link.most, link.wait.how) == (10, 30, Holding.COUNTER)
    assert not flow.wait.isVisible()
    assert flow.paper.picture.words(link) == "10 min to 30 min"
    flow.remove.click()
    assert links(window) == [(BOIL, BLEND)]
    window.opened.undo()
    window.opened.undo()
    assert (window.opened.plan.menu.links[0].least, window.opened.plan.menu.links[0].most) == (0, None)


def test_a_double_click_on_a_step_puts_the_cursor_into_its_row(window: Window, flow: FlowPanel) -> None:
    QTest.mouseDClick(flow.paper, LEFT, NONE, middle(flow, BLEND))
    row = window.places.menu.steps.rows.at(BLEND)
    assert QApplication.focusWidget() is row.fields["does"]


def test_the_button_finds_a_step_of_any_dish_by_typing(window: Window, flow: FlowPanel) -> None:
    QTest.mouseClick(flow.paper, LEFT, NONE, middle(flow, SERVE))
    QTest.mouseClick(flow.link_on, LEFT)
    assert QApplication.focusWidget() is flow.finder.line
    type_keys("bread sli")
    assert flow.finder.list.count() == 1
    press(Qt.Key.Key_T, ALT)
    assert "comes before “Ladle out”" in flow.finder.title.text()
    press(ENTER)
    assert links(window)[-1] == (SLICE, SERVE)


# ---------------------------------------------------------------- by keys


def test_a_link_is_made_and_its_wait_typed_by_keys_alone(window: Window, flow: FlowPanel) -> None:
    window.places.menu.steps.choose(BLEND)
    flow.paper.setFocus()
    type_keys("l4")
    assert flow.paper.aim.ends == (BLEND, SERVE)
    assert "“Blend it”, then “Ladle out”" in flow.said.text()
    press(ENTER)
    assert links(window)[-1] == (BLEND, SERVE)
    type_keys("5")
    assert QApplication.focusWidget() is flow.wait
    type_keys("-15 min, in its vessel")
    press(ENTER)
    link = window.opened.plan.menu.links[-1]
    assert (link.least, link.most, link.wait.how) == (5, 15, Holding.VESSEL)
    assert QApplication.focusWidget() is flow.paper
    press(DELETE)
    assert (BLEND, SERVE) not in links(window)
    press(Qt.Key.Key_Z, CTRL)
    assert links(window)[-1] == (BLEND, SERVE)


def test_a_link_to_another_dish_is_made_by_keys_alone(window: Window, flow: FlowPanel) -> None:
    window.places.menu.steps.choose(SERVE)
    flow.paper.setFocus()
    press(Qt.Key.Key_L, SHIFT)
    type_keys("t")
    type_keys("oast")
    assert flow.finder.line.text() == "toast"
    press(ENTER)
    assert links(window)[-1] == (TOAST, SERVE)
    assert QApplication.focusWidget() is flow.paper


def test_arrow_keys_walk_from_step_to_link_to_step(window: Window, flow: FlowPanel) -> None:
    steps = window.places.menu.steps
    steps.choose(CUT)
    flow.paper.setFocus()
    met = []
    for _press in range(5):
        press(Qt.Key.Key_Down)
        met.append(flow.paper.held[:2] if flow.paper.held else flow.paper.marked)
    assert met == [(CUT, BOIL), BOIL, (BOIL, BLEND), BLEND, BLEND]
    assert steps.step == BLEND, "the row goes along"
    press(Qt.Key.Key_Up)
    assert flow.paper.held[:2] == (BOIL, BLEND)
    assert "Chosen: Leek soup: Boil the soup, then Leek soup: Blend it" in flow.paper.accessibleDescription()
    press(ESCAPE)
    assert flow.paper.held is None


def test_drawing_by_keys_is_aimed_by_arrows_and_left_by_escape(window: Window, flow: FlowPanel) -> None:
    before = window.opened.plan
    window.places.menu.steps.choose(CUT)
    flow.paper.setFocus()
    press(Qt.Key.Key_L)
    assert flow.paper.aim.over == BOIL
    press(Qt.Key.Key_Down)
    assert flow.paper.aim.ends == (CUT, BLEND)
    press(ESCAPE)
    assert flow.paper.aim is None
    assert window.opened.plan is before
    press(Qt.Key.Key_L)
    press(Qt.Key.Key_Down)
    press(ENTER)
    assert links(window)[-1] == (CUT, BLEND)


def test_a_wait_that_contradicts_is_refused_with_the_chain_and_can_be_mended(
    window: Window, flow: FlowPanel
) -> None:
    flow.link(CUT, BLEND)
    before = window.opened.plan
    flow.edit_wait()
    type_keys("up to 20 min")
    press(ENTER)
    assert window.opened.plan is before
    told = flow.wrong.text()
    assert flow.wrong.isVisible()
    assert "cannot all hold" in told
    assert all(name in told for name in ("Cut the leeks", "Boil the soup", "Blend it"))
    assert flow.wait.isVisible()
    flow.wait.selectAll()
    type_keys("up to 40 min")
    press(ENTER)
    assert window.opened.plan.menu.links[-1].most == 40
    assert not flow.wrong.isVisible()


@pytest.mark.parametrize(
    ("typed", "told"),
    [
        ("40-10 min", "the longest wait is shorter than the least"),
        ("2 h to 30 min, in its vessel", "write the least first"),
        ("10 min", "up to 10 min"),
        ("10-30 min, on the countr", "did you mean"),
        ("10-30 min, 20 min", '"20 min": write "up to 20 min"'),
        ("up to 10 min, up to 20 min", "says twice"),
    ],
)
def test_a_wait_that_cannot_be_read_is_refused_with_the_mend(
    window: Window, flow: FlowPanel, typed: str, told: str
) -> None:
    before = window.opened.plan
    QTest.mouseClick(flow.paper, LEFT, NONE, on_arrow(flow, CUT, BOIL))
    press(Qt.Key.Key_F2)
    type_keys(typed)
    press(ENTER)
    assert window.opened.plan is before
    assert told in flow.wrong.text()
    press(ESCAPE)
    assert not flow.wait.isVisible()
    assert not flow.wrong.isVisible()
    assert QApplication.focusWidget() is flow.paper


def test_what_is_counted_and_where_it_waits_are_typed_too(window: Window, flow: FlowPanel) -> None:
    flow.paper.hold((BOIL, BLEND, LinkKind.END_TO_START))
    flow.edit_wait()
    type_keys("start to start, at least 5 min, in the fridge, 600 cm2, 12 cm")
    press(ENTER)
    link = window.opened.plan.menu.links[-1]
    assert (link.kind, link.least, link.most) == (LinkKind.START_TO_START, 5, None)
    assert (link.wait.how, link.wait.use.area) == (Holding.FRIDGE, 600)
    assert flow.paper.held == link.key
    flow.edit_wait()
    assert flow.wait.text() == "start to start, at least 5 min, in the fridge, 600 cm2, 12 cm"
    flow.wait.selectAll()
    press(DELETE)
    press(ENTER)
    link = window.opened.plan.menu.links[-1]
    assert (link.kind, link.least, link.most, link.wait.how) == (LinkKind.END_TO_START, 0, None, Holding.COUNTER)


def test_a_wait_left_as_it_was_changes_nothing(window: Window, flow: FlowPanel) -> None:
    before = window.opened.plan
    flow.paper.hold((BOIL, BLEND, LinkKind.END_TO_START))
    flow.edit_wait()
    press(ENTER)
    assert not flow.wait.isVisible()
    assert window.opened.plan is before


# ---------------------------------------------------------------- on its own leaf, and its room


def test_rows_of_links_refuse_waits_that_contradict_too(window: Window) -> None:
    place = window.places.menu
    place.leaves.turn("follows")
    assert place.follows.link(CUT, BLEND) == ""
    row = place.follows.rows.at(2)
    field = row.fields["most"]
    field.setFocus()
    field.selectAll()
    QTest.keyClicks(field, "20 min")
    QTest.keyClick(field, ENTER)
    assert "cannot all hold" in row.wrong.text()
    assert window.opened.plan.menu.links[-1].most is None


def test_the_flow_of_the_own_leaf_draws_too(window: Window) -> None:
    place = window.places.menu
    place.leaves.turn("follows")
    QApplication.processEvents()
    flow = place.follows.flow
    draw(flow, lower_edge(flow, BLEND), middle(flow, SERVE))
    assert links(window)[-1] == (BLEND, SERVE)
    assert flow.paper.held == (BLEND, SERVE, LinkKind.END_TO_START)


@pytest.mark.parametrize(
    ("width", "height"),
    [(1500, 860), (1600, 900), (1760, 900), (1900, 1000), (2100, 1100), (2500, 1300)],
)
def test_the_flow_stands_beside_the_steps(window: Window, width: int, height: int) -> None:
    window.resize(width, height)
    QApplication.processEvents()
    steps = window.places.menu.steps
    assert steps.flow.isVisible()
    rows = steps.page.mapToGlobal(QPoint(steps.page.width(), 0))
    assert steps.flow.mapToGlobal(QPoint(0, 0)).x() >= rows.x() - 1
    for panel in (steps.flow, steps.page):
        assert panel.width() >= 200
    assert steps.page.widget().width() <= steps.page.viewport().width(), "no row is cut off"


def test_in_a_narrow_window_the_flow_has_its_own_leaf(window: Window) -> None:
    window.resize(1280, 720)
    QApplication.processEvents()
    place = window.places.menu
    assert not place.steps.flow.isVisible()
    assert place.steps.page.widget().width() <= place.steps.page.viewport().width(), "no row is cut off"
    QTest.mouseClick(place.leaves.buttons["follows"], LEFT)
    QApplication.processEvents()
    assert place.follows.flow.isVisible()
    assert place.follows.flow.width() >= 200


def test_words_at_arrows_that_meet_do_not_run_into_each_other(window: Window, flow: FlowPanel) -> None:
    flow.link(SLICE, BLEND)
    flow.link(TOAST, BLEND)
    for link in window.opened.plan.menu.links:
        flow.paper.hold(link.key)
        flow.edit_wait()
        type_keys("10 min to 30 min, in its vessel")
        press(ENTER)
    picture = flow.paper.picture
    areas = [picture.label(link) for link in picture.links]
    assert len(areas) == 4
    assert not any(one.intersects(other) for one, other in combinations(areas, 2))
    boxes = [picture.box(step) for step in picture.steps]
    assert not any(area.intersects(box) for area in areas for box in boxes)


def test_everything_below_the_flow_has_a_name_and_is_large_enough(window: Window, flow: FlowPanel) -> None:
    for button in (flow.link_on, flow.type_wait, flow.remove):
        assert button.accessibleName()
        assert min(button.width(), button.height()) >= 24
        assert "(" in button.toolTip(), "the tip names the key"
    assert flow.paper.accessibleName()
