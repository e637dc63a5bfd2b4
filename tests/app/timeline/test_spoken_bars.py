"""Every kind of bar as a screen reader hears it, in all readings."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QAccessible, QFocusEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from app.timeline import Timeline
from app.timeline.bars import BarKind
from core.timetable.clash import Clash, ClashKind
from tests.app.timeline.decided import decided_plan
from tests.app.timeline.feast import the_timetable, waited_too_long

SHORT = Clash(
    ClashKind.WAIT_TOO_SHORT, "The pork rests 8 min, 22 min too short.", -70, -12, ("pork.roast", "pork.carve"), by=22
)


def told(timeline: Timeline) -> dict[tuple[str, str, str], tuple[str, str]]:
    """Return name and state of every bar by its lane, kind and step, as a reader gets them."""
    whole = QAccessible.queryAccessibleInterface(timeline)
    found = {}
    for number, (lane, bar, _box) in enumerate(timeline.bar_rects()):
        item = whole.child(number)
        assert whole.indexOfChild(item) == number
        assert item.role() == QAccessible.Role.ListItem
        key = (lane, bar.kind.value, bar.step or "")
        found.setdefault(key, (item.text(QAccessible.Text.Name), item.text(QAccessible.Text.Description)))
    assert whole.childCount() == len(timeline.bar_rects())
    return found


@pytest.fixture
def decided(timeline: Timeline) -> Timeline:
    timeline.set_plan(decided_plan(), the_timetable(), (waited_too_long(), SHORT))
    return timeline


@pytest.mark.parametrize("reading", ["station", "dish", "cook"])
def test_every_bar_has_a_name_and_says_when_and_how_long(decided: Timeline, reading: str) -> None:
    decided.set_reading(reading)
    found = told(decided)
    assert found
    scene = decided.scene
    for (lane, kind, step), (name, state) in found.items():
        assert name, (lane, kind, step)
        bar = next(
            bar for at, bar, _box in decided.bar_rects() if (at, bar.kind.value, bar.step or "") == (lane, kind, step)
        )
        assert f"{scene.plan.wall(bar.start):%H:%M}" in state, (name, state)
        assert " min" in state or " h" in state, (name, state)
        if step:
            assert scene.plan.dish_of[step].name in name, name


def test_in_the_reading_by_station_a_bar_says_all_that_is_to_be_known(decided: Timeline) -> None:
    found = told(decided)
    name, state = found["station:oven", "step", "gratin.bake"]
    assert name == "Potato gratin: Bake on the upper rack"
    for part in (
        "17:20–18:35",
        "1 h 15 min",
        "Oven",
        "160 °C",
        "with touches",
        "Ann, Ben",
        "slow length reserved",
        "waits until 19:30",
        "should not wait past 19:15",
        "The gratin waits 55 min, 15 min too long.",
    ):
        assert part in state, part
    _name, state = found["station:oven", "step", "pork.roast"]
    for part in ("pinned", "likely length reserved", "this way chosen", "waits until 19:18", "may wait until 19:20"):
        assert part in state, part
    assert "22 min too short" in state


@pytest.mark.parametrize("reading", ["dish", "cook"])
def test_waits_clashes_and_decisions_are_said_in_the_other_readings_too(decided: Timeline, reading: str) -> None:
    decided.set_reading(reading)
    states = [state for (_lane, _kind, step), (_name, state) in told(decided).items() if step == "gratin.bake"]
    assert any("15 min too long" in state for state in states) or reading == "cook"
    carved = [state for (_lane, _kind, step), (_name, state) in told(decided).items() if step == "beans.cook"]
    assert any("kept with Ann, at any time" in state for state in carved)
    assert any("waits until 19:30" in state for state in carved)


def test_food_in_the_fridge_says_until_when(decided: Timeline) -> None:
    name, state = told(decided)["station:fridge", "stay", "curd.set"]
    assert name.startswith("Lemon curd")
    assert "11:00" in state
    assert "19:30" in state
    _name, state = told(decided)["station:fridge", "step", "curd.set"]
    assert "waits until 19:30" in state, "also where the wait has a bar of its own"


def test_what_is_chosen_along_or_marked_is_said_and_selected(decided: Timeline) -> None:
    decided.select("pork.roast")
    QTest.keyClick(decided, Qt.Key.Key_J)
    QTest.keyClick(decided, Qt.Key.Key_Right, Qt.KeyboardModifier.ShiftModifier)
    whole = QAccessible.queryAccessibleInterface(decided)
    items: dict = {}
    for at in range(whole.childCount()):  # the first of a name is the step, later ones are its hands
        items.setdefault(whole.child(at).text(QAccessible.Text.Name), whole.child(at))
    roast, bake = items["Roast pork: Roast to 60 °C"], items["Potato gratin: Bake on the upper rack"]
    assert "chosen along" in roast.text(QAccessible.Text.Description)
    assert "marked" in roast.text(QAccessible.Text.Description)
    assert (roast.state().selected, roast.state().focused) == (1, 0)
    assert (bake.state().selected, bake.state().focused) == (1, 1)
    others = [item for item in items.values() if item not in (roast, bake)]
    assert not any(item.state().selected for item in others)


def test_the_list_goes_lane_by_lane_and_by_time_within_one(decided: Timeline) -> None:
    for reading in ("station", "dish", "cook"):
        decided.set_reading(reading)
        places = [(at, bar) for at, lane in enumerate(decided.scene.lanes) for bar in lane.bars if bar.told]
        assert places == sorted(places, key=lambda place: (place[0], place[1].start))
        assert [bar for _at, bar in places] == [bar for _lane, bar, _box in decided.bar_rects()]


def test_t_walks_through_the_whole_day_by_time_and_misses_nothing(decided: Timeline) -> None:
    QTest.keyClick(decided, Qt.Key.Key_Home)
    seen = [decided.focused]
    for _press in range(100):
        QTest.keyClick(decided, Qt.Key.Key_T)
        if decided.focused is seen[-1] or decided.focused == seen[-1]:
            break
        seen.append(decided.focused)
    assert len(seen) == len(decided.bar_rects())
    order = [(bar.start, lane, bar.row) for lane, bar in seen]
    assert order == sorted(order)


def test_coming_with_tab_the_first_bar_in_sight_is_spoken(decided: Timeline) -> None:
    decided.sight.fit(-60, 5, 0.0)
    decided.select(None)
    QApplication.sendEvent(decided, QFocusEvent(QFocusEvent.Type.FocusIn, Qt.FocusReason.TabFocusReason))
    low, _high = decided.scene.seen
    bar = decided.focused[1]
    assert bar.end > low
    height = decided.scene.height
    earlier = [each for _lane, each, box in decided.bar_rects() if each.end > low and box.bottom <= height]
    assert bar.start == min(each.start for each in earlier)
    assert decided.accessibleName().startswith("Timeline, ")
    decided.select("beans.cook")
    QApplication.sendEvent(decided, QFocusEvent(QFocusEvent.Type.FocusIn, Qt.FocusReason.TabFocusReason))
    assert decided.focused[1].step == "beans.cook", "what was chosen stays so"


def test_bars_of_hands_say_whose_and_what(decided: Timeline) -> None:
    found = told(decided)
    hands = {key: said for key, said in found.items() if key[1] == BarKind.HAND.value}
    assert hands
    assert all(key[0].startswith("cook:") for key in hands)
    name, state = found["cook:ben", "hand", "pork.carve"]
    assert name == "Roast pork: Carve"
    assert "19:18–19:28" in state
    assert "Ben" in state
