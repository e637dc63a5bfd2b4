"""Undo and redo: former states are kept as they were, since plans and timetables are values."""

from __future__ import annotations

from collections.abc import Hashable
from dataclasses import dataclass, replace

from core.desk.kept import KeptDays
from core.plan.plan import Plan
from core.timetable.timetable import Timetable

MOST_STEPS = 1000
"""Undo steps that are kept; the oldest goes first."""


@dataclass(frozen=True, slots=True)
class State:
    """What lies on the desk: the plan, the timetable that the cook sees (None: none yet), the days kept by name."""

    plan: Plan
    timetable: Timetable | None = None
    kept: KeptDays = KeptDays()


@dataclass(frozen=True, slots=True)
class Past:
    """A former state, what was done to it, and the key by which more of the same joins that step."""

    state: State
    label: str
    merge_key: Hashable | None = None


class History:
    """The state now, those before it and those undone."""

    def __init__(self, now: State) -> None:
        """Begin with a state that nothing came before."""
        self._now = now
        self._past: list[Past] = []
        self._undone: list[Past] = []

    @property
    def now(self) -> State:
        """Return the state now."""
        return self._now

    @property
    def undo_label(self) -> str | None:
        """Return what undo takes back, None when there is nothing."""
        return self._past[-1].label if self._past else None

    @property
    def redo_label(self) -> str | None:
        """Return what redo does again, None when there is nothing."""
        return self._undone[-1].label if self._undone else None

    def record(self, new: State, label: str, merge_key: Hashable | None = None) -> None:
        """Go on to a new state, joining the step before if that has the same key; forget what was undone."""
        self._undone.clear()
        if merge_key is not None and self._past and self._past[-1].merge_key == merge_key:
            first = self._past.pop().state
            if new == first:  # nudged there and back: nothing is left to undo
                self._now = first
                return
            self._past.append(Past(first, label, merge_key))
        else:
            self._past.append(Past(self._now, label, merge_key))
            del self._past[:-MOST_STEPS]
        self._now = new

    def amend(self, new: State) -> None:
        """Go on to a new state as part of the step before: undo takes back both."""
        self._now = new

    def settle(self) -> None:
        """Let nothing more join the last step."""
        if self._past:
            self._past[-1] = replace(self._past[-1], merge_key=None)

    def undone(self) -> State:
        """Return the state that undo would bring."""
        return self._past[-1].state

    def redone(self) -> State:
        """Return the state that redo would bring."""
        return self._undone[-1].state

    def seen_before(self) -> Past | None:
        """Return the last former state in which another timetable was seen, and what was done to it."""
        seen = self._now.timetable
        return next((each for each in reversed(self._past) if each.state.timetable != seen), None)

    def undo(self) -> None:
        """Go back one step."""
        past = self._past.pop()
        self._undone.append(Past(self._now, past.label))
        self._now = past.state
        self.settle()

    def redo(self) -> None:
        """Go forward again one step."""
        again = self._undone.pop()
        self._past.append(Past(self._now, again.label))
        self._now = again.state
