"""A plan as integers: tasks with start domains, arcs between their ends, stays, hands and heated shares.

The literature calls this a project with minimum and maximum time lags (RCPSP/max; Neumann, Schwindt and
Zimmermann 2003) with calendars and one state function for each heated station.
"""

from __future__ import annotations

from dataclasses import dataclass, field

from core.arrange.demand import Demand
from core.plan.day import Lit, Washed
from core.plan.ids import CookId, StationId, StepId
from core.plan.meaning import LONGEST_PAUSE, longer_by
from core.plan.menu import Dish, LinkKind
from core.plan.plan import Plan
from core.plan.runs import Run
from core.plan.step import Step, Use
from core.timetable.timetable import Placed, Timetable

Stretch = tuple[int, int]
Slot = tuple[StationId, int | None]
"""A station, one shelf of it, or (negative) one ring of it: places of one unit that a pan may share out."""


@dataclass(frozen=True, slots=True)
class BarredUse(Use):
    """A share of a station of which the step's vessels leave out some stations, since they do not fit."""

    barred: frozenset[StationId] = frozenset()

    @property
    def plain(self) -> Use:
        """Return the share as the plan has it."""
        return Use(self.kind, self.units, self.station, self.area, self.height, self.raw, self.heat)


@dataclass(frozen=True, slots=True)
class Piece:
    """Cooks needed at a task: minutes from its start, or, `from_end`, before its end.

    `whole`: it lasts as long as the task, also where a setting makes that longer or shorter. `way`: only where the
    task is done that way. `cook`: who was at it already when the day came to now.
    """

    task: int
    offset: int
    minutes: int
    people: int
    skill: str
    from_end: bool = False
    whole: bool = False
    way: int = 0
    cook: CookId | None = None


@dataclass(frozen=True, slots=True)
class Way:
    """One way to do a task: reserved length, earliness, places; °C it may be given with the length at each.

    `instead`: it is held to this way although another is written first.
    """

    number: int
    length: int
    early: int
    uses: tuple[Use, ...]
    settings: tuple[tuple[int, int], ...] = ()
    instead: bool = False

    @property
    def shortest(self) -> int:
        """Return the least length over its settings."""
        return min((length for _c, length in self.settings), default=self.length)

    @property
    def longest(self) -> int:
        """Return the greatest length over its settings."""
        return max((length for _c, length in self.settings), default=self.length)


@dataclass(frozen=True, slots=True)
class Begun:
    """What is settled of a task: when it begins and ends.

    `fact`: the day has settled it, `over` with it done; else the search holds it there for a while, `full` with
    it: by how many per cent it is longer because its oven is full.
    """

    start: int
    end: int
    over: bool = False
    fact: bool = True
    full: int = 0


@dataclass(frozen=True, slots=True)
class Task:
    """One load of a step with the ways it may be done. `cuts`: into how many pieces it may be cut at most.

    `fuller`: per cent that it may take longer in one full oven or another.
    """

    index: int
    step: Step
    dish: Dish
    load: int
    loads: int
    ways: tuple[Way, ...]
    pieces: tuple[Piece, ...] = ()
    cuts: int = 1
    fuller: tuple[int, ...] = ()
    begun: Begun | None = None

    @property
    def key(self) -> tuple[StepId, int]:
        """Return step and load."""
        return (self.step.id, self.load)

    @property
    def fact(self) -> bool:
        """Tell whether the day has settled it."""
        return self.begun is not None and self.begun.fact

    @property
    def length(self) -> int:
        """Return the reserved length of its first way."""
        return self.ways[0].length

    @property
    def shortest(self) -> int:
        """Return the least length over its ways and settings."""
        if self.begun is not None:
            return self.begun.end - self.begun.start
        return min(way.shortest for way in self.ways)

    @property
    def longest(self) -> int:
        """Return the greatest length over its ways and settings, pauses between its pieces included."""
        if self.begun is not None:
            return self.begun.end - self.begun.start
        longest = max(way.longest for way in self.ways)
        return longer_by(longest, max(self.fuller, default=0)) + (LONGEST_PAUSE if self.cuts > 1 else 0)

    @property
    def early(self) -> int:
        """Return the least minutes by which it may be done sooner, over its ways."""
        return min(way.early for way in self.ways)

    @property
    def uses(self) -> tuple[Use, ...]:
        """Return all places it may take, in whatever way."""
        return tuple(use for way in self.ways for use in way.uses)


@dataclass(frozen=True, slots=True)
class Arc:
    """`after`'s start (or end) comes at least `lag` minutes after `before`'s start (or end).

    `gives` marks what may be stretched when nothing fits (a most-wait). `early`: a task whose earliness adds to
    the lag (it depends on the way the task is done). `demand`: the wish that asks for it.
    """

    before: int
    before_end: bool
    after: int
    after_end: bool
    lag: int
    gives: bool = False
    early: int | None = None
    demand: Demand | None = None


@dataclass(frozen=True, slots=True)
class Bound:
    """A task's start (or end) lies between two offsets. `early`: its earliness adds to `low`."""

    task: int
    end: bool
    low: int | None = None
    high: int | None = None
    gives: bool = False
    early: bool = False
    demand: Demand | None = None


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
    """All that the model is made from. Built once, never changed by the search.

    `short` remembers when fewer cooks with a skill are there than some number (variables.nobody).
    `absent` tasks are left out for now; `kept_slots` (by claim), `kept_settings` (by wait) and `kept_crews`
    (by labour) are held for a while. `now`: nothing begins before it; `stood` is where begun tasks stand; `lit` and
    `washed` are heatings and washings begun before it. `changes`: whether changes of temperature are part of the
    goal; None: if there are not too many pairs.
    """

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
    short: dict[tuple[str, int], list[Stretch]] = field(default_factory=dict)
    now: int | None = None
    stood: dict[int, Placed] = field(default_factory=dict)
    absent: frozenset[int] = frozenset()
    kept_slots: dict[tuple[int | None, int | None, int, int], tuple[Slot, ...]] = field(default_factory=dict)
    kept_settings: dict[int, int] = field(default_factory=dict)
    kept_crews: dict[str, tuple[CookId, ...]] = field(default_factory=dict)
    changes: bool | None = None
    lit: tuple[Lit, ...] = ()
    washed: tuple[Washed, ...] = ()

    def starts_in(self, timetable: Timetable) -> dict[int, int]:
        """Return the starts that a timetable has for the tasks, as far as it has them."""
        return {self.index[each.key]: each.start for each in timetable.placed if each.key in self.index}

    def first(self, step: StepId) -> int:
        """Return the task of a step's first load."""
        return self.loads[step][0]

    def last(self, step: StepId) -> int:
        """Return the task of a step's last load."""
        return self.loads[step][-1]
