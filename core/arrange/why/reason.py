"""Reasons as values: what is wrong, in which minutes, who takes part, how the sum was made. No words."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from core.arrange.demand import Demand
from core.arrange.outcome import Fit
from core.plan.ids import StationId, StepId
from core.plan.network_limits import Limit


class ReasonKind(StrEnum):
    """How it is known that the wishes of a reason cannot all be kept."""

    CHAIN = "waits and times contradict each other"
    CROWD = "more at once than there is"
    WORK = "more work than there are minutes"
    SHELVES = "no way to share out the shelves"
    CLOSED = "a place is not there"
    HEATS = "two temperatures that can neither share nor follow"
    FIRE = "the fire burns out"
    WISHES = "the solver found no way to keep all"


class FactKind(StrEnum):
    """What the day has settled: no wish, and nothing that may be given up."""

    NOW = "it is later than that now"
    BEGUN = "it has begun"


@dataclass(frozen=True, slots=True)
class Tie:
    """One of the limits in a chain. `fact`: it is no wish but what has happened."""

    limit: Limit
    fact: FactKind | None = None


@dataclass(frozen=True, slots=True)
class Share:
    """Who takes part: a load of a step, or the food that waits after it (`waits`), or a cook's visit (`does`).

    CROWD, SHELVES, CLOSED: surely there from `start` to `end` (offsets), taking `amount` (units, cm2, vessels, cooks).
    WORK, FIRE: it may last from `start` to `end`; at least `amount` of its minutes (times units or cooks) count.
    `height` in cm where it stands on a shelf.
    """

    step: StepId
    load: int
    start: int
    end: int
    amount: int
    waits: bool = False
    does: str = ""
    height: int = 0
    raw: bool = False


@dataclass(frozen=True, slots=True)
class Turn:
    """One order of two bakes: the first is out at `out` at the soonest, `change` minutes to the other's setting.

    The second then is done at `done`, and must be at `by`: `late` minutes too late. Settings in °C. `within`: waits
    let the second begin at most so many minutes after the first is out, whenever that is (below 0: it comes before).
    """

    first: tuple[StepId, int]
    then: tuple[StepId, int]
    settings: tuple[int, int]
    out: int
    change: int
    length: int
    done: int
    by: int
    within: int | None = None

    @property
    def late(self) -> int:
        """Return the minutes by which this order fails."""
        return self.done - self.by


@dataclass(frozen=True, slots=True)
class Reason:
    """Wishes that cannot all be kept, none of which could be left out of the reason (`minimal`).

    `start` to `end` are the minutes concerned (offsets). `need` and `have` are what is asked and what is there, in the
    unit of the kind: CROWD units of a station, vessels, cooks, or cm2 (`shelved`); WORK minutes times units or cooks;
    CLOSED, FIRE and CHAIN minutes. `over` is how much too much: minutes, but cm2 where `shelved`.
    `about` is the resource, `stations` which of them, `away` the minutes of cooks who are not there.
    """

    kind: ReasonKind
    demands: tuple[Demand, ...]
    start: int = 0
    end: int = 0
    need: int = 0
    have: int = 0
    over: int = 0
    about: Demand | None = None
    stations: tuple[StationId, ...] = ()
    shares: tuple[Share, ...] = ()
    shelved: bool = False
    away: int = 0
    chain: tuple[Tie, ...] = ()
    turns: tuple[Turn, ...] = ()
    minimal: bool = False


@dataclass(frozen=True, slots=True)
class Repair:
    """The fewest and lightest wishes which given up together make everything else possible; `best`: proven so."""

    demands: tuple[Demand, ...]
    best: bool


@dataclass(frozen=True, slots=True)
class WhyNot:
    """The answer to 'why not?'. MEETS: the plan can be met, arrange it again.

    IMPOSSIBLE with reasons, each of them enough; where none was found in time, or a set is long in a feast that is not
    large, `repair` says what to give up instead. NOT_FOUND: neither a timetable nor a proof in the time given; what
    the `repair` leaves can be met. `proven`: the fit is certain, not a guess.
    """

    fit: Fit
    reasons: tuple[Reason, ...] = ()
    proven: bool = False
    repair: Repair | None = None
