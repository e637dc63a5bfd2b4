"""What part of the timeline is in sight: zoom and scrolling, kept in step with the scroll bars."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QRect

from app.timeline.bars import Bar
from app.timeline.geometry import roomy
from app.timeline.scene import Scene
from core.timetable.clash import Clash

if TYPE_CHECKING:
    from app.timeline.timeline import Timeline

CLOSEST = 5
"""Minutes that fill the view at the closest zoom."""
STEP = 1.25
"""Factor of one zoom step."""


class Sight:
    """Zooms and scrolls one timeline. All x in points of the viewport."""

    def __init__(self, timeline: Timeline) -> None:
        self._timeline = timeline
        self._wanted: tuple[str, float] | None = ("all", 0)
        self._anchor: tuple[float, float, float, float] | None = None
        self.clash: Clash | None = None
        """The clash that was shown last."""

    @property
    def _scene(self) -> Scene:
        return self._timeline.scene

    @property
    def field(self) -> float:
        """Return the width of the lanes in sight."""
        return max(50.0, self._scene.width - self._scene.gutter)

    @property
    def fitted(self) -> bool:
        """Tell whether the view keeps fitting what it was last asked to fit."""
        return self._wanted is not None

    def measure(self) -> None:
        """Give the scene the size of the viewport, the gutter and the ruler their widths, rows their height."""
        size, scene, kit = self._timeline.viewport().size(), self._scene, self._timeline.kit
        scene.width, scene.height = float(size.width()), float(size.height())
        scene.gutter = round(min(kit.width("Charcoal grill, wide", kit.text_face) + 46, size.width() * 0.3))
        scene.ruler = round(3 * (kit.metrics(kit.small_face).height() + 4))
        scene.layout = roomy(scene.lanes, kit.row, scene.height - scene.ruler - 24)

    def resized(self) -> None:
        """Follow a new size or new content: fit again what was fitted, else keep what is in sight."""
        if self._wanted is not None:
            kind, hours = self._wanted
            if kind == "all":
                self.fit_all()
            else:
                self.fit_last_hours(hours)
        else:
            self._set_scale(self._scene.axis.ppm)
            self.sync()

    def zoom(self, factor: float, x: float | None = None) -> None:
        """Zoom by a factor; the minute under x (the middle by default) stays where it is.

        Many small zooms at one place keep its minute exactly, though the scroll bars know whole points only.
        """
        scene = self._scene
        x = scene.gutter + self.field / 2 if x is None else min(max(x, scene.gutter), scene.width)
        minute = scene.time(x)
        if self._anchor is not None and self._anchor[1:] == (x, scene.left, scene.axis.ppm):
            minute = self._anchor[0]
        self._wanted = None
        self._set_scale(scene.axis.ppm * factor)
        self._put(minute, x)
        self._anchor = (minute, x, scene.left, scene.axis.ppm)

    def span(self, start: float, end: float) -> None:
        """Show exactly a stretch of time, or the least or most of it that zooming allows around its middle."""
        scene = self._scene
        self._wanted = None
        first, last = max(start, scene.axis.low), min(end, scene.axis.high)
        wide = scene.axis.x(last) - scene.axis.x(first)
        if wide <= 0:
            return
        self._set_scale(scene.axis.scale_for(self.field, first, last))
        middle = scene.axis.time((scene.axis.x(first) + scene.axis.x(last)) / 2)
        self._put(middle, scene.gutter + self.field / 2)

    def shift(self, by: float) -> None:
        """Move what is in sight by so many points across."""
        self._wanted = None
        self._timeline.horizontalScrollBar().setValue(round(self._scene.left + by))

    def fit(self, start: float, end: float, margin: float = 0.04) -> None:
        """Show a stretch of time across the whole width."""
        self._wanted = None
        room = self.field * (1 - 2 * margin)
        self._set_scale(self._scene.axis.scale_for(room, round(start), max(round(end), round(start) + 1)))
        self._put(start, self._scene.gutter + self.field * margin)

    def fit_all(self) -> None:
        """Show everything from the first thing to the last."""
        self._set_scale(0.0)
        self._put(self._scene.axis.low, self._scene.gutter)
        self._wanted = ("all", 0)

    def fit_last_hours(self, hours: float) -> None:
        """Show the last hours before plating and a little after."""
        self.fit(-hours * 60, max(8, hours * 6), 0.01)
        self._wanted = ("last", hours)

    def reveal(self, lane: int, bar: Bar) -> None:
        """Scroll as little as needed to see a bar."""
        scene = self._scene
        box = scene.box(lane, bar)
        across = self._timeline.horizontalScrollBar()
        down = self._timeline.verticalScrollBar()
        left, right = scene.gutter + 24, scene.width - 24
        if box.right < left or box.x > right or (box.x < left and box.right < right):
            across.setValue(round(scene.left + box.x - left - self.field * 0.1))
        elif box.right > right and box.x > left:
            across.setValue(round(scene.left + min(box.right - right, box.x - left)))
        if box.y < scene.ruler + 4:
            down.setValue(round(scene.top + box.y - scene.ruler - 12))
        elif box.bottom > scene.height - 4:
            down.setValue(round(scene.top + box.bottom - scene.height + 12))

    def keep(self, minute: float, x: float) -> None:
        """Scroll so that a minute stands at x, at the scale as it is."""
        self._put(minute, x)

    def moved_by_hand(self) -> None:
        """Remember that the cook chose what to see."""
        self._wanted = None

    def sync(self) -> None:
        """Give the scroll bars their ranges and take over what they say."""
        scene = self._scene
        across, down = self._timeline.horizontalScrollBar(), self._timeline.verticalScrollBar()
        across.setRange(0, max(0, round(scene.axis.width - self.field)))
        across.setPageStep(round(self.field))
        across.setSingleStep(40)
        view = max(20.0, scene.height - scene.ruler)
        down.setRange(0, max(0, round(scene.layout.height + 24 - view)))
        down.setPageStep(round(view))
        down.setSingleStep(round(scene.layout.row))
        self.scrolled()

    def scrolled(self) -> None:
        """Take over where the scroll bars stand."""
        self._scene.left = float(self._timeline.horizontalScrollBar().value())
        self._scene.top = float(self._timeline.verticalScrollBar().value())
        self._timeline.overview.follow()

    def scroll(self, dy: int) -> None:
        """Follow the scroll bars; what only moves up or down is moved on the screen, not painted again."""
        scene, viewport = self._scene, self._timeline.viewport()
        before = scene.left, scene.top
        self.scrolled()
        if scene.held is not None or self._timeline.glide.running:
            viewport.update()
        elif scene.left != before[0] or scene.top != before[1] - dy:
            viewport.update(_lanes(scene, from_x=0 if scene.top != before[1] else round(scene.gutter)))
        elif dy:
            viewport.scroll(0, dy, _lanes(scene, from_x=0, from_y=round(scene.ruler)))

    def _set_scale(self, ppm: float) -> None:
        axis = self._scene.axis
        least, most = axis.scale_for(self.field), self.field / CLOSEST
        self._scene.axis = axis.zoomed(max(least, min(ppm, max(most, least))))

    def _put(self, minute: float, x: float) -> None:
        scene = self._scene
        self.sync()
        wanted = round(scene.axis.x(minute) - (x - scene.gutter))
        self._timeline.horizontalScrollBar().setValue(wanted)
        self.scrolled()
        self._timeline.viewport().update(_lanes(scene, from_x=round(scene.gutter)))


def _lanes(scene: Scene, from_x: int, from_y: int = 0) -> QRect:
    return QRect(from_x, from_y, round(scene.width) - from_x, round(scene.height) - from_y)
