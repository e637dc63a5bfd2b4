"""How much goes on at a time: counts over minutes, coarser and coarser, and when a lane is too crowded for bars."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cached_property
from statistics import median_low

from app.timeline.bars import Bar, BarKind, Lane

NARROW = 3.0
"""Points below which a lane's typical bar says less than the lane's profile."""
CROWDED = 9.0
"""Points that a bar of a row has on average, below which its lane shows a profile."""
FINEST, COARSER = 1, 4
"""Minutes of the finest steps of a profile, and by how much each coarser one has longer ones."""

Span = tuple[int, int]


@dataclass(frozen=True)
class Profile:
    """How much goes on: `levels[n]` from `times[n]` to `times[n + 1]`, nothing before the first and after the last.

    Levels are counts, or, in a coarser profile, the mean count over each of its steps.
    """

    times: tuple[int, ...] = ()
    levels: tuple[float, ...] = ()

    @cached_property
    def most(self) -> float:
        """Return the highest level."""
        return max(self.levels, default=0)

    def level(self, minute: float) -> float:
        """Return the level at a minute."""
        at = bisect_right(self.times, minute) - 1
        return self.levels[at] if 0 <= at < len(self.levels) else 0

    def meets(self, start: float, end: float) -> bool:
        """Tell whether anything goes on in a stretch."""
        first = max(0, bisect_right(self.times, start) - 1)
        return any(self.levels[first : bisect_left(self.times, end)])

    def between(self, start: float, end: float) -> list[tuple[int, int, float]]:
        """Return the steps (start, end, level) that meet a stretch and are not empty."""
        first = max(0, bisect_right(self.times, start) - 1)
        last = min(len(self.levels), bisect_left(self.times, end))
        return [
            (self.times[at], self.times[at + 1], self.levels[at])
            for at in range(first, last)
            if self.levels[at] > 0
        ]


def profile(spans: Iterable[Span]) -> Profile:
    """Return how many spans (half-open, minutes) lie over each minute."""
    changes: dict[int, int] = {}
    for start, end in spans:
        if end > start:
            changes[start] = changes.get(start, 0) + 1
            changes[end] = changes.get(end, 0) - 1
    times: list[int] = []
    levels: list[float] = []
    level = 0
    for at in sorted(changes):
        if changes[at]:
            level += changes[at]
            times.append(at)
            levels.append(level)
    return Profile(tuple(times), tuple(levels[:-1]))


def coarser(fine: Profile, minutes: int) -> Profile:
    """Return the mean level over steps of so many minutes, counted from minute 0; equal neighbours are one step."""
    sums: dict[int, float] = {}
    for at, level in enumerate(fine.levels):
        start, end = fine.times[at], fine.times[at + 1]
        for step in range(start // minutes, -(-end // minutes)) if level else ():
            part = min(end, (step + 1) * minutes) - max(start, step * minutes)
            sums[step] = sums.get(step, 0.0) + level * part
    times: list[int] = []
    levels: list[float] = []
    until: int | None = None
    for step in sorted(sums):
        start, level = step * minutes, round(sums[step] / minutes, 3)
        if until is not None and start > until:
            times.append(until)
            levels.append(0)
        if start != until or levels[-1] != level:
            times.append(start)
            levels.append(level)
        until = start + minutes
    return Profile(tuple(times if until is None else [*times, until]), tuple(levels))


class Grain:
    """One profile at every coarseness, each made when it is first asked for."""

    def __init__(self, finest: Profile) -> None:
        self._by_step = {FINEST: finest}

    def at(self, ppm: float, least: float = 1.5) -> tuple[int, Profile]:
        """Return the minutes of a step, and the profile whose steps are at least so many points wide."""
        step, found = FINEST, self._by_step[FINEST]
        while step * ppm < least:
            step *= COARSER
            if step not in self._by_step:
                self._by_step[step] = coarser(found, step)
            found = self._by_step[step]
        return step, found


def typical(lane: Lane) -> float:
    """Return the minutes of a lane's typical bar; 0 where it has none."""
    return median_low([bar.end - bar.start for bar in lane.bars]) if lane.bars else 0


def crowded(lane: Lane, typical_minutes: float, ppm: float, open_minutes: float) -> bool:
    """Tell whether a lane's bars would be too narrow or too many to be told apart at a scale.

    `open_minutes` is how long the lane is without what is folded.
    """
    if not lane.bars:
        return False
    there = lane.rows if lane.room is None else max(1, min(lane.rows, lane.room))  # not those it is over-full by
    return typical_minutes * ppm < NARROW or open_minutes * ppm * there < CROWDED * len(lane.bars)


def occupied(bars: Iterable[Bar]) -> Profile:
    """Return how many rows of a lane are taken at each minute; heating up takes none."""
    return profile(
        (bar.start, bar.end) for bar in bars for _row in range(bar.rows if bar.kind is not BarKind.HEATING else 0)
    )
