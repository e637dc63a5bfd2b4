"""Lets the bars of a timeline glide to their new places, paints them on their way, and stops for any hand."""

from __future__ import annotations

import time
from collections.abc import Callable, Collection, Hashable, Mapping, Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, QObject, QRect, QRectF, Qt, QTimer
from PySide6.QtGui import QPainter, QPixmap

from app.timeline import glide_motion, paint_bars, paint_beside
from app.timeline.bars import Bar, Key
from app.timeline.geometry import Box, Layout
from app.timeline.glide import LASTS, MANY, Glide, Shown, family, glide_of
from app.timeline.kit import Kit
from app.timeline.paint import paint
from app.timeline.scene import Scene
from core.plan.ids import StepId

if TYPE_CHECKING:
    from app.timeline.timeline import Timeline

Drop = tuple[int, str | None]
"""The minute at which a load was dropped, and the station if it changed."""
_BEAT = 16
"""Milliseconds from one picture to the next."""
_TEXTS = 0.65
"""Share of the time after which the new picture with its texts begins to show."""
_ENDING = frozenset(
    {
        QEvent.Type.MouseButtonPress,
        QEvent.Type.MouseButtonDblClick,
        QEvent.Type.Wheel,
        QEvent.Type.KeyPress,
        QEvent.Type.TouchBegin,
        QEvent.Type.TabletPress,
        QEvent.Type.NativeGesture,
        QEvent.Type.Gesture,
        QEvent.Type.ContextMenu,
        QEvent.Type.Resize,
        QEvent.Type.Hide,
    }
)


class Gliding(QObject):
    """Animates one timeline. What is shown is at its new place at once; only the painting comes after.

    `clock` gives seconds; `wanted` tells whether things may move at all.
    """

    def __init__(self, timeline: Timeline) -> None:
        super().__init__(timeline)
        self._timeline = timeline
        self.clock: Callable[[], float] = time.monotonic
        self.wanted: Callable[[], bool] = glide_motion.wanted
        self._began = 0.0
        self._glide: Glide | None = None
        self._old: tuple[Scene, Kit] | None = None
        self._moved: dict[int, Box] = {}
        self._dropped: dict[Key, Drop] = {}
        self._grounds: tuple[QPixmap, QPixmap] | None = None
        self._whole: QPixmap | None = None
        self._view: tuple[object, ...] = ()
        self._beat = QTimer(self)
        self._beat.setTimerType(Qt.TimerType.PreciseTimer)
        self._beat.setInterval(_BEAT)
        self._beat.timeout.connect(self._next)
        timeline.installEventFilter(self)
        timeline.viewport().installEventFilter(self)

    @property
    def running(self) -> bool:
        """Tell whether bars are on their way."""
        return self._glide is not None

    @property
    def fades(self) -> bool:
        """Tell whether two pictures fade over because there are too many bars."""
        return self._glide is not None and self._glide.fades

    def dropped(self, step: str, load: int, start: int, station: str | None = None) -> None:
        """Remember where the cook let go of a bar: from there it glides on, not from where it stood before."""
        self._dropped[StepId(step), load] = (start, station)
        QTimer.singleShot(0, self._forget)  # what comes of it comes at once, or not at all

    def leave(self) -> None:
        """Look at where everything is, before it changes."""
        timeline, scene = self._timeline, self._timeline.scene
        self._moved, self._old = {}, None
        if timeline.isVisible() and scene.lanes and self.wanted():
            self._moved = {id(bar): box for bar, box, _seen in self.boxes()}
            self._old = (scene, timeline.kit)
        self.finish()

    def arrive(self) -> None:
        """Let everything go from where it was to where it is now."""
        timeline, scene, old = self._timeline, self._timeline.scene, self._old
        moved, dropped = self._moved, self._dropped
        self._old, self._moved, self._dropped = None, {}, {}
        if old is None or old[1] is not timeline.kit:
            return
        if (old[0].width, old[0].height, old[0].gutter) != (scene.width, scene.height, scene.gutter):
            return
        sight = Box(scene.gutter, scene.ruler, scene.width - scene.gutter, scene.height - scene.ruler)
        here, there = _in_sight(old[0]), _in_sight(scene)
        if len(here) + len(there) > MANY:
            glide = Glide(fades=True)
        else:
            families = {family(bar) for bar in (*here, *there)}
            before = [_was(old[0], each, moved, dropped) for each in _of(old[0], families)]
            glide = glide_of(before, [_stands(scene, *each) for each in _of(scene, families)], sight)
        if not glide.goes:
            return
        ratio = timeline.viewport().devicePixelRatioF()
        under = old[0] if glide.fades else _bare(old[0])
        self._grounds = (_picture(under, old[1], ratio), _picture(_bare(scene), timeline.kit, ratio))
        self._glide, self._began, self._whole, self._view = glide, self.clock(), None, _view(scene)
        self._beat.start()
        timeline.viewport().update()

    def finish(self) -> None:
        """Be at the end at once."""
        if self._glide is not None:
            self._end()
            self._timeline.viewport().update()

    def boxes(self) -> list[tuple[Bar, Box, float]]:
        """Return where each bar on its way is now and how much of it is seen, 0 to 1."""
        return [] if self._glide is None else self._glide.at(self._share)

    def shown(self) -> list[Shown]:
        """Return the bars as they are seen now: on their way those that move, the others in their places."""
        scene, gliding = self._timeline.scene, {id(bar): box for bar, box, _seen in self.boxes()}
        return [
            Shown(lane.id, bar, gliding.get(id(bar)) or scene.box(at, bar))
            for at, lane in enumerate(scene.lanes)
            for bar in lane.bars
        ]

    def paint(self, painter: QPainter, rects: Sequence[QRect]) -> bool:
        """Paint bars on their way; tell whether there are any, else the caller paints the scene."""
        glide, grounds, scene = self._glide, self._grounds, self._timeline.scene
        if glide is not None and self._view != _view(scene):
            self._end()  # zoomed or scrolled meanwhile
            return False
        if glide is None or grounds is None:
            return False
        share = self._share
        painter.setClipRect(_around(rects))
        painter.drawPixmap(0, 0, grounds[1])  # names and scales are at their end at once: two on each other say nothing
        lanes = QRectF(scene.gutter, scene.ruler, scene.width - scene.gutter, scene.height - scene.ruler)
        painter.setClipRect(lanes, Qt.ClipOperation.IntersectClip)
        painter.setOpacity(1.0 if glide.fades else max(0.0, 1.0 - 2.0 * share))
        painter.drawPixmap(0, 0, grounds[0])
        for bar, box, seen in glide.at(share):
            painter.setOpacity(seen)
            self._strip(painter, scene, bar, box)
        painter.setClipRect(_around(rects))
        late = share if glide.fades else (share - _TEXTS) / (1.0 - _TEXTS)
        if late > 0.0:
            if self._whole is None:
                self._whole = _picture(scene, self._timeline.kit, self._timeline.viewport().devicePixelRatioF())
            painter.setOpacity(min(1.0, late))
            painter.drawPixmap(0, 0, self._whole)
        painter.setOpacity(1.0)
        painter.setClipping(False)
        return True

    def eventFilter(self, _watched: QObject, event: QEvent) -> bool:
        """End at once when the cook does anything; hold nothing back."""
        if self._glide is not None and event.type() in _ENDING:
            self.finish()
        return False

    @property
    def _share(self) -> float:
        return max(0.0, min(1.0, (self.clock() - self._began) / LASTS))

    def _end(self) -> None:
        self._beat.stop()
        self._glide, self._grounds, self._whole = None, None, None

    def _forget(self) -> None:
        self._dropped = {}

    def _next(self) -> None:
        if self._share >= 1.0:
            self.finish()
        else:
            self._timeline.viewport().update()

    def _strip(self, painter: QPainter, scene: Scene, bar: Bar, box: Box) -> None:
        kit = self._timeline.kit
        left, right = max(box.x, scene.gutter - 40), min(box.right, scene.width + 40)
        if right <= left:
            return
        where = QRectF(left, box.y, max(1.0, right - left), box.h)
        if box.h < 12.0 and bar.kind not in paint_beside.KINDS:
            painter.fillRect(where, kit.tone(bar.tone).full)
        elif bar.kind in paint_beside.KINDS:
            paint_beside.strip(painter, kit, bar, where)
        else:
            paint_bars.strip(painter, kit, bar, where)


def _in_sight(scene: Scene) -> list[Bar]:
    low, high = scene.seen
    lanes = scene.lanes_between(scene.ruler, scene.height)
    return [bar for at in lanes for bar in scene.layout.between(at, low, high)]


def _of(scene: Scene, families: Collection[Hashable]) -> list[tuple[int, Bar]]:
    """Return the bars of some families with their lanes' numbers: of thousands only these need boxes."""
    return [(at, bar) for at, lane in enumerate(scene.lanes) for bar in lane.bars if family(bar) in families]


def _stands(scene: Scene, at: int, bar: Bar) -> Shown:
    return Shown(scene.lanes[at].id, bar, scene.box(at, bar))


def _was(scene: Scene, place: tuple[int, Bar], moved: Mapping[int, Box], dropped: Mapping[Key, Drop]) -> Shown:
    """Return a bar where it was seen last: on its way, where it was dropped, or in its place."""
    at, bar = place
    if bar.key is not None and bar.key in dropped:
        return _let_go(scene, at, bar, dropped[bar.key])
    if id(bar) in moved:
        return Shown(scene.lanes[at].id, bar, moved[id(bar)])
    return _stands(scene, at, bar)


def _let_go(scene: Scene, at: int, bar: Bar, drop: Drop) -> Shown:
    """Return a bar of a load that was dropped, where it was dropped."""
    placed = scene.timetable.at.get(bar.key) if bar.key is not None else None
    by = 0 if placed is None else drop[0] - placed.start
    there = [number for number, lane in enumerate(scene.lanes) if lane.station and lane.station.id == drop[1]]
    lane = there[0] if there and bar.station is not None else at
    moved = replace(bar, start=bar.start + by, end=bar.end + by, row=min(bar.row, scene.lanes[lane].rows - 1))
    return Shown(scene.lanes[lane].id, bar, scene.box(lane, moved))


def _bare(scene: Scene) -> Scene:
    """Return a scene without its bars: what they glide over."""
    lanes = tuple(replace(lane, bars=()) for lane in scene.lanes)
    bare = replace(scene, lanes=lanes, layout=Layout(lanes, scene.layout.row), clashes=())
    bare.selected, bare.focus, bare.held = None, None, None
    return bare


def _picture(scene: Scene, kit: Kit, ratio: float) -> QPixmap:
    picture = QPixmap(round(scene.width * ratio), round(scene.height * ratio))
    picture.setDevicePixelRatio(ratio)
    painter = QPainter(picture)
    paint(painter, scene, kit, QRectF(0, 0, scene.width, scene.height))
    painter.end()
    return picture


def _view(scene: Scene) -> tuple[object, ...]:
    return id(scene), id(scene.axis), id(scene.layout), scene.left, scene.top, scene.width, scene.height


def _around(rects: Sequence[QRect]) -> QRect:
    found = QRect()
    for rect in rects:
        found = found.united(rect)
    return found
