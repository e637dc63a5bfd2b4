"""A timetable: for each load of each step a start, a length and the places and hands it uses. A value."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

from core.plan.ids import CookId, StationId, StepId, VesselId
from core.plan.menu import LinkKind


@dataclass(frozen=True, slots=True)
class Spot:
    """So many units of a station; `shelf` is the index of the shelf, lowest first, where the place has shelves."""

    station: StationId
    units: int = 1
    shelf: int | None = None


@dataclass(frozen=True, slots=True)
class Hand:
    """A cook's minutes at a step: start (offset from plating) and length. `cook` None: nobody found."""

    start: int
    minutes: int
    cook: CookId | None = None


@dataclass(frozen=True, slots=True)
class Placed:
    """One load of a step on the timetable. Offsets from plating; `setting` in °C where a place is heated.

    `spots` follow the order of the step's uses (a use spread over several stations gives several spots);
    `hands` has one entry for each cook of each touch. `way`: 0 as the step is written, 1 its first alternative.
    A step done in pieces spans from its first to its last piece; its hands are the pieces.
    """

    step: StepId
    start: int
    length: int
    load: int = 0
    spots: tuple[Spot, ...] = ()
    setting: int | None = None
    hands: tuple[Hand, ...] = ()
    way: int = 0

    @property
    def end(self) -> int:
        """Return the offset at which it ends."""
        return self.start + self.length

    @property
    def key(self) -> tuple[StepId, int]:
        """Return step and load."""
        return (self.step, self.load)


@dataclass(frozen=True, slots=True)
class Stay:
    """Food that waits in a scarce place after `before` until `after` starts (None: until it is served)."""

    before: StepId
    after: StepId | None
    start: int
    end: int
    load: int = 0
    kind: LinkKind = LinkKind.END_TO_START
    spots: tuple[Spot, ...] = ()
    setting: int | None = None


@dataclass(frozen=True, slots=True)
class Heating:
    """A station heated from cold before its first use: start, end (offsets), setting in °C, who switches it on.

    For a fire: lit at `start`, ready at `end`; `setting` is 0.
    """

    station: StationId
    start: int
    end: int
    setting: int
    cook: CookId | None = None


@dataclass(frozen=True, slots=True)
class Washing:
    """All vessels of one run washed, so that they are free again: start (offset), minutes, who (None: nobody)."""

    vessel: VesselId
    start: int
    minutes: int
    after: StepId
    cook: CookId | None = None

    @property
    def end(self) -> int:
        """Return the offset from which the vessels are free."""
        return self.start + self.minutes


@dataclass(frozen=True)
class Timetable:
    """Everything placed. Never part of a plan: it can always be worked out again and checked.

    A washing's `after` is the first step of the run (core.plan.runs) whose vessels are washed.
    """

    placed: tuple[Placed, ...] = ()
    stays: tuple[Stay, ...] = ()
    heatings: tuple[Heating, ...] = ()
    washings: tuple[Washing, ...] = ()

    @cached_property
    def at(self) -> dict[tuple[StepId, int], Placed]:
        """Placed loads by step and load."""
        return {each.key: each for each in self.placed}

    @cached_property
    def loads_of(self) -> dict[StepId, tuple[Placed, ...]]:
        """Placed loads of each step, in order of load."""
        found: dict[StepId, list[Placed]] = {}
        for each in sorted(self.placed, key=lambda one: one.load):
            found.setdefault(each.step, []).append(each)
        return {step: tuple(loads) for step, loads in found.items()}
