"""Food limits that a timetable misses, as the timeline marks them: where, how gravely, in words. Values only."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from PySide6.QtCore import QCoreApplication

from app.timeline.bars import Bar, BarKind
from core.plan.ids import StepId


@dataclass(frozen=True, slots=True)
class FoodMark:
    """One limit in [start, end), minutes from plating. `over`: it is missed; else it is a caution."""

    steps: tuple[StepId, ...]
    start: int
    end: int
    over: bool
    sentence: str

    @property
    def said(self) -> str:
        """Return its level and its sentence."""
        words = "Food limit: {sentence}" if self.over else "Food caution: {sentence}"
        return QCoreApplication.translate("timeline", words).format(sentence=self.sentence)


class FoodMarks:
    """The marks of one timetable by step."""

    def __init__(self, marks: Iterable[FoodMark] = ()) -> None:
        self.all = tuple(marks)
        self._by: dict[StepId, list[FoodMark]] = {}
        for mark in self.all:
            for step in mark.steps:
                self._by.setdefault(step, []).append(mark)

    def on(self, bar: Bar) -> tuple[FoodMark, ...]:
        """Return the marks that show on a bar: on a load of a step and on food that waits, where the times meet."""
        if bar.step is None or bar.kind not in _SHOWN:
            return ()
        return tuple(
            mark for mark in self._by.get(bar.step, ()) if bar.start <= mark.end and mark.start <= bar.reach
        )

    def level(self, bar: Bar) -> bool | None:
        """Tell whether a bar is over a limit (True) or only bears a caution (False); None: neither."""
        found = self.on(bar) if self._by else ()
        return any(mark.over for mark in found) if found else None


_SHOWN = frozenset({BarKind.STEP, BarKind.HAND, BarKind.STAY})
NONE = FoodMarks()
