"""The present moment on the timeline: a line that a timer moves each minute, and nothing else with it."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, QRect, Qt, QTimer

from app.timeline.paint_now import across
from core.measures.clock import offset_at, system_now

if TYPE_CHECKING:
    from app.timeline.timeline import Timeline

_MINUTE = 60.0


class NowLine(QObject):
    """Tells the scene which minute it is, while that lies on the plan's days. `clock` gives the aware instant."""

    def __init__(self, timeline: Timeline) -> None:
        super().__init__(timeline)
        self._timeline = timeline
        self.clock: Callable[[], datetime] = system_now
        self._timer = QTimer(self)
        self._timer.setSingleShot(True)
        self._timer.setTimerType(Qt.TimerType.PreciseTimer)
        self._timer.timeout.connect(self.tick)

    def look(self) -> None:
        """Look at the clock for a scene that is new; the caller paints it."""
        scene, now = self._timeline.scene, self.clock()
        minute = offset_at(scene.plan.plating, now)
        scene.now = minute if scene.timetable.placed and scene.axis.low <= minute <= scene.axis.high else None
        self._timer.start(round(1000 * (_MINUTE - now.second - now.microsecond / 1e6)) + 20)

    @property
    def due(self) -> int:
        """Return after how many milliseconds it looks again."""
        return self._timer.interval()

    def tick(self) -> None:
        """Move the line; only where it was, where it is, and the ruler are painted again."""
        scene, before = self._timeline.scene, self._timeline.scene.now
        self.look()
        if scene.now == before:
            return
        viewport = self._timeline.viewport()
        for minute in (before, scene.now):
            if minute is not None:
                left, right = across(scene, minute)
                viewport.update(QRect(left, 0, right - left, round(scene.height)))
        viewport.update(QRect(round(scene.gutter), 0, round(scene.width - scene.gutter), round(scene.ruler)))
        self._timeline.overview.update()
