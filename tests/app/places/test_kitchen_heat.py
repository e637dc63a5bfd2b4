"""An oven's dial, its inside and how it heats up: typed, read from a curve by keys, and drawn with the mouse."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from itertools import pairwise
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as some
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from app.bridge import PlanPlace
from app.places.kitchen.heat_points import moved_point, with_point, without_point
from app.places.kitchen.station_card import StationCard
from app.places.kitchen.typed_sizes import read_inside, read_offset, show_inside, show_offset
from app.places.window import Window
from core.measures.refusal import Refusal
from core.plan.ids import StationId
from core.plan.kitchen import Heater
from tests.support.builders import a_kitchen, a_plan
from tests.support.windows import a_window

OVEN = StationId("oven")
MEASURED = ((160, 10), (230, 25))


@pytest.fixture
def window(qtbot, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Window]:
    kitchen = a_kitchen()
    stations = tuple(
        replace(each, heater=Heater(from_cold=MEASURED)) if each.id == OVEN else each
        for each in kitchen.stations
    )
    with a_window(qtbot, tmp_path, monkeypatch) as made:
        made.open_place(PlanPlace.fresh(a_plan(kitchen=replace(kitchen, stations=stations))), "kitchen")
        made.activateWindow()
        qtbot.waitUntil(lambda: QApplication.activeWindow() is made)
        yield made


def card(window: Window) -> StationCard:
    return window.places.kitchen.stations.cards[OVEN]


def heater(window: Window) -> Heater:
    found = window.opened.plan.kitchen.station[OVEN].heater
    assert found is not None
    return found


def write(field, text: str) -> None:
    """Type over what stands in a field and go on."""
    field.setFocus()
    field.selectAll()
    QTest.keyClick(field, Qt.Key.Key_Delete)
    QTest.keyClicks(field, text)
    QTest.keyClick(field, Qt.Key.Key_Tab)


def undo(window: Window) -> None:
    """Press the keys of undo where the cursor is."""
    QTest.keyClick(QApplication.focusWidget() or window, Qt.Key.Key_Z, Qt.KeyboardModifier.ControlModifier)


# ---------------------------------------------------------------- the dial


def test_an_oven_that_runs_hot_says_what_the_dial_must_say(window: Window) -> None:
    cell = card(window).form.cells["offset"]
    assert not cell.hint.isVisible()
    write(cell.field, "runs 10 C hot")
    assert heater(window).offset == 10
    assert cell.field.text() == "10 °C hot"
    assert cell.hint.isVisible()
    assert "180 °C set the dial to 170" in cell.hint.text()
    card(window).curve.read_at(200)
    assert "dial at 190" in card(window).reading.text()
    write(cell.field, "15 cold")
    assert heater(window).offset == -15
    assert "set the dial to 195" in cell.hint.text()
    undo(window)
    assert heater(window).offset == 10
    assert cell.field.text() == "10 °C hot"


def test_a_difference_without_a_direction_is_asked_for_beside_the_field(window: Window) -> None:
    before = window.opened.plan
    cell = card(window).form.cells["offset"]
    write(cell.field, "10")
    assert cell.wrong.isVisible()
    assert "10 C hot, or 10 C cold" in cell.wrong.text()
    assert window.opened.plan is before
    write(cell.field, "")
    assert not cell.wrong.isVisible()


def test_no_dial_is_off_by_more_than_the_plan_bears(window: Window) -> None:
    cell = card(window).form.cells["offset"]
    write(cell.field, "90 C hot")
    assert cell.wrong.isVisible()
    assert "60" in cell.wrong.text()
    assert heater(window).offset == 0


@pytest.mark.parametrize(
    ("text", "degrees"),
    [
        ("", 0), ("true", 0), ("10 C hot", 10), ("10C hot", 10), ("10 °C too hot", 10), ("+10", 10), ("-15 C", -15),
        ("15 degrees colder", -15), ("18 F hot", 10), ("27 F cold", -15), ("runs about 5 hot", 5), ("−5 °C", -5),
    ],
)  # fmt: skip
def test_a_difference_is_read_as_cooks_say_it(text: str, degrees: int) -> None:
    assert read_offset(text) == degrees


@pytest.mark.parametrize("text", ["hot", "10 hotdogs", "-10 hot", "10", "1.2.3 hot", "ten hot"])
def test_what_is_no_difference_is_refused_by_name(text: str) -> None:
    with pytest.raises(Refusal, match=text.replace(".", r"\.")):
        read_offset(text)


@given(some.integers(-60, 60))
def test_a_difference_shown_is_read_back(degrees: int) -> None:
    assert read_offset(show_offset(degrees)) == degrees


# ---------------------------------------------------------------- the inside


@pytest.mark.parametrize(
    ("text", "size"),
    [
        ("46x38 cm", (46, 38)), ("46 x 38", (46, 38)), ("460x380 mm", (46, 38)), ("46 by 38cm", (46, 38)),
        ("18x15 in", (45, 38)), ("46.9x38.2 cm", (46, 38)), ("", (0, 0)),
    ],
)  # fmt: skip
def test_an_inside_is_read_and_never_made_larger(text: str, size: tuple[int, int]) -> None:
    """An inch is 2.54 cm (NIST Special Publication 811, appendix B.8); 45.72 x 38.1 cm hold 45 x 38."""
    assert read_inside(text) == size


def test_an_inside_is_typed_and_drawn_into_words(window: Window) -> None:
    cell = card(window).form.cells["inside"]
    write(cell.field, "46x38 cm")
    station = window.opened.plan.kitchen.station[OVEN]
    assert (station.wide, station.deep) == (46, 38)
    assert "46x38 cm inside" in card(window).picture.accessibleName()
    write(cell.field, "large")
    assert "46x38 cm" in cell.wrong.text()
    assert window.opened.plan.kitchen.station[OVEN] == station


@given(some.integers(1, 300), some.integers(1, 300))
def test_an_inside_shown_is_read_back(wide: int, deep: int) -> None:
    assert read_inside(show_inside((wide, deep))) == (wide, deep)


# ---------------------------------------------------------------- the curve


def test_the_curve_is_read_with_the_arrow_keys(window: Window) -> None:
    curve, reading = card(window).curve, card(window).reading
    curve.setFocus()
    curve.read_at(190)
    QTest.keyClick(curve, Qt.Key.Key_Right)
    # by hand: from 160 °C at 10 min to 230 °C at 25 min is 15 min for 70 degrees; 35 of them take 7.5
    assert reading.text() == "To 195 °C: 18 min from cold"
    QTest.keyClick(curve, Qt.Key.Key_Left, Qt.KeyboardModifier.ShiftModifier)
    assert curve.setting == 194
    QTest.keyClick(curve, Qt.Key.Key_Home)
    assert curve.setting == heater(window).lowest
    QTest.keyClick(curve, Qt.Key.Key_End)
    QTest.keyClick(curve, Qt.Key.Key_Up)
    assert curve.setting == heater(window).highest
    # past the last point by its slope: 20 degrees more take 20 * 15/70 = 4.3 min
    assert reading.text() == "To 250 °C: 30 min from cold"


def test_tab_comes_to_the_curve(window: Window) -> None:
    place, curve = window.places.kitchen, card(window).curve
    place.stations.add_button.setFocus()
    for _press in range(4):
        if QApplication.focusWidget() is curve:
            break
        QTest.keyClick(QApplication.focusWidget(), Qt.Key.Key_Tab)
    assert QApplication.focusWidget() is curve


def at(curve, point: tuple[int, int]) -> QPoint:
    return curve.plot.at(point).toPoint()


def test_a_point_is_drawn_with_the_mouse_as_one_step(window: Window) -> None:
    curve = card(window).curve
    here, there = at(curve, MEASURED[0]), at(curve, (160, 16))
    QTest.mousePress(curve, Qt.MouseButton.LeftButton, pos=here)
    for x in range(here.x(), there.x() + 1):
        QTest.mouseMove(curve, QPoint(x, here.y()))
    assert heater(window).from_cold == MEASURED, "nothing is taken while it is held"
    QTest.mouseRelease(curve, Qt.MouseButton.LeftButton, pos=there)
    (celsius, minutes), last = heater(window).from_cold
    assert abs(celsius - 160) <= 4
    assert abs(minutes - 16) <= 1
    assert last == MEASURED[1]
    assert f"{celsius} °C in {minutes} min" in card(window).form.field("from_cold").shown_text()
    undo(window)
    assert heater(window).from_cold == MEASURED


def test_escape_lets_a_point_go(window: Window) -> None:
    curve = card(window).curve
    before = window.opened.plan
    QTest.mousePress(curve, Qt.MouseButton.LeftButton, pos=at(curve, MEASURED[0]))
    QTest.mouseMove(curve, at(curve, (120, 20)))
    QTest.keyClick(curve, Qt.Key.Key_Escape)
    QTest.mouseRelease(curve, Qt.MouseButton.LeftButton, pos=at(curve, (120, 20)))
    assert window.opened.plan is before


def test_a_double_click_puts_a_point_and_takes_it(window: Window) -> None:
    curve = card(window).curve
    QTest.mouseDClick(curve, Qt.MouseButton.LeftButton, pos=at(curve, (200, 19)))
    points = heater(window).from_cold
    assert len(points) == 3
    assert points[0] == MEASURED[0]
    assert points[2] == MEASURED[1]
    assert 190 <= points[1][0] <= 210
    QTest.mouseDClick(curve, Qt.MouseButton.LeftButton, pos=at(curve, points[1]))
    assert heater(window).from_cold == MEASURED


def test_any_number_of_points_is_typed(window: Window) -> None:
    cell = card(window).form.cells["from_cold"]
    write(cell.field, "100 C in 4 min; 160 C in 10 min; 200 C in 17 min; 230 C in 25 min")
    assert heater(window).from_cold == ((100, 4), (160, 10), (200, 17), (230, 25))
    write(cell.field, "160 C after a while")
    assert cell.wrong.isVisible()
    assert len(heater(window).from_cold) == 4


def test_what_needs_no_heating_up_has_no_curve(window: Window) -> None:
    assert card(window).curve.isVisible()
    write(card(window).form.field("from_cold"), "")
    assert heater(window).from_cold == ()
    assert not card(window).curve.isVisible()
    assert not card(window).reading.isVisible()


points = some.lists(some.tuples(some.integers(21, 300), some.integers(0, 90)), min_size=1, max_size=5).map(
    lambda found: tuple(
        zip(sorted({each[0] for each in found}), sorted(each[1] for each in found), strict=False)
    )
)


def rises(heater: Heater) -> bool:
    """Tell what the plan asks of points: hotter and hotter, never sooner."""
    whole = ((heater.cold, 0), *heater.from_cold)
    return all(one[0] < other[0] and one[1] <= other[1] for one, other in pairwise(whole))


@given(points, some.integers(0, 4), some.tuples(some.integers(-400, 900), some.integers(-400, 900)))
def test_a_point_goes_as_near_as_its_neighbours_let_it(
    points: tuple[tuple[int, int], ...], number: int, wanted: tuple[int, int]
) -> None:
    before = Heater(highest=300, from_cold=points)
    number %= len(points)
    moved = moved_point(before, number, wanted)
    assert rises(moved)
    others = [each for at, each in enumerate(moved.from_cold) if at != number]
    assert others == [each for at, each in enumerate(points) if at != number]
    as_wanted = replace(before, from_cold=(*points[:number], wanted, *points[number + 1 :]))
    if rises(as_wanted) and wanted[0] <= 300:
        assert moved == as_wanted


@given(points, some.integers(0, 300), some.integers(0, 4))
def test_points_put_and_taken_still_rise(
    points: tuple[tuple[int, int], ...], celsius: int, number: int
) -> None:
    before = Heater(highest=300, from_cold=points)
    assert rises(with_point(before, celsius))
    number %= len(points)
    after = without_point(before, number)
    assert rises(after)
    assert len(after.from_cold) == max(1, len(points) - 1)
