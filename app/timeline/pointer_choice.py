"""What a press and a click choose: one bar, several with a key held, or nothing."""

from __future__ import annotations

from collections.abc import Callable, Collection
from typing import TYPE_CHECKING

from PySide6.QtCore import QPointF, QRectF

from app.timeline import spoken
from app.timeline.bars import Bar, Key
from app.timeline.drag_length import handle_at
from app.timeline.drag_places import places_of
from core.timetable.clash import Clash

if TYPE_CHECKING:
    from app.timeline.timeline import Timeline

Click = Callable[[], None]


class Choice:
    """Chooses bars of one timeline."""

    def __init__(self, timeline: Timeline) -> None:
        self._timeline = timeline

    def press(self, lane: int, bar: Bar, point: QPointF, *, more: bool) -> tuple[Collection[Key], Click | None]:
        """Return the loads that a drag of this bar moves, and what a click without a drag does."""
        timeline, scene = self._timeline, self._timeline.scene
        own = scene.focus.key if scene.focus is not None else None
        chosen = scene.also | ({own} if own is not None else set())
        along = bar.key in chosen and bool(scene.also)

        def alone() -> None:
            timeline.focus_on(lane, bar, chosen=True, reveal=False)

        def as_well() -> None:
            timeline.focus_on(lane, bar, chosen=True, reveal=False, more=True)

        if more:
            return (chosen, lambda: self._leave_out(bar)) if along else ((), as_well)
        if along:
            as_well()
            return chosen, alone
        alone()
        clash = self.clash_at(lane, bar, point)
        if clash is not None:
            timeline.clash_chosen.emit(clash)
        return (), None

    def nothing(self) -> None:
        """Choose nothing."""
        self._timeline.select(None)
        self._timeline.scene.also = frozenset()

    def tap(self, point: QPointF) -> None:
        """Choose what is under a finger, fold its lane, or choose nothing."""
        found = self._timeline.pointer.bar_at(point)
        if self._timeline.lines.press(point):
            return
        if found is None:
            self.nothing()
        else:
            self._timeline.focus_on(*found, chosen=True, reveal=False)

    def _leave_out(self, bar: Bar) -> None:
        """Take a bar out of what is chosen; where it had the focus, the first of the others gets it."""
        scene = self._timeline.scene
        if scene.focus is None or scene.focus.key != bar.key:
            scene.also = frozenset(key for key in scene.also if key != bar.key)
        else:
            places = [place for key in scene.also for place in places_of(scene).get(key, ())]
            if places:
                first = min(places, key=lambda place: (place[1].start, place[0]))
                rest = frozenset(key for key in scene.also if key != first[1].key)
                self._timeline.focus_on(*first, chosen=True, reveal=False)
                scene.also = rest
        self._timeline.viewport().update()

    def end_at(self, point: QPointF) -> tuple[int, Bar] | None:
        """Return the bar whose end is under a point and can be drawn; a clash mark on it goes before."""
        found = handle_at(self._timeline.scene, (point.x(), point.y()))
        return None if found is None or self.clash_at(*found, point) is not None else found

    def clash_at(self, lane: int, bar: Bar, point: QPointF) -> Clash | None:
        """Return the clash whose mark on a bar is under a point."""
        scene = self._timeline.scene
        box = scene.box(lane, bar)
        if not QRectF(box.right - 12, box.y - 4, 20, 18).contains(point):
            return None
        wrong = spoken.clashes_on(scene, bar, scene.lanes[lane])
        return wrong[0] if wrong else None
