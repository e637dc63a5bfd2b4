"""Where a held bar clashes with nothing: asked of the validator start by start, nearest first, a slice at a time.

What is told holds: a start counts only once it was asked about, and another lane or another bar begins anew.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterator, Sequence
from dataclasses import replace
from time import perf_counter

from app.timeline.drag import GRID
from app.timeline.drag_wish import Wish
from core.plan.ids import StepId
from core.timetable.clash import Clash, ClashKind

SLICE = 0.004
"""Seconds of one slice: short enough that a move of the pointer does not wait."""
MOST = 1200
"""Starts that are asked about at most; beyond, the cook has to come nearer."""

Kinds = Collection[tuple[ClashKind, tuple[StepId, ...]]]


class Sweep:
    """Asks about the starts of one wish between two minutes, the nearest to where it is held first.

    `before` are the clashes that are there anyway: one of a step that is only pushed counts if it is not among them.
    """

    def __init__(
        self,
        ask: Callable[[Wish], Sequence[Clash]],
        wish: Wish,
        stretch: tuple[int, int],
        before: Sequence[Clash],
        *,
        phase: int = 0,
        fine: bool = True,
    ) -> None:
        self._ask = ask
        self._wish = wish
        self._fine = fine
        self._held = {step for step, _load in wish.starts}
        self._before = {(clash.kind, clash.steps) for clash in before}
        self._left = _nearest(wish.start, stretch, phase, fine=fine)
        self._known: dict[int, bool] = {}
        self.asked = 0

    @property
    def done(self) -> bool:
        """Tell whether every start was asked about."""
        return self._left is None

    def work(self, clock: Callable[[], float] = perf_counter, slice_: float = SLICE) -> bool:
        """Ask for as long as a slice lasts, once at least; tell whether anything new is known."""
        begun, new = clock(), False
        while self._left is not None:
            start = next(self._left, None)
            if start is None or self.asked >= MOST:
                self._left = None
                break
            self._known[start] = not self._clashes(start)
            self.asked, new = self.asked + 1, True
            if clock() - begun >= slice_:
                break
        return new

    def _clashes(self, start: int) -> bool:
        by = start - self._wish.start
        wish = replace(self._wish, starts={key: at + by for key, at in self._wish.starts.items()})
        return any(
            not self._held.isdisjoint(clash.steps) or (clash.kind, clash.steps) not in self._before
            for clash in self._ask(wish)
        )

    def stretches(self) -> tuple[tuple[int, int], ...]:
        """Return from which to which start nothing clashes, both included, as far as it is known."""
        apart = 1 if self._fine else GRID
        found: list[tuple[int, int]] = []
        for start in sorted(start for start, free in self._known.items() if free):
            if found and start - found[-1][1] <= apart:
                found[-1] = (found[-1][0], start)
            else:
                found.append((start, start))
        return tuple(found)


def _nearest(start: int, stretch: tuple[int, int], phase: int, *, fine: bool) -> Iterator[int] | None:
    """Return the starts of a stretch, those of the grid first, in each the nearest first."""
    first, last = stretch
    if first > last:
        return None
    low = -(-(first + phase) // GRID) * GRID - phase
    grid = sorted(range(low, last + 1, GRID), key=lambda each: abs(each - start))
    if not fine:
        return iter(grid)
    known = set(grid)
    rest = sorted((each for each in range(first, last + 1) if each not in known), key=lambda each: abs(each - start))
    return iter([*grid, *rest])
