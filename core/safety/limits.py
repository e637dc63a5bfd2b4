"""The bare sums of limits: how long, how warm, until when. Minutes, °C; they know no plan.

Each is exact: one minute or a tenth of a degree past a limit is past it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from fractions import Fraction

from core.safety.rules import Measure, Rule, RuleSet, Stage

UNTOLD_ROOM = 21
"""°C taken for a kitchen whose warmth is not told: common practice."""


def out_limit(rules: RuleSet, room: Fraction | int) -> Rule | None:
    """Return the row that limits how long food may be out at so many °C: the shortest that applies."""
    there = [
        rule
        for rule in rules.by_measure[Measure.OUT]
        if rule.values.room_above is None or room > rule.values.room_above.celsius
    ]
    return min(there, key=lambda rule: rule.values.minutes or 0, default=None)


def discard_by(rules: RuleSet, out_at: int, room: Fraction | int) -> int | None:
    """Return the minute until which food put out at another may stay out; None where the set has no such row."""
    rule = out_limit(rules, room)
    return None if rule is None or rule.values.minutes is None else out_at + rule.values.minutes


def time_control_until(rule: Rule, out_at: int, peak: Fraction | int) -> int | None:
    """Return the mark of time control for food taken out cold; None: it was warmer than the rule bears."""
    limit = rule.values.peak
    if limit is not None and peak > limit.celsius:
        return None
    return out_at + (rule.values.minutes or 0)


def hold_needed(rule: Rule, celsius: Fraction | float) -> int | None:
    """Return the seconds a core must stay at a temperature; None: it is below every row.

    Between two rows the longer time of the row below counts: rows are not interpolated.
    """
    if not rule.values.holds:
        least = rule.values.least
        return 0 if least is None or celsius >= least.celsius else None
    found = [hold.seconds for hold in rule.values.holds if celsius >= hold.at.celsius]
    return found[-1] if found else None


@dataclass(frozen=True, slots=True)
class CoreShort:
    """By how much a core temperature misses a row: °C below the least, seconds of holding, minutes of rest."""

    degrees: Fraction = Fraction(0)
    seconds: int = 0
    rest: int = 0

    @property
    def any(self) -> bool:
        """Tell whether anything is missing."""
        return bool(self.degrees or self.seconds or self.rest)


def core_short(rule: Rule, celsius: Fraction | int, held: int, rest: int) -> CoreShort:
    """Return what a core at so many °C, held so many seconds and rested so many minutes, misses of a row.

    Carryover is no argument here: what counts is what the probe showed.
    """
    needed = hold_needed(rule, celsius)
    least = rule.values.least
    assert least is not None, rule.id
    if needed is None:
        return CoreShort(degrees=Fraction(least.celsius) - Fraction(celsius))
    hot = rule.values.rest_below is not None and celsius >= rule.values.rest_below.celsius
    asked = 0 if hot else rule.values.rest or 0
    return CoreShort(seconds=max(0, needed - held), rest=max(0, asked - rest))


def late_stage(rule: Rule, reached: Sequence[float | None], until: float) -> tuple[Stage, float] | None:
    """Return the first stage of cooling that is missed and by how many minutes.

    `reached`: minutes from where cooling began to each stage's limit, None: never on this curve. `until`: minutes
    after which the food does something else; a stage due later is not asked for.
    """
    for stage, at in zip(rule.values.stages, reached, strict=True):
        if stage.minutes >= until and (at is None or at >= until):
            continue
        if at is None or at > stage.minutes:
            return stage, (until if at is None else at) - stage.minutes
    return None


def date_mark(made: date, days: int, frozen: Sequence[tuple[date, date]] = ()) -> date:
    """Return the last day on which food made on a day may be eaten, that day being day 1.

    `frozen`: spans from the first day in the freezer to the day on which it is thawed; they stop the count, and
    the day of thawing counts again.
    """
    day, used = made, 1
    while used < days:
        day += timedelta(days=1)
        if not any(begun <= day < thawed for begun, thawed in frozen):
            used += 1
    return day
