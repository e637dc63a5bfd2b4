"""A drag on the widget: asks the thinker, keeps the scene's held bar, repaints no more than it must."""

from __future__ import annotations

from collections.abc import Collection
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, QPointF, QRectF, Qt, QTimer
from PySide6.QtGui import QRegion

from app.timeline import spoken
from app.timeline.bars import Bar, Key
from app.timeline.drag import Drag, Drop, State, phase
from app.timeline.drag_free import Sweep
from app.timeline.drag_wish import Done, Wish
from app.timeline.heat import curve_of
from app.timeline.paint_held import held_area, legal_area
from app.timeline.scene import Held, Scene
from core.plan.edits import PinStep, PinSteps
from core.plan.ids import StationId
from core.timetable.clash import Clash, ClashKind

if TYPE_CHECKING:
    from app.timeline.timeline import Timeline

_PAUSE = 12
"""Milliseconds after the last move before clashes are worked out."""
_BEND = 40
"""Milliseconds at least between two shapes of an oven's curve: its lane is painted anew for each."""
_REST = 60
"""Milliseconds for which the pointer rests before it is worked out where nothing clashes."""
_SHOW = 90
"""Milliseconds at least between two pictures of the stretches that clash with nothing."""
_FINE_FROM = 0.5
"""Points a minute below which single minutes cannot be seen apart: only the grid is asked about."""

_DEAREST = tuple(ClashKind)
"""The order in which kinds of clashes matter while dragging: places and heat before a minute of hands."""


class Dragging(QObject):
    """Drives one Drag from the pointer's events."""

    def __init__(self, timeline: Timeline) -> None:
        super().__init__(timeline)
        self._timeline = timeline
        self.drag = Drag()
        self._painted: list[QRectF] = []
        self._stretch: tuple[tuple[object, ...], QRectF] = ((), QRectF())
        self._curves: dict | None = None
        self._sweep: Sweep | None = None
        self._swept: tuple[object, ...] = ()
        self._think = QTimer(self)
        self._think.setSingleShot(True)
        self._think.setInterval(_PAUSE)
        self._think.timeout.connect(self._find_clashes)
        self._bend = QTimer(self)
        self._bend.setSingleShot(True)
        self._bend.setInterval(_BEND)
        self._bend.timeout.connect(self._bend_curves)
        self._idle = QTimer(self)
        self._idle.setInterval(0)
        self._idle.timeout.connect(self._go_on)
        self._show = QTimer(self)
        self._show.setSingleShot(True)
        self._show.setInterval(_SHOW)
        self._show.timeout.connect(self._show_free)

    @property
    def active(self) -> bool:
        """Tell whether a bar is being dragged."""
        return self.drag.state is State.DRAGGING

    @property
    def thinking(self) -> bool:
        """Tell whether clashes of the last move are still to be worked out."""
        return self._think.isActive()

    @property
    def sweeping(self) -> bool:
        """Tell whether it is still being worked out where nothing clashes."""
        return self._idle.isActive() or self._show.isActive()

    def press(self, lane: int, bar: Bar, point: QPointF, also: Collection[Key] = ()) -> None:
        """Take hold of a bar, and of loads that are dragged along with it."""
        self.drag.press(self._timeline.scene, lane, bar, point.x(), point.y(), also)

    def warm(self) -> None:
        """Work out ahead what dragging will ask, a part at a time."""
        if self._timeline.thinker.warm():
            QTimer.singleShot(0, self, self.warm)

    def lift(self, point: QPointF) -> None:
        """Drag what was taken hold of from now on, even where the pointer rests."""
        if self.drag.lift():
            self.move(point, fine=False)

    def move(self, point: QPointF, fine: bool, _other: bool = False) -> bool:
        """Follow the pointer; tell whether a drag is going on."""
        scene = self._timeline.scene
        was = self.active and scene.held is not None
        changed = self.drag.move(scene, point.x(), point.y(), fine)
        held, wish = self.drag.held, self.drag.wish(scene)
        if not self.active or held is None or wish is None:
            return False
        if not was:
            self._timeline.viewport().setCursor(Qt.CursorShape.ClosedHandCursor)
            self._timeline.viewport().update()
            held.legal = self._legal(held, wish)
        scene.held = held
        if changed:
            if self._idle.isActive():
                self._idle.start(_REST)
            thinker = self._timeline.thinker
            held.pushed = thinker.pushed(wish.key, wish.start) if wish.plain else thinker.pushed_by(wish)
            if not self._think.isActive():
                self._think.start()
        self._repaint()
        return True

    def drop(self) -> bool:
        """Drop the bar where it is, or take it as a click; tell whether a drag ended."""
        if self.drag.state is State.IDLE:
            return False
        was, wish = self.active, self.drag.wish(self._timeline.scene)
        refused = self.drag.held.refused if self.drag.held is not None and was else ""
        drop = self.drag.release()
        self._end()
        if refused:
            spoken.say(self._timeline, refused)
            self._timeline.held_moved.emit(refused)
        if drop is not None and wish is not None:
            self._tell(drop, wish)
        return was

    def cancel(self) -> bool:
        """Let go with nothing changed; tell whether there was anything to let go of."""
        was = self.drag.state is not State.IDLE
        self.drag.cancel()
        self._end()
        return was

    def _tell(self, drop: Drop, wish: Wish) -> None:
        """Ask for what was done: one load through its own signal, several or another cook as one edit."""
        timeline = self._timeline
        spoken.say_moved(timeline, drop.step, drop.start)
        timeline.glide.dropped(drop.step, drop.load, drop.start, drop.station)
        if wish.plain:
            timeline.step_dropped.emit(drop.step, drop.load, drop.start, drop.station)
            return
        own = PinStep(drop.step, drop.load, drop.start, drop.station, drop.cook)
        pins = [own] + [PinStep(step, load, wish.starts[step, load]) for step, load in sorted(drop.also)]
        for step, load in drop.also:
            timeline.glide.dropped(step, load, wish.starts[step, load])
        edit = own if len(pins) == 1 else PinSteps(tuple(pins))
        timeline.edit_wanted.emit(Done(edit, timeline.thinker.timetable_by(wish)))

    def _legal(self, held: Held, wish: Wish) -> tuple[int, int] | None:
        """Return between which starts of the bar no wait breaks."""
        if wish.plain:
            legal = self._timeline.thinker.legal_stretch(wish.key)
            return None if legal is None else (legal[0] + self.drag.offset, legal[1] + self.drag.offset)
        shift = self._timeline.thinker.legal_shift(tuple(wish.starts))
        return None if shift is None else (held.bar.start + shift[0], held.bar.start + shift[1])

    def _clashes(self, wish: Wish) -> list[Clash]:
        thinker = self._timeline.thinker
        found = thinker.clashes_if(wish.key, wish.start, wish.station) if wish.plain else thinker.clashes_by(wish)
        # the dearest first: an oven at two temperatures before a cook who is busy for a minute
        return sorted(found, key=lambda clash: _DEAREST.index(clash.kind))

    def _find_clashes(self) -> None:
        held, wish = self.drag.held, self.drag.wish(self._timeline.scene)
        if held is None or wish is None or not self.active:
            return
        held.clashes = tuple(self._clashes(wish))
        self._begin_sweep(held, wish)
        if not self._bend.isActive():
            self._bend.start()
        self._repaint()
        said = held.refused or (held.clashes[0].sentence if held.clashes else "")
        self._timeline.held_moved.emit(said)

    def _begin_sweep(self, held: Held, wish: Wish) -> None:
        """Begin to ask where nothing clashes, unless that is asked already for this lane and this sight."""
        scene = self._timeline.scene
        now = (held.to_lane, held.legal, scene.axis.ppm, scene.left)
        if held.legal is None or held.refused or self._swept == now:
            return
        self._swept, held.free = now, ()
        first, last = scene.seen
        low = max(held.legal[0], int(first) - held.length) - self.drag.offset
        high = min(held.legal[1], int(last) + 1) - self.drag.offset
        fine = scene.axis.ppm >= _FINE_FROM
        self._sweep = Sweep(
            self._clashes, wish, (low, high), scene.clashes, phase=phase(scene) + self.drag.offset, fine=fine
        )
        self._idle.start(_REST)

    def _go_on(self) -> None:
        """Work a slice at where nothing clashes; the rest when nothing else is to be done."""
        if self._sweep is None or not self.active:
            self._idle.stop()
            return
        self._idle.setInterval(0)
        new = self._sweep.work()
        if self._sweep.done:
            self._idle.stop()
            self._show_free()
        elif new and not self._show.isActive():
            self._show.start()

    def _show_free(self) -> None:
        held, scene = self.drag.held, self._timeline.scene
        if held is None or self._sweep is None or not self.active:
            return
        by = self.drag.offset
        held.free = tuple((first + by, last + by) for first, last in self._sweep.stretches())
        self._timeline.viewport().update(legal_area(scene).toAlignedRect())

    def _bend_curves(self) -> None:
        """Show the curve of each heated place that the moved steps touch as it would become."""
        scene = self._timeline.scene
        held, wish = self.drag.held, self.drag.wish(scene)
        if held is None or wish is None or not self.active or not scene.curves:
            return
        touched = heated(scene, held, wish)
        if not touched and self._curves is None:
            return
        if self._curves is None:
            self._curves = dict(scene.curves)
        curves = dict(self._curves)
        for lane in scene.lanes:
            if lane.id in curves and lane.station is not None and lane.station.id in touched:
                bent = curve_of(*self._timeline.thinker.place_by(wish, lane.station.id), lane.station)
                if bent is not None:
                    curves[lane.id] = bent
        if curves != scene.curves:
            changed = [at for at, lane in enumerate(scene.lanes) if curves.get(lane.id) != scene.curves.get(lane.id)]
            scene.curves = curves
            for at in changed:
                box = scene.lane_box(at)
                self._timeline.viewport().update(QRectF(box.x, box.y, box.w, box.h).toAlignedRect())

    def _repaint(self) -> None:
        scene, held = self._timeline.scene, self.drag.held
        areas = held_area(scene)
        region = QRegion()
        for area in (*self._painted, *areas):
            region += area.toAlignedRect()
        if held is not None and self._stretch[0] != (held.to_lane, held.legal, held.refused):
            region += self._stretch[1].toAlignedRect()
            self._stretch = (held.to_lane, held.legal, held.refused), legal_area(scene)
            region += self._stretch[1].toAlignedRect()
        self._painted = areas
        self._timeline.viewport().update(region)

    def _end(self) -> None:
        for timer in (self._think, self._bend, self._idle, self._show):
            timer.stop()
        self._sweep, self._swept = None, ()
        scene = self._timeline.scene
        if scene.held is not None:
            scene.held = None
            self._timeline.viewport().setCursor(Qt.CursorShape.ArrowCursor)
        if self._curves is not None:
            scene.curves, self._curves = self._curves, None
        self._painted, self._stretch = [], ((), QRectF())
        self._timeline.viewport().update()


def heated(scene: Scene, held: Held, wish: Wish) -> set[StationId]:
    """Return the stations on which a moved load has a setting."""
    at = scene.timetable.at
    keys: set[Key] = {*held.pushed, *wish.starts}
    moved = [at[key] for key in keys if key in at and at[key].setting is not None]
    found = {spot.station for each in moved for spot in each.spots}
    return found | {wish.station} if wish.station is not None and found else found
