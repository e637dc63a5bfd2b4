"""Finds the smallest size of an easing that suffices: a guess, the most, then halving between what was asked."""

from __future__ import annotations

from dataclasses import dataclass

from core.arrange.ways.asking import Asking
from core.arrange.ways.easing import Easing
from core.plan.edits import Edit
from core.timetable.timetable import Timetable

_BETWEEN = (5, 10, 20, 30, 45, 60, 90, 120, 180, 240)


@dataclass(frozen=True, slots=True)
class Sufficient:
    """A size, the timetable that proves it, and whether the next smaller size was asked in vain."""

    size: int
    timetable: Timetable
    smallest: bool


def smallest(easing: Easing, asking: Asking) -> Sufficient | None:
    """Return the smallest size found within the budget; None where neither guess nor most suffices."""
    if easing.sizes:
        return _first_of(easing, asking)
    failed, found = 0, None
    tries = {easing.guess, easing.most, *(_BETWEEN if easing.rough else ())}
    for size in sorted(size for size in tries if 1 <= size <= easing.most):
        found = _asked(easing, asking, size, failed)
        if found is not None or asking.over:
            break
        failed = size
    if found is None:
        return None
    size, timetable = found
    probe = size - 1
    while size - failed > 1 and not asking.over:
        tried = _asked(easing, asking, probe, failed)
        if tried is None:
            failed = probe
        else:
            size, timetable = tried
        probe = (size + failed) // 2
    return Sufficient(size, timetable, size - failed <= 1)


def _asked(easing: Easing, asking: Asking, size: int, failed: int) -> tuple[int, Timetable] | None:
    """Ask for a size; where the timetable uses less, and the validator agrees, return what it uses."""
    timetable = asking.at(easing, size)
    if timetable is None:
        return None
    if easing.needs is not None and not easing.later:
        less = max(1, easing.needs(timetable))
        if failed < less < size and asking.holds(easing.make(less), timetable):
            return less, timetable
    return size, timetable


def _first_of(easing: Easing, asking: Asking) -> Sufficient | None:
    for size in easing.sizes:
        timetable = asking.at(easing, size)
        if timetable is not None:
            return Sufficient(size, timetable, True)
        if asking.over:
            break
    return None


def edit_of(easing: Easing, found: Sufficient, asking: Asking) -> tuple[Edit, Timetable]:
    """Return the edit of a size and its timetable; narrowed to what the timetable uses where that still meets."""
    edit = easing.make(found.size)
    if easing.fitted is None:
        return edit, found.timetable
    narrow = easing.fitted(edit(asking.plan), found.size, found.timetable)
    if narrow is None:
        return edit, found.timetable
    if asking.holds(narrow, found.timetable):
        return narrow, found.timetable
    _fit, timetable = asking.with_edit(narrow)
    return (edit, found.timetable) if timetable is None else (narrow, timetable)
