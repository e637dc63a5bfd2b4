"""What a person does to the timeline: drags, turns the wheel, presses keys; and a thinker that can be watched."""

from __future__ import annotations

from PySide6.QtCore import QCoreApplication, QPoint, QPointF, Qt
from PySide6.QtGui import QWheelEvent
from PySide6.QtTest import QTest

from app.timeline import Timeline
from app.timeline.bars import Bar, BarKind
from app.timeline.geometry import Box
from core.timetable.timetable import Timetable
from tests.app.timeline.feast import the_plan


class Told:
    """Stands in for the core while a step is dragged, and remembers what was asked."""

    def __init__(self, legal=(-200, -100), pushed=None, clashes=(), timetable=None) -> None:
        self.legal, self.moves, self.found = legal, pushed or {}, clashes
        self.timetable = timetable or Timetable()
        self.asked: list[tuple] = []

    def legal_stretch(self, key):
        self.asked.append(("legal", key))
        return self.legal

    def pushed(self, key, start):
        self.asked.append(("pushed", key, start))
        return {**self.moves, key: start}

    def timetable_if(self, key, start, station=None):
        return self.timetable

    def clashes_if(self, key, start, station=None):
        self.asked.append(("clashes", key, start, station))
        return self.found

    def legal_shift(self, keys):
        return self.legal

    def pushed_by(self, wish):
        return {**self.moves, **wish.starts}

    def timetable_by(self, wish):
        return self.timetable

    def place_by(self, wish, station):
        return the_plan(), self.timetable

    def warm(self):
        return False

    def clashes_by(self, wish):
        return self.found


def find(timeline: Timeline, step: str, kind: BarKind = BarKind.STEP) -> tuple[str, Bar, Box]:
    return next(each for each in timeline.bar_rects() if each[1].step == step and each[1].kind is kind)


def middle(timeline: Timeline, step: str, kind: BarKind = BarKind.STEP) -> QPoint:
    box = find(timeline, step, kind)[2]
    return QPoint(round(box.x + box.w / 2), round(box.y + box.h / 2))


def drag(timeline: Timeline, start: QPoint, by: QPoint, keys=Qt.KeyboardModifier.NoModifier, release=True) -> None:
    viewport = timeline.viewport()
    QTest.mousePress(viewport, Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier, start)
    for part in (0.3, 0.7, 1.0):
        _move(viewport, start + QPoint(round(by.x() * part), round(by.y() * part)), keys)
    if release:
        QTest.mouseRelease(viewport, Qt.MouseButton.LeftButton, keys, start + by)


def _move(viewport, point: QPoint, keys) -> None:
    from PySide6.QtCore import QEvent
    from PySide6.QtGui import QMouseEvent

    if keys is Qt.KeyboardModifier.NoModifier:
        QTest.mouseMove(viewport, point)
        return
    # QTest moves the mouse without keys held
    event = QMouseEvent(
        QEvent.Type.MouseMove,
        QPointF(point),
        QPointF(viewport.mapToGlobal(point)),
        Qt.MouseButton.NoButton,
        Qt.MouseButton.LeftButton,
        keys,
    )
    QCoreApplication.sendEvent(viewport, event)


def wheel(timeline: Timeline, point: QPoint, turn: QPoint, keys=Qt.KeyboardModifier.NoModifier) -> None:
    viewport = timeline.viewport()
    event = QWheelEvent(
        QPointF(point),
        QPointF(viewport.mapToGlobal(point)),
        QPoint(),
        turn,
        Qt.MouseButton.NoButton,
        keys,
        Qt.ScrollPhase.NoScrollPhase,
        False,
    )
    QCoreApplication.sendEvent(viewport, event)


def press(timeline: Timeline, key: Qt.Key, keys=Qt.KeyboardModifier.NoModifier) -> None:
    QTest.keyClick(timeline, key, keys)
