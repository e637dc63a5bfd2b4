"""What the cook can do with days kept by name: keep, keep again, rename, drop, go back to one; one undo step each."""

from __future__ import annotations

from abc import ABC, abstractmethod
from dataclasses import dataclass, replace
from datetime import datetime

from core.desk.history import State
from core.desk.kept import MOST_KEPT, KeptDay, KeptDays, day_name, plan_mark
from core.desk.seen import still_there
from core.measures.refusal import Refusal
from core.timetable.timetable import Timetable


class KeptEdit(ABC):
    """One thing done with the days kept. Pure: the state given is never changed."""

    __slots__ = ()

    @property
    @abstractmethod
    def label(self) -> str:
        """Return what is done, for undo."""

    @abstractmethod
    def __call__(self, state: State) -> State:
        """Return the state changed; raise Refusal where it may not be."""


@dataclass(frozen=True, slots=True)
class KeepDay(KeptEdit):
    """Keep the day that is seen, or `timetable` (one that is only offered), under a name. `at`: now, UTC."""

    name: str
    at: datetime
    timetable: Timetable | None = None

    @property
    def label(self) -> str:
        """Return what is done."""
        return f"Keep the day “{self.name}”"

    def __call__(self, state: State) -> State:
        """Return the state with one day more; the day that is seen is the current one then."""
        kept = state.kept
        name = day_name(self.name, kept)
        if len(kept.days) >= MOST_KEPT:
            raise Refusal(f"{MOST_KEPT} days are kept already. Drop one before you keep another.")
        timetable = _seen(state) if self.timetable is None else self.timetable
        day = KeptDay(name, timetable, self.at, plan_mark(state.plan))
        current = name if timetable == state.timetable else kept.current
        return replace(state, kept=KeptDays((*kept.days, day), current))


@dataclass(frozen=True, slots=True)
class KeepAgain(KeptEdit):
    """Keep the day that is seen under the name of one kept before, in its place. `at`: now, UTC."""

    name: str
    at: datetime

    @property
    def label(self) -> str:
        """Return what is done."""
        return f"Keep “{self.name}” as it is now"

    def __call__(self, state: State) -> State:
        """Return the state with the day as it is seen."""
        old = state.kept.day(self.name)
        new = KeptDay(old.name, _seen(state), self.at, plan_mark(state.plan))
        return replace(state, kept=KeptDays(_swapped(state.kept, old, new), new.name))


@dataclass(frozen=True, slots=True)
class RenameDay(KeptEdit):
    """Give a kept day another name."""

    name: str
    new: str

    @property
    def label(self) -> str:
        """Return what is done."""
        return f"Rename “{self.name}” to “{' '.join(self.new.split())}”"

    def __call__(self, state: State) -> State:
        """Return the state with the day renamed."""
        kept = state.kept
        old = kept.day(self.name)
        name = day_name(self.new, kept, own=self.name)
        current = name if kept.current == self.name else kept.current
        return replace(state, kept=KeptDays(_swapped(kept, old, replace(old, name=name)), current))


@dataclass(frozen=True, slots=True)
class DropDay(KeptEdit):
    """Keep a day no longer; what is seen stays as it is."""

    name: str

    @property
    def label(self) -> str:
        """Return what is done."""
        return f"Drop the kept day “{self.name}”"

    def __call__(self, state: State) -> State:
        """Return the state without the day."""
        old = state.kept.day(self.name)
        days = tuple(each for each in state.kept.days if each is not old)
        current = "" if state.kept.current == self.name else state.kept.current
        return replace(state, kept=KeptDays(days, current))


@dataclass(frozen=True, slots=True)
class SwitchTo(KeptEdit):
    """See a kept day again, as far as what it was made of is still there; the plan stays as it is."""

    name: str

    @property
    def label(self) -> str:
        """Return what is done."""
        return f"Go to the day “{self.name}”"

    def __call__(self, state: State) -> State:
        """Return the state with the kept day seen."""
        day = state.kept.day(self.name)
        seen = still_there(day.timetable, state.plan)
        return replace(state, timetable=seen, kept=replace(state.kept, current=day.name))


def _seen(state: State) -> Timetable:
    if state.timetable is None or not state.timetable.placed:
        raise Refusal("There is no day to keep yet. Choose “Arrange the day” first.")
    return state.timetable


def _swapped(kept: KeptDays, old: KeptDay, new: KeptDay) -> tuple[KeptDay, ...]:
    return tuple(new if each is old else each for each in kept.days)
