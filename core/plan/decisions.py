"""What the cook decided: pins, choices, lengths, orders, wishes."""

from __future__ import annotations

from dataclasses import dataclass

from core.plan.ids import CookId, StationId, StepId
from core.plan.step import Manner


@dataclass(frozen=True, slots=True)
class Pin:
    """The cook put this step (or one load of it) here; None leaves that part to the arranging."""

    step: StepId
    load: int = 0
    start: int | None = None
    station: StationId | None = None
    cook: CookId | None = None


@dataclass(frozen=True, slots=True)
class Choice:
    """The alternative chosen for a step: 0 is the step as written, 1 its first alternative."""

    step: StepId
    way: int


@dataclass(frozen=True, slots=True)
class LengthOf:
    """The manner of length for one step, where it differs from the plan's."""

    step: StepId
    manner: Manner


@dataclass(frozen=True, slots=True)
class Order:
    """`then` begins only after `first` has ended."""

    first: StepId
    then: StepId


@dataclass(frozen=True, slots=True)
class Wishes:
    """Weights from 0 (do not care) to 10 of what makes a good day; sleep is until `sleep_until` (minute of the day)."""

    fresh: int = 5
    calm: int = 3
    oven: int = 3
    sleep: int = 2
    keep: int = 4
    sleep_until: int = 8 * 60


@dataclass(frozen=True, slots=True)
class Decisions:
    """All that the cook decided about a plan. `rules`: id of the set of food rules; "": that of home cooks."""

    manner: Manner = Manner.SAFE
    pins: tuple[Pin, ...] = ()
    choices: tuple[Choice, ...] = ()
    lengths: tuple[LengthOf, ...] = ()
    orders: tuple[Order, ...] = ()
    wishes: Wishes = Wishes()
    rules: str = ""
