"""Drawing the line of plating with the pointer: everything is served sooner or later."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, QPointF, Qt, QTimer

from app.timeline import spoken
from app.timeline.drag import phase, snapped
from app.timeline.drag_gesture import PlatingHeld
from app.timeline.drag_plating import clashes_at, said, timetable_at
from app.timeline.drag_wish import Done
from app.timeline.paint_gesture import plating_area
from app.timeline.pointer_grip import Canvas, far
from core.plan.edits import ServeLater

if TYPE_CHECKING:
    from app.timeline.timeline import Timeline

_NEAR = 6.0
"""Points beside the line that take hold of it; on the ruler twice as many."""
_PAUSE = 60
"""Milliseconds at rest before it is worked out what would clash: the whole day is judged anew."""


class PlatingLine(QObject):
    """Draws the line of plating of one timeline. The other key lets what is not pinned come along."""

    def __init__(self, timeline: Timeline) -> None:
        super().__init__(timeline)
        self._timeline = timeline
        self._canvas = Canvas(timeline)
        self._press: QPointF | None = None
        self._held: PlatingHeld | None = None
        self._think = QTimer(self)
        self._think.setSingleShot(True)
        self._think.setInterval(_PAUSE)
        self._think.timeout.connect(self._find_clashes)

    @property
    def active(self) -> bool:
        """Tell whether the line is being drawn."""
        return self._held is not None

    @property
    def thinking(self) -> bool:
        """Tell whether it is still to be worked out what would clash."""
        return self._think.isActive()

    def at(self, point: QPointF) -> bool:
        """Tell whether the line is under a point: on the ruler its label too, in the lanes where no bar is."""
        scene = self._timeline.scene
        away, y = abs(point.x() - scene.x(0)), point.y()
        if point.x() < scene.gutter or not scene.timetable.placed:
            return False
        if y < scene.ruler:
            return away <= 2 * _NEAR
        return away <= _NEAR and y < scene.y(scene.layout.height) and self._timeline.pointer.bar_at(point) is None

    def press(self, point: QPointF) -> None:
        """Take hold of the line."""
        self._press = point

    def move(self, point: QPointF, fine: bool, other: bool = False) -> bool:
        """Follow the pointer; tell whether the line is being drawn."""
        scene = self._timeline.scene
        if self._press is None or (self._held is None and not far(self._press, point)):
            return False
        wanted = scene.time(point.x())
        by = snapped(wanted, 0, fine, (0,), 4 / scene.axis.ppm, phase(scene))
        if self._held is None or (by, other) != (self._held.by, self._held.along):
            self._show(PlatingHeld(by, other))
            self._think.start()
        return True

    def drop(self) -> bool:
        """Plate when the line says; tell whether it was drawn."""
        held, timeline = self._held, self._timeline
        was = self.cancel() and held is not None
        if held is not None and held.by:
            scene = timeline.scene
            edit = ServeLater(held.by)
            seen = timetable_at(scene.plan, scene.timetable, held.by, along=held.along)
            spoken.say(timeline, edit.label_in(scene.plan))
            timeline.edit_wanted.emit(Done(edit, seen))
        return was

    def cancel(self) -> bool:
        """Let go with nothing changed; tell whether there was anything to let go of."""
        was = self._press is not None
        self._think.stop()
        self._press, self._held = None, None
        self._canvas.clear()
        return was

    def _find_clashes(self) -> None:
        held, scene = self._held, self._timeline.scene
        if held is None:
            return
        found = []
        if held.by:
            found = clashes_at(scene.plan, scene.timetable, held.by, along=held.along, known=scene.clashes)
        says = said(held.by, found, along=held.along) if held.by else ""
        self._show(PlatingHeld(held.by, held.along, says, bool(found)))
        self._timeline.held_moved.emit(found[0].sentence if found else "")

    def _show(self, held: PlatingHeld) -> None:
        self._held = held
        self._canvas.show(held, plating_area(self._timeline.scene, held), Qt.CursorShape.SplitHCursor)
