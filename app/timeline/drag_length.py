"""Drawing a bar's end: which ends can be drawn, what length that comes to, what is known of it. Minutes and points."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from PySide6.QtCore import QCoreApplication

from app.timeline.bars import Bar, BarKind, Key
from app.timeline.drag_gesture import Point
from app.timeline.drag_wish import Wish
from app.timeline.scene import Scene
from core.measures.minutes import show_minutes
from core.plan.edits import StretchStep
from core.plan.meaning import heat_of, length_at, longer_by, reserved, way_of
from core.plan.plan import Plan
from core.sheets.step_words import parts_of
from core.timetable.timetable import Placed, Timetable

HANDLE = 6.0
"""Points of a bar's end that can be drawn."""
_LEAST = 24.0
"""Points below which a bar has its handle outside, while it is chosen."""


@dataclass(frozen=True)
class Sizes:
    """What lengths of a step come to where a load stands: `shown` minutes there for minutes of the recipe.

    `low` and `high` are what the recipe knows.
    """

    step_minutes: int
    low: int
    high: int
    shown: Callable[[int], int]

    @classmethod
    def of(cls, plan: Plan, placed: Placed) -> Sizes:
        """Return the sizes of a load: at another setting or in a full place it lasts as many times longer there."""
        step = plan.steps[placed.step]
        span, _uses = way_of(plan, step, placed.way)
        now = reserved(plan, placed.step, placed.way).length
        heat = heat_of(plan, step, placed.way)

        def alone(minutes: int) -> int:
            if heat is None or placed.setting is None:
                return minutes
            return length_at(minutes, heat, placed.setting)

        stations = [plan.kitchen.station.get(spot.station) for spot in placed.spots]
        heaters = [station.heater for station in stations if station is not None]
        full = max((heater.full for heater in heaters if heater is not None), default=0)
        if placed.length == alone(now):
            return cls(now, span.low, span.high, alone)
        if full and placed.length == longer_by(alone(now), full):
            return cls(now, span.low, span.high, lambda minutes: longer_by(alone(minutes), full))
        return cls(now, span.low, span.high, lambda minutes: minutes + placed.length - now)

    def minutes_for(self, length: int) -> int:
        """Return the recipe's minutes that come nearest to a length there."""
        near = range(max(1, length // 2 - 2), length * 2 + 3)
        return min(near, key=lambda minutes: (abs(self.shown(minutes) - length), minutes))

    def asks(self, minutes: int) -> bool:
        """Tell whether minutes of the recipe lie beyond what it knows."""
        return not self.low <= minutes <= self.high


def handle_at(scene: Scene, point: Point) -> tuple[int, Bar] | None:
    """Return the lane's number and the bar whose end is under a point and can be drawn."""
    x, y = point
    if x < scene.gutter or y < scene.ruler:
        return None
    at = scene.layout.lane_at(y + scene.top - scene.ruler)
    if at is None or scene.lanes[at].line:
        return None
    for bar in scene.layout.between(at, scene.time(x - HANDLE - 2), scene.time(x + HANDLE + 2)):
        box = scene.box(at, bar)
        if not box.y <= y < box.bottom or not stretches(scene, bar):
            continue
        inside = box.right - HANDLE <= x <= box.right + 2 and box.w >= _LEAST
        outside = box.right - 1 <= x <= box.right + HANDLE and box.w < _LEAST and bar.step == scene.selected
        if inside or outside:
            return at, bar
    return None


def stretches(scene: Scene, bar: Bar) -> bool:
    """Tell whether a bar's end can be drawn: a load of a step that is not done in pieces."""
    placed = scene.timetable.at.get(bar.key) if bar.key is not None else None
    if placed is None or bar.kind is not BarKind.STEP or placed.step not in scene.plan.steps:
        return False
    return not parts_of(scene.plan.steps[placed.step], placed)


def wish_for(plan: Plan, timetable: Timetable, key: Key, length: int) -> Wish:
    """Return what another length of a load asks for: all loads of its step last as long, one after the other."""
    step, loads = plan.steps[key[0]], timetable.loads_of[key[0]]
    pause = step.loads.change_over if step.loads is not None else 0
    starts = {each.key: each.start for each in loads}
    own = next(number for number, each in enumerate(loads) if each.key == key)
    for one, other in zip(loads[own:], loads[own + 1 :], strict=False):
        starts[other.key] = max(other.start, starts[one.key] + length + pause)
    for one, other in zip(loads[own::-1], loads[:own][::-1], strict=False):
        starts[other.key] = min(other.start, starts[one.key] - pause - length)
    return Wish(key, starts, lengths={each.key: length for each in loads})


def edit_for(plan: Plan, placed: Placed, length: int) -> StretchStep:
    """Return the edit that lets a step take so long where it stands."""
    return StretchStep(placed.step, Sizes.of(plan, placed).minutes_for(length), placed.way)


def note_for(sizes: Sizes, minutes: int) -> str:
    """Return what is to be asked of a length beyond what is known; "" within."""
    if minutes < sizes.low:
        said = _translated("Shorter than the quickest {known} known: is it done by then?")
        return said.format(known=show_minutes(sizes.low))
    if minutes > sizes.high:
        said = _translated("Longer than the slowest {known} known: is that meant?")
        return said.format(known=show_minutes(sizes.high))
    return ""


def _translated(text: str) -> str:
    return QCoreApplication.translate("timeline", text)
