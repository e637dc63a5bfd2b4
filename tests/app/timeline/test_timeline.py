from __future__ import annotations

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtGui import QAction, QColor, QContextMenuEvent
from PySide6.QtWidgets import QApplication, QMenu

from app.look.colours import DARK, LIGHT, qpalette
from app.timeline import Timeline
from app.timeline.bars import BarKind
from core.plan.decisions import Pin
from core.timetable.timetable import Timetable
from tests.app.timeline.acting import drag, find, middle, press, wheel
from tests.app.timeline.feast import the_plan, the_timetable, waited_too_long

ALT = Qt.KeyboardModifier.AltModifier
SHIFT = Qt.KeyboardModifier.ShiftModifier
CTRL = Qt.KeyboardModifier.ControlModifier
UP = QPoint(0, 120)


def focused(timeline: Timeline) -> str | None:
    return None if timeline.focused is None else timeline.focused[1].step


# ---------------------------------------------------------------- zoom and scrolling


@pytest.mark.parametrize("x", [400, 700, 1200])
def test_the_wheel_zooms_around_the_pointer(timeline: Timeline, x: int) -> None:
    scene = timeline.scene
    for turn in (UP, UP, -UP, UP, UP, UP):
        minute, scale = scene.time(x), scene.axis.ppm
        wheel(timeline, QPoint(x, 300), turn, CTRL)
        assert scene.axis.ppm != scale
        assert scene.x(minute) == pytest.approx(x, abs=1.01)


def test_zoom_ends_at_five_minutes_and_at_everything(timeline: Timeline) -> None:
    for _turn in range(60):
        wheel(timeline, QPoint(700, 300), UP, CTRL)
    low, high = timeline.scene.seen
    assert high - low == pytest.approx(5, abs=0.01)
    for _turn in range(90):
        wheel(timeline, QPoint(700, 300), -UP, CTRL)
    low, high = timeline.scene.seen
    assert low <= timeline.scene.axis.low + 1
    assert high >= timeline.scene.axis.high - 1


def test_the_plain_wheel_goes_down_and_with_shift_sideways(timeline: Timeline) -> None:
    timeline.resize(900, 300)
    across, down = timeline.horizontalScrollBar(), timeline.verticalScrollBar()
    x, y = across.value(), down.value()
    wheel(timeline, QPoint(500, 200), -UP)
    assert (across.value(), down.value() > y) == (x, True)
    y = down.value()
    wheel(timeline, QPoint(500, 200), UP, SHIFT)
    assert (across.value() < x, down.value()) == (True, y)
    x = across.value()
    wheel(timeline, QPoint(500, 200), QPoint(-120, 0))
    assert (across.value() > x, down.value()) == (True, y)


def test_keys_zoom_and_fit(timeline: Timeline) -> None:
    scale = timeline.scene.axis.ppm
    press(timeline, Qt.Key.Key_Plus)
    assert timeline.scene.axis.ppm > scale
    press(timeline, Qt.Key.Key_Minus)
    assert timeline.scene.axis.ppm == pytest.approx(scale)
    press(timeline, Qt.Key.Key_2)
    low, high = timeline.scene.seen
    assert -125 < low < -115
    assert 0 < high < 20
    press(timeline, Qt.Key.Key_0)
    low, high = timeline.scene.seen
    assert (low, high) == (pytest.approx(-1060, abs=1), pytest.approx(45, abs=1))


def test_everything_stays_fitted_when_the_window_grows_until_the_cook_zooms(timeline: Timeline) -> None:
    timeline.fit_all()
    timeline.resize(1600, 720)
    assert timeline.scene.seen[1] == pytest.approx(45, abs=1)
    wheel(timeline, QPoint(700, 300), UP, CTRL)
    scale = timeline.scene.axis.ppm
    timeline.resize(1500, 720)
    assert timeline.scene.axis.ppm == scale


def test_quiet_hours_fold_and_unfold(timeline: Timeline) -> None:
    timeline.fit_all()
    assert timeline.scene.axis.folds == ((-975, -525), (-495, -189))
    assert "8 h" in timeline.drawn_texts()
    press(timeline, Qt.Key.Key_F)
    assert timeline.scene.axis.folds == ()


def test_a_new_timetable_leaves_the_view_where_it_was(timeline: Timeline) -> None:
    timeline.sight.zoom(1.7, 600)
    before = timeline.scene.seen
    timeline.set_plan(the_plan(), the_timetable(), ())
    assert timeline.scene.seen == (pytest.approx(before[0], abs=0.6), pytest.approx(before[1], abs=0.6))


# ---------------------------------------------------------------- keys among bars


def test_arrows_walk_along_lanes_across_lanes_and_along_links(timeline: Timeline) -> None:
    press(timeline, Qt.Key.Key_Home)
    assert focused(timeline) == "curd.mix"
    timeline.select("pork.roast")
    press(timeline, Qt.Key.Key_Right)
    assert focused(timeline) == "gratin.bake"
    press(timeline, Qt.Key.Key_Right)
    assert focused(timeline) == "gratin.bake", "there is nothing after it in the oven"
    press(timeline, Qt.Key.Key_Left)
    assert focused(timeline) == "pork.roast"
    press(timeline, Qt.Key.Key_Down)
    assert focused(timeline) == "beans.boil"
    press(timeline, Qt.Key.Key_Right, CTRL)
    assert focused(timeline) == "beans.cook"
    press(timeline, Qt.Key.Key_Left, CTRL)
    assert focused(timeline) == "beans.boil"
    press(timeline, Qt.Key.Key_End)
    assert timeline.focused[1].end == 0


def test_walking_is_told_and_scrolls_there(timeline: Timeline, qtbot) -> None:
    timeline.select("gratin.slice")
    with qtbot.waitSignal(timeline.step_selected) as chosen:
        press(timeline, Qt.Key.Key_Home)
    assert chosen.args == ["curd.mix"]
    box = timeline.scene.box(*timeline.focused)
    assert timeline.scene.gutter <= box.x <= 1280
    assert timeline.scene.ruler <= box.y < 720


@pytest.mark.parametrize(
    ("key", "held", "start"),
    [
        (Qt.Key.Key_Left, ALT, -165),
        (Qt.Key.Key_Right, ALT, -155),
        (Qt.Key.Key_Left, ALT | SHIFT, -161),
        (Qt.Key.Key_Right, ALT | SHIFT, -159),
    ],
)
def test_alt_and_arrows_nudge(timeline: Timeline, qtbot, key, held, start: int) -> None:
    timeline.select("pork.roast")
    with qtbot.waitSignal(timeline.step_dropped) as dropped:
        press(timeline, key, held)
    assert dropped.args == ["pork.roast", 0, start, None]


def test_enter_opens_and_delete_lifts_the_pin(timeline: Timeline, qtbot) -> None:
    timeline.select("beans.cook")
    with qtbot.waitSignal(timeline.step_opened) as opened:
        press(timeline, Qt.Key.Key_Return)
    assert opened.args == ["beans.cook"]
    with qtbot.waitSignal(timeline.pin_lifted) as lifted:
        press(timeline, Qt.Key.Key_Delete)
    assert lifted.args == ["beans.cook", 0]


def test_r_changes_the_reading_and_keeps_what_is_chosen(timeline: Timeline, qtbot) -> None:
    timeline.select("gratin.bake")
    with qtbot.waitSignal(timeline.reading_changed) as changed:
        press(timeline, Qt.Key.Key_R)
    assert changed.args == ["dish"]
    assert timeline.reading == "dish"
    assert focused(timeline) == "gratin.bake"
    assert timeline.bar_rects()[0][0] == "dish:gratin"
    press(timeline, Qt.Key.Key_R)
    assert timeline.reading == "cook"
    assert focused(timeline) == "gratin.bake", "its hands"
    press(timeline, Qt.Key.Key_R)
    assert timeline.reading == "station"


def test_keys_without_anything_chosen_do_no_harm(timeline: Timeline, qtbot) -> None:
    timeline.select(None)
    with qtbot.assertNotEmitted(timeline.step_dropped), qtbot.assertNotEmitted(timeline.pin_lifted):
        for key in (Qt.Key.Key_Delete, Qt.Key.Key_Return, Qt.Key.Key_Escape):
            press(timeline, key)
        press(timeline, Qt.Key.Key_Left, ALT)


# ---------------------------------------------------------------- mouse besides dragging


def test_a_click_chooses_and_a_double_click_opens(timeline: Timeline, qtbot) -> None:
    with qtbot.waitSignal(timeline.step_selected) as chosen:
        qtbot.mouseClick(timeline.viewport(), Qt.MouseButton.LeftButton, pos=middle(timeline, "pork.roast"))
    assert chosen.args == ["pork.roast"]
    with qtbot.waitSignal(timeline.step_opened) as opened:
        qtbot.mouseDClick(timeline.viewport(), Qt.MouseButton.LeftButton, pos=middle(timeline, "pork.roast"))
    assert opened.args == ["pork.roast"]


def test_a_click_on_the_clash_mark_tells_the_clash(timeline: Timeline, qtbot) -> None:
    box = find(timeline, "gratin.bake")[2]
    mark = QPoint(round(box.right - 4), round(box.y + 4))
    with qtbot.waitSignal(timeline.clash_chosen) as chosen:
        qtbot.mouseClick(timeline.viewport(), Qt.MouseButton.LeftButton, pos=mark)
    assert chosen.args == [waited_too_long()]


def menu_of(timeline: Timeline, step: str) -> QMenu:
    point = middle(timeline, step)
    event = QContextMenuEvent(QContextMenuEvent.Reason.Mouse, point, timeline.viewport().mapToGlobal(point))
    QApplication.sendEvent(timeline.viewport(), event)
    menu = QApplication.activePopupWidget()
    assert isinstance(menu, QMenu)
    return menu


def entry(menu: QMenu, text: str) -> QAction:
    found = {action.text(): action for action in menu.actions()}
    if text not in found:
        for action in menu.actions():
            if action.menu() is not None:
                found |= {each.text(): each for each in action.menu().actions()}
    return found[text]


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("5 minutes earlier", ["beans.boil", 0, -45, None]),
        ("5 minutes later", ["beans.boil", 0, -35, None]),
        ("Burner 3", ["beans.boil", 0, -40, "burner-3"]),
        ("Pin here", ["beans.boil", 0, -40, None]),
    ],
)
def test_all_that_a_drag_does_can_be_done_from_the_menu(timeline: Timeline, qtbot, text: str, told: list) -> None:
    menu = menu_of(timeline, "beans.boil")
    with qtbot.waitSignal(timeline.step_dropped) as dropped:
        entry(menu, text).trigger()
    assert dropped.args == told
    menu.close()


def test_the_menu_of_a_pinned_bar_lifts_its_pin(timeline: Timeline, qtbot) -> None:
    timeline.set_plan(the_plan(pins=(Pin("beans.boil", 0, -40),)), the_timetable(), ())
    menu = menu_of(timeline, "beans.boil")
    with qtbot.waitSignal(timeline.pin_lifted) as lifted:
        entry(menu, "Lift the pin").trigger()
    assert lifted.args == ["beans.boil", 0]
    menu.close()


def test_a_stay_has_a_menu_that_knows_its_step_but_moves_nowhere_else(timeline: Timeline) -> None:
    timeline.fit_all()
    box = find(timeline, "curd.set", BarKind.STAY)[2]
    assert timeline.pointer.bar_at(QPoint(round(box.x + 3), round(box.y + 3)).toPointF())[1].kind is BarKind.STAY
    assert not find(timeline, "curd.set", BarKind.STAY)[1].moves


# ---------------------------------------------------------------- what is drawn


def test_scales_lanes_plateaus_and_texts_are_written(timeline: Timeline) -> None:
    texts = timeline.drawn_texts()
    for text in ("by station", "Sat 26 Sept", "plating 19:30", "Oven", "Burner 1", "Worktop", "Ann", "160 °C"):
        assert text in texts, text
    assert "18:30" in texts
    assert "T-1:00" in texts
    assert "Potato gratin: Bake on the upper rack" in texts
    assert "GB" in texts
    assert "heating up 160 °C" in texts or "heating up" in texts
    assert not any(text.startswith("…") or len(text.strip("…")) == 0 for text in texts)


def test_by_dish_the_dishes_are_named_and_where_each_step_is(timeline: Timeline) -> None:
    timeline.set_reading("dish")
    texts = timeline.drawn_texts()
    assert "by dish" in texts
    assert "Potato gratin" in texts
    assert "Bake on the upper rack, Oven" in texts


def test_nights_and_absences_say_so(timeline: Timeline) -> None:
    timeline.sight.fit(-1100, -700, 0.0)
    timeline.set_folded(False)
    assert "night" in timeline.drawn_texts()


def pixel(timeline: Timeline, x: float, y: float) -> str:
    image = timeline.viewport().grab().toImage()
    return QColor(image.pixel(round(x), round(y))).name().upper()


def test_hands_on_is_painted_in_the_full_tone_and_the_rest_lightly(timeline: Timeline) -> None:
    orange, blue = LIGHT.tone(0), LIGHT.tone(1)
    box = find(timeline, "gratin.slice")[2]
    assert pixel(timeline, box.right - 6, box.y + 4) == orange.full
    box = find(timeline, "pork.roast")[2]
    assert pixel(timeline, box.right - 6, box.y + 4) == blue.soft
    assert pixel(timeline, box.x + 4, box.y + 4) == blue.full, "the tab with the code"


def test_a_tail_is_whole_while_it_may_wait_and_broken_after(timeline: Timeline) -> None:
    timeline.set_plan(the_plan(), the_timetable(), ())
    box = find(timeline, "gratin.bake")[2]
    y = round(box.bottom - 5) + 1
    image = timeline.viewport().grab().toImage()

    def colours(start: int, end: int) -> set[str]:
        first, last = round(timeline.scene.x(start)) + 3, round(timeline.scene.x(end)) - 4
        return {QColor(image.pixel(x, y)).name().upper() for x in range(first, last)}

    orange = LIGHT.tone(0).soft
    assert colours(-54, -16) == {orange}
    late = colours(-14, -3)
    assert LIGHT.clash in late
    assert len(late) > 1, "dashes with the ground between them"
    assert orange not in late


def test_a_clash_is_hatched_and_bears_a_mark(timeline: Timeline) -> None:
    box = find(timeline, "gratin.bake")[2]
    image = timeline.viewport().grab().toImage()
    y = round(box.y + 4)
    near = {QColor(image.pixel(x, y)).name().upper() for x in range(round(box.right - 10), round(box.right + 6))}
    assert LIGHT.clash in near
    assert LIGHT.on_clash in near


def test_the_dark_palette_is_followed(timeline: Timeline, qtbot) -> None:
    timeline.setPalette(qpalette(DARK))
    assert timeline.kit.palette is DARK
    box = find(timeline, "pork.roast")[2]
    assert pixel(timeline, box.right - 6, box.y + 4) == DARK.tone(1).soft


def test_an_empty_plan_says_what_goes_here(qtbot) -> None:
    made = Timeline()
    qtbot.addWidget(made)
    made.resize(900, 400)
    made.set_plan(the_plan(), None, ())
    assert any(text.startswith("Nothing here yet") for text in made.drawn_texts())
    made.set_plan(the_plan(), Timetable(), ())
    made.fit_all()
    made.fit_last_hours(2)
    assert made.bar_rects() == []


def test_only_what_was_asked_for_is_painted_again(timeline: Timeline) -> None:
    whole = timeline.viewport().grab().toImage()
    from PySide6.QtCore import QRect, QRectF
    from PySide6.QtGui import QImage, QPainter

    from app.timeline.paint import paint

    part = QRect(300, 100, 400, 200)
    image = QImage(whole)
    painter = QPainter(image)
    painter.setClipRect(part)
    paint(painter, timeline.scene, timeline.kit, QRectF(part))
    painter.end()
    assert image.copy(part) == whole.copy(part)


# ---------------------------------------------------------------- showing


def test_a_clash_is_zoomed_to_and_its_step_chosen(timeline: Timeline) -> None:
    timeline.fit_all()
    timeline.show_clash(waited_too_long())
    low, high = timeline.scene.seen
    assert low < -55
    assert high > 0
    assert high - low < 200
    assert focused(timeline) == "gratin.bake"


def test_a_step_out_of_sight_is_scrolled_to(timeline: Timeline) -> None:
    timeline.show_step("curd.mix")
    box = timeline.scene.box(*timeline.focused)
    assert timeline.scene.gutter <= box.x <= timeline.scene.width


# ---------------------------------------------------------------- assistive technology


def test_the_focused_bar_is_spoken(timeline: Timeline) -> None:
    timeline.select("gratin.bake")
    assert timeline.accessibleName() == "Timeline, Potato gratin: Bake on the upper rack"
    state = timeline.accessibleDescription()
    for part in ("17:20–18:35", "1 h 15 min", "Oven", "160 °C", "with touches", "Ann", "clashes"):
        assert part in state, part


def test_a_reader_finds_the_bars_as_a_list(timeline: Timeline) -> None:
    from PySide6.QtGui import QAccessible

    whole = QAccessible.queryAccessibleInterface(timeline)
    assert whole.role() == QAccessible.Role.List
    assert whole.childCount() == len(timeline.bar_rects())
    first = whole.child(0)
    assert first.role() == QAccessible.Role.ListItem
    assert first.text(QAccessible.Text.Name) == "Roast pork: Roast to 60 °C"
    assert whole.indexOfChild(first) == 0
    timeline.select("gratin.bake")
    assert whole.focusChild().text(QAccessible.Text.Name) == "Potato gratin: Bake on the upper rack"
    corner = whole.focusChild().rect().center()
    assert whole.childAt(corner.x(), corner.y()).text(QAccessible.Text.Name) == "Potato gratin: Bake on the upper rack"


def test_a_tip_tells_times_waits_and_clashes(timeline: Timeline) -> None:
    from app.timeline.bar_card import card_of, lines_of
    from app.timeline.spoken import tip_of

    at, bar, _box = find(timeline, "gratin.bake")
    lane = next(each for each in timeline.scene.lanes if each.id == at)
    lines = lines_of(card_of(timeline.scene, bar, lane))
    assert lines == [
        "Potato gratin: Bake on the upper rack",
        "when: Sat 26 Sept 17:20–18:35 (1 h 15 min)",
        "where: Oven, 160 °C, cooks by itself, with touches, Ann, Ben",
        "waits for: Potato gratin: Peel and slice, 17:20",
        "then: waits until 19:30",
        "then: should not wait past 19:15",
        "The gratin waits 55 min, 15 min too long.",
    ]
    tip = tip_of(timeline.scene, bar, lane)
    assert all(line.split(": ", 1)[-1] in tip for line in lines)


def test_twelve_hours_where_the_locale_has_them(timeline: Timeline) -> None:
    from PySide6.QtCore import QLocale

    QLocale.setDefault(QLocale(QLocale.Language.English, QLocale.Country.UnitedStates))
    texts = [text.replace("\u202f", " ") for text in timeline.drawn_texts()]
    assert "plating 7:30 PM" in texts


def test_dragging_by_real_moves_of_the_mouse_needs_no_more_than_the_mouse(timeline: Timeline, qtbot) -> None:
    with qtbot.waitSignal(timeline.step_dropped) as dropped:
        drag(timeline, middle(timeline, "beans.cook"), QPoint(round(-15 * timeline.scene.axis.ppm), 0))
    assert dropped.args == ["beans.cook", 0, -40, None]
