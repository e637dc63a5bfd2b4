"""The day itself: what has happened is fact, what is under way has begun, the rest is still to be placed."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from functools import cached_property

from core.plan.ids import CookId, StationId, StepId, VesselId


class State(StrEnum):
    """How far a load of a step has come; what no fact is about is still to do."""

    UNDER_WAY = "under way"
    DONE = "done"
    DROPPED = "dropped"


@dataclass(frozen=True, slots=True)
class Fact:
    """What is known of one load: when it began (offset from plating), when it ended or is expected to.

    `end` None while under way: as its reserved length says, but not before now. Dropped: neither counts.
    """

    step: StepId
    state: State
    start: int = 0
    end: int | None = None
    load: int = 0

    @property
    def key(self) -> tuple[StepId, int]:
        """Return step and load."""
        return (self.step, self.load)


@dataclass(frozen=True, slots=True)
class Lit:
    """A station switched on (or a fire lit, setting 0) before now: from when, hot from when, °C, by whom."""

    station: StationId
    start: int
    end: int
    setting: int = 0
    cook: CookId | None = None


@dataclass(frozen=True, slots=True)
class Washed:
    """Vessels of a run whose washing began before now; `after` is the run's first step (core.plan.runs)."""

    vessel: VesselId
    after: StepId
    start: int
    minutes: int
    cook: CookId | None = None


@dataclass(frozen=True)
class Day:
    """The offset that it is now, and all facts. Nothing that is not among them can have begun before now."""

    now: int
    facts: tuple[Fact, ...] = ()
    lit: tuple[Lit, ...] = ()
    washed: tuple[Washed, ...] = ()

    @cached_property
    def of(self) -> dict[tuple[StepId, int], Fact]:
        """Facts by step and load."""
        return {fact.key: fact for fact in self.facts}
