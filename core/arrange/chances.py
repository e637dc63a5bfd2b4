"""Chances: how often all is on the table in time when steps take as long as they do, and what decides it.

Monte Carlo over the real order of a timetable (core.arrange.chances_order). Everything is seeded: the same plan,
timetable and seed give the same figures, and a bar that is dragged keeps the days drawn, so the figure does not
flicker. Times in minutes from plating. Shares are of the runs; with 10,000 of them a share is good to about one
in a hundred.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np

from core.arrange.chances_chain import Threat, threats
from core.arrange.chances_lengths import Minutes, Shape, draw, spread_of
from core.arrange.chances_limits import Limit, LimitKind, limits_of, served_last
from core.arrange.chances_order import order_of
from core.arrange.chances_run import HALF, Days, lateness, share, simulate
from core.arrange.chances_spare import MINUTES, Spare, earlier
from core.measures.refusal import Refusal
from core.plan.day import Day
from core.plan.ids import DishId, StepId
from core.plan.menu import LinkKind
from core.plan.network_limits import Key
from core.plan.plan import Plan
from core.plan.step import Span
from core.timetable.timetable import Timetable

__all__ = ["Chances", "LimitKind", "LimitRisk", "Odds", "Serving", "Spare", "Threat", "chances"]

WITHIN = 5
"""Minutes late that guests hardly notice: the second figure told."""
_CANDIDATES = 4
_MOST_RUNS = 200_000


@dataclass(frozen=True, slots=True)
class Serving:
    """When all that is served at one course (offset) is ready: offsets that 10, 50 and 90 of 100 days keep to."""

    course: int
    dishes: tuple[DishId, ...]
    p10: int
    p50: int
    p90: int


@dataclass(frozen=True, slots=True)
class LimitRisk:
    """A limit and the share of runs in which it is broken; `then`: the step that ends a wait."""

    kind: LimitKind
    step: StepId
    load: int
    then: StepId | None
    most: int
    share: float


@dataclass(frozen=True, slots=True)
class Chances:
    """Shares of `runs` simulated days.

    `on_time`: everything served is ready at its course; `nearly`: or at most five minutes after it.
    `limits`: only those broken in some run, the most often broken first. `threats` and `spare`: best first.
    """

    runs: int
    on_time: float
    nearly: float
    servings: tuple[Serving, ...]
    limits: tuple[LimitRisk, ...]
    threats: tuple[Threat, ...]
    spare: tuple[Spare, ...] = ()


class Odds:
    """One timetable of a plan with its days drawn: asked again and again while a bar is dragged. One thread."""

    def __init__(
        self,
        plan: Plan,
        timetable: Timetable,
        *,
        runs: int = 10_000,
        seed: int = 0,
        shape: Shape = "pert",
        correlated: float = 0.0,
        day: Day | None = None,
        tighter: Mapping[StepId, Span] | None = None,
    ) -> None:
        if not 1 <= runs <= _MOST_RUNS:
            raise Refusal(f"{runs:,} days cannot be tried; name a number from 1 to {_MOST_RUNS:,}.")
        if not 0 <= correlated <= 1:
            raise Refusal("What lengths have in common is a share from 0 to 1, such as 0.5.")
        self.runs = runs
        self.order = order_of(plan, timetable, day)
        self._lasts = list(served_last(self.order))
        spreads = [spread_of(self.order, node, tighter) for node in self.order.nodes]
        lengths = draw(self.order, spreads, runs=runs, seed=seed, shape=shape, correlated=correlated)
        self._days = simulate(self.order, lengths, [each.elastic for each in spreads])

    @property
    def now(self) -> float:
        """Return the chance that all is on the table in time, as the timetable stands."""
        return self._chance(self._days, 0)

    def within(self, minutes: int) -> float:
        """Return the chance that nothing is later than so many minutes."""
        return self._chance(self._days, minutes)

    def after(self, moved: Mapping[Key, int], within: int = 0) -> float:
        """Return the chance when loads stand at other starts (offsets); the days drawn stay the same.

        Loads that are not named stand where they are planned, so name also those that a drag pushes.
        """
        days = self._days
        return self._chance(simulate(self.order.moved(moved), days.lengths, days.elastic, days), within)

    def chances(self) -> Chances:
        """Return all figures but the places for spare minutes."""
        late = lateness(self._days, self._lasts, self.runs)
        return Chances(
            self.runs,
            share(late < HALF),
            share(late < WITHIN + HALF),
            self._servings(),
            self._limits(),
            threats(self._days, self._lasts, self.runs),
        )

    def spare(self, candidates: Sequence[Threat], minutes: Sequence[int] = MINUTES) -> tuple[Spare, ...]:
        """Return what it helps to begin each candidate so many minutes earlier, best first.

        The load is begun earlier together with what must then move before and after it so that all waits, places
        and hands still hold (core.plan.network_push, and the validator's word that no clash is new); where even
        five minutes cannot be had there is nothing to tell. The chance is that of the timetable so moved.
        """
        found, now = [], self.now
        for threat in candidates:
            for spare in earlier(self.order, (threat.step, threat.load), minutes):
                chance = self.after(dict(spare.moved))
                found.append(spare.told(chance, chance - now))
        found.sort(key=lambda each: (-each.chance, each.minutes, each.step, each.load))
        return tuple(found)

    def _chance(self, days: Days, within: int) -> float:
        return share(lateness(days, self._lasts, self.runs) < within + HALF)

    def _servings(self) -> tuple[Serving, ...]:
        found, plan = [], self.order.plan
        for course in sorted({course for _node, course in self._lasts}):
            ready = self._ready(course)
            marks = [round(float(each)) for each in np.percentile(ready, (10, 50, 90))]
            steps = [self.order.nodes[node].key[0] for node, at in self._lasts if at == course]
            dishes = tuple(dict.fromkeys(plan.dish_of[step].id for step in steps))
            found.append(Serving(course, dishes, marks[0], marks[1], marks[2]))
        return tuple(found)

    def _ready(self, course: int) -> Minutes:
        lasts = [(node, 0) for node, at in self._lasts if at == course]
        return lateness(self._days, lasts, self.runs)

    def _limits(self) -> tuple[LimitRisk, ...]:
        order, found = self.order, []
        served = {
            course: np.maximum(self._ready(course), np.float32(course)) for _node, course in self._lasts
        }
        for limit in limits_of(order):
            over = _over(self._days, limit, served)
            broken = float(np.mean(over >= HALF))
            if broken > 0:
                load = order.nodes[limit.before].key[1]
                found.append(LimitRisk(limit.kind, limit.step, load, limit.then, limit.most, broken))
        found.sort(key=lambda each: (-each.share, each.step, each.load, each.then or "", each.kind))
        return tuple(found)


def chances(
    plan: Plan,
    timetable: Timetable,
    *,
    runs: int = 10_000,
    seed: int = 0,
    shape: Shape = "pert",
    correlated: float = 0.0,
    day: Day | None = None,
    tighter: Mapping[StepId, Span] | None = None,
) -> Chances:
    """Return how likely the timetable is to hold, what threatens it, and where spare minutes help most.

    `correlated` (0 to 1): how much of the spread loads on one station on one day have in common (an oven that runs
    cool makes all its bakes slow). `day`: what is done stands, what is under way takes at least as long as it has.
    `tighter`: spans that the cook has measured, in place of the recipe's.
    """
    odds = Odds(
        plan,
        timetable,
        runs=runs,
        seed=seed,
        shape=shape,
        correlated=correlated,
        day=day,
        tighter=tighter,
    )
    value = odds.chances()
    spare = odds.spare([each for each in value.threats if each.over_runs > 0][:_CANDIDATES])
    return replace(value, spare=spare)


def _over(days: Days, limit: Limit, served: Mapping[int, Minutes]) -> Minutes:
    """Return by how many minutes a limit is broken in each run (below 0: kept)."""
    if limit.kind is LimitKind.WAIT:
        assert limit.after is not None
        from_start = limit.link is LinkKind.START_TO_START
        begins = (days.starts if from_start else days.ends)[limit.before]
        to_end = limit.link is LinkKind.END_TO_END
        until = (days.ends if to_end else days.starts)[limit.after]
        return until - begins - np.float32(limit.most)
    if limit.kind is LimitKind.KEEP:
        served_at = served.get(limit.until, np.full(1, limit.until, np.float32))
        return served_at - days.ends[limit.before] - np.float32(limit.most)
    return days.ends[limit.before] - np.float32(limit.until)
