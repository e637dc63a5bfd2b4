"""What part of the timeline is in sight: zoom and scrolling, kept in step with the scroll bars."""

from __future__ import annotations

from typing import TYPE_CHECKING

from app.timeline.bars import Bar
from app.timeline.geometry import roomy
from app.timeline.scene import Scene

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
        """Zoom by a factor; the minute under x (the middle by default) stays where it is."""
        scene = self._scene
        x = scene.gutter + self.field / 2 if x is None else max(x, scene.gutter)
        minute = scene.time(x)
        self._wanted = None
        self._set_scale(scene.axis.ppm * factor)
        self._put(minute, x)

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
        self._timeline.viewport().update()
