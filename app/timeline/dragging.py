"""A drag on the widget: asks the thinker, keeps the scene's held bar, repaints no more than it must."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, QPointF, QRectF, Qt, QTimer
from PySide6.QtGui import QRegion

from app.timeline import spoken
from app.timeline.bars import Bar, Key
from app.timeline.drag import Drag, State
from app.timeline.heat import curve_of
from app.timeline.paint_held import held_area
from core.timetable.clash import ClashKind

if TYPE_CHECKING:
    from app.timeline.timeline import Timeline

_PAUSE = 30
"""Milliseconds after the last move before clashes are worked out."""

_DEAREST = tuple(ClashKind)
"""The order in which kinds of clashes matter while dragging: places and heat before a minute of hands."""


class Dragging(QObject):
    """Drives one Drag from the pointer's events."""

    def __init__(self, timeline: Timeline) -> None:
        super().__init__(timeline)
        self._timeline = timeline
        self.drag = Drag()
        self._painted: list[QRectF] = []
        self._curves: dict | None = None
        self._think = QTimer(self)
        self._think.setSingleShot(True)
        self._think.setInterval(_PAUSE)
        self._think.timeout.connect(self._find_clashes)

    @property
    def active(self) -> bool:
        """Tell whether a bar is being dragged."""
        return self.drag.state is State.DRAGGING

    @property
    def thinking(self) -> bool:
        """Tell whether clashes of the last move are still to be worked out."""
        return self._think.isActive()

    def press(self, lane: int, bar: Bar, point: QPointF) -> None:
        """Take hold of a bar."""
        self.drag.press(self._timeline.scene, lane, bar, point.x(), point.y())

    def move(self, point: QPointF, fine: bool) -> bool:
        """Follow the pointer; tell whether a drag is going on."""
        scene = self._timeline.scene
        was = self.active
        changed = self.drag.move(scene, point.x(), point.y(), fine)
        held, key = self.drag.held, self._key
        if not self.active or held is None or key is None:
            return False
        thinker = self._timeline.thinker
        if not was:
            self._timeline.viewport().setCursor(Qt.CursorShape.ClosedHandCursor)
            self._timeline.viewport().update()
            legal = thinker.legal_stretch(key)
            held.legal = None if legal is None else (legal[0] + self.drag.offset, legal[1] + self.drag.offset)
        scene.held = held
        if changed:
            held.pushed = thinker.pushed(key, self.drag.step_start)
            if not self._think.isActive():
                self._think.start()
        self._repaint()
        return True

    def drop(self) -> bool:
        """Drop the bar where it is, or take it as a click; tell whether a drag ended."""
        if self.drag.state is State.IDLE:
            return False
        was = self.active
        drop = self.drag.release()
        self._end()
        if drop is not None:
            spoken.say_moved(self._timeline, drop.step, drop.start)
            self._timeline.step_dropped.emit(drop.step, drop.load, drop.start, drop.station)
        return was

    def cancel(self) -> bool:
        """Let go with nothing changed; tell whether there was anything to let go of."""
        was = self.drag.state is not State.IDLE
        self.drag.cancel()
        self._end()
        return was

    @property
    def _key(self) -> Key | None:
        return None if self.drag.held is None else self.drag.held.bar.key

    def _find_clashes(self) -> None:
        held, key = self.drag.held, self._key
        if held is None or key is None or not self.active:
            return
        thinker, start = self._timeline.thinker, self.drag.step_start
        # the dearest first: an oven at two temperatures before a cook who is busy for a minute
        found = thinker.clashes_if(key, start, held.station)
        held.clashes = tuple(sorted(found, key=lambda clash: _DEAREST.index(clash.kind)))
        self._bend_curves(key, start)
        self._repaint()
        self._timeline.held_moved.emit(held.clashes[0].sentence if held.clashes else "")

    def _bend_curves(self, key: Key, start: int) -> None:
        """Show the oven's curve as it would become."""
        scene = self._timeline.scene
        held = self.drag.held
        if held is None or held.bar.setting is None or not scene.curves:
            return
        if self._curves is None:
            self._curves = dict(scene.curves)
        after = self._timeline.thinker.timetable_if(key, start, held.station)
        for lane in scene.lanes:
            if lane.id in self._curves and lane.station is not None:
                curve = curve_of(scene.plan, after, lane.station)
                if curve is not None and curve != scene.curves[lane.id]:
                    scene.curves = {**scene.curves, lane.id: curve}
                    self._timeline.viewport().update()

    def _repaint(self) -> None:
        areas = held_area(self._timeline.scene)
        region = QRegion()
        for area in (*self._painted, *areas):
            region += area.toAlignedRect()
        self._painted = areas
        self._timeline.viewport().update(region)

    def _end(self) -> None:
        self._think.stop()
        scene = self._timeline.scene
        if scene.held is not None:
            scene.held = None
            self._timeline.viewport().setCursor(Qt.CursorShape.ArrowCursor)
        if self._curves is not None:
            scene.curves, self._curves = self._curves, None
        self._painted = []
        self._timeline.viewport().update()
