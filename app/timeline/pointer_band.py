"""Drawing a band around bars with the pointer: all that it touches is chosen."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, QPointF, Qt

from app.timeline import spoken
from app.timeline.bars import Bar
from app.timeline.drag_gesture import BandHeld
from app.timeline.geometry import Box
from app.timeline.offers import translated
from app.timeline.paint_gesture import band_area
from app.timeline.pointer_grip import Canvas, far
from app.timeline.scene import Scene

if TYPE_CHECKING:
    from app.timeline.timeline import Timeline


class Band(QObject):
    """Draws a band on one timeline."""

    def __init__(self, timeline: Timeline) -> None:
        super().__init__(timeline)
        self._timeline = timeline
        self._canvas = Canvas(timeline)
        self._press: QPointF | None = None
        self._more = False
        self._held: BandHeld | None = None

    @property
    def active(self) -> bool:
        """Tell whether a band is being drawn."""
        return self._held is not None

    def press(self, point: QPointF, *, more: bool) -> None:
        """Begin a band; `more`: what is chosen already stays chosen."""
        self._press, self._more = point, more
        # the band is tied to the day, not to the window, when the view scrolls under it
        scene = self._timeline.scene
        self._from = (scene.time(point.x()), point.y() + scene.top)

    def move(self, point: QPointF, _fine: bool, _other: bool = False) -> bool:
        """Follow the pointer; tell whether a band is being drawn."""
        if self._press is None or (self._held is None and not far(self._press, point)):
            return False
        scene = self._timeline.scene
        start = (scene.x(self._from[0]), self._from[1] - scene.top)
        end = (min(max(point.x(), scene.gutter), scene.width - 1), min(max(point.y(), scene.ruler), scene.height - 1))
        held = BandHeld(start, end)
        held = BandHeld(start, end, len(inside(scene, held)))
        self._held = held
        self._canvas.show(held, band_area(held), Qt.CursorShape.CrossCursor)
        return True

    def drop(self) -> bool:
        """Choose what is inside; tell whether a band was drawn."""
        held, more, timeline = self._held, self._more, self._timeline
        self.cancel()
        if held is None:
            return False
        scene = timeline.scene
        found = inside(scene, held)
        if not found:
            if not more:
                timeline.select(None)
                scene.also = frozenset()
            return True
        was = {*scene.also, scene.focus.key if scene.focus is not None else None} if more else set()
        timeline.focus_on(*found[0], chosen=True, reveal=False)
        keys = {bar.key for _lane, bar in found} | was
        scene.also = frozenset(key for key in keys if key is not None and key != found[0][1].key)
        spoken.say(timeline, translated("{count} chosen").format(count=len(scene.also) + 1))
        timeline.viewport().update()
        return True

    def cancel(self) -> bool:
        """Let go with nothing changed; tell whether there was anything to let go of."""
        was = self._press is not None
        self._press, self._held = None, None
        self._canvas.clear()
        return was


def inside(scene: Scene, held: BandHeld) -> list[tuple[int, Bar]]:
    """Return the bars that can be moved and that a band touches, each load once, in order of time."""
    (x1, y1), (x2, y2) = held.start, held.end
    band = Box(min(x1, x2), min(y1, y2), max(abs(x2 - x1), 1), max(abs(y2 - y1), 1))
    low, high = scene.time(band.x), scene.time(band.right)
    found: dict[object, tuple[int, Bar]] = {}
    for at in range(len(scene.lanes)):
        lane = scene.lane_box(at)
        if lane.bottom < band.y or lane.y > band.bottom:
            continue
        for bar in scene.layout.between(at, low, high):
            if bar.moves and scene.box(at, bar).meets(band):
                found.setdefault(bar.key, (at, bar))
    return sorted(found.values(), key=lambda place: (place[1].start, place[0]))
