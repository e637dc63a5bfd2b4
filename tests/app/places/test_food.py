"""Food limits in the window, with real mouse and keys, on a day with ten planted faults."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtGui import QColor, QImage
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLabel

from app.bridge import PlanPlace
from app.look import apply
from app.look.colours import PALETTES, contrast, palette_named
from app.places.food.page import FoodPage
from app.places.food.reading_entry import read_when
from app.places.food.readings import read_celsius
from app.places.food.watching import watch_of
from app.places.timeline_place import TimelinePlace
from app.places.window import Window
from app.timeline import spoken
from app.timeline.bar_card import card_of, html_of, lines_of
from app.timeline.bars import BarKind
from app.timeline.food_colours import food_colour, on_food
from app.timeline.paint_food import food_icon
from core.desk import Aim
from core.measures.refusal import Refusal
from core.plan.food import FoodKind
from core.plan.menu import Guest
from core.plan.plan import Plan
from core.plan.step import Doneness
from core.safety import DEFER, food_report
from core.timetable.timetable import Timetable
from resources import shipped
from tests.core.safety.planted import at, dish, food, plan_of
from tests.core.safety.test_ten_faults import a_day
from tests.support.builders import a_use, hands_off
from tests.support.windows import a_window

LONG = 20_000
LEFT = Qt.MouseButton.LeftButton
OVEN = (a_use("oven", heat=180),)


@pytest.fixture
def window(qtbot, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Window]:
    with a_window(qtbot, tmp_path, monkeypatch) as made:
        yield made


@pytest.fixture
def shown(window: Window, qtbot) -> Callable[[Plan, Timetable], TimelinePlace]:
    def show(plan: Plan, timetable: Timetable) -> TimelinePlace:
        window.open_place(PlanPlace.fresh(plan))
        window.opened.show(timetable, "Set")
        place = window.places.timeline
        qtbot.waitUntil(lambda: place.food.watch.current, timeout=LONG)
        return place

    return show


@pytest.fixture
def faulty(shown) -> TimelinePlace:
    return shown(*a_day())


def medium() -> tuple[Plan, Timetable]:
    """Return turkey to 70 °C, over the limit with a way out, and lamb to 60 °C, a caution: nothing else."""
    plan = plan_of(
        dish("turkey", food("turkey", FoodKind.POULTRY), hands_off("turkey.roast", 100, uses=(a_use("grill"),))),
        dish("lamb", food("leg of lamb", FoodKind.WHOLE_CUT), hands_off("lamb.roast", 60, uses=OVEN)),
    )
    done = {"turkey": Doneness(core=70, rest=20), "lamb": Doneness(core=55, rest=20)}
    dishes = tuple(
        replace(each, steps=(replace(each.steps[0], doneness=done[each.id]),)) for each in plan.menu.dishes
    )
    plan = replace(plan, menu=replace(plan.menu, dishes=dishes))
    return plan, Timetable((at("turkey.roast", -110, 100, "grill"), at("lamb.roast", -70, 60, "oven", 180)))


def words_in(widget) -> str:
    return "\n".join(each.text() for each in widget.findChildren(QLabel) if each.isVisible())


def row_of(place: TimelinePlace, text: str) -> int:
    there = place.clash_list.list
    return next(row for row in range(there.count()) if text in there.item(row).text())


def choose(place: TimelinePlace, text: str) -> None:
    there = place.clash_list.list
    item = there.item(row_of(place, text))
    there.scrollToItem(item)
    QTest.mouseClick(there.viewport(), LEFT, pos=there.visualItemRect(item).center())


def bar_of(place: TimelinePlace, step: str):
    scene = place.timeline.scene
    return next(
        (at, bar)
        for at, lane in enumerate(scene.lanes)
        for bar in lane.bars
        if bar.step == step and bar.kind is BarKind.STEP
    )


def open_page(place: TimelinePlace, text: str) -> FoodPage:
    choose(place, text)
    QTest.mouseClick(place.food.details.story, LEFT)
    page = place.food.door.page
    assert page is not None
    assert page.isVisible()
    return page


# ---- in the list and on the strip


def test_limits_stand_among_the_clashes_by_time_with_their_own_sign(window: Window, faulty) -> None:
    there = faulty.clash_list.list
    clashes = len(window.opened.clashes)
    assert there.count() == clashes + 10
    assert faulty.clash_list.heading.text() == f"{clashes} clashes, 10 food limits"
    assert window.strip.state.text() == f"{clashes} clashes, 10 food limits"
    assert window.strip.sign.isVisible()
    assert "food limit" in there.item(0).text()
    assert "kept raw for 3 days" in there.item(0).text()
    assert row_of(faulty, "Turkey (Turkey)") > row_of(faulty, "Cod (Fish)")
    assert not any("(USDA" in there.item(row).text() for row in range(there.count()))


def test_with_no_clash_the_strip_says_both_and_tells_the_levels_apart(window: Window, shown) -> None:
    place = shown(*medium())
    report = place.food.watch.report
    assert [each.level.name for each in report.findings] == ["OVER", "CAUTION"]
    assert "1 food limit, 1 food caution" in window.strip.state.text()
    assert "food limit\n" in place.clash_list.list.item(row_of(place, "Turkey")).text()
    assert "food caution\n" in place.clash_list.list.item(row_of(place, "Leg of lamb")).text()
    light = palette_named("light")
    over, less = (food_icon(light, each).pixmap(20, 20).toImage() for each in (True, False))
    assert over != less
    assert light.lane == less.pixelColor(less.width() // 4, less.height() // 2).name().upper(), "a caution is hollow"
    assert over.pixelColor(over.width() // 4, over.height() // 2).name() == food_colour(light).lower()


def test_a_day_that_misses_nothing_never_says_that_it_is_safe(window: Window, shown) -> None:
    plan = plan_of(dish("bread", food("flour", FoodKind.KEEPS), hands_off("bread.bake", 40, uses=OVEN)))
    place = shown(plan, Timetable((at("bread.bake", -40, 40, "oven", 180),)))
    assert place.food.watch.report.findings == ()
    assert "food" not in window.strip.state.text()
    assert not window.strip.sign.isVisible()
    QTest.mouseClick(place.food_line, LEFT)
    said = words_in(place.food.details)
    assert DEFER in said
    assert "nothing misses these limits" in said
    assert "safe" not in said.replace(DEFER, "").casefold().split()


@pytest.mark.parametrize("palette", PALETTES, ids=lambda each: each.name)
def test_the_sign_stands_out_in_every_theme(palette) -> None:
    least = 4.5 if "strong" in palette.name else 3.0
    for ground in (palette.lane, palette.ground, palette.panel):
        assert contrast(food_colour(palette), ground) >= least
    assert contrast(on_food(palette), food_colour(palette)) >= 4.5
    assert food_colour(palette) not in (palette.clash, palette.accent)


# ---- going there, details, ways out


def test_choosing_a_line_goes_there_and_shows_sentence_source_and_remark(faulty) -> None:
    choose(faulty, "Ham stock (Soup)")
    assert faulty.timeline.scene.selected == "soup.warm"
    low, high = faulty.timeline.scene.seen
    assert low < -20 < high
    details = faulty.food.details
    assert details.isVisible()
    said = words_in(details)
    source = details.finding.rule.source
    assert "is reheated to 60 °C, 13.9 °C below 73.9 °C (165 °F)" in said
    assert {source.publisher, source.document, source.section} <= {
        line.partition(": ")[2] for line in said.splitlines() if ": " in line
    }
    assert "read second-hand" in said
    assert DEFER in said
    QTest.mouseClick(details.close_button, LEFT)
    assert not details.isVisible()
    assert faulty.clash_list.list.hasFocus()


def test_by_keys_alone_from_f7_to_a_way_out_and_back(window: Window, shown, qtbot) -> None:
    place = shown(*medium())
    window.activateWindow()
    QTest.keyClick(place.timeline, Qt.Key.Key_F7)
    there = place.clash_list.list
    assert there.hasFocus()
    there.setCurrentRow(row_of(place, "Turkey") - 1 if row_of(place, "Turkey") else 0)
    while "Turkey" not in there.currentItem().text() or "food limit" not in there.currentItem().text():
        QTest.keyClick(there, Qt.Key.Key_Down)
    QTest.keyClick(there, Qt.Key.Key_Return)
    details = place.food.details
    qtbot.waitUntil(lambda: len(details.offers) == 1, timeout=LONG)
    qtbot.wait(50)
    for _ in range(12):
        if details.offers[0].said.hasFocus():
            break
        QTest.keyClick(QApplication.focusWidget(), Qt.Key.Key_Tab)
    assert details.offers[0].said.hasFocus()
    QTest.keyClick(details.offers[0].said, Qt.Key.Key_Return)
    assert window.opened.plan.steps["turkey.roast"].doneness.core == 74


def test_a_way_with_an_edit_is_looked_at_taken_and_undone_in_one(window: Window, shown, qtbot) -> None:
    place = shown(*medium())
    before = window.opened.plan
    choose(place, "Turkey (Turkey)")
    details = place.food.details
    qtbot.waitUntil(lambda: len(details.offers) == 1, timeout=LONG)
    offer = details.offers[0]
    assert offer.look.words.startswith("Cook it to 74 °C")
    assert "This limit is then no longer missed" in offer.said.effect
    QTest.mouseClick(offer.said, LEFT)
    assert place.beside.look is offer.look
    assert place.look_line.isVisible()
    scene = place.timeline.scene
    assert scene.plan.steps["turkey.roast"].doneness.core == 74
    assert scene.food.level(bar_of(place, "turkey.roast")[1]) is None, "what is looked at is judged too"
    assert window.opened.plan is before
    QTest.mouseClick(offer.take, LEFT)
    assert window.opened.plan.steps["turkey.roast"].doneness.core == 74
    qtbot.waitUntil(lambda: place.food.watch.current, timeout=LONG)
    assert [each.dish for each in place.food.watch.report.findings] == ["lamb"]
    assert not details.isVisible()
    window.opened.undo()
    assert window.opened.plan.steps["turkey.roast"].doneness.core == 70
    qtbot.waitUntil(lambda: place.food.watch.current, timeout=LONG)
    assert len(place.food.watch.report.findings) == 2


def test_shallow_trays_are_offered_and_mend_the_cooling(window: Window, faulty, qtbot) -> None:
    choose(faulty, "Stewing beef (Stew)")
    details = faulty.food.details
    qtbot.waitUntil(lambda: len(details.offers) == 1, timeout=LONG)
    assert "shallow trays" in details.offers[0].look.words
    QTest.mouseClick(details.offers[0].take, LEFT)
    assert window.opened.plan.steps["stew.chill"].food.depth == 20
    assert "Ctrl+Z" in faulty.told.text()
    qtbot.waitUntil(lambda: faulty.food.watch.current, timeout=LONG)
    assert len(faulty.food.watch.report.findings) == 9


def test_plain_advice_has_no_button(faulty) -> None:
    choose(faulty, "Cod (Fish)")
    details = faulty.food.details
    assert details.offers == []
    assert "Thaw it in the fridge: start on" in words_in(details)


# ---- on the bars


def test_a_bar_bears_the_sign_and_card_and_speech_say_it(faulty) -> None:
    at_, bar = bar_of(faulty, "turkey.roast")
    scene = faulty.timeline.scene
    (mark,) = scene.food.on(bar)
    assert mark.over
    lane = scene.lanes[at_]
    lines = lines_of(card_of(scene, bar, lane))
    assert any("Food limit: Turkey (Turkey): your target is 70 °C" in each for each in lines)
    assert "Food limit: Turkey (Turkey)" in spoken.state_of(scene, bar, lane)
    assert food_colour(palette_named("light")) in html_of(card_of(scene, bar, lane), palette_named("light"))


def _coloured(image: QImage, box, colour: QColor) -> int:
    left, right = max(0, int(box.x)), min(image.width(), int(box.right) + 12)
    top, bottom = max(0, int(box.y) - 10), min(image.height(), int(box.bottom))
    return sum(image.pixelColor(x, y) == colour for x in range(left, right) for y in range(top, bottom))


@pytest.mark.parametrize("look", ["light", "dark", "light strong", "dark strong"])
def test_the_sign_is_painted_and_goes_with_the_limit(window: Window, shown, qtbot, look) -> None:
    place = shown(*medium())
    window.set_look(look)
    qtbot.waitUntil(lambda: place.timeline.kit.palette.name == look, timeout=LONG)
    colour = QColor(food_colour(palette_named(look)))
    place.timeline.fit_last_hours(2)

    def signs(step: str) -> int:
        image = place.timeline.viewport().grab().toImage()
        return _coloured(image, place.timeline.scene.box(*bar_of(place, step)), colour)

    over, less = signs("turkey.roast"), signs("lamb.roast")
    assert over > less > 10, "filled over a limit, an outline for a caution"
    place.food.leave_out()
    assert signs("turkey.roast") == 0
    apply(QApplication.instance(), "light")


def test_a_lane_of_many_bars_marks_limits_at_its_foot(faulty) -> None:
    faulty.timeline.set_folded(False)
    faulty.timeline.fit_all()
    image = faulty.timeline.viewport().grab().toImage()
    colour = QColor(food_colour(palette_named("light")))
    found = sum(image.pixelColor(x, y) == colour for x in range(image.width()) for y in range(image.height()))
    assert found > 20


# ---- worked out beside the interface


def test_nothing_is_worked_out_while_a_bar_is_held(window: Window, shown, qtbot) -> None:
    place = shown(*medium())
    timeline, told = place.timeline, []
    place.food.watch.told.connect(told.append)
    box = timeline.scene.box(*bar_of(place, "lamb.roast"))
    where = QPoint(round(box.x + min(box.w / 2, 30)), round(box.y + box.h / 2))
    QTest.mousePress(timeline.viewport(), LEFT, pos=where)
    QTest.mouseMove(timeline.viewport(), where + QPoint(-12, 0))
    QTest.mouseMove(timeline.viewport(), where + QPoint(-40, 0))
    assert timeline.scene.held is not None
    place.food.watch._last = None
    place.food.watch.ask()
    qtbot.wait(400)
    assert told == []
    QTest.mouseRelease(timeline.viewport(), LEFT, pos=where + QPoint(-40, 0))
    qtbot.waitUntil(lambda: bool(told), timeout=LONG)


def test_what_is_told_is_of_the_day_as_it_is(window: Window, faulty, qtbot) -> None:
    watch = faulty.food.watch
    window.opened.apply(_edit_of(watch.report, "turkey"), "test")
    assert not watch.current
    qtbot.waitUntil(lambda: watch.current, timeout=LONG)
    fresh = food_report(window.opened.plan, window.opened.timetable)
    assert watch.report.findings == fresh.findings


def _edit_of(report, dish_id: str):
    return next(way.edit for each in report.findings if each.dish == dish_id for way in each.ways if way.edit)


# ---- the page of one food


def test_the_plot_opens_from_a_limit_with_limits_places_and_a_table(faulty) -> None:
    page = open_page(faulty, "Stewing beef (Stew)")
    view = page.plot.view
    assert view.food.item == "stewing beef"
    names = {line.name for line in view.limits}
    assert {"cold holding", "hot holding", "core", "cooling: within 2 h"} <= names
    assert [each.when.split()[0] for each in page.table.lines] == ["Fri", "Fri"]
    assert "Fridge, cold" in page.table.lines[1].what
    assert page.table.item(0, 2).text().endswith("75 °C")
    assert [each.rule.id for each in view.findings] == ["cool"]
    assert "falls to 21 °C" in page.limits.text()
    assert DEFER in page.untold.text()
    assert "an estimate" in page.untold.text()


def test_keys_walk_and_zoom_and_what_is_met_is_spoken(faulty) -> None:
    page = open_page(faulty, "Stewing beef (Stew)")
    plot = page.plot
    assert plot.hasFocus()
    QTest.keyClick(plot, Qt.Key.Key_Home)
    assert plot.at == view_start(page)
    QTest.keyClick(plot, Qt.Key.Key_Right)
    assert "Fridge, cold" in page.met.text()
    assert plot.accessibleDescription() == page.met.text()
    whole = plot.shown
    QTest.keyClick(plot, Qt.Key.Key_Plus)
    assert plot.shown[1] - plot.shown[0] < whole[1] - whole[0]
    QTest.keyClick(plot, Qt.Key.Key_0)
    assert plot.shown == whole
    day = next(each for each in page.day_buttons if each.text().startswith("Sat"))
    QTest.mouseClick(day, LEFT)
    assert abs(plot.shown[1] - plot.shown[0] - 24 * 60) <= 2
    QTest.keyClick(plot, Qt.Key.Key_Escape)
    assert faulty.isVisible()
    assert not page.isVisible()


def view_start(page: FoodPage) -> int:
    return page.plot.view.story.stretches[0].start


def test_the_wheel_zooms_around_the_pointer_and_a_click_puts_the_cursor(faulty, qtbot) -> None:
    plot = open_page(faulty, "Stewing beef (Stew)").plot
    before = plot.sheet().time(300)
    plot.zoom(2.0, 300)
    assert abs(plot.sheet().time(300) - before) < 1
    QTest.mouseClick(plot, LEFT, pos=QPoint(300, 150))
    assert abs(plot.at - before) <= 2


def test_readings_are_typed_drawn_told_and_taken_away(faulty) -> None:
    page = open_page(faulty, "Stewing beef (Stew)")
    page.entry.when.setFocus()
    QTest.keyClicks(page.entry.when, "Fri 23:30")
    QTest.keyClick(page.entry.when, Qt.Key.Key_Return)
    QTest.keyClicks(page.entry.celsius, "48,5")
    QTest.keyClick(page.entry.celsius, Qt.Key.Key_Return)
    (line,) = [each for each in page.table.lines if each.reading is not None]
    read_at = faulty.timeline.scene.plan.wall(line.at)
    assert (line.celsius, f"{read_at:%a %H:%M}") == ("48.5 °C", "Fri 23:30")
    assert "read 48.5 °C" in page.met.text()
    assert "while the plan is open" in words_in(page.entry)
    QTest.keyClick(page.plot, Qt.Key.Key_Escape)
    assert [each.reading for each in open_page(faulty, "Stewing beef (Stew)").table.lines if each.reading] == [line.at]
    row = page.table.lines.index(line)
    QTest.mouseClick(page.table.viewport(), LEFT, pos=page.table.visualItemRect(page.table.item(row, 1)).center())
    QTest.mouseClick(page.entry.drop, LEFT)
    assert not [each for each in page.table.lines if each.reading is not None]


@pytest.mark.parametrize(
    ("when", "celsius", "says"),
    [("", "60", "No time is written"), ("Mon 12:00", "60", "no such day"), ("21:00", "hot", "no temperature")],
)
def test_a_bad_reading_is_refused_beside_the_field(faulty, when, celsius, says) -> None:
    page = open_page(faulty, "Stewing beef (Stew)")
    QTest.keyClicks(page.entry.when, when)
    QTest.keyClicks(page.entry.celsius, celsius)
    QTest.mouseClick(page.entry.keep, LEFT)
    assert says in page.entry.wrong.text()
    assert page.entry.wrong.isVisible()
    assert not [each for each in page.table.lines if each.reading is not None]


def test_celsius_and_fahrenheit_and_days_are_read() -> None:
    assert read_celsius("62.5 °C") == Fraction(125, 2)
    assert read_celsius("145 F") == Fraction(565, 9)
    assert read_celsius("-18") == -18
    with pytest.raises(Refusal):
        read_celsius("1000")
    plan, _timetable = a_day()
    assert read_when("Fri 20:00", plan, (-1440, 0), None) == 30 - 1440
    assert read_when("20:00", plan, (-1440, 0), -1400) == 30 - 1440
    assert read_when("19:00", plan, (-1440, 0), None) == -30


def test_from_a_dish_in_the_menu_f8_opens_it_and_escape_goes_back(window: Window, faulty) -> None:
    window.go("menu")
    window.places.menu.dishes.choose("mince")
    QTest.keyClick(window, Qt.Key.Key_F8)
    page = faulty.food.door.page
    assert page.isVisible()
    assert page.plot.view.food.item == "mince"
    page.dish.choose("soup")
    assert page.plot.view.food.item == "ham stock"
    QTest.keyClick(page.plot, Qt.Key.Key_Escape)
    assert window.stack.currentWidget() is window.places.menu


def test_where_nothing_can_be_judged_it_says_what_is_not_told_and_where_to_tell_it(window: Window, shown) -> None:
    plan = plan_of(dish("odd", food("zorb", None), hands_off("odd.warm", 20, uses=(a_use(),))))
    place = shown(plan, Timetable((at("odd.warm", -30, 20, "burner-1"),)))
    QTest.keyClick(window, Qt.Key.Key_F8)
    page = place.food.door.page
    assert page.plot.view.story is None
    assert "kind is not told" in page.untold.text()
    assert "at the ingredient" in page.untold.text()
    QTest.mouseClick(page.tell, LEFT)
    assert window.stack.currentWidget() is window.places.menu
    place.food.turn_all()
    assert "zorb" in words_in(place.food.details) or "zorb" in "".join(place.food.watch.report.untold)


# ---- the rules chosen


def test_the_rules_are_chosen_among_the_plans_facts_and_undone(window: Window, faulty, qtbot) -> None:
    window.go("menu")
    pick = window.places.menu.facts.form.field("rules")
    assert pick.isVisible()
    assert pick.currentText() == "US home cook"
    pick.choose("uk")
    assert window.opened.plan.decisions.rules == "uk"
    qtbot.waitUntil(lambda: faulty.food.watch.current, timeout=LONG)
    assert faulty.food.watch.report.rules.id == "uk"
    window.opened.undo()
    assert window.opened.plan.decisions.rules == ""
    qtbot.waitUntil(lambda: faulty.food.watch.current, timeout=LONG)
    assert faulty.food.watch.report.rules.id == "us-home"


def test_a_file_of_ones_own_is_taken_in_beside_the_plan(window: Window, faulty, qtbot, tmp_path: Path) -> None:
    text = shipped("rules", "us-home.toml").read_text(encoding="utf-8")
    mine = tmp_path / "mine.toml"
    mine.write_text(text.replace('"us-home"', '"mine"', 1).replace("US home cook", "My own", 1), encoding="utf-8")
    choice = window.places.menu.facts.rules
    choice.take_file(mine)
    assert window.opened.plan.decisions.rules == "mine"
    assert (watch_of(window.opened).folder / "mine.toml").exists()
    qtbot.waitUntil(lambda: faulty.food.watch.current, timeout=LONG)
    assert faulty.food.watch.report.rules.name == "My own"
    broken = tmp_path / "broken.toml"
    broken.write_text("id = 3", encoding="utf-8")
    choice.take_file(broken)
    assert "broken.toml" in window.banner.words.text()
    assert window.opened.plan.decisions.rules == "mine"


def test_rules_that_are_missing_are_said_and_nothing_is_judged(window: Window, shown, qtbot) -> None:
    plan, timetable = a_day()
    place = shown(replace(plan, decisions=replace(plan.decisions, rules="gone")), timetable)
    assert "not judged" in place.food_line.text()
    QTest.mouseClick(place.food_line, LEFT)
    assert "There are no food rules \"gone\"" in words_in(place.food.details)
    assert not window.strip.sign.isVisible()


def test_guests_at_higher_risk_change_what_is_shown_and_that_is_said(window: Window, shown) -> None:
    plan, timetable = medium()
    guests = (Guest("Ida", at_risk="pregnant"),)
    place = shown(replace(plan, menu=replace(plan.menu, guests=guests)), timetable)
    assert [each.level.name for each in place.food.watch.report.findings] == ["OVER", "OVER"]
    window.go("menu")
    assert "Ida" in window.places.menu.facts.form.cells["rules"].hint.text()
    window.go("timeline")
    place.food.turn_all()
    assert "Ida" in words_in(place.food.details)


# ---- while the day is arranged


def test_limits_of_the_old_day_are_not_shown_on_one_that_is_being_arranged(window: Window, shown, qtbot) -> None:
    place = shown(*medium())
    with qtbot.waitSignal(window.arranger.ended, timeout=60_000):
        place.ask(Aim.ARRANGE)
    qtbot.waitUntil(lambda: place.food.watch.current, timeout=LONG)
    fresh = food_report(window.opened.plan, window.opened.timetable)
    assert place.food.watch.report.findings == fresh.findings

