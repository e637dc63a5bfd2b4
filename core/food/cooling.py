"""A cooling log: readings against a code's limits. It tells which is met, missed or next, never more."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from enum import StrEnum
from fractions import Fraction
from itertools import pairwise

from core.food.cooling_rules import FROM_HOT, Checkpoint, CoolingRule, Scale
from core.measures.clock import Moment, show_clock, wall
from core.measures.heat import celsius_of
from core.measures.number import show_decimal
from core.measures.refusal import Refusal
from core.plan.check_words import short

_COLDEST_C, _HOTTEST_C = -40, 300


@dataclass(frozen=True, slots=True)
class Reading:
    """What the probe showed: minutes from plating, degrees as read, in which scale, by whom."""

    at: int
    degrees: Fraction
    scale: Scale = Scale.CELSIUS
    initials: str = ""

    def __str__(self) -> str:
        """Return "24 °C"."""
        return f"{show_decimal(self.degrees, 1)} {self.scale}"


@dataclass(frozen=True, slots=True)
class Action:
    """A corrective action: when (minutes from plating), what was done, by whom."""

    at: int
    did: str
    initials: str


class State(StrEnum):
    """How a limit stands."""

    MET = "met"
    MISSED = "missed"
    NOT_SHOWN = "not shown"
    OPEN = "open"


@dataclass(frozen=True, slots=True)
class Judged:
    """A limit, when it is due (minutes from plating), how it stands, and the reading that decides."""

    checkpoint: Checkpoint
    due: int
    state: State
    reading: Reading | None = None


@dataclass(frozen=True)
class CoolingLog:
    """One food's log. `began`: when it fell below the hot limit, minutes from `plating`."""

    food: str
    plating: Moment
    began: int
    readings: tuple[Reading, ...] = ()
    actions: tuple[Action, ...] = ()
    rule: CoolingRule = FROM_HOT

    def clock(self, at: int) -> str:
        """Return the wall-clock time of a minute."""
        return show_clock(wall(self.plating, at))

    def with_reading(self, reading: Reading) -> CoolingLog:
        """Return the log with one more reading; refuse one that cannot belong to it."""
        _refuse_odd(self, reading)
        readings = sorted((*self.readings, reading), key=lambda each: each.at)
        return replace(self, readings=tuple(readings))

    def with_action(self, action: Action) -> CoolingLog:
        """Return the log with a corrective action; refuse one that does not say what and who."""
        if not action.did.strip() or not action.initials.strip():
            raise Refusal(f"{short(self.food)}: write what was done and your initials.")
        return replace(self, actions=(*self.actions, action))


def _refuse_odd(log: CoolingLog, reading: Reading) -> None:
    name, clock = short(log.food), log.clock(reading.at)
    if not _COLDEST_C <= _celsius(reading) <= _HOTTEST_C:
        raise Refusal(f"{name} cannot be at {reading} at {clock}; read the probe again.")
    hot = log.rule.hot
    if hot is None:
        if reading.at < log.began:
            raise Refusal(
                f"{name}: {clock} is before it was made, {log.clock(log.began)}; correct one of them."
            )
        return
    below = reading.degrees < hot.on(reading.scale)
    if reading.at < log.began and below:
        raise Refusal(
            f"{name} was at {reading} already at {clock}, so its cooling began before"
            f" {log.clock(log.began)}; correct the beginning."
        )
    if reading.at > log.began and not below:
        raise Refusal(
            f"{name} was at {reading} at {clock}, not below {hot.celsius} °C ({hot.fahrenheit} °F);"
            " correct the beginning, or begin a new log after reheating."
        )


def cooling_log(
    food: str,
    plating: Moment,
    readings: Sequence[Reading],
    began: int | None = None,
    rule: CoolingRule = FROM_HOT,
) -> CoolingLog:
    """Return a log of readings. `began` None: from the last reading that was not yet below the hot limit.

    That reading is the soonest moment at which it can have fallen below. Raise Refusal where there is none.
    """
    if began is None:
        hot = rule.hot
        warm = [each.at for each in readings if hot and each.degrees >= hot.on(each.scale)]
        if hot is None or not warm:
            raise Refusal(f"{short(food)}: write when the cooling began.")
        began = max(warm)
    log = CoolingLog(food, plating, began, rule=rule)
    for each in readings:
        log = log.with_reading(each)
    return log


def judged(log: CoolingLog, now: int) -> tuple[Judged, ...]:
    """Return how each limit stands now, in order; readings after now are refused.

    Met: the last reading until it was due is at or below the limit. Missed: a reading then or later is
    above. Not shown: the time is over and no reading shows either.
    """
    if late := next((each for each in log.readings if each.at > now), None):
        raise Refusal(
            f"{short(log.food)}: {log.clock(late.at)} is still to come; correct the reading's time."
        )
    return tuple(_judge(log, checkpoint, now) for checkpoint in log.rule.checkpoints)


def _judge(log: CoolingLog, checkpoint: Checkpoint, now: int) -> Judged:
    due = log.began + checkpoint.within
    cold = [checkpoint.limit.borne_by(each.degrees, each.scale) for each in log.readings]
    in_time = [number for number, each in enumerate(log.readings) if each.at <= due]
    if in_time and cold[in_time[-1]]:
        first = next(number for number in in_time if all(cold[number : in_time[-1] + 1]))
        return Judged(checkpoint, due, State.MET, log.readings[first])
    for number, each in enumerate(log.readings):
        if each.at >= due and not cold[number]:
            return Judged(checkpoint, due, State.MISSED, each)
    return Judged(checkpoint, due, State.NOT_SHOWN if now > due else State.OPEN)


def next_limit(log: CoolingLog, now: int) -> Judged | None:
    """Return the limit that comes next; None when all are met or one is missed."""
    for each in judged(log, now):
        if each.state in (State.MISSED, State.NOT_SHOWN):
            return None
        if each.state is State.OPEN:
            return each
    return None


def failed(log: CoolingLog, now: int) -> Judged | None:
    """Return the first limit that is missed or not shown to be met; None: there is none."""
    wrong = (State.MISSED, State.NOT_SHOWN)
    return next((each for each in judged(log, now) if each.state in wrong), None)


def warmer_again(log: CoolingLog) -> tuple[Reading, Reading] | None:
    """Return the first two readings in a row of which the later is warmer: probe or food was moved."""
    for one, other in pairwise(log.readings):
        if _celsius(other) > _celsius(one):
            return one, other
    return None


def _celsius(reading: Reading) -> Fraction:
    return reading.degrees if reading.scale is Scale.CELSIUS else celsius_of(reading.degrees)
