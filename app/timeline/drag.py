"""A drag as a state machine over numbers: pressed, dragging, let go or dropped. No widget, no painter."""

from __future__ import annotations

from collections.abc import Collection, Iterable
from dataclasses import dataclass
from enum import Enum, auto

from app.timeline.bars import Bar, BarKind, Key, Lane, LaneKind
from app.timeline.drag_hands import why_not
from app.timeline.drag_wish import Wish
from app.timeline.scene import Held, Scene
from core.plan.ids import CookId, StationId, StepId
from core.plan.meaning import way_of

GRID = 5
"""Minutes to which a drag snaps without a key."""
THRESHOLD = 6.0
"""Points that the pointer must travel before a press becomes a drag."""
REACH = 7.0
"""Points within which a neighbour's edge draws the bar to it."""


class State(Enum):
    """Where a drag stands."""

    IDLE = auto()
    PRESSED = auto()
    DRAGGING = auto()


@dataclass(frozen=True, slots=True)
class Drop:
    """Where a step was dropped: start of the step (not of the bar), and another station or cook, if it changed.

    `also`: the loads dragged along with it, by as many minutes: `by`.
    """

    step: StepId
    load: int
    start: int
    station: StationId | None
    cook: CookId | None = None
    also: frozenset[Key] = frozenset()
    by: int = 0


class Drag:
    """Follows one bar from the press to the drop. Minutes and points; the scene's `held` tells painting."""

    def __init__(self) -> None:
        self.state = State.IDLE
        self._press = (0.0, 0.0)
        self._grip = 0.0
        self._edges: tuple[int, ...] = ()
        self.held: Held | None = None
        self.offset = 0

    def press(
        self, scene: Scene, lane: int, bar: Bar, x: float, y: float, also: Iterable[Key] = ()
    ) -> None:
        """Take hold of a bar at a point of the widget, and of loads chosen along with it."""
        placed = scene.timetable.at.get(bar.key) if bar.key is not None else None
        if placed is None or not bar.moves:
            return
        self.state = State.PRESSED
        self._press = (x, y)
        self._grip = scene.time(x) - bar.start
        self.offset = bar.start - placed.start
        self.held = Held(bar, lane, bar.start, bar.end - bar.start, lane)
        self.held.also = frozenset(key for key in also if key != bar.key and key in scene.timetable.at)

    def move(self, scene: Scene, x: float, y: float, fine: bool) -> bool:
        """Follow the pointer; tell whether anything changed. `fine` snaps to minutes instead of to the grid."""
        held = self.held
        if held is None or self.state is State.IDLE:
            return False
        started = False
        if self.state is State.PRESSED:
            if abs(x - self._press[0]) < THRESHOLD and abs(y - self._press[1]) < THRESHOLD:
                return False
            self.state, started = State.DRAGGING, True
        to_lane = target_lane(scene, held, scene.layout.lane_at(y - scene.ruler + scene.top))
        wanted = scene.time(x) - self._grip
        edges = edges_for(scene, held, to_lane, wanted)
        start = snapped(wanted, held.length, fine, edges, REACH / scene.axis.ppm, phase(scene))
        if abs(x - self._press[0]) < THRESHOLD and abs(scene.time(self._press[0]) - self._grip - held.bar.start) < 0.01:
            start = held.bar.start  # up or down to another place, at the same time
        if not started and start == held.start and to_lane == held.to_lane:
            return False
        held.start, held.to_lane = start, to_lane
        there = scene.lanes[to_lane] if to_lane != held.lane else None
        held.station = there.station.id if there is not None and there.station is not None else None
        held.cook = there.cook if there is not None and there.kind is LaneKind.COOK else None
        held.refused = ""
        if held.cook is not None and held.bar.key is not None:
            held.refused = why_not(scene.plan, scene.timetable.at[held.bar.key], held.cook, self.step_start)
        return True

    def lift(self) -> bool:
        """Drag from now on without waiting for the pointer to travel; tell whether a bar was pressed."""
        if self.state is State.PRESSED:
            self.state = State.DRAGGING
        return self.state is State.DRAGGING

    def release(self) -> Drop | None:
        """Let go where the bar is; None where it was only clicked, or stands as before."""
        held, dragging = self.held, self.state is State.DRAGGING
        self.cancel()
        if held is None or not dragging or held.bar.step is None or held.refused:
            return None
        by = held.start - held.bar.start
        if not by and held.station is None and held.cook is None:
            return None
        start = held.start - self.offset
        if not held.also:
            return Drop(held.bar.step, held.bar.load, start, held.station, held.cook)
        return Drop(held.bar.step, held.bar.load, start, held.station, held.cook, held.also, by)

    def cancel(self) -> None:
        """Let go with nothing changed."""
        self.state, self.held = State.IDLE, None

    @property
    def step_start(self) -> int:
        """Return the minute at which the step of the held bar would start."""
        return 0 if self.held is None else self.held.start - self.offset

    def wish(self, scene: Scene) -> Wish | None:
        """Return what a drop here would ask for."""
        held = self.held
        if held is None or held.bar.key is None:
            return None
        by, at = held.start - held.bar.start, scene.timetable.at
        starts = {held.bar.key: self.step_start} | {key: at[key].start + by for key in held.also}
        return Wish(held.bar.key, starts, held.station, held.cook)


def snapped(
    wanted: float, length: int, fine: bool, edges: Iterable[int], reach: float, phase: int = 0
) -> int:
    """Return a start near the wanted one: a neighbour's edge within reach, else the grid; `fine`: the minute.

    `phase` is the clock's minute at plating, so that the grid is that of the clock.
    """
    if fine:
        return round(wanted)
    near = [start for edge in edges for start in (edge, edge - length) if abs(start - wanted) <= reach]
    if near:
        return min(near, key=lambda start: (abs(start - wanted), start))
    return round((wanted + phase) / GRID) * GRID - phase


def phase(scene: Scene) -> int:
    """Return the clock's minute at plating within the grid."""
    return scene.plan.plating.local.minute % GRID


def target_lane(scene: Scene, held: Held, over: int | None) -> int:
    """Return the lane the bar would drop on: the one under the pointer if it is of the same kind, else its own."""
    own = scene.lanes[held.lane]
    if over is None or over == held.lane or held.also:
        return held.lane
    other = scene.lanes[over]
    if own.kind is LaneKind.COOK and other.kind is LaneKind.COOK:
        return over if other.cook is not None else held.lane
    if held.bar.kind is not BarKind.STEP or own.kind is not LaneKind.STATION:
        return held.lane
    return over if takes(own, other, held.bar, named_for(scene, held.bar)) else held.lane


def takes(own: Lane, other: Lane, bar: Bar, named: Collection[StationId] = ()) -> bool:
    """Tell whether a bar of one lane may stand in another: a station of the same kind with room for it."""
    if own.station is None or other.station is None or own.station.kind is not other.station.kind:
        return False
    if named and other.station.id not in named:
        return False
    if bool(own.station.shelves) is not bool(other.station.shelves):
        return False
    return bool(other.station.shelves) or other.station.units >= bar.rows


def edges_for(scene: Scene, held: Held, lane: int, at: float | None = None) -> tuple[int, ...]:
    """Return the edges that draw the bar at a start: its neighbours' in the lane, and those of what it is linked to."""
    edges: set[int] = {0}
    at = held.start if at is None else at
    loads, reach = scene.timetable.loads_of, REACH / scene.axis.ppm + held.length
    for bar in scene.layout.between(lane, at - reach, at + held.length + reach):
        if bar.step != held.bar.step and bar.key not in held.also:
            edges |= {bar.start, bar.end}
    if held.bar.step is not None and held.bar.kind is BarKind.STEP:
        for link in scene.plan.links_to.get(held.bar.step, ()):
            edges |= {each.end for each in loads.get(link.before, ())}
        for link in scene.plan.links_from.get(held.bar.step, ()):
            edges |= {each.start for each in loads.get(link.after, ())}
    return tuple(sorted(edges))


def named_for(scene: Scene, bar: Bar) -> frozenset[StationId]:
    """Return the stations to which the step, in the way it is placed, is narrowed by name."""
    placed = scene.timetable.at.get(bar.key) if bar.key is not None else None
    if placed is None:
        return frozenset()
    _length, uses = way_of(scene.plan, scene.plan.steps[placed.step], placed.way)
    return frozenset(use.station for use in uses if use.station is not None)
