"""The menu of a bar: everything a drag can do, by single clicks."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtWidgets import QMenu

from app.look.words import word
from app.timeline.bars import Bar, BarKind, LaneKind
from app.timeline.drag import named_for, takes

if TYPE_CHECKING:
    from app.timeline.timeline import Timeline


def bar_menu(timeline: Timeline, lane: int, bar: Bar) -> QMenu:
    """Return the menu of a bar; the caller shows it."""
    menu = QMenu(timeline)
    menu.setObjectName("bar menu")
    scene = timeline.scene
    placed = scene.timetable.at.get(bar.key) if bar.key is not None else None
    if bar.step is None or placed is None:
        return menu
    step, load, start = bar.step, bar.load, placed.start
    menu.addAction(word("open")).triggered.connect(lambda: timeline.step_opened.emit(step))
    menu.addSeparator()
    menu.addAction(word("earlier")).triggered.connect(
        lambda: timeline.step_dropped.emit(step, load, start - 5, None)
    )
    menu.addAction(word("later")).triggered.connect(
        lambda: timeline.step_dropped.emit(step, load, start + 5, None)
    )
    own = scene.lanes[lane]
    if own.kind is LaneKind.STATION and bar.kind is BarKind.STEP:
        named = named_for(scene, bar)
        others = [each for each in scene.lanes if each is not own and takes(own, each, bar, named)]
        if others:
            move = menu.addMenu(word("move to"))
            for other in others:
                _add_move(timeline, move, other.name, (step, load, start, other.station))
    menu.addSeparator()
    if placed.key in scene.plan.pins:
        menu.addAction(word("unpin")).triggered.connect(lambda: timeline.pin_lifted.emit(step, load))
    else:
        menu.addAction(word("pin")).triggered.connect(
            lambda: timeline.step_dropped.emit(step, load, start, None)
        )
    return menu


def _add_move(timeline: Timeline, menu: QMenu, name: str, where: tuple) -> None:
    step, load, start, station = where
    menu.addAction(name).triggered.connect(
        lambda: timeline.step_dropped.emit(step, load, start, station.id)
    )
