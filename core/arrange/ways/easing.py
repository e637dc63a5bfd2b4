"""An easing: one thing that may give, by sizes from 1 to the most. The seeking finds the smallest that suffices."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from core.arrange.ways.way import Change, WayKind
from core.plan.edits import Edit
from core.plan.plan import Plan
from core.timetable.timetable import Timetable


def _as_large(size: int) -> float:
    return float(size)


@dataclass(frozen=True, slots=True)
class Easing:
    """`make(size)` is the edit; what a larger size allows includes what a smaller one does, unless `rough`.

    `told(size, timetable)` says what changes. `guess` is a size to try before the most (0: none); a `rough` easing
    is tried at sizes in between, too. `needs` reads off a timetable the size it really uses. `fitted` makes the
    edit that allows just what the timetable uses (hours of a helper). `sizes` instead of 1 to `most`: only these,
    each tried in turn. `weight`: what the price counts. `later`: each size is a minute by which plating comes
    later. `parts`: what it is made of; where some of them suffice, it is not tried.
    """

    kind: WayKind
    make: Callable[[int], Edit]
    told: Callable[[int, Timetable], tuple[Change, ...]]
    most: int = 1
    guess: int = 0
    needs: Callable[[Timetable], int] | None = None
    fitted: Callable[[Plan, int, Timetable], Edit | None] | None = None
    sizes: tuple[int, ...] = ()
    weight: Callable[[int], float] = _as_large
    later: bool = False
    rough: bool = False
    parts: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True)
class Family:
    """Easings of one kind in the order to try them.

    `joint`: all at their most may be asked at once, since each changes something else. `one_will_do`: what comes
    after the first that helps is not tried.
    """

    kind: WayKind
    easings: tuple[Easing, ...]
    joint: bool = False
    one_will_do: bool = False
