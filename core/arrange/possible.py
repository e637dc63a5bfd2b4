"""Is there any timetable at all? Asked many times over by reasons and ways out, so no wish is improved here."""

from __future__ import annotations

from dataclasses import dataclass
from threading import Event

from core.arrange.claims import loaded_kinds
from core.arrange.effort import Effort
from core.arrange.model import build
from core.arrange.naming import NobodyLeft
from core.arrange.outcome import Fit
from core.arrange.reading import read
from core.arrange.search import first_found
from core.arrange.settle import settle
from core.arrange.watch import Watch
from core.plan.day import Day
from core.plan.ids import StepId
from core.plan.kitchen import StationKind
from core.plan.plan import Plan
from core.timetable.as_planned import with_seen
from core.timetable.clashes import clashes
from core.timetable.timetable import Timetable


@dataclass(frozen=True, slots=True)
class Possible:
    """MEETS with a timetable that the validator found no clash in, IMPOSSIBLE when proven twice, else NOT_FOUND.

    `work` is what it took (as in Effort).
    """

    fit: Fit
    timetable: Timetable | None = None
    work: float = 0.0


def possible(
    plan: Plan,
    work: float = 2.0,
    *,
    near: Timetable | None = None,
    day: Day | None = None,
    stop: Event | None = None,
) -> Possible:
    """Return whether a plan can be met at all; `work` as in Effort; `near`: a timetable that may nearly hold.

    Repeatable. Any thread.
    """
    watch = Watch(Effort(work=work, limit=4 * work + 2), stop)
    found = _look(plan, watch, near, day)
    if found.fit is Fit.NOT_FOUND and near is not None and not watch.over:
        found = _look(plan, watch, None, day, near)  # what nearly held may have led astray
    return Possible(found.fit, found.timetable, watch.work)


def _look(
    plan: Plan, watch: Watch, near: Timetable | None, day: Day | None, seen: Timetable | None = None
) -> Possible:
    stood = near or seen
    day = day if day is None or stood is None else with_seen(day, stood)
    problem = read(plan, day, stood)
    starts = _starts(problem.index, near)
    named: frozenset[str] = frozenset()
    explicit: frozenset[StationKind] = frozenset()
    walking = True
    while True:
        model = build(problem, named=named, explicit=explicit, walking=walking, aims=False)
        if model is None:
            return Possible(Fit.IMPOSSIBLE)
        found, impossible = first_found(model, watch, starts)
        if found is None and impossible and loaded_kinds(problem) & model.standing.pools:
            explicit = loaded_kinds(problem)
            continue
        if found is None and impossible and model.hands.walking:
            walking = False  # it asked for more than it must
            continue
        if found is None:
            return Possible(Fit.IMPOSSIBLE if impossible else Fit.NOT_FOUND)
        try:
            timetable = settle(model, found)
        except NobodyLeft as trouble:
            if trouble.keys <= named or watch.over:
                return Possible(Fit.NOT_FOUND)
            named |= trouble.keys
            starts = found.starts
            continue
        fit = Fit.NOT_FOUND if clashes(plan, timetable, day=day) else Fit.MEETS
        return Possible(fit, timetable if fit is Fit.MEETS else None)


def _starts(index: dict[tuple[StepId, int], int], near: Timetable | None) -> tuple[int, ...] | None:
    if near is None or any(key not in near.at for key in index):
        return None
    return tuple(near.at[key].start for key in index)
