"""Lanes folded to a line: which ones are, and folding and unfolding them by mouse and key."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from PySide6.QtCore import QCoreApplication, QPointF

from app.timeline import assistive
from app.timeline.bars import Bar, Lane, LaneKind
from app.timeline.lane_vessels import MANY

if TYPE_CHECKING:
    from app.timeline.timeline import Timeline


def with_lines(lanes: Sequence[Lane], chosen: Mapping[str, bool]) -> tuple[Lane, ...]:
    """Return lanes with those folded that the cook folded; lanes of vessels begin folded where there are many.

    `chosen`: by a lane's id whether it is to be a line.
    """
    many = sum(lane.kind is LaneKind.VESSEL for lane in lanes) > MANY
    found: list[Lane] = []
    for lane in lanes:
        line = chosen.get(lane.id, many and lane.kind is LaneKind.VESSEL)
        joined = lane.joined and not line and not (found and found[-1].line)
        found.append(
            replace(lane, line=True, rows=lane.rows - lane.words, words=0, joined=joined, tracks=())
            if line
            else replace(lane, joined=joined)
        )
    return tuple(found)


class Lines:
    """Remembers for one timeline which lanes the cook folded to a line or unfolded, by their ids."""

    def __init__(self, timeline: Timeline) -> None:
        self._timeline = timeline
        self.chosen: dict[str, bool] = {}

    def toggle(self, at: int) -> None:
        """Fold the lane with this number to a line, or unfold it."""
        scene = self._timeline.scene
        lane, focus = scene.lanes[at], scene.focus
        self.chosen[lane.id] = not lane.line
        self._timeline.set_plan(scene.plan, scene.timetable, scene.clashes)
        self._focus_again(focus, scene.lanes[scene.focus_lane].id if focus is not None else "")
        said = _translated("{lane}, unfolded") if lane.line else _translated("{lane}, folded to a line")
        assistive.announce(self._timeline, said.format(lane=lane.name))

    def toggle_focused(self) -> None:
        """Fold or unfold the lane of the focused bar."""
        here = self._timeline.focused
        if here is not None:
            self.toggle(here[0])

    def lane_at(self, point: QPointF) -> int | None:
        """Return the number of the lane whose name is under a point of the viewport."""
        scene = self._timeline.scene
        if point.x() >= scene.gutter or point.y() < scene.ruler:
            return None
        return scene.layout.lane_at(point.y() - scene.ruler + scene.top)

    def press(self, point: QPointF) -> bool:
        """Fold or unfold the lane whose name was pressed; tell whether there was one."""
        at = self.lane_at(point)
        if at is not None:
            self.toggle(at)
        return at is not None

    def tip(self, at: int) -> str:
        """Return what to say of a lane's name."""
        lane = self._timeline.scene.lanes[at]
        does = _translated("Click or press L to unfold") if lane.line else _translated("Click or press L to fold")
        return f"{lane.name}\n{does}"

    def _focus_again(self, bar: Bar | None, lane_id: str) -> None:
        """Give the focus back to a bar of no step, which a new scene does not find by its step."""
        if bar is None or bar.step is not None:
            return
        for at, lane in enumerate(self._timeline.scene.lanes):
            if lane.id == lane_id and bar in lane.bars:
                self._timeline.focus_on(at, lane.bars[lane.bars.index(bar)], reveal=False)


def _translated(text: str) -> str:
    return QCoreApplication.translate("timeline", text)
