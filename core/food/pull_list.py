"""The pull list: every vessel, tool and serving dish that the day uses, with the most in use at once and when.

A vessel is in use from the first start to the last end of a run of steps that pass it on, until the dish is served
where its food waits in it, and then until it is washed. One that is never washed counts for as long as any of its
kind is in use. It is worked out from the timetable's own times here, apart from the validator.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from typing import Protocol

from core.plan.ids import StepId, VesselId
from core.plan.kitchen import Vessel
from core.plan.meaning import keep_of
from core.plan.plan import Plan
from core.plan.runs import Run, vessel_runs
from core.plan.step import Holding


class PlacedStep(Protocol):
    """One load of a step at its time, in minutes from plating."""

    @property
    def step(self) -> StepId: ...  # noqa: D102  what it is says the name
    @property
    def start(self) -> int: ...  # noqa: D102
    @property
    def end(self) -> int: ...  # noqa: D102


class WashedVessel(Protocol):
    """The washing of a run's vessels; `after` is the run's first step."""

    @property
    def vessel(self) -> VesselId: ...  # noqa: D102
    @property
    def after(self) -> StepId: ...  # noqa: D102
    @property
    def end(self) -> int: ...  # noqa: D102


class Timed(Protocol):
    """What is looked at of a timetable."""

    @property
    def placed(self) -> Sequence[PlacedStep]: ...  # noqa: D102
    @property
    def washings(self) -> Sequence[WashedVessel]: ...  # noqa: D102


@dataclass(frozen=True, slots=True)
class Hold:
    """A run holds so many of a vessel in [start, end); it is `emptied` before that and washed in between."""

    start: int
    emptied: int
    end: int
    count: int
    dish: str


@dataclass(frozen=True, slots=True)
class PullLine:
    """One kind of vessel: the most in use at once, first in [start, end), for which dishes then, and for all."""

    vessel: Vessel
    most: int
    start: int
    end: int
    then: tuple[str, ...]
    dishes: tuple[str, ...]
    first: int

    @property
    def short_by(self) -> int:
        """Return how many more are wanted at once than there are."""
        return max(0, self.most - self.vessel.count)


@dataclass(frozen=True, slots=True)
class PullList:
    """Vessels in the kitchen's order; the tins that recipes name; how dishes come to the table, in that order."""

    vessels: tuple[PullLine, ...]
    pans: tuple[tuple[str, str], ...]
    table: tuple[tuple[str, int, str], ...]


def pull_list(plan: Plan, timetable: Timed) -> PullList:
    """Return all that has to stand ready; steps that are not on the timetable are left out."""
    times: dict[StepId, list[tuple[int, int]]] = {}
    for placed in timetable.placed:
        times.setdefault(placed.step, []).append((placed.start, placed.end))
    washed = {(each.vessel, each.after): each.end for each in timetable.washings}
    runs: dict[VesselId, list[Run]] = {}
    for run in vessel_runs(plan):
        runs.setdefault(run.vessel, []).append(run)
    found = []
    for vessel in plan.kitchen.vessels:
        holds = _holds(plan, vessel, runs.get(vessel.id, []), times, washed)
        if holds:
            found.append(_line(vessel, holds))
    pans = tuple(
        (dish.name, dish.pan_wanted or dish.pan) for dish in plan.menu.dishes if dish.pan_wanted or dish.pan
    )
    return PullList(tuple(found), pans, _table(plan))


def _holds(
    plan: Plan,
    vessel: Vessel,
    runs: Iterable[Run],
    times: dict[StepId, list[tuple[int, int]]],
    washed: dict[tuple[VesselId, StepId], int],
) -> list[Hold]:
    found = []
    for run in runs:
        loads = [load for step in run.steps for load in times.get(step, ())]
        if not loads:
            continue
        emptied = max(
            [end for _start, end in loads] + [_served(plan, step) for step in run.steps if step in times]
        )
        begun = min(start for start, _end in loads)
        clean = emptied if vessel.washing == 0 else washed.get((vessel.id, run.steps[0]), _NEVER)
        dish = plan.dish_of[run.steps[0]].name
        found.append(Hold(begun, emptied, max(emptied, clean), run.count, dish))
    last = max((each.emptied for each in found), default=0)
    return [replace(each, end=last) if each.end == _NEVER else each for each in found]


_NEVER = 10**9


def _served(plan: Plan, step: StepId) -> int:
    """Return when what waits in the vessel of a last step is served; long ago where nothing does."""
    keep = keep_of(plan, plan.steps[step])
    if keep is None or keep.wait.how is not Holding.VESSEL:
        return -_NEVER
    return plan.dish_of[step].course


def _line(vessel: Vessel, holds: list[Hold]) -> PullLine:
    """Return the first stretch with the most in use."""
    times = sorted({each.start for each in holds} | {each.end for each in holds})
    best: tuple[int, int, int, tuple[str, ...]] = (0, times[0], times[-1], ())
    for number, at in enumerate(times):
        there = [each for each in holds if each.start <= at < each.end]
        count = sum(each.count for each in there)
        if count > best[0]:
            until = next((later for later in times[number + 1 :] if _count(holds, later) != count), times[-1])
            best = (count, at, until, tuple(dict.fromkeys(each.dish for each in there)))
    most, start, end, then = best
    dishes = tuple(dict.fromkeys(each.dish for each in sorted(holds, key=lambda each: each.start)))
    return PullLine(vessel, most, start, end, then, dishes, times[0])


def _count(holds: list[Hold], at: int) -> int:
    return sum(each.count for each in holds if each.start <= at < each.end)


def _table(plan: Plan) -> tuple[tuple[str, int, str], ...]:
    """Return each dish that is served: its name, when, and how it comes to the table in the cook's words.

    What has neither ingredients nor such words is work such as laying the table, and left out.
    """
    served = [dish for dish in plan.menu.dishes if dish.served and (dish.ingredients or dish.plating.strip())]
    return tuple(
        (dish.name, dish.course, dish.plating) for dish in sorted(served, key=lambda each: each.course)
    )
