"""The chance of being in time while a bar is dragged: the days are drawn once, each move asks them again."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from time import perf_counter
from typing import TYPE_CHECKING

from core.plan.network_limits import Key
from core.plan.plan import Plan
from core.timetable.timetable import Timetable

if TYPE_CHECKING:
    from core.arrange.chances import Odds

_SLOW = 0.025
"""Seconds: a move that takes longer is felt, and the next one is left out."""


class DraggedOdds:
    """Answers for one plan and timetable at a time. `clock` gives seconds."""

    def __init__(self, clock: Callable[[], float] = perf_counter) -> None:
        self._clock = clock
        self._odds: tuple[Plan, Timetable, Odds] | None = None
        self._rest = False

    def after(self, plan: Plan, timetable: Timetable, moved: Mapping[Key, int]) -> float | None:
        """Return the chance that nothing is more than a few minutes late with loads at other starts.

        None where this move is left out because the last was slow.
        """
        from core.arrange.chances import WITHIN  # numpy: only once something is dragged

        odds = self._of(plan, timetable)
        if self._rest:
            self._rest = False
            return None
        begun = self._clock()
        chance = odds.after(moved, WITHIN)
        self._rest = self._clock() - begun > _SLOW
        return chance

    def _of(self, plan: Plan, timetable: Timetable) -> Odds:
        if self._odds is None or self._odds[0] is not plan or self._odds[1] is not timetable:
            from core.arrange.chances import Odds

            self._odds = (plan, timetable, Odds(plan, timetable))
        return self._odds[2]
