"""Clashes found by what they name, so that a bar asks only those that may show on it."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Hashable, Iterable, Sequence

from app.timeline.bars import Bar, Lane
from core.timetable.clash import Clash


class ClashIndex:
    """The clashes of one timetable by steps, cooks, stations and vessels, each in order of time."""

    def __init__(self, clashes: Sequence[Clash]) -> None:
        self._by: dict[Hashable, list[Clash]] = {}
        for clash in sorted(clashes, key=lambda each: each.start):
            for key in _keys(clash):
                self._by.setdefault(key, []).append(clash)
        self._starts = {key: [each.start for each in found] for key, found in self._by.items()}
        self._longest = {key: max(each.end - each.start for each in found) for key, found in self._by.items()}

    def near(self, bar: Bar, lane: Lane) -> list[Clash]:
        """Return the clashes that may show on a bar of a lane; `scene.concerns` tells which do."""
        if bar.step is not None:
            return self._by.get(("step", bar.step), [])
        keys = (("cook", lane.cook), ("station", bar.station), ("vessel", bar.vessel))
        found: dict[int, Clash] = {}
        for key in keys:
            if key[1] is not None and key in self._by:
                found.update((id(clash), clash) for clash in self._around(key, bar))
        return list(found.values())

    def _around(self, key: Hashable, bar: Bar) -> Iterable[Clash]:
        """Return what a key names that meets a bar or its ends."""
        starts = self._starts[key]
        first = bisect_left(starts, bar.start - max(0, self._longest[key]))
        return self._by[key][first : bisect_right(starts, bar.reach)]


def _keys(clash: Clash) -> Iterable[tuple[str, Hashable]]:
    yield from (("step", step) for step in dict.fromkeys(clash.steps))
    yield from (("cook", cook) for cook in dict.fromkeys(clash.cooks))
    yield from (("station", station) for station in dict.fromkeys(clash.stations))
    yield from (("vessel", vessel) for vessel in dict.fromkeys(clash.vessels))
