"""The timeline: what a move of the pointer, a turn of the wheel, a scroll and opening cost, at 1920 x 1080."""

from __future__ import annotations

import os
import time
from collections.abc import Callable, Iterator
from functools import partial
from random import Random

from bench.feasts import Feast
from bench.many_feasts import many
from bench.row import Row, share, show
from core.plan.ids import StepId
from core.timetable.clashes import clashes

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

from PySide6.QtCore import QCoreApplication, QEvent, QObject, QPoint, QPointF, Qt
from PySide6.QtGui import QMouseEvent, QWheelEvent
from PySide6.QtWidgets import QApplication

from app.timeline import Timeline

WIDE, HIGH = 1920, 1080
LOADS, MOVES = 24, 10
TURNS = 40
_REST = 1.0
TARGETS = {"a few": "8 ms", "many": "16 ms"}
OPENED = "1 s"
_NONE = Qt.KeyboardModifier.NoModifier
_CTRL = Qt.KeyboardModifier.ControlModifier
_SHIFT = Qt.KeyboardModifier.ShiftModifier

Spent = tuple[float, float]
"""Seconds of the clock, and those the process worked."""


def rows(_seconds: float) -> Iterator[Row]:
    """Measure with 301 steps, with 3,010 in ten kitchens, and with 3,010 one after the other in one kitchen."""
    application = QApplication.instance() or QApplication([])
    for words, one, target in (
        ("", many(43, 1), TARGETS["a few"]),
        (" in ten kitchens", many(43, 10), TARGETS["many"]),
        (" in one kitchen", many(43, 10, one_kitchen=True), TARGETS["many"]),
    ):
        yield from _of(one, one.size + words, target)
    application.processEvents()
    yield Row("a fixed loop, to compare with quieter times", "", show(min(_loop() for _ in range(9))))


def _loop() -> float:
    """Return the seconds of work that a loop takes which is always the same."""
    return _spent(lambda: sum(range(1_000_000)))[1]


def _of(one: Feast, size: str, target: str) -> Iterator[Row]:
    found = tuple(clashes(one.plan, one.planted))
    timeline = Timeline()
    timeline.resize(WIDE, HIGH)
    timeline.show()
    settle()
    opened = _spent(lambda: (timeline.set_plan(one.plan, one.planted, found), settle()))
    yield _row("opened and first painted", size, [opened], OPENED)
    for words, fit in (("all days", timeline.fit_all), ("the last two hours", timeline.fit_last_hours)):
        fit()
        settle()
        yield _row(f"painted whole, {words}: p95", size, [_spent(timeline.viewport().repaint) for _ in range(15)], "")
        yield _row(f"scrolled across, {words}: p95", size, _scrolled(timeline, across=True), target)
        yield _row(f"scrolled down, {words}: p95", size, _scrolled(timeline, across=False), target)
    timeline.fit_all()
    yield _row("zoomed in and out again: p95", size, _zoomed(timeline), target)
    timeline.fit_last_hours()
    yield _row("pointer moved over bars: p95", size, _hovered(timeline), target)
    yield _row("dragged, network, clashes, paint: p95", size, _dragged(timeline), target)
    timeline.close()
    timeline.deleteLater()
    settle()


def settle() -> None:
    """Paint what is to be painted."""
    QCoreApplication.processEvents()
    QCoreApplication.sendPostedEvents()


def _row(words: str, size: str, spent: list[Spent], target: str) -> Row:
    """Return a row of the 95th percentile; by processor time beside it, which is what counts on a busy machine."""
    clock, worked = sorted(each[0] for each in spent), sorted(each[1] for each in spent)
    by_work = share(worked, 95)
    figure = f"{show(share(clock, 95))} ({show(by_work)} work)"
    return Row(words, size, figure, target, remark=f"{show(by_work)} by processor time")


def _spent(work: Callable[[], object]) -> Spent:
    before, worked = time.perf_counter(), time.process_time()
    work()
    return time.perf_counter() - before, time.process_time() - worked


def _turned(timeline: Timeline, turn: QPoint, keys: Qt.KeyboardModifier = _NONE) -> Spent:
    viewport = timeline.viewport()
    at = QPointF(viewport.width() * 0.6, viewport.height() * 0.5)
    there = QPointF(viewport.mapToGlobal(at.toPoint()))
    none, phase = Qt.MouseButton.NoButton, Qt.ScrollPhase.NoScrollPhase
    event = QWheelEvent(at, there, QPoint(), turn, none, keys, phase, False)

    def turned() -> None:
        QCoreApplication.sendEvent(viewport, event)
        settle()

    return _spent(turned)


def _zoomed(timeline: Timeline) -> list[Spent]:
    return [_turned(timeline, QPoint(0, 60 if at < TURNS else -60), _CTRL) for at in range(2 * TURNS)]


def _scrolled(timeline: Timeline, *, across: bool) -> list[Spent]:
    keys = _SHIFT if across else _NONE
    return [_turned(timeline, QPoint(0, 60 if at < TURNS else -60), keys) for at in range(2 * TURNS)]


def _moved(timeline: Timeline, kind: QEvent.Type, point: QPointF, *, held: bool = False) -> None:
    viewport = timeline.viewport()
    button = Qt.MouseButton.NoButton if kind == QEvent.Type.MouseMove else Qt.MouseButton.LeftButton
    down = Qt.MouseButton.LeftButton if held else Qt.MouseButton.NoButton
    event = QMouseEvent(kind, point, QPointF(viewport.mapToGlobal(point.toPoint())), button, down, _NONE)
    QCoreApplication.sendEvent(viewport, event)


def _hovered(timeline: Timeline) -> list[Spent]:
    points = [QPointF(300 + 13 * at, 120 + (at * 37) % 800) for at in range(100)]
    return [_spent(partial(_hover, timeline, point)) for point in points]


def _hover(timeline: Timeline, point: QPointF) -> None:
    _moved(timeline, QEvent.Type.MouseMove, point)
    settle()


def _dragged(timeline: Timeline) -> list[Spent]:
    """Drag loads in sight by the mouse; each move counts until it is painted, its clashes too.

    Where nothing clashes is worked out once for a drag, in slices of 4 ms while the pointer rests: a rest is waited
    for, and what is not done by then goes on between the moves.
    """
    dragging = timeline.pointer.dragging
    dragging._think.setInterval(0)  # the pause before clashes are worked out is no work
    timeline.thinker  # made when the plan is shown  # noqa: B018
    loads = Random(1).sample(timeline.scene.timetable.placed, LOADS)  # noqa: S311  repeatable, not secret
    spent: list[Spent] = []
    for load in loads:
        at = _brought_in_sight(timeline, load.step)
        _moved(timeline, QEvent.Type.MouseButtonPress, at, held=True)
        settle()
        _moved(timeline, QEvent.Type.MouseMove, at + QPointF(9, 0), held=True)
        _until(dragging)
        until = time.perf_counter() + _REST
        while dragging.sweeping and time.perf_counter() < until:
            settle()
        points = [at + QPointF(9 + 14 * move, 0) for move in range(1, MOVES + 1)]
        spent += [_spent(partial(_drag_to, timeline, point, dragging)) for point in points]
        timeline.pointer.let_go()
        settle()
    return spent


def _drag_to(timeline: Timeline, point: QPointF, dragging: QObject) -> None:
    _moved(timeline, QEvent.Type.MouseMove, point, held=True)
    _until(dragging)


def _until(dragging: QObject) -> None:
    settle()
    while dragging.thinking:  # type: ignore[attr-defined]  # a Dragging
        settle()
    settle()


def _brought_in_sight(timeline: Timeline, step: StepId) -> QPointF:
    """Bring a step to the middle of the view; return a point on what is seen of its bar."""
    timeline.show_step(step)
    if timeline.focused is None:
        raise RuntimeError(f"{step} has no bar")
    lane, bar = timeline.focused
    scene, down = timeline.scene, timeline.verticalScrollBar()
    timeline.sight.keep((bar.start + bar.end) / 2, (scene.gutter + scene.width) / 2)
    down.setValue(round(scene.top + scene.box(lane, bar).y - scene.height / 2))
    settle()
    box = scene.box(lane, bar)
    left, right = max(box.x, scene.gutter), min(box.right, scene.width)
    return QPointF((left + right) / 2, box.y + box.h / 2)
