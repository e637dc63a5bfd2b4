"""Drawing a bar's end with the pointer: how long a step takes; what follows is pushed."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, QPointF, QRectF, Qt, QTimer
from PySide6.QtGui import QRegion

from app.timeline import spoken
from app.timeline.bars import Bar
from app.timeline.drag import REACH, phase, snapped
from app.timeline.drag_length import Sizes, edit_for, note_for, wish_for
from app.timeline.drag_wish import Done, Wish
from app.timeline.paint_held import held_area
from app.timeline.pointer_grip import far
from app.timeline.scene import Held

if TYPE_CHECKING:
    from app.timeline.timeline import Timeline

_PAUSE = 12
"""Milliseconds after the last move before clashes are worked out."""


class Stretching(QObject):
    """Draws the end of one bar of a timeline."""

    def __init__(self, timeline: Timeline) -> None:
        super().__init__(timeline)
        self._timeline = timeline
        self._held: Held | None = None
        self._sizes: Sizes | None = None
        self._press = QPointF()
        self._grip = 0.0
        self._active = False
        self._painted: list[QRectF] = []
        self._think = QTimer(self)
        self._think.setSingleShot(True)
        self._think.setInterval(_PAUSE)
        self._think.timeout.connect(self._find_clashes)

    @property
    def active(self) -> bool:
        """Tell whether an end is being drawn."""
        return self._active

    def press(self, lane: int, bar: Bar, point: QPointF) -> None:
        """Take hold of a bar's end."""
        scene = self._timeline.scene
        placed = scene.timetable.at.get(bar.key) if bar.key is not None else None
        if placed is None:
            return
        self._sizes = Sizes.of(scene.plan, placed)
        self._held = Held(bar, lane, bar.start, bar.end - bar.start, lane)
        self._held.spread = (self._sizes.shown(self._sizes.low), self._sizes.shown(self._sizes.high))
        self._press, self._grip = point, scene.time(point.x()) - bar.end

    def move(self, point: QPointF, fine: bool, _other: bool = False) -> bool:
        """Follow the pointer; tell whether an end is being drawn."""
        held, sizes, scene = self._held, self._sizes, self._timeline.scene
        if held is None or sizes is None:
            return False
        if not self._active:
            if not far(self._press, point):
                return False
            self._active = True
            self._timeline.viewport().setCursor(Qt.CursorShape.SizeHorCursor)
            self._timeline.viewport().update()
        wanted = scene.time(point.x()) - self._grip
        near = scene.layout.between(held.lane, wanted - 60, wanted + 60)
        ends = [bar.start for bar in near if bar.step != held.bar.step and bar.start > held.start]
        end = snapped(wanted, 0, fine, ends, REACH / scene.axis.ppm, phase(scene))
        minutes = sizes.minutes_for(max(1, end - held.start))
        length = sizes.shown(minutes)
        scene.held = held
        if length != held.length or not held.pushed:
            held.length, held.asks, held.note = length, sizes.asks(minutes), note_for(sizes, minutes)
            wish = self._wish()
            held.pushed = self._timeline.thinker.pushed_by(wish) if wish is not None else {}
            if not self._think.isActive():
                self._think.start()
        self._repaint()
        return True

    def drop(self) -> bool:
        """Let the step take as long as is drawn; tell whether an end was drawn."""
        held, was, wish = self._held, self._active, self._wish()
        self._end()
        if held is None:
            return False
        scene = self._timeline.scene
        if was and wish is not None and held.length != held.bar.end - held.bar.start and held.bar.key is not None:
            edit = edit_for(scene.plan, scene.timetable.at[held.bar.key], held.length)
            spoken.say(self._timeline, f"{edit.label_in(scene.plan)}. {held.note}".strip())
            self._timeline.edit_wanted.emit(Done(edit, self._timeline.thinker.timetable_by(wish)))
        return was

    def cancel(self) -> bool:
        """Let go with nothing changed; tell whether there was anything to let go of."""
        was = self._held is not None
        self._end()
        return was

    def _wish(self) -> Wish | None:
        held, scene = self._held, self._timeline.scene
        if held is None or held.bar.key is None:
            return None
        return wish_for(scene.plan, scene.timetable, held.bar.key, held.length)

    def _find_clashes(self) -> None:
        held, wish = self._held, self._wish()
        if held is not None and wish is not None and self._active:
            held.clashes = tuple(self._timeline.thinker.clashes_by(wish))
            self._repaint()
            said = held.note or (held.clashes[0].sentence if held.clashes else "")
            self._timeline.held_moved.emit(said)

    def _repaint(self) -> None:
        areas = held_area(self._timeline.scene)
        region = QRegion()
        for area in (*self._painted, *areas):
            region += area.toAlignedRect()
        self._painted = areas
        self._timeline.viewport().update(region)

    def _end(self) -> None:
        self._think.stop()
        self._held, self._sizes, self._painted = None, None, []
        if self._active:
            self._active = False
            self._timeline.scene.held = None
            self._timeline.viewport().setCursor(Qt.CursorShape.ArrowCursor)
            self._timeline.viewport().update()
