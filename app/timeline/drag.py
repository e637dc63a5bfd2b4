"""A drag as a state machine over numbers: pressed, dragging, let go or dropped. No widget, no painter."""

from __future__ import annotations

from collections.abc import Collection, Iterable
from dataclasses import dataclass
from enum import Enum, auto

from app.timeline.bars import Bar, BarKind, Lane, LaneKind
from app.timeline.scene import Held, Scene
from core.plan.ids import StationId, StepId
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
    """Where a step was dropped: start of the step (not of the bar), and another station, if it changed."""

    step: StepId
    load: int
    start: int
    station: StationId | None


class Drag:
    """Follows one bar from the press to the drop. Minutes and points; the scene's `held` tells painting."""

    def __init__(self) -> None:
        self.state = State.IDLE
        self._press = (0.0, 0.0)
        self._grip = 0.0
        self._edges: tuple[int, ...] = ()
        self.held: Held | None = None
        self.offset = 0

    def press(self, scene: Scene, lane: int, bar: Bar, x: float, y: float) -> None:
        """Take hold of a bar at a point of the widget."""
        placed = scene.timetable.at.get(bar.key) if bar.key is not None else None
        if placed is None or not bar.moves:
            return
        self.state = State.PRESSED
        self._press = (x, y)
        self._grip = scene.time(x) - bar.start
        self.offset = bar.start - placed.start
        self.held = Held(bar, lane, bar.start, bar.end - bar.start, lane)

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
        edges = edges_for(scene, held, to_lane)
        start = snapped(wanted, held.length, fine, edges, REACH / scene.axis.ppm, phase(scene))
        if not started and start == held.start and to_lane == held.to_lane:
            return False
        held.start, held.to_lane = start, to_lane
        there = scene.lanes[to_lane].station
        held.station = there.id if to_lane != held.lane and there is not None else None
        return True

    def release(self) -> Drop | None:
        """Let go where the bar is; None where it was only clicked, or stands as before."""
        held, dragging = self.held, self.state is State.DRAGGING
        self.cancel()
        if held is None or not dragging or held.bar.step is None:
            return None
        if held.start == held.bar.start and held.station is None:
            return None
        return Drop(held.bar.step, held.bar.load, held.start - self.offset, held.station)

    def cancel(self) -> None:
        """Let go with nothing changed."""
        self.state, self.held = State.IDLE, None

    @property
    def step_start(self) -> int:
        """Return the minute at which the step of the held bar would start."""
        return 0 if self.held is None else self.held.start - self.offset


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
    if over is None or held.bar.kind is not BarKind.STEP or own.kind is not LaneKind.STATION:
        return held.lane
    return over if takes(own, scene.lanes[over], held.bar, named_for(scene, held.bar)) else held.lane


def takes(own: Lane, other: Lane, bar: Bar, named: Collection[StationId] = ()) -> bool:
    """Tell whether a bar of one lane may stand in another: a station of the same kind with room for it."""
    if own.station is None or other.station is None or own.station.kind is not other.station.kind:
        return False
    if named and other.station.id not in named:
        return False
    if bool(own.station.shelves) is not bool(other.station.shelves):
        return False
    return bool(other.station.shelves) or other.station.units >= bar.rows


def edges_for(scene: Scene, held: Held, lane: int) -> tuple[int, ...]:
    """Return the edges that draw the bar: its neighbours' in the lane, and those of what it is linked to."""
    edges: set[int] = {0}
    for bar in scene.lanes[lane].bars:
        if bar.step != held.bar.step:
            edges |= {bar.start, bar.end}
    if held.bar.step is not None and held.bar.kind is BarKind.STEP:
        loads = scene.timetable.loads_of
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
