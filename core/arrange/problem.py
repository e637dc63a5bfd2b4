"""A plan as integers: tasks with start domains, arcs between their ends, stays, hands and heated shares.

The literature calls this a project with minimum and maximum time lags (RCPSP/max; Neumann, Schwindt and
Zimmermann 2003) with calendars and one state function for each heated station.
"""

from __future__ import annotations

from dataclasses import dataclass, field

from core.plan.ids import CookId, StationId, StepId
from core.plan.menu import Dish, LinkKind
from core.plan.plan import Plan
from core.plan.runs import Run
from core.plan.step import Step, Use

Stretch = tuple[int, int]


@dataclass(frozen=True, slots=True)
class Piece:
    """Cooks needed at a task (or at a heating): minutes from its start, or, `from_end`, before its end.

    `whole`: it lasts as long as the task, also where a setting makes that longer or shorter.
    """

    task: int
    offset: int
    minutes: int
    people: int
    skill: str
    from_end: bool = False
    whole: bool = False


@dataclass(frozen=True, slots=True)
class Task:
    """One load of a step. `settings` are the °C it may be given with the length at each (empty: no heat)."""

    index: int
    step: Step
    dish: Dish
    load: int
    loads: int
    length: int
    early: int
    uses: tuple[Use, ...]
    settings: tuple[tuple[int, int], ...] = ()
    pieces: tuple[Piece, ...] = ()

    @property
    def key(self) -> tuple[StepId, int]:
        """Return step and load."""
        return (self.step.id, self.load)

    @property
    def shortest(self) -> int:
        """Return the least length over its settings."""
        return min((length for _c, length in self.settings), default=self.length)

    @property
    def longest(self) -> int:
        """Return the greatest length over its settings."""
        return max((length for _c, length in self.settings), default=self.length)


@dataclass(frozen=True, slots=True)
class Arc:
    """`after`'s start (or end) comes at least `lag` minutes after `before`'s start (or end).

    `gives` marks what may be stretched when nothing fits (a most-wait).
    """

    before: int
    before_end: bool
    after: int
    after_end: bool
    lag: int
    gives: bool = False


@dataclass(frozen=True, slots=True)
class Bound:
    """A task's start (or end) lies between two offsets. `late_for`: the dish that may be late when nothing fits."""

    task: int
    end: bool
    low: int | None = None
    high: int | None = None
    gives: bool = False


@dataclass(frozen=True, slots=True)
class Waiting:
    """Food waiting from the end of a task to the start of another, or to a fixed offset; `cost` a minute."""

    before: int
    after: int | None
    until: int
    least: int
    cost: int
    use: Use | None
    kind: LinkKind = LinkKind.END_TO_START


@dataclass(frozen=True, slots=True)
class Fixed:
    """A decision of the cook about one task: None leaves that part open."""

    task: int
    start: int | None
    station: StationId | None
    cook: CookId | None


@dataclass(slots=True)
class Problem:
    """All that the model is made from. Built once, never changed by the search."""

    plan: Plan
    low: int
    high: int
    tasks: list[Task] = field(default_factory=list)
    arcs: list[Arc] = field(default_factory=list)
    bounds: list[Bound] = field(default_factory=list)
    waits: list[Waiting] = field(default_factory=list)
    runs: tuple[Run, ...] = ()
    fixed: dict[int, Fixed] = field(default_factory=dict)
    index: dict[tuple[StepId, int], int] = field(default_factory=dict)
    loads: dict[StepId, list[int]] = field(default_factory=dict)
    away: dict[CookId, tuple[Stretch, ...]] = field(default_factory=dict)

    def first(self, step: StepId) -> int:
        """Return the task of a step's first load."""
        return self.loads[step][0]

    def last(self, step: StepId) -> int:
        """Return the task of a step's last load."""
        return self.loads[step][-1]
