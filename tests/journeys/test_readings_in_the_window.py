"""The same day read by station, by dish and by cook: by mouse and by key, remembered; a lane folded and opened."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from app.look import apply
from app.places.settings import Settings
from app.places.timeline_place import TimelinePlace
from app.places.window import Window
from app.timeline.bars import BarKind, LaneKind
from app.timeline.glide_motion import MotionSetting


@pytest.fixture
def windows(qtbot, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Callable[[int, int], Window]]:
    monkeypatch.setenv("XDG_DOCUMENTS_DIR", str(tmp_path / "documents"))
    app = QApplication.instance()
    assert isinstance(app, QApplication)
    apply(app, "light")
    opened: list[Window] = []

    def made(width: int, height: int) -> Window:
        window = Window(Settings())
        window.resize(width, height)
        qtbot.addWidget(window)
        with qtbot.waitExposed(window):
            window.show()
        QTest.mouseClick(window.welcome.demo_button, Qt.MouseButton.LeftButton)
        opened.append(window)
        return window

    yield made
    for window in opened:
        window.close()


def kinds(place: TimelinePlace) -> set[LaneKind]:
    return {lane.kind for lane in place.timeline.scene.lanes}


@pytest.mark.parametrize(("width", "height"), [(1280, 720), (1920, 1080)])
def test_three_buttons_and_one_key_choose_the_reading(windows, width: int, height: int) -> None:
    place = windows(width, height).places.timeline
    timeline, buttons = place.timeline, place.reading.buttons
    assert [button.text() for button in buttons.values()] == ["Stations", "Dishes", "Cooks"]
    for reading, kind in (("dish", LaneKind.DISH), ("cook", LaneKind.COOK)):
        QTest.mouseClick(buttons[reading], Qt.MouseButton.LeftButton)
        assert kinds(place) == {kind}
        assert [known for known, button in buttons.items() if button.isChecked()] == [reading]
        assert buttons[reading].height() >= 24
    assert {bar.kind for lane in timeline.scene.lanes for bar in lane.bars} >= {BarKind.HAND}
    timeline.setFocus()
    for reading in ("station", "dish", "cook"):
        QTest.keyClick(timeline, Qt.Key.Key_R)
        assert timeline.reading == reading
        assert buttons[reading].isChecked()
    assert LaneKind.VESSEL not in kinds(place)


def test_the_reading_is_remembered_for_the_next_time(windows) -> None:
    first = windows(1280, 720)
    QTest.mouseClick(first.places.timeline.reading.buttons["cook"], Qt.MouseButton.LeftButton)
    first.close()
    again = windows(1280, 720).places.timeline
    assert again.timeline.reading == "cook"
    assert again.reading.buttons["cook"].isChecked()
    assert kinds(again) == {LaneKind.COOK}


def test_vessels_begin_as_lines_and_one_is_opened_by_its_name(windows) -> None:
    place = windows(1280, 720).places.timeline
    timeline = place.timeline
    vessels = [at for at, lane in enumerate(timeline.scene.lanes) if lane.kind is LaneKind.VESSEL]
    assert len(vessels) > 3
    assert all(timeline.scene.lanes[at].line for at in vessels)
    at, scene = vessels[0], timeline.scene
    timeline.verticalScrollBar().setValue(round(scene.layout.tops[at]) - 100)
    point = QPoint(40, round(scene.y(scene.layout.tops[at]) + 4))
    assert scene.ruler < point.y() < scene.height
    QTest.mouseClick(timeline.viewport(), Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier, point)
    assert not timeline.scene.lanes[at].line
    bar = next(bar for bar in timeline.scene.lanes[at].bars if bar.kind is BarKind.VESSEL)
    timeline.focus_on(at, bar)
    timeline.setFocus()
    QTest.keyClick(timeline, Qt.Key.Key_L)
    assert timeline.scene.lanes[at].line
    assert timeline.focused == (at, bar)


def test_what_is_chosen_stays_chosen_through_the_readings(windows) -> None:
    timeline = windows(1280, 720).places.timeline.timeline
    timeline.setFocus()
    QTest.keyClick(timeline, Qt.Key.Key_Home)
    step = timeline.scene.selected
    assert step is not None
    for _reading in range(3):
        QTest.keyClick(timeline, Qt.Key.Key_R)
        assert timeline.scene.selected == step


def test_the_cook_says_whether_bars_glide(windows) -> None:
    window = windows(1280, 720)
    for name, motion in (("move_less", "less"), ("move_full", "full"), ("move_as_system", "system")):
        window.actions_by_name[name].trigger()
        assert MotionSetting().motion == motion
