"""What is to be painted: lanes at their places, the scales, what is chosen, held and clashing. Values only."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from app.timeline.bars import Bar, BarKind, Key, Lane, LaneKind, Shade
from app.timeline.geometry import Axis, Box, Layout
from app.timeline.heat import Curve
from core.plan.ids import StationId, StepId
from core.plan.plan import Plan
from core.timetable.clash import Clash, ClashKind
from core.timetable.timetable import Timetable


@dataclass
class Held:
    """A bar that is being dragged: where it would start, where it may, who would be pushed, what would clash."""

    bar: Bar
    lane: int
    start: int
    length: int
    to_lane: int
    station: StationId | None = None
    legal: tuple[int, int] | None = None
    pushed: Mapping[Key, int] = field(default_factory=dict)
    clashes: Sequence[Clash] = ()

    @property
    def end(self) -> int:
        """Return where it would end."""
        return self.start + self.length


@dataclass
class Scene:
    """Everything that painting needs besides colours. Points: x from the axis, y from the first lane."""

    plan: Plan
    timetable: Timetable
    clashes: tuple[Clash, ...]
    reading: str
    lanes: tuple[Lane, ...]
    layout: Layout
    axis: Axis
    nights: tuple[Shade, ...] = ()
    courses: tuple[tuple[int, str], ...] = ()
    curves: Mapping[str, Curve] = field(default_factory=dict)
    left: float = 0.0
    top: float = 0.0
    width: float = 800.0
    height: float = 600.0
    gutter: float = 168.0
    ruler: float = 62.0
    selected: StepId | None = None
    focus: Bar | None = None
    focus_lane: int = -1
    held: Held | None = None

    def x(self, minute: float) -> float:
        """Return the points across the widget of a minute."""
        return self.axis.x(minute) - self.left + self.gutter

    def y(self, y: float) -> float:
        """Return the points down the widget of a height among the lanes."""
        return y - self.top + self.ruler

    def time(self, x: float) -> float:
        """Return the minute at a point of the widget."""
        return self.axis.time(x + self.left - self.gutter)

    def box(self, lane: int, bar: Bar) -> Box:
        """Return a bar's box in the widget."""
        box = self.layout.box(lane, bar, self.axis)
        return Box(box.x - self.left + self.gutter, self.y(box.y), box.w, box.h)

    def lane_box(self, lane: int) -> Box:
        """Return a lane's strip in the widget, right of the gutter."""
        return Box(self.gutter, self.y(self.layout.tops[lane]), self.width - self.gutter, self.layout.heights[lane])

    @property
    def seen(self) -> tuple[float, float]:
        """Return the first and last minute in sight."""
        return self.time(self.gutter), self.time(self.width)

    def marks(self, clashes: Sequence[Clash]) -> dict[StepId, list[Clash]]:
        """Return the clashes of each step."""
        found: dict[StepId, list[Clash]] = {}
        for clash in clashes:
            for step in clash.steps:
                found.setdefault(step, []).append(clash)
        return found


def concerns(clash: Clash, bar: Bar, lane: Lane) -> bool:
    """Tell whether a clash shows on this bar: it names the step, and the place or the cook of the lane if any.

    One of lighting shows where the fire is lit, one of washing or of a cook at a chore on the chore.
    """
    touches = bar.start < clash.end and clash.start < bar.reach
    if clash.end <= clash.start:
        touches = bar.start <= clash.start <= bar.reach
    if bar.step is None:
        return (touches or clash.start == bar.end) and _beside(clash, bar, lane)
    if bar.step not in clash.steps:
        return False
    if lane.kind is LaneKind.COOK:
        named = not clash.stations and (not clash.cooks or lane.cook in clash.cooks)
        return named and touches
    if clash.cooks:
        return touches and bar.kind is BarKind.STEP
    if clash.stations and lane.station is not None:
        return lane.station.id in clash.stations and touches
    return bar.kind is BarKind.STEP


def _beside(clash: Clash, bar: Bar, lane: Lane) -> bool:
    if bar.kind is BarKind.LIGHTING:
        return clash.kind in _OF_LIGHTING and bar.station in clash.stations
    if bar.kind is BarKind.CHORE:
        return lane.cook in clash.cooks or (bar.vessel in clash.vessels and clash.kind in _OF_WASHING)
    return False


_OF_LIGHTING = frozenset({ClashKind.LENGTH, ClashKind.TOO_MANY_FIRES})
_OF_WASHING = frozenset({ClashKind.LENGTH, ClashKind.OUT_OF_ORDER, ClashKind.WRONG_PLACE})
