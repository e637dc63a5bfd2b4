"""What is to be painted: lanes at their places, the scales, what is chosen, held and clashing. Values only."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from functools import cached_property
from typing import TYPE_CHECKING

from app.timeline.bar_facts import Ordered, ordered, signed
from app.timeline.bars import Bar, BarKind, Key, Lane, LaneKind, Shade
from app.timeline.clash_index import ClashIndex
from app.timeline.food_marks import NONE, FoodMarks
from app.timeline.geometry import Axis, Box, Layout
from app.timeline.heat import Curve
from core.plan.ids import CookId, StationId, StepId
from core.plan.plan import Plan
from core.timetable.clash import Clash, ClashKind
from core.timetable.timetable import Timetable

if TYPE_CHECKING:
    from app.timeline.drag_gesture import Gesture
    from app.timeline.moves import Compared


@dataclass
class Held:
    """A bar that is being dragged: where it would start, where it may, who would be pushed, what would clash.

    `also`: loads that are dragged with it. `legal`: first and last start that break no wait; `free`: stretches of
    starts, both ends included, that clash with nothing, as far as they are known. `refused`: why it may not be dropped
    here. `spread`: least and most minutes known of a step whose end is drawn; `asks`: the length lies beyond them,
    as `note` says.
    """

    bar: Bar
    lane: int
    start: int
    length: int
    to_lane: int
    station: StationId | None = None
    legal: tuple[int, int] | None = None
    pushed: Mapping[Key, int] = field(default_factory=dict)
    clashes: Sequence[Clash] = ()
    cook: CookId | None = None
    also: frozenset[Key] = frozenset()
    free: tuple[tuple[int, int], ...] = ()
    refused: str = ""
    spread: tuple[int, int] | None = None
    asks: bool = False
    note: str = ""

    @property
    def end(self) -> int:
        """Return where it would end."""
        return self.start + self.length


@dataclass
class Scene:
    """Everything that painting needs besides colours. Points: x from the axis, y from the first lane.

    `food`: the food limits that it misses. `also`: loads chosen along with the focused one, which move with it.
    `marked`: the step from which the keys are drawing a link or an order. `compared`: another timetable, whose places
    are shown beside these. `still`: a picture on paper, which nobody clicks.
    """

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
    also: frozenset[Key] = frozenset()
    marked: StepId | None = None
    now: int | None = None
    _wrong: dict[int, tuple[Clash, ...]] = field(default_factory=dict, init=False, repr=False, compare=False)
    _alarms: dict[int, tuple[int, int] | None] = field(default_factory=dict, init=False, repr=False, compare=False)
    _serving: tuple[object, tuple[float, ...]] = field(default=(None, ()), init=False, repr=False, compare=False)
    heaps: dict[int, object] = field(default_factory=dict, init=False, repr=False, compare=False)
    held: Held | None = None
    gesture: Gesture | None = None
    compared: Compared | None = None
    food: FoodMarks = NONE
    still: bool = False

    def x(self, minute: float) -> float:
        """Return the points across the widget of a minute."""
        return self.axis.x(minute) - self.left + self.gutter

    @property
    def serving_xs(self) -> Sequence[float]:
        """Return the points across the widget of plating and of each course; worked out anew when these move."""
        now = (self.axis, self.left, self.gutter, self.courses)
        if self._serving[0] != now:
            self._serving = (now, tuple(self.x(at) for at, _word in self.courses))
        return self._serving[1]

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

    def lanes_between(self, top: float, bottom: float) -> range:
        """Return the numbers of the lanes that meet a stretch of the widget's height."""
        first = bisect_right(self.layout.tops, top + self.top - self.ruler) - 1
        return range(max(0, first), bisect_right(self.layout.tops, bottom + self.top - self.ruler))

    @property
    def seen(self) -> tuple[float, float]:
        """Return the first and last minute in sight."""
        return self.time(self.gutter), self.time(self.width)

    @cached_property
    def ordered(self) -> Ordered:
        """Who goes before and after each step by the cook's orders."""
        return ordered(self.plan)

    @cached_property
    def signed(self) -> frozenset[StepId]:
        """Steps about which anything was decided."""
        return signed(self.plan)

    @cached_property
    def index(self) -> ClashIndex:
        """The clashes by what they name."""
        return ClashIndex(self.clashes)

    def wrong(self, lane: int, bar: Bar) -> tuple[Clash, ...]:
        """Return the clashes that show on a bar of a lane; worked out once."""
        found = self._wrong.get(id(bar))
        if found is None:
            there = self.lanes[lane]
            found = tuple(clash for clash in self.index.near(bar, there) if concerns(clash, bar, there))
            self._wrong[id(bar)] = found
        return found

    def alarm(self, lane: int, bar: Bar) -> tuple[int, int] | None:
        """Return from when to when a bar of a lane clashes; None: it does not. Worked out once."""
        if id(bar) not in self._alarms:
            wrong = self.wrong(lane, bar)
            spans = [(clash.start, clash.end) for clash in wrong]
            self._alarms[id(bar)] = (min(spans)[0], max(end for _start, end in spans)) if spans else None
        return self._alarms[id(bar)]

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
    if bar.kind in (BarKind.VESSEL, BarKind.UNWASHED):
        return clash.kind is ClashKind.VESSEL_SHORT and bar.vessel in clash.vessels
    return False


_OF_LIGHTING = frozenset({ClashKind.LENGTH, ClashKind.TOO_MANY_FIRES})
_OF_WASHING = frozenset({ClashKind.LENGTH, ClashKind.OUT_OF_ORDER, ClashKind.WRONG_PLACE})
